"""Numbers with their units put together: one amount, feet and inches, or one amount per another."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise, product
from typing import TYPE_CHECKING, Literal

from calc.units.numbers import PATTERN, ReadNumber, numbers
from calc.units.tables import DEGREES, QUOTIENTS, TWO_MEANINGS, UNITS, Quantity, System, Unit, usual_unit, with_unit

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

_TOKEN = re.compile(rf"(?P<number>{PATTERN})|(?P<slash>[/÷])|(?P<unit>(?:(?![.,]\d)[^\d/÷])+)")
_MOST_PARTS = 3
_PLAINLY = {"gr": "grains"}
"""Names that say which of two meanings a unit has."""


class UnreadableError(ValueError):
    """Raised for a text that makes no sense.

    Attributes
    ----------
    code : {"number", "unit"}
        What could not be read.
    """

    def __init__(self, code: Literal["number", "unit"]) -> None:
        self.code: Literal["number", "unit"] = code
        super().__init__(code)


@dataclass(frozen=True, slots=True)
class Amount:
    """One reading of a text.

    Attributes
    ----------
    value : Fraction
        Exact, in SI.
    words : str
        The same in words.
    system : {"inch", "metric"} or None
        The system that its unit belongs to, if any.
    """

    value: Fraction
    words: str
    system: System | None


@dataclass(slots=True)
class _Part:
    """One number with the unit typed behind it."""

    numbers: list[ReadNumber]
    unit: str = ""


def amounts(text: str, quantity: Quantity, system: System) -> list[Amount]:
    """Return every reading of a text.

    Parameters
    ----------
    text : str
        Made plain by `calc.units.plain.plain`.
    quantity : Quantity
        What it must be.
    system : {"inch", "metric"}
        The unit of a bare number.

    Raises
    ------
    UnreadableError
        ``number`` or ``unit``; else there is at least one reading.

    Examples
    --------
    >>> [str(each.value) for each in amounts("5 ft 2 1/2 in", "length", "inch")]
    ['127/80']
    >>> [each.words for each in amounts("1,575 m", "length", "inch")]
    ['1.575 m', '1575 m']
    """
    sign = -1 if text.startswith("-") else 1
    sides = _sides(text[1:] if text[:1] in {"+", "-"} else text)
    if len(sides) == 1:
        found = list(_sums(sides[0], quantity, sign, system))
    else:
        found = list(_quotients(sides, quantity, sign))
    if not found:
        raise UnreadableError("number")
    return found


def _sides(text: str) -> list[list[_Part]]:
    """Part a text at the slashes that are not in fractions; without its number, what is below a slash counts one."""
    sides: list[list[_Part]] = [[]]
    for token in _TOKEN.finditer(text):
        if token["number"]:
            sides[-1].append(_Part(numbers(token["number"])))
        elif token["slash"]:
            sides.append([])
        elif sides[-1]:
            sides[-1][-1].unit = token["unit"].strip()
        elif len(sides) > 1:
            sides[-1].append(_Part([(Fraction(1), "")], token["unit"].strip()))
        elif token["unit"].strip():
            raise UnreadableError("number")
    if not all(sides):
        raise UnreadableError("number")
    for parts in sides:
        for part in parts[:-1]:
            part.unit = part.unit.rstrip(" ,-")
    return sides


def _sums(parts: Sequence[_Part], quantity: Quantity, sign: int, system: System | None = None) -> Iterator[Amount]:
    """Add parts that get smaller, like feet and inches; a bare number after feet is inches."""
    units = [_unit(part.unit, quantity, system) for part in parts[:1]]
    if len(parts) == 1 and (other := TWO_MEANINGS.get(quantity, {}).get(_key(parts[0].unit))):
        for number, written in parts[0].numbers:
            for unit, label in ((units[0], _PLAINLY.get(units[0].label, units[0].label)), (other, other.label)):
                yield Amount(sign * number * unit.factor, f"{'−' * (sign < 0)}{with_unit(written, label)}", unit.system)
        return
    for part in parts[1:]:
        if not part.unit and units[-1].label != "ft":
            return
        units.append(_unit(part.unit or "in", quantity, system))
    if not _adds_up(units, quantity):
        return
    told = units[0].system if parts[0].unit else None
    for each in product(*(part.numbers for part in parts)):
        values = [number * unit.factor for (number, _), unit in zip(each, units, strict=True)]
        if all(value < unit.factor for value, unit in zip(values[1:], units, strict=False)):
            words = " ".join(with_unit(number, unit.label) for (_, number), unit in zip(each, units, strict=True))
            yield Amount(sign * sum(values, Fraction(0)) + units[0].offset, f"{'−' * (sign < 0)}{words}", told)


def _adds_up(units: Sequence[Unit], quantity: Quantity) -> bool:
    """Tell whether units can stand one after the other: getting smaller, of one system."""
    return len(units) == 1 or (
        quantity != "temperature"
        and len(units) <= _MOST_PARTS
        and all(small.factor < large.factor and small.system == large.system for large, small in pairwise(units))
    )


def _unit(name: str, quantity: Quantity, system: System | None) -> Unit:
    """Look up a unit; a bare number takes the usual one of `system`, or none where there is none to take."""
    known = UNITS[quantity]
    key = _key(name)
    if system and (not name or (quantity == "temperature" and key in DEGREES)):
        return usual_unit(quantity, system)
    unit = known.get(key) if key or not name else None
    if unit is None:
        raise UnreadableError("unit")
    return unit


def _key(name: str) -> str:
    return re.sub(r"[ .·*-]", "", name)


def _quotients(sides: Sequence[Sequence[_Part]], quantity: Quantity, sign: int) -> Iterator[Amount]:
    """Divide one amount by another: `8.4 g/50 m`, and for a yarn also `9000 m/kg`."""
    if quantity not in QUOTIENTS or len(sides) > 2:
        raise UnreadableError("unit" if sides[-1][-1].unit else "number")
    over, under = QUOTIENTS[quantity]
    turned = quantity == "linear_density" and _is(sides[0], under)
    if turned:
        over, under = under, over
    for top, bottom in product(list(_sums(sides[0], over, sign)), list(_sums(sides[1], under, 1))):
        amount, per = (bottom.value, top.value) if turned else (top.value, bottom.value)
        if per:
            yield Amount(amount / per, f"{top.words} / {bottom.words}", top.system or bottom.system)


def _is(parts: Sequence[_Part], quantity: Quantity) -> bool:
    try:
        _unit(parts[0].unit, quantity, None)
    except UnreadableError:
        return False
    return True
