"""Strings for many bows at once."""

from calc.making.club.club_list import Club, Listed, Wanted, added, list_string, sum_up, thread_for
from calc.making.club.stations import Afternoon, afternoon

__all__ = [
    "Afternoon",
    "Club",
    "Listed",
    "Wanted",
    "added",
    "afternoon",
    "list_string",
    "sum_up",
    "thread_for",
]
