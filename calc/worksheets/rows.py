"""The rows of ``rows.toml``: what each number is called, in which unit, worked out how, from where."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Any

from calc.spread import Spread
from calc.worksheets.schema import Row

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping


@cache
def table() -> dict[str, Any]:
    """Return the declared rows by key."""
    return tomllib.loads(files("calc.worksheets").joinpath("rows.toml").read_text(encoding="utf-8"))


def rows(results: Iterable[str], numbers: Mapping[str, Spread | float]) -> tuple[Row, ...]:
    """Make rows: first the public results in their order, then every other number as a step.

    Parameters
    ----------
    results : iterable of str
        Keys of the worksheet's public results.
    numbers : mapping of str to Spread or float
        In SI, by row key.

    Raises
    ------
    KeyError
        For a key that is not declared: a fault of the worksheet, found by its tests.
    """
    public = tuple(results)
    steps = [key for key in table() if key in numbers and key not in public]
    return tuple(_row(key, numbers[key], "result" if key in public else "step") for key in (*public, *steps))


def _row(key: str, number: Spread | float, role: Any) -> Row:  # noqa: ANN401 - one of two words, checked by Row
    told = table()[key]
    return Row(
        key=key,
        symbol=told["symbol"],
        words=told["words"],
        quantity=told["quantity"],
        spread=number if isinstance(number, Spread) else Spread.exactly(number),
        working=told["working"],
        source=told["source"],
        kind=told.get("kind", "derived"),
        role=role,
    )
