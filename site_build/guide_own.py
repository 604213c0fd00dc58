"""The reader's own numbers in a step: which they are, and what they are called."""

from __future__ import annotations

from html import escape

from calc.worksheets.rows import table

OTHER_SHEETS = {
    "post_spacing": "Posts, outside to outside",
    "wraps": "Wraps",
    "served_length": "Length to serve",
    "served_diameter": "Thickness when served",
    "serving_turns": "Turns of the serving",
}
"""What numbers are called that are no results of the bench sheet."""


def called(key: str) -> str:
    """Return what a number is called.

    Raises
    ------
    ValueError
        For a number that no worksheet gives.
    """
    if key in table():
        return table()[key].words
    if key in OTHER_SHEETS:
        return OTHER_SHEETS[key]
    msg = f"{key} is no result of a worksheet"
    raise ValueError(msg)


def numbers(keys: str) -> str:
    """Return the place for a step's own numbers, hidden until the reader has some.

    Parameters
    ----------
    keys : str
        Keys of results, parted by spaces.
    """
    rows = "\n".join(
        f'<div data-own="{escape(key)}" hidden><dt>{escape(called(key))}</dt><dd></dd></div>' for key in keys.split()
    )
    return f'<dl class="pt-numbers" markdown="0" hidden>\n{rows}\n</dl>' if rows else ""
