"""The rows of ``rows.toml``: what each number is called, in which unit, worked out how, from where."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING, Literal

from calc.numerics import Spread
from calc.tables import load_table
from calc.units import INCH
from calc.worksheets.core.schema import Row, RowText

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

_TWO_YARDS_M = 72 * INCH


@cache
def table() -> dict[str, RowText]:
    """Return the rows that several worksheets share, by key."""
    return {key: RowText(key=key, **told) for key, told in load_table(__spec__, "rows").items()}


def rows(
    results: Iterable[str], numbers: Mapping[str, Spread | float], own: tuple[RowText, ...] = ()
) -> tuple[Row, ...]:
    """Make rows: first the public results in their order, then every other number as a step.

    Parameters
    ----------
    results : iterable of str
        Keys of the worksheet's public results.
    numbers : mapping of str to Spread or float
        In SI, by row key.
    own : tuple of RowText
        Rows the worksheet declares itself; they stand before a shared one of the same key.

    Raises
    ------
    KeyError
        For a key that is not declared: a fault of the worksheet, found by its tests.
    """
    public = tuple(results)
    known = table() | {each.key: each for each in own}
    steps = [key for key in known if key in numbers and key not in public]
    undeclared = set(numbers) - set(known)
    if undeclared:
        raise KeyError(*sorted(undeclared))
    return tuple(_row(known[key], numbers[key], "result" if key in public else "step") for key in (*public, *steps))


def by_the_yard(own: tuple[RowText, ...], key: str, number: Spread | float) -> tuple[RowText, ...]:
    """Return the rows with one told as a distance, in yards or metres, where it is longer than two yards.

    Parameters
    ----------
    own : tuple of RowText
        Rows of a worksheet.
    key : str
        The one that may be long.
    number : Spread or float
        How long it is. [m]

    Examples
    --------
    >>> thread = RowText(key="thread", symbol="", words="Thread", quantity="length", working="", source="input")
    >>> [by_the_yard((thread,), "thread", long_m)[0].quantity for long_m in (1.8, 1.9)]
    ['length', 'distance']
    """
    long_m = number.value if isinstance(number, Spread) else number
    if long_m <= _TWO_YARDS_M:
        return own
    return tuple(replace(each, quantity="distance") if each.key == key else each for each in own)


def _row(told: RowText, number: Spread | float, role: Literal["result", "step"]) -> Row:
    return Row(
        key=told.key,
        symbol=told.symbol,
        words=told.words,
        quantity=told.quantity,
        spread=number if isinstance(number, Spread) else Spread.exactly(number),
        working=told.working,
        source=told.source,
        kind=told.kind,
        role=role,
    )
