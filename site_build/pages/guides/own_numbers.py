"""The reader's own numbers in a step: which they are, and what they are called."""

from __future__ import annotations

from functools import cache
from html import escape

from calc.worksheets import catalogue
from calc.worksheets.core import table


@cache
def results() -> dict[str, str]:
    """Return what every result of every worksheet is called, by its key; the bench sheet's word comes first."""
    found: dict[str, str] = {}
    for worksheet in (catalogue()["string"], *catalogue().values()):
        told = table() | {each.key: each for each in worksheet.row_texts}
        for key in worksheet.results:
            found.setdefault(key, told[key].words)
    return found


def numbers(keys: str) -> str:
    """Return the place for a step's own numbers, hidden until the reader has some.

    Parameters
    ----------
    keys : str
        Keys of results, parted by spaces.

    Raises
    ------
    ValueError
        For a number that no worksheet gives.
    """
    unknown = set(keys.split()) - set(results())
    if unknown:
        msg = f"no worksheet has the result {', '.join(sorted(unknown))}"
        raise ValueError(msg)
    rows = "\n".join(
        f'<div data-own="{escape(key)}" hidden><dt>{escape(results()[key])}</dt><dd></dd></div>' for key in keys.split()
    )
    return f'<dl class="pt-numbers" markdown="0" hidden>\n{rows}\n</dl>' if rows else ""
