"""What people type, read into SI: fractions, feet and inches, decimal commas, pasted units."""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import pairwise
from math import inf
from typing import TypeAlias

from calc.errors import DomainError, Problem, require
from calc.units.tables import FACTORS, LENGTH_PER_MASS, OFFSETS, SHOWN, Quantity, System

_Term: TypeAlias = tuple[list[Fraction], str]
_LONGEST = 200
_VULGAR = {
    "½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅕": "1/5", "⅖": "2/5",
    "⅗": "3/5", "⅘": "4/5", "⅙": "1/6", "⅚": "5/6", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
}  # fmt: skip
_SPACES = re.compile(r"[\s\u00a0\u2000-\u200a\u202f\u205f]+")
_PLAIN = str.maketrans(
    "⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉⁄∕−–—′’‘ʹ`″”“ʺ×",
    "01234567890123456789//---'''''\"\"\"\"x",
)
_DECIMAL = r"(?:\d[\d.,]*|[.,]\d+)(?:e[+-]?\d{1,3}(?!\d))?"
_TERM = re.compile(rf"(\d+ \d+/\d+|\d+/\d+|{_DECIMAL}) ?([^\d.,]*)")
_GROUPED = re.compile(r"\d{1,3}(?:,\d{3})+(?:\.\d+)?")
_COMMA = re.compile(r"\d*,\d+|\d+,")
_POINT_GROUPED = re.compile(r"\d{1,3}(?:\.\d{3})+,\d+|\d{1,3}(?:\.\d{3}){2,}")


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
        Limits in SI, included; they also decide between two readings of a comma.
    system : {"inch", "metric"}
        The unit of a bare number.
    whole : bool
        True when only whole numbers will do.

    Returns
    -------
    float
        In SI.

    Raises
    ------
    DomainError
        ``missing``, ``number``, ``unit``, ``ambiguous``, ``min`` or ``max``, whatever was typed.

    Examples
    --------
    >>> read("n", "62 1/2 in", "length", low=0, high=5)
    1.5875
    >>> read("n", "1,575", "length", low=0.5, high=2.5, system="metric")
    1.575
    """
    plain = _normal(text)
    if not plain:
        raise DomainError(Problem(field=field, code="missing"))
    if len(plain) > _LONGEST:
        raise DomainError(Problem(field=field, code="number"))
    readings = _readings(field, plain, quantity, system)
    inside = [value for value in readings if low <= value <= high]
    if len(inside) > 1:
        words = tuple(_reading_words(value, quantity, system) for value in inside)
        raise DomainError(Problem(field=field, code="ambiguous", readings=words))
    value = inside[0] if inside else readings[0]
    if whole and value != int(value):
        raise DomainError(Problem(field=field, code="number"))
    require(field, value, low=low, high=high)
    return value


def _normal(text: str) -> str:
    """Fold spaces, primes, fractions and signs to plain ones."""
    for mark, fraction in _VULGAR.items():
        text = text.replace(mark, f" {fraction} ")
    text = re.sub(r"([⁰¹²³⁴⁵⁶⁷⁸⁹]+[⁄/])", r" \1", text).translate(_PLAIN)
    text = _SPACES.sub(" ", text).strip().casefold()
    text = text.replace("''", '"').replace("per", "/")
    text = re.sub(r" ?/ ?", "/", text)
    text = re.sub(r"(?<=\d)-(?=\d+/\d)", " ", text)
    text = re.sub(r"(?<=['\"t])[ ,]*[-,]? ?(?=\d)", " ", text)
    text = text.rstrip(". ")
    return re.sub(r"(?<![\d/])(\d{1,3}(?: \d{3})+)(?![\d/])", lambda found: found[1].replace(" ", ""), text)


def _readings(field: str, plain: str, quantity: Quantity, system: System) -> list[float]:
    """Return every value a text can mean, the likelier first; at least one."""
    sign = -1 if plain.startswith("-") else 1
    terms = _terms(field, plain.lstrip("+-").lstrip())
    if not terms:
        raise DomainError(Problem(field=field, code="number"))
    terms[0] = ([sign * number for number in terms[0][0]], terms[0][1])
    if quantity == "linear_density" and len(terms) == 2 and terms[0][1].endswith("/"):
        return _weighed(field, terms)
    if len(terms) == 1:
        numbers, unit = terms[0]
        return [_si(field, number, unit, quantity, system) for number in numbers]
    return [_compound(field, terms, quantity)]


def _terms(field: str, plain: str) -> list[_Term]:
    terms: list[_Term] = []
    at = 0
    while at < len(plain):
        found = _TERM.match(plain, at)
        if not found or found.end() == at:
            raise DomainError(Problem(field=field, code="number"))
        terms.append((_numbers(field, found[1]), found[2].strip()))
        at = found.end()
    return terms


def _numbers(field: str, text: str) -> list[Fraction]:
    """Return the readings of one number: two where a comma may part decimals or thousands."""
    body, _, exponent = text.partition("e")
    found = []
    if _COMMA.fullmatch(body):
        found.append(body.replace(",", "."))
    if _GROUPED.fullmatch(body):
        found.append(body.replace(",", ""))
    if _POINT_GROUPED.fullmatch(body):
        found.append(body.replace(".", "").replace(",", "."))
    if not found:
        found = [body]
    try:
        return [_one(each, exponent) for each in found]
    except (ValueError, ZeroDivisionError, OverflowError) as error:
        raise DomainError(Problem(field=field, code="number")) from error


def _one(text: str, exponent: str) -> Fraction:
    value = sum(Fraction(part) for part in text.split()) * Fraction(10) ** int(exponent or 0)
    float(value)
    return Fraction(value)


def _si(field: str, number: Fraction, unit: str, quantity: Quantity, system: System) -> float:
    name = _name(unit) or SHOWN[quantity][system][0].casefold()
    if quantity == "linear_density" and name in LENGTH_PER_MASS:
        if number == 0.0:
            raise DomainError(Problem(field=field, code="number"))
        return 1.0 / _times(number, LENGTH_PER_MASS[name])
    factor = FACTORS[quantity].get(name)
    if factor is None:
        raise DomainError(Problem(field=field, code="unit"))
    return _times(number, factor) + OFFSETS.get(name, 0.0) * (quantity == "temperature")


def _times(number: Fraction, factor: float) -> float:
    """Multiply by a factor as its decimals stand, rounding once; too large becomes infinite."""
    try:
        return float(number * Fraction(repr(factor)))
    except OverflowError:
        return inf


def _name(unit: str) -> str:
    """Return a unit's key: no spaces, no full stop, `m/kg` for `metres/kg`."""
    name = unit.rstrip(". ").replace(" ", "")
    long_names = {
        "metres": "m",
        "meters": "m",
        "yards": "yd",
        "yds": "yd",
        "lbs": "lb",
        "pound": "lb",
        "kilogram": "kg",
    }
    return "/".join(long_names.get(part, part) for part in name.split("/")) if "/" in name else name


def _compound(field: str, terms: list[_Term], quantity: Quantity) -> float:
    """Add parts that get smaller, like feet and inches; a bare number after feet is inches."""
    units = [_name(unit) for _, unit in terms]
    if len(terms) == 2 and units[0] in {"ft", "'", "foot", "feet"} and not units[1]:
        units[1] = "in"
    factors = [FACTORS[quantity].get(unit) for unit in units]
    known = [factor for factor in factors if factor is not None]
    if len(known) < len(factors) or quantity == "temperature":
        raise DomainError(Problem(field=field, code="unit" if any(units) else "number"))
    if any(small >= large for large, small in pairwise(known)) or any(len(each) > 1 for each, _ in terms):
        raise DomainError(Problem(field=field, code="number"))
    parts = (numbers[0] * Fraction(repr(factor)) for (numbers, _), factor in zip(terms, known, strict=True))
    return _times(sum(parts, Fraction(0)), 1.0)


def _weighed(field: str, terms: list[_Term]) -> list[float]:
    """Read a weighed length, `8.4 g / 50 m`, as its linear density."""
    mass = FACTORS["mass"].get(_name(terms[0][1].rstrip("/")))
    length = FACTORS["length"].get(_name(terms[1][1]))
    if mass is None or length is None:
        raise DomainError(Problem(field=field, code="unit"))
    if 0.0 in terms[1][0]:
        raise DomainError(Problem(field=field, code="number"))
    return [_times(weight / along, mass / length) for weight in terms[0][0] for along in terms[1][0]]


def _reading_words(value: float, quantity: Quantity, system: System) -> str:
    unit = SHOWN[quantity][system][0]
    return f"{value / FACTORS[quantity][unit.casefold()]:g} {unit}".strip()
