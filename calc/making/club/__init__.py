"""Strings for many bows at once."""

from calc.making.club.club_list import Club, PlannedString, StringsWanted, list_string, sum_spreads, sum_up, thread_for
from calc.making.club.stations import Afternoon, Slot, afternoon, helpers_needed, timetable

__all__ = [
    "Afternoon",
    "Club",
    "PlannedString",
    "Slot",
    "StringsWanted",
    "afternoon",
    "helpers_needed",
    "list_string",
    "sum_spreads",
    "sum_up",
    "thread_for",
    "timetable",
]
