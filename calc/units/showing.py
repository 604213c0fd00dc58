"""SI printed in the reader's units, rounded to the step a maker can use."""

from __future__ import annotations

from fractions import Fraction
from functools import cache, lru_cache
from math import gcd
from typing import TYPE_CHECKING, Literal

from calc.errors import require
from calc.units.tables import SI, STYLES, Quantity, System, usual_unit, with_unit

if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import TypeAlias

    from calc.units.tables import Style, Unit

    _Steps: TypeAlias = Callable[[int, int], int]

_NOISE = 10**12
"""One in so many of a number may be float noise: what lies this close to a half or a whole step counts as on it."""
_LEAST_NOISE = 10**6
"""One in so many of a step is the most that counts as noise."""


def si_unit(quantity: Quantity) -> str:
    """Return the SI unit a quantity is computed in.

    >>> si_unit("force")
    'N'
    """
    return SI[quantity]


def unit_label(quantity: Quantity, system: System) -> str:
    """Return the unit a quantity is shown in, empty for plain numbers.

    >>> unit_label("mass", "inch"), unit_label("turns", "inch")
    ('gr', '')
    """
    return STYLES[quantity][system].unit


def show(value: float, quantity: Quantity, system: System, *, sign: bool = False) -> str:
    """Print an SI value in the reader's units, rounded to the step a maker can use, halves away from zero.

    Parameters
    ----------
    value : float
        In SI, finite.
    quantity : Quantity
        What it is.
    system : {"inch", "metric"}
        The reader's units.
    sign : bool
        True to print a plus before what is above zero.

    Returns
    -------
    str
        With its unit; `calc.units.read` reads it back to the printed value, and that prints the same.

    Raises
    ------
    DomainError
        ``number`` for NaN and the infinities.

    Examples
    --------
    >>> show(1.5922, "length", "inch"), show(1.5922, "length", "metric")
    ('62 11/16 in', '1592 mm')
    >>> show(-0.0016, "length", "inch", sign=True), show(-1e-9, "length", "inch", sign=True)
    ('−1/16 in', '0 in')
    """
    return _shown(value, quantity, system, _nearest, plus="+" if sign else "")


def number_in(value: float, quantity: Quantity, system: System) -> float:
    """Return the bare number a reader would put before the unit, not rounded: for axes and ticks.

    Parameters
    ----------
    value : float
        In SI, finite.
    quantity, system
        As for `show`.

    Examples
    --------
    >>> number_in(1.27, "length", "inch"), number_in(1.27, "length", "metric")
    (50.0, 1270.0)
    """
    require("value", value)
    return float(in_unit(Fraction(value), usual_unit(quantity, system)))


def show_limit(limit: float, quantity: Quantity, system: System, *, side: Literal["min", "max"]) -> str:
    """Print a limit rounded to the inside, so that what is printed is itself allowed.

    Parameters
    ----------
    limit : float
        In SI, finite.
    quantity, system
        As for `show`.
    side : {"min", "max"}
        ``min`` rounds up, ``max`` rounds down.

    Raises
    ------
    DomainError
        ``number`` for NaN and the infinities.

    Examples
    --------
    >>> show(22.241, "force", "metric"), show_limit(22.241, "force", "metric", side="min")
    ('22 N', '23 N')
    """
    return _shown(limit, quantity, system, _up if side == "min" else _down)


@lru_cache(maxsize=1024)
def _shown(value: float, quantity: Quantity, system: System, steps: _Steps, *, plus: str = "") -> str:
    require("value", value)
    style = STYLES[quantity][system]
    step = style.step
    if style.below:
        fine = steps(*_count(value, quantity, system, style.fine))
        if abs(fine) * style.fine.numerator < style.below * style.fine.denominator:
            step = style.fine
    count = steps(*_count(value, quantity, system, step))
    mark = "−" if count < 0 else plus * (count > 0)
    return with_unit(mark + _written(abs(count), step, style), style.unit)


@cache
def _scale(quantity: Quantity, system: System, step: Fraction) -> tuple[Fraction, Fraction]:
    """Return the steps in one SI unit, and the steps from SI's zero to the reader's."""
    unit = usual_unit(quantity, system)
    return 1 / (unit.factor * step), unit.offset / (unit.factor * step)


def _count(value: float, quantity: Quantity, system: System, step: Fraction) -> tuple[int, int]:
    """Return the exact count of steps in an SI value as top and bottom of a fraction, not made small."""
    top, bottom = value.as_integer_ratio()
    each, off = _scale(quantity, system, step)
    if not off:
        return top * each.numerator, bottom * each.denominator
    below = bottom * each.denominator
    return top * each.numerator * off.denominator - off.numerator * below, below * off.denominator


def in_unit(value: Fraction, unit: Unit) -> Fraction:
    """Return the number in front of a unit."""
    return (value - unit.offset) / unit.factor


def _noisy(top: int, bottom: int) -> tuple[int, int, int]:
    """Return top and bottom over a larger bottom, and the share of noise over the same."""
    if abs(top) * _LEAST_NOISE <= bottom * _NOISE:
        return top * _NOISE, bottom * _NOISE, abs(top)
    return top * _LEAST_NOISE, bottom * _LEAST_NOISE, bottom


def _nearest(top: int, bottom: int) -> int:
    steps, whole, noise = _noisy(top, bottom)
    count = (2 * (abs(steps) + noise) + whole) // (2 * whole)
    return -count if top < 0 else count


def _up(top: int, bottom: int) -> int:
    steps, whole, noise = _noisy(top, bottom)
    return -((noise - steps) // whole)


def _down(top: int, bottom: int) -> int:
    steps, whole, noise = _noisy(top, bottom)
    return (steps + noise) // whole


def _written(count: int, step: Fraction, style: Style) -> str:
    """Write a count of steps that is not negative."""
    if style.form == "mixed":
        whole, rest = divmod(count * step.numerator, step.denominator)
        shared = gcd(rest, step.denominator)
        return _mixed(whole, f"{rest // shared}/{step.denominator // shared}" if rest else "")
    digits, size = _digits(step)
    text = _placed(count * size, digits)
    return trimmed(text) if style.form == "trimmed" else text


def mixed(number: Fraction) -> str:
    """Write whole and fraction, `62 11/16`."""
    whole, rest = divmod(number, 1)
    return _mixed(whole, f"{rest}" if rest else "")


def _mixed(whole: int, rest: str) -> str:
    return f"{whole} {rest}" if whole and rest else rest or f"{whole}"


def decimal(number: Fraction, step: Fraction) -> str:
    """Write with as many decimals as the step has."""
    digits, _ = _digits(step)
    return _placed(int(number * 10**digits), digits)


def _placed(count: int, digits: int) -> str:
    """Write a count of units of the last decimal."""
    whole, rest = divmod(count, 10**digits)
    return f"{whole}.{rest:0{digits}d}" if digits else f"{whole}"


@cache
def _digits(step: Fraction) -> tuple[int, int]:
    """Return the decimals of a step, and the step in units of the last one."""
    digits = 0
    while step * 10**digits % 1:
        digits += 1
    return digits, int(step * 10**digits)


def trimmed(number: str) -> str:
    """Drop the zeros that end a decimal."""
    return number.rstrip("0").rstrip(".") if "." in number else number
