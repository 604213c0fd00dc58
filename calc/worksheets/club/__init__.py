"""The club list: many bows at once, what to buy, what to cut in which order, how long it takes, a card for each."""

from calc.worksheets.club.labels import SetLabel, set_labels

__all__ = ["SetLabel", "set_labels"]
