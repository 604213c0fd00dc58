"""SI printed in the reader's units, rounded to the step a maker can use."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from math import ceil, floor
from typing import TYPE_CHECKING, Literal

from calc.errors import require
from calc.units.tables import SI, STYLES, Quantity, System, usual_unit, with_unit

if TYPE_CHECKING:
    from collections.abc import Callable

    from calc.units.tables import Style, Unit

_HALF = Fraction(1, 2)
_NOISE = Fraction(1, 10**12)
"""Share of a number that may be float noise: what lies this close to a half or a whole step counts as on it."""
_MOST_NOISE = Fraction(1, 10**6)


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
def _shown(
    value: float, quantity: Quantity, system: System, steps: Callable[[Fraction], int], *, plus: str = ""
) -> str:
    require("value", value)
    style = STYLES[quantity][system]
    number = in_unit(Fraction(value), usual_unit(quantity, system))
    step = style.step
    if style.below and abs(steps(number / style.fine)) * style.fine < style.below:
        step = style.fine
    count = steps(number / step)
    mark = "−" if count < 0 else plus * (count > 0)
    return with_unit(mark + _written(abs(count) * step, step, style), style.unit)


def in_unit(value: Fraction, unit: Unit) -> Fraction:
    """Return the number in front of a unit."""
    return (value - unit.offset) / unit.factor


def _noise(steps: Fraction) -> Fraction:
    return min(abs(steps) * _NOISE, _MOST_NOISE)


def _nearest(steps: Fraction) -> int:
    count = floor(abs(steps) + _noise(steps) + _HALF)
    return -count if steps < 0 else count


def _up(steps: Fraction) -> int:
    return ceil(steps - _noise(steps))


def _down(steps: Fraction) -> int:
    return floor(steps + _noise(steps))


def _written(number: Fraction, step: Fraction, style: Style) -> str:
    """Write a number that is not negative and a whole count of steps."""
    if style.form == "mixed":
        return mixed(number)
    text = decimal(number, step)
    return trimmed(text) if style.form == "trimmed" else text


def mixed(number: Fraction) -> str:
    """Write whole and fraction, `62 11/16`."""
    whole, rest = divmod(number, 1)
    if not rest:
        return f"{whole}"
    return f"{whole} {rest}" if whole else f"{rest}"


def decimal(number: Fraction, step: Fraction) -> str:
    """Write with as many decimals as the step has."""
    digits = 0
    while step * 10**digits % 1:
        digits += 1
    whole, rest = divmod(int(number * 10**digits), 10**digits)
    return f"{whole}.{rest:0{digits}d}" if digits else f"{whole}"


def trimmed(number: str) -> str:
    """Drop the zeros that end a decimal."""
    return number.rstrip("0").rstrip(".") if "." in number else number
