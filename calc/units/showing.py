"""SI printed in the reader's units, and typed text carried over to the other units."""

from __future__ import annotations

from fractions import Fraction
from math import floor

from calc.units.reading import read
from calc.units.tables import FACTORS, OFFSETS, SHOWN, SI, Quantity, System

_FINER: dict[Quantity, dict[System, tuple[float, ...]]] = {
    "length": {"inch": (1 / 16, 1 / 32, 1 / 64, 0.001), "metric": (1.0, 0.1, 0.01)},
    "thickness": {"inch": (0.001, 0.0001, 0.00001), "metric": (0.01, 0.001, 0.0001)},
    "force": {"inch": (0.1, 0.01, 0.001), "metric": (1.0, 0.1, 0.01)},
    "mass": {"inch": (1.0, 0.1, 0.01), "metric": (0.1, 0.01, 0.001)},
    "temperature": {"inch": (1.0, 0.1, 0.01), "metric": (1.0, 0.1, 0.01)},
}
HALF = 0.5
_CLOSE: dict[Quantity, float] = {
    "length": 0.05001e-3,
    "thickness": 0.00051e-3,
    "force": 0.0226,
    "mass": 0.0033e-3,
    "temperature": 0.0556,
}
"""How far a carried-over text may lie from what was typed, in SI."""


def si_unit(quantity: Quantity) -> str:
    """Return the SI unit a quantity is computed in.

    >>> si_unit("force")
    'N'
    """
    return SI[quantity]


def unit_label(quantity: Quantity, system: System) -> str:
    """Return the unit a quantity is shown in, empty for plain numbers."""
    return SHOWN[quantity][system][0]


def show(value: float, quantity: Quantity, system: System) -> str:
    """Print an SI value in the reader's units, rounded to the step a maker can use.

    Parameters
    ----------
    value : float
        In SI, finite.
    quantity : Quantity
        What it is.
    system : {"inch", "metric"}
        The reader's units.

    Returns
    -------
    str
        With its unit; reads back to the printed value.

    Examples
    --------
    >>> show(1.5922, "length", "inch"), show(1.5922, "length", "metric")
    ('62 11/16 in', '1592 mm')
    """
    unit, step = SHOWN[quantity][system]
    return _with_unit(_stepped(_in_unit(value, quantity, unit), step), unit)


def _in_unit(value: float, quantity: Quantity, unit: str) -> float:
    key = unit.casefold()
    offset = OFFSETS.get(key, 0.0) if quantity == "temperature" else 0.0
    return (value - offset) / FACTORS[quantity][key]


def _with_unit(number: str, unit: str) -> str:
    return f"{number}{unit}" if unit in {"%", "°"} else f"{number} {unit}".strip()


def _stepped(number: float, step: float) -> str:
    """Print a number rounded to a step: a binary step below one half as a fraction, others as decimals."""
    count = floor(number / step + 0.5)
    if step in {1 / 16, 1 / 32, 1 / 64}:
        return _mixed(Fraction(count, round(1 / step)))
    digits = len(f"{step:.6f}".rstrip("0").partition(".")[2])
    text = f"{abs(count) * step:.{digits}f}"
    if step == HALF:
        text = _trim(text)
    return f"-{text}" if count < 0 else text


def _mixed(value: Fraction) -> str:
    sign = "-" if value < 0 else ""
    whole, rest = divmod(abs(value), 1)
    if not rest:
        return f"{sign}{whole}"
    return f"{sign}{whole} {rest}" if whole else f"{sign}{rest}"


def convert_text(text: str, quantity: Quantity, *, low: float, high: float, to: System) -> str:
    """Carry typed text over to the other units, in the coarsest step that keeps what was typed.

    Parameters
    ----------
    text : str
        As typed in the other system.
    quantity : Quantity
        What it is.
    low, high : float
        The field's limits in SI.
    to : {"inch", "metric"}
        Units wanted.

    Raises
    ------
    DomainError
        As `read`.

    Notes
    -----
    What is typed in the steps of a tape (1/64 in, 0.1 mm) comes back the same, however often it is switched.

    Examples
    --------
    >>> convert_text("62 1/2 in", "length", low=0, high=5, to="metric")
    '1587.5 mm'
    >>> convert_text("1587.5 mm", "length", low=0, high=5, to="inch")
    '62 1/2 in'
    """
    if SHOWN[quantity]["inch"] == SHOWN[quantity]["metric"]:
        return text
    came_from: System = "inch" if to == "metric" else "metric"
    value = read("text", text, quantity, low=low, high=high, system=came_from)
    unit, step = SHOWN[quantity][to]
    number = _in_unit(value, quantity, unit)
    for finer in _FINER.get(quantity, {}).get(to, (step,)):
        shown = _with_unit(_trim(_stepped(number, finer)), unit)
        kept = read("text", shown, quantity, low=-1e300, high=1e300, system=to)
        if abs(kept - value) <= _CLOSE.get(quantity, 0.0):
            break
    return shown


def _trim(number: str) -> str:
    return number.rstrip("0").rstrip(".") if "." in number else number
