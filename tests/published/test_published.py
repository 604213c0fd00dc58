"""Numbers printed outside this project, as rows of data: each row is one call held against one printed figure.

How a row is written stands in the README beside this file.
"""

from __future__ import annotations

import math
import re
import tomllib
from decimal import Decimal
from fractions import Fraction
from importlib import import_module
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from calc.data import source, sources

_HERE = Path(__file__).parent
_MARKS = {name: getattr(pytest.mark, name) for name in ("published", "recalled", "transcribed", "practice", "exact")}
_NEEDED = {"id", "mark", "source", "place", "call", "inputs", "unit"}
_ALLOWED = _NEEDED | {"result", "expected", "band", "scatter", "scatter_reason", "note", "miss"}
_TABLES = (
    "calc.data:",
    "calc.geometry.ends:pipe",
    "calc.mechanics.fibre:rope",
    "calc.mechanics.fibre:rated",
    "calc.mechanics.fibre:heat_limit",
)
"""What reads a table of ours, so that a row can only tell whether it was typed right."""
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

    def admits(self, value: float) -> bool:
        """Tell whether a value is inside, its own rounding allowed."""
        slack = 1e-12 * abs(value)
        return self.low - slack <= value and (value < self.high if self.open_ else value <= self.high + slack)


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
    if "band" in row:
        low, high = (float(end) for end in row["band"])
        return Bounds(low, high)
    if "scatter" in row:
        centre = float(row["expected"])
        share = row["scatter"].removesuffix("%")
        spread = float(share) * abs(centre) / 100 if share != row["scatter"] else float(share)
        return Bounds(centre - spread, centre + spread)
    return printed(row["expected"])


def argument(given: Any) -> Any:  # noqa: ANN401 - a row of TOML holds any kind of value
    if isinstance(given, str):
        read = to_si(given)
        return given if read is None else read
    if isinstance(given, dict):
        return answer(given) if "call" in given else {key: argument(each) for key, each in given.items()}
    return tuple(argument(each) for each in given) if isinstance(given, list) else given


def answer(row: dict[str, Any]) -> Any:  # noqa: ANN401 - whatever the named function returns
    module, name = row["call"].split(":")
    value = getattr(import_module(module), name)
    if callable(value):
        value = value(**{key: argument(each) for key, each in row["inputs"].items()})
    for step in filter(None, row.get("result", "").split(".")):
        value = value[int(step)] if step.isdecimal() else getattr(value, step)
    return value


def _rows() -> list[dict[str, Any]]:
    return [
        {"file": path.name, **row}
        for path in sorted(_HERE.glob("*.toml"))
        for row in tomllib.loads(path.read_text(encoding="utf-8"))["row"]
    ]


_ROWS = _rows()


def _marks(row: dict[str, Any]) -> list[pytest.MarkDecorator]:
    """Return the kind of check a row is, and that it fails if it is told to: then it must."""
    missed = [pytest.mark.xfail(strict=True, reason=row["miss"])] if "miss" in row else []
    return [_MARKS[row["mark"]], *missed]


@pytest.mark.parametrize("row", [pytest.param(row, id=row["id"], marks=_marks(row)) for row in _ROWS])
def test_the_call_gives_the_printed_figure(row: dict[str, Any]) -> None:
    value = from_si(answer(row), row["unit"])
    assert bounds(row).admits(value), f"{value} {row['unit']} against {row.get('expected', row.get('band'))}"


@pytest.mark.exact
def test_rows_are_well_formed() -> None:
    known = {each.key for each in sources()}
    for row in _ROWS:
        keys = set(row) - {"file"}
        assert keys >= _NEEDED, row
        assert keys <= _ALLOWED, keys - _ALLOWED
        assert ("expected" in row) != ("band" in row), row["id"]
        assert ("scatter" in row) == bool(row.get("scatter_reason")), row["id"]
        assert row["source"] in known, row["source"]
        assert row["place"].strip(), row["id"]
        assert row["unit"] == "degC" or row["unit"] in UNITS, row["unit"]
        assert row["mark"] != "published" or source(row["source"]).read in {"read", "secondary"}, row["id"]
        assert row["mark"] != "transcribed" or row["call"].startswith(_TABLES), row["id"]
    assert len({row["id"] for row in _ROWS}) == len(_ROWS)


@pytest.mark.exact
def test_every_file_has_rows() -> None:
    assert {row["file"] for row in _ROWS} == {path.name for path in _HERE.glob("*.toml")}


@pytest.mark.exact
@pytest.mark.parametrize(
    ("text", "inside", "outside"),
    [
        ("1678.84", (1678.8351, 1678.8449), (1678.834, 1678.846)),
        ("68", (67.5, 68.5), (67.49, 68.51)),
        ("1.2e3", (1150.0, 1250.0), (1149.0, 1251.0)),
        ("-0.50", (-0.504, -0.496), (-0.506, 0.5)),
        ("3.304...", (3.304, 3.30499), (3.30399, 3.305)),
    ],
)
def test_a_figure_admits_half_its_last_digit(
    text: str, inside: tuple[float, float], outside: tuple[float, float]
) -> None:
    assert all(printed(text).admits(value) for value in inside)
    assert not any(printed(text).admits(value) for value in outside)


@pytest.mark.exact
def test_a_source_may_state_its_own_scatter() -> None:
    assert bounds({"expected": "200", "scatter": "1.5 %"}) == Bounds(197.0, 203.0)
    assert bounds({"expected": "200", "scatter": "4"}) == Bounds(196.0, 204.0)
    assert bounds({"band": ["0.98", "1.05"]}) == Bounds(0.98, 1.05)


@pytest.mark.exact
@pytest.mark.parametrize(
    ("typed", "si"),
    [
        ("2 mm", 0.002),
        ("62 1/2 in", 1.5875),
        ("3/4 in", 0.01905),
        ("1,500 den", 1500 / 9e6),
        ("-5 degC", 268.15),
        ("180 deg", math.pi),
        ("3/4", None),
        ("S", None),
        ("round", None),
    ],
)
def test_printed_inputs_are_read(typed: str, si: float | None) -> None:
    read = to_si(typed)
    assert read == (None if si is None else pytest.approx(si, rel=1e-15))
