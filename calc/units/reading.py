"""What people type, read into SI: fractions, feet and inches, decimal commas, pasted units."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from calc.errors import DomainError, Problem, require
from calc.units.amounts import Amount, UnreadableError, amounts
from calc.units.plain import plain
from calc.units.tables import TWO_MEANINGS, UNITS, usual_unit

if TYPE_CHECKING:
    from calc.units.tables import Quantity, System

_LONGEST = 200
_PLAINLY = re.compile(r"([0-9]{1,9})(?:\.([0-9]{1,9}))? ?([a-z]*)")
_ROUNDING = 1e-12
"""Bounds are products of floats: a text that means the bound itself must not fail by the last bit."""


def read(
    field: str,
    text: str,
    quantity: Quantity,
    *,
    low: float,
    high: float,
    system: System = "inch",
    whole: bool = False,
) -> float:
    """Read a typed quantity.

    Parameters
    ----------
    field : str
        Whose text this is; carried by the error.
    text : str
        As typed: ``62 1/2``, ``5' 2 1/2"``, ``157,5 cm``, ``45#``, ``8.4 g / 50 m``.
    quantity : Quantity
        What it must be.
    low, high : float
        Limits in SI, included; they also decide between two readings, like those of ``1,575``.
    system : {"inch", "metric"}
        The unit of a bare number.
    whole : bool
        True when only whole numbers will do.

    Returns
    -------
    float
        Rounded once from the exact product, within ``low`` and ``high``. [SI]

    Raises
    ------
    DomainError
        ``missing``, ``number``, ``unit``, ``ambiguous`` (with the readings in words), ``min`` or ``max``,
        whatever was typed.

    Notes
    -----
    Source: factors by definition (`calc.units.tables.DEFINITIONS`). A point always parts decimals unless
    there are several; a comma or a missing space that leaves two readings is settled by the limits alone.

    Examples
    --------
    >>> read("n", "62 1/2 in", "length", low=0, high=5)
    1.5875
    >>> read("n", "1,575", "length", low=0.5, high=2.5, system="metric")
    1.575
    """
    plainly = _plainly(text, quantity, system)
    if plainly is not None and low < plainly < high and not (whole and plainly % 1):
        return plainly
    amount = understand(field, text, quantity, low=low, high=high, system=system, whole=whole)
    value = _float(amount)
    if not within(value, low, high):
        require(field, value, low=low, high=high)
    return float(min(max(value, low), high))


def _plainly(text: str, quantity: Quantity, system: System) -> float | None:
    """Read digits, at most one point, and one unit, which has one reading only; None for all else."""
    found = _PLAINLY.fullmatch(text)
    if found is None:
        return None
    whole, decimals, name = found[1], found[2] or "", found[3]
    if name in TWO_MEANINGS.get(quantity, {}):
        return None
    unit = UNITS[quantity].get(name) if name else usual_unit(quantity, system)
    if unit is None or unit.offset:
        return None
    top, bottom = int(whole + decimals) * unit.factor.numerator, 10 ** len(decimals) * unit.factor.denominator
    return float(top / bottom)


@lru_cache(maxsize=256)
def understand(
    field: str, text: str, quantity: Quantity, *, low: float, high: float, system: System, whole: bool = False
) -> Amount:
    """Return the one reading of a text that fits the limits, or where none does, the one that is nearest to them.

    Parameters
    ----------
    field, text, quantity, low, high, system, whole
        As for `read`.

    Raises
    ------
    DomainError
        ``missing``, ``number``, ``unit`` or ``ambiguous``.
    """
    typed = text.strip()
    folded = plain(typed) if len(typed) <= _LONGEST else "?"
    if not folded:
        raise DomainError(Problem(field=field, code="missing"))
    try:
        found = amounts(folded, quantity, system)
    except UnreadableError as fault:
        raise DomainError(Problem(field=field, code=fault.code)) from fault
    found = [each for each in found if abs(_float(each)) < float("inf") and not (whole and each.value % 1)]
    if not found:
        raise DomainError(Problem(field=field, code="number"))
    inside = [each for each in found if within(_float(each), low, high)]
    if len({each.value for each in inside}) > 1:
        raise DomainError(Problem(field=field, code="ambiguous", readings=tuple(each.words for each in inside)))
    return min(inside or found, key=lambda each: max(low - _float(each), _float(each) - high))


def system_of(text: str, quantity: Quantity) -> System | None:
    """Return the system that a typed unit belongs to; None for a bare number and for what cannot be read.

    Parameters
    ----------
    text : str
        As typed.
    quantity : Quantity
        What it must be.

    Examples
    --------
    >>> system_of("62 1/2 in", "length"), system_of("157,5 cm", "length"), system_of("62", "length")
    ('inch', 'metric', None)
    """
    try:
        return understand("text", text, quantity, low=0.0, high=0.0, system="inch").system
    except DomainError:
        return None


def within(value: float, low: float, high: float) -> bool:
    """Return whether a value is inside its bounds, up to the rounding of the bounds themselves.

    Parameters
    ----------
    value, low, high : float
        In one unit.
    """
    return low - abs(low) * _ROUNDING <= value <= high + abs(high) * _ROUNDING


def _float(amount: Amount) -> float:
    """Round to the nearest float; too large becomes infinite."""
    try:
        return float(amount.value)
    except OverflowError:
        return float("inf")
