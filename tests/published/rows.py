"""The one reader of printed figures: each row is one call of ours, held against one figure printed elsewhere.

How a row is written stands in the README beside this file. The tests run every row; the site shows those of `bow/`.
"""

from __future__ import annotations

import math
import re
import tomllib
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cache
from importlib import import_module
from pathlib import Path
from typing import Any, NamedTuple

from calc.numerics import Spread

_HERE = Path(__file__).parent
_TYPED = re.compile(r"(?P<number>\d+ \d+/\d+|\d+/\d+|[+-]?\d[\d.,]*(?:e[+-]?\d+)?)\s+(?P<unit>[a-zA-Z%].*)")

_IN = Fraction(254, 10000)
_LB = Fraction(45359237, 10**8)
_G = Fraction(980665, 10**5)
_DEN = Fraction(1, 9 * 10**6)

UNITS: dict[str, Fraction | float] = {
    "1": Fraction(1),
    "%": Fraction(1, 100),
    "m": Fraction(1),
    "km": Fraction(1000),
    "cm": Fraction(1, 100),
    "mm": Fraction(1, 1000),
    "um": Fraction(1, 10**6),
    "in": _IN,
    "ft": 12 * _IN,
    "yd": 36 * _IN,
    "rad": Fraction(1),
    "deg": math.pi / 180,
    "turn": Fraction(1),
    "turn/m": Fraction(1),
    "turn/cm": Fraction(100),
    "turn/in": 1 / _IN,
    "Hz": Fraction(1),
    "kg": Fraction(1),
    "g": Fraction(1, 1000),
    "gr": _LB / 7000,
    "lb": _LB,
    "kg/m": Fraction(1),
    "g/m": Fraction(1, 1000),
    "ktex": Fraction(1, 1000),
    "tex": Fraction(1, 10**6),
    "dtex": Fraction(1, 10**7),
    "den": _DEN,
    "lb/100 ft": _LB / (1200 * _IN),
    "kg/m3": Fraction(1),
    "g/cm3": Fraction(1000),
    "m3/kg": Fraction(1),
    "cm3/g": Fraction(1, 1000),
    "N": Fraction(1),
    "kN": Fraction(1000),
    "lbf": _LB * _G,
    "kgf": _G,
    "gf": _G / 1000,
    "Pa": Fraction(1),
    "MPa": Fraction(10**6),
    "GPa": Fraction(10**9),
    "psi": _LB * _G / _IN**2,
    "N/tex": Fraction(10**6),
    "cN/tex": Fraction(10**4),
    "cN/dtex": Fraction(10**5),
    "gf/den": _G / 1000 / _DEN,
    "N/m": Fraction(1),
    "lbf/in": _LB * _G / _IN,
    "J": Fraction(1),
    "ft lbf": 12 * _IN * _LB * _G,
    "m/s": Fraction(1),
    "ft/s": 12 * _IN,
    "K": Fraction(1),
    "s": Fraction(1),
    "ms": Fraction(1, 1000),
    "min": Fraction(60),
    "h": Fraction(3600),
    "day": Fraction(86400),
}
"""SI value of one of each, exact where the definition is."""

_CELSIUS = 273.15


class Bounds(NamedTuple):
    """What a printed figure lets pass, in its own unit; the upper end is open for a figure that was cut off."""

    low: float
    high: float
    open_: bool = False

    def admits(self, ours: Spread | float) -> bool:
        """Tell whether a value is inside, or a range has one that is, its own rounding allowed."""
        low, high = (ours.low, ours.high) if isinstance(ours, Spread) else (ours, ours)
        slack = 1e-12 * abs(low)
        return self.low - slack <= high and (low < self.high if self.open_ else low <= self.high + slack)


def to_si(typed: str) -> float | None:
    """Read `2 mm`, `62 1/2 in`, `20 degC`; None for what is not a number with a unit of the table."""
    found = _TYPED.fullmatch(typed)
    if not found:
        return None
    number = sum(Fraction(part) for part in found["number"].replace(",", "").split())
    if found["unit"] == "degC":
        return float(number) + _CELSIUS
    return float(number * UNITS[found["unit"]])


def from_si(value: float, unit: str) -> float:
    """Return an SI value in a unit of the table."""
    return value - _CELSIUS if unit == "degC" else float(value / UNITS[unit])


def printed(text: str) -> Bounds:
    """Half a unit in the last printed digit either way; `2.154...` is cut off, not rounded."""
    digits = Decimal(text.removesuffix("..."))
    exponent = digits.as_tuple().exponent
    assert isinstance(exponent, int)
    unit = float(Decimal(1).scaleb(exponent))
    centre = float(digits)
    if text.endswith("..."):
        return Bounds(centre, centre + unit, open_=True)
    return Bounds(centre - unit / 2, centre + unit / 2)


def bounds(row: dict[str, Any]) -> Bounds:
    """Return what the figure of a row lets pass."""
    if "band" in row:
        return Bounds(float(row["band"][0]), float(row["band"][-1]))
    if "scatter" in row:
        centre = float(row["expected"])
        share = row["scatter"].removesuffix("%")
        spread = float(share) * abs(centre) / 100 if share != row["scatter"] else float(share)
        return Bounds(centre - spread, centre + spread)
    return printed(row["expected"])


def argument(given: Any) -> Any:  # noqa: ANN401 - a row of TOML holds any kind of value
    """Return an input of a row as the call takes it."""
    if isinstance(given, str):
        read = to_si(given)
        return given if read is None else read
    if isinstance(given, dict):
        return answer(given) if "call" in given else {key: argument(each) for key, each in given.items()}
    return tuple(argument(each) for each in given) if isinstance(given, list) else given


def answer(row: dict[str, Any]) -> Any:  # noqa: ANN401 - whatever the named function returns
    """Return what the call of a row comes to, in SI."""
    module, name = row["call"].split(":")
    value = getattr(import_module(module), name)
    if callable(value):
        value = value(**{key: argument(each) for key, each in row["inputs"].items()})
    for step in filter(None, row.get("result", "").split(".")):
        value = value[int(step)] if step.isdecimal() else getattr(value, step)
    return value


def ours(row: dict[str, Any]) -> Spread:
    """Return what the call of a row comes to, in the unit of its figure; a single number is a range without width."""
    found = answer(row)
    ends = (found.low, found.value, found.high) if isinstance(found, Spread) else (found, found, found)
    return Spread(*(from_si(each, row["unit"]) for each in ends))


@cache
def rows() -> tuple[dict[str, Any], ...]:
    """Return every row of every file below this folder, with the path of its file."""
    return tuple(
        {"file": path.relative_to(_HERE).as_posix(), **row}
        for path in sorted(_HERE.rglob("*.toml"))
        for row in tomllib.loads(path.read_text(encoding="utf-8"))["row"]
    )


@dataclass(frozen=True, slots=True)
class Check:
    """One measurement with ours beside it, both as ranges in the row's own unit; `miss` is empty where they meet."""

    words: str
    unit: str
    measured: Spread
    ours: Spread
    assumed: str
    miss: str
    source: str
    place: str

    @property
    def meets(self) -> bool:
        """Whether the two ranges have a value in common."""
        return Bounds(self.measured.low, self.measured.high).admits(self.ours)


@cache
def checks() -> tuple[Check, ...]:
    """Return every measurement of a bow with ours beside it, in the order of the file."""
    return tuple(
        Check(
            measured=Spread(*map(float, row["band"])),
            ours=ours(row),
            miss=row.get("miss", ""),
            **{key: row[key] for key in ("words", "unit", "assumed", "source", "place")},
        )
        for row in rows()
        if row["file"].startswith("bow/")
    )
