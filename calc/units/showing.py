"""SI printed in the reader's units, rounded to the step a maker can use."""

from __future__ import annotations

from functools import cache, lru_cache
from math import floor, gcd, isfinite, log10
from typing import TYPE_CHECKING, Literal, NamedTuple

from calc.errors import require
from calc.units.tables import SI, STYLES, Quantity, System, usual_unit, with_unit

if TYPE_CHECKING:
    from collections.abc import Callable
    from fractions import Fraction
    from typing import TypeAlias

    from calc.units.tables import Style, Unit

    End: TypeAlias = Literal["low", "value", "high"]
    _Steps: TypeAlias = Callable[[int, int], int]

_NOISE = 10**12
"""One in so many of a number may be float noise: what lies this close to a half or a whole step counts as on it."""
_LEAST_NOISE = 10**6
"""One in so many of a step is the most that counts as noise."""
_FIGURES = 5.0
"""So many steps of what is printed lie in what a number may be off, at the least."""
_LOOSE: frozenset[Quantity] = frozenset(
    {
        "force",
        "mass",
        "fraction",
        "ratio",
        "energy",
        "speed",
        "stiffness",
        "linear_density",
        "frequency",
        "goods",
        "distance",
    }
)
"""Quantities of which a number that is not sure is printed shorter; what is set by hand, like a length or a count of
turns, is printed as finely as it can be set."""
_SURE, _SURELY = 1e6, 0.499
"""A float count of steps below the first, nearer to a whole one than the second, is far from any doubt. [step]"""


def si_unit(quantity: Quantity) -> str:
    """Return the SI unit a quantity is computed in.

    Parameters
    ----------
    quantity : Quantity
        What it is.

    Examples
    --------
    >>> si_unit("force")
    'N'
    """
    return SI[quantity]


def unit_label(quantity: Quantity, system: System) -> str:
    """Return the unit a quantity is shown in, empty for plain numbers.

    Parameters
    ----------
    quantity : Quantity
        What it is.
    system : {"inch", "metric"}
        The reader's units.

    Examples
    --------
    >>> unit_label("mass", "inch"), unit_label("turns", "inch")
    ('gr', '')
    """
    return STYLES[quantity][system].unit


def show(
    value: float, quantity: Quantity, system: System, *, sign: bool = False, off: float = 0.0, end: End = "value"
) -> str:
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
    off : float, >= 0
        How far off the value may be, in SI: of quantities that nobody has to set by hand, digits that are less than a
        fifth of that are not printed.
    end : {"value", "low", "high"}
        What it is: where digits are left out, a low end is rounded down and a high one up.

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
    >>> show(3400.0, "force", "inch"), show(3400.0, "force", "inch", off=800.0)
    ('764 lb', '760 lb')
    """
    coarser = _coarser(quantity, system, off)
    steps = _ENDS[end] if coarser else _nearest
    return _shown(value, quantity, system, steps, plus="+" if sign else "", coarser=coarser)


def number_in(value: float, quantity: Quantity, system: System) -> float:
    """Return the bare number a reader would put before the unit, not rounded: for axes and ticks.

    Parameters
    ----------
    value : float
        In SI, finite.
    quantity, system
        As for `show`.

    Returns
    -------
    float
        Not rounded. [the reader's unit]

    Raises
    ------
    DomainError
        ``number`` for NaN and the infinities.

    Examples
    --------
    >>> number_in(1.27, "length", "inch"), number_in(1.27, "length", "metric")
    (50.0, 1270.0)
    """
    require("value", value)
    top, bottom, off = _unit_of(quantity, system)
    over, under = value.as_integer_ratio()
    return float((over * bottom - off * under) / (under * top))


def show_limit(limit: float, quantity: Quantity, system: System, *, side: Literal["min", "max"]) -> str:
    """Return a limit as printed, rounded to the inside, so that what is printed is itself allowed.

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
    ('2.3 kg', '2.3 kg')
    """
    return _shown(limit, quantity, system, _up if side == "min" else _down)


@lru_cache(maxsize=1024)
def _shown(value: float, quantity: Quantity, system: System, steps: _Steps, *, plus: str = "", coarser: int = 0) -> str:
    require("value", value)
    style = STYLES[quantity][system]
    scale = _scale(quantity, system, coarser=coarser)
    if style.below and not coarser:
        fine = _scale(quantity, system, fine=True)
        if abs(_counted(value, fine, steps)) * fine.step.numerator < style.below * fine.step.denominator:
            scale = fine
    count = _counted(value, scale, steps)
    if style.large and not coarser and abs(count) * scale.step.numerator >= style.large * scale.step.denominator:
        scale = _scale(quantity, system, coarser=1)
        count = _counted(value, scale, steps)
    mark = "−" if count < 0 else plus if count else ""
    return with_unit(mark + _format_steps(abs(count), scale, style), style.unit)


@lru_cache(maxsize=1024)
def _coarser(quantity: Quantity, system: System, off: float) -> int:
    """Return how many of the last digits are less than a fifth of what the number may be off."""
    if quantity not in _LOOSE or not off > 0.0:
        return 0
    steps = off / float(usual_unit(quantity, system).factor * STYLES[quantity][system].step) / _FIGURES
    return max(0, floor(log10(steps))) if isfinite(steps) and steps > 0.0 else 0


class _Scale(NamedTuple):
    """A step in several forms.

    Attributes
    ----------
    step : Fraction
        In the reader's unit.
    digits, size : int
        Its decimals, and itself in units of the last of them.
    top, bottom : int
        Steps in one SI unit, as a fraction.
    rate : float
        The same as a float, 0 where the reader's zero is not that of SI.
    off : Fraction
        Steps from SI's zero to the reader's.
    """

    step: Fraction
    digits: int
    size: int
    top: int
    bottom: int
    rate: float
    off: Fraction


@cache
def _scale(quantity: Quantity, system: System, *, fine: bool = False, coarser: int = 0) -> _Scale:
    """Return how many steps a reader is shown of a quantity.

    `fine` takes the finer ones of small numbers, `coarser` steps ten times as large, or a hundred times and so on.
    """
    unit, style = usual_unit(quantity, system), STYLES[quantity][system]
    step = (style.fine if fine else style.step) * 10**coarser
    each = 1 / (unit.factor * step)
    return _Scale(
        step, *_digits(step), each.numerator, each.denominator, 0.0 if unit.offset else float(each), unit.offset * each
    )


def _counted(value: float, scale: _Scale, steps: _Steps) -> int:
    """Return the count of steps: by floats where these are sure of the nearest, else exactly."""
    if scale.rate and steps is _nearest:
        near = value * scale.rate
        count = round(near)
        if abs(near) < _SURE and abs(near - count) < _SURELY:
            return count
    return steps(*_exactly(value, scale))


def _exactly(value: float, scale: _Scale) -> tuple[int, int]:
    """Return the exact count of steps in an SI value as top and bottom of a fraction, not made small."""
    top, bottom = value.as_integer_ratio()
    if not scale.off:
        return top * scale.top, bottom * scale.bottom
    below = bottom * scale.bottom
    return top * scale.top * scale.off.denominator - scale.off.numerator * below, below * scale.off.denominator


@cache
def _unit_of(quantity: Quantity, system: System) -> tuple[int, int, int]:
    """Return the size of a reader's unit as top / bottom, and its zero over the same bottom."""
    unit = usual_unit(quantity, system)
    bottom = unit.factor.denominator * unit.offset.denominator
    return int(unit.factor * bottom), bottom, int(unit.offset * bottom)


def in_unit(value: Fraction, unit: Unit) -> Fraction:
    """Return the number in front of a unit.

    Parameters
    ----------
    value : Fraction
        In SI.
    unit : Unit
        The unit to print it in.
    """
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


_ENDS: dict[End, _Steps] = {"low": _down, "value": _nearest, "high": _up}


def _format_steps(count: int, scale: _Scale, style: Style) -> str:
    """Write a count of steps that is not negative."""
    if style.form == "mixed":
        whole, rest = divmod(count * scale.step.numerator, scale.step.denominator)
        shared = gcd(rest, scale.step.denominator)
        return _mixed(whole, f"{rest // shared}/{scale.step.denominator // shared}" if rest else "")
    text = _placed(count * scale.size, scale.digits)
    return trimmed(text) if style.form == "trimmed" else text


def mixed(number: Fraction) -> str:
    """Return a number as whole and fraction, `62 11/16`.

    Parameters
    ----------
    number : Fraction, >= 0
        To print.
    """
    whole, rest = divmod(number, 1)
    return _mixed(whole, f"{rest}" if rest else "")


def _mixed(whole: int, rest: str) -> str:
    return f"{whole} {rest}" if whole and rest else rest or f"{whole}"


def decimal(number: Fraction, step: Fraction) -> str:
    """Return a number with as many decimals as a step has.

    Parameters
    ----------
    number : Fraction, >= 0
        A whole count of steps.
    step : Fraction
        Like 1/100 for two decimals.
    """
    digits, _ = _digits(step)
    return _placed(int(number * 10**digits), digits)


def _placed(count: int, digits: int) -> str:
    """Write a count of units of the last decimal."""
    if not digits:
        return str(count)
    text = str(count).zfill(digits + 1)
    return f"{text[:-digits]}.{text[-digits:]}"


@cache
def _digits(step: Fraction) -> tuple[int, int]:
    """Return the decimals of a step, and the step in units of the last one."""
    digits = 0
    while step * 10**digits % 1:
        digits += 1
    return digits, int(step * 10**digits)


def trimmed(number: str) -> str:
    """Return a decimal without the zeros that end it.

    Parameters
    ----------
    number : str
        As printed.
    """
    return number.rstrip("0").rstrip(".") if "." in number else number
