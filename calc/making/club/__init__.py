"""Strings for many bows at once."""

from calc.making.club.club_list import Club, PlannedString, StringsWanted, list_string, sum_spreads, sum_up, thread_for
from calc.making.club.spares import Serves, fewest_lengths, serves, turns_to
from calc.making.club.stations import Afternoon, Slot, afternoon, helpers_needed, timetable

__all__ = [
    "Afternoon",
    "Club",
    "PlannedString",
    "Serves",
    "Slot",
    "StringsWanted",
    "afternoon",
    "fewest_lengths",
    "helpers_needed",
    "list_string",
    "serves",
    "sum_spreads",
    "sum_up",
    "thread_for",
    "timetable",
    "turns_to",
]
