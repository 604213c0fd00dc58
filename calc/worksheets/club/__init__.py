"""The club list: many bows at once, what to buy, what to cut in which order, how long it takes, a card for each."""

from calc.worksheets.club.labels import SetLabel, set_labels
from calc.worksheets.club.lines import LIST_FIELDS, BowLine, explicit, read_bows

__all__ = ["LIST_FIELDS", "BowLine", "SetLabel", "explicit", "read_bows", "set_labels"]
