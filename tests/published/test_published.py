"""Numbers printed outside this project, as rows of data: each row is one call held against one printed figure.

How a row is written stands in the README beside this file.
"""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

import pytest

from calc.data import source, sources
from calc.numerics import Spread
from tests.published.rows import UNITS, Bounds, bounds, checks, ours, printed, rows, to_si

_HERE = Path(__file__).parent
_MARKS = {name: getattr(pytest.mark, name) for name in ("published", "recalled", "transcribed", "practice", "exact")}
_NEEDED = {"id", "mark", "source", "place", "call", "inputs", "unit"}
_ALLOWED = _NEEDED | {"result", "expected", "band", "scatter", "scatter_reason", "note", "miss", "words", "assumed"}
_TABLES = (
    "calc.data:",
    "calc.geometry.ends:pipe",
    "calc.mechanics.fibre:rope",
    "calc.mechanics.fibre:rated",
    "calc.mechanics.fibre:heat_limit",
)
"""What reads a table of ours, so that a row can only tell whether it was typed right."""
_ROWS = rows()


def _marks(row: dict[str, Any]) -> list[pytest.MarkDecorator]:
    """Return the kind of check a row is, and that it fails if it is told to: then it must."""
    missed = [pytest.mark.xfail(strict=True, reason=row["miss"])] if "miss" in row else []
    return [_MARKS[row["mark"]], *missed]


@pytest.mark.parametrize("row", [pytest.param(row, id=row["id"], marks=_marks(row)) for row in _ROWS])
def test_the_call_gives_the_printed_figure(row: dict[str, Any]) -> None:
    value = ours(row)
    assert bounds(row).admits(value), f"{value} {row['unit']} against {row.get('expected', row.get('band'))}"


@pytest.mark.exact
def test_rows_are_well_formed() -> None:
    known = {each.key for each in sources()}
    for row in _ROWS:
        keys = set(row) - {"file"}
        assert keys >= _NEEDED, row
        assert keys <= _ALLOWED, keys - _ALLOWED
        assert ("expected" in row) != ("band" in row), row["id"]
        assert ("words" in row) == ("assumed" in row) == row["file"].startswith("bow/"), row["id"]
        assert ("scatter" in row) == bool(row.get("scatter_reason")), row["id"]
        assert row["source"] in known, row["source"]
        assert row["place"].strip(), row["id"]
        assert row["unit"] == "degC" or row["unit"] in UNITS, row["unit"]
        assert row["mark"] != "published" or source(row["source"]).read in {"read", "secondary"}, row["id"]
        assert row["mark"] != "transcribed" or row["call"].startswith(_TABLES), row["id"]
    assert len({row["id"] for row in _ROWS}) == len(_ROWS)


@pytest.mark.exact
def test_every_file_has_rows() -> None:
    assert {row["file"] for row in _ROWS} == {path.relative_to(_HERE).as_posix() for path in _HERE.rglob("*.toml")}


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
def test_ranges_meet_where_they_touch_and_not_beyond() -> None:
    figure = Bounds(2.0, 3.0)
    assert figure.admits(Spread(1.0, 1.5, 2.0))
    assert figure.admits(Spread(3.0, 3.5, 4.0))
    assert figure.admits(Spread(1.0, 2.5, 4.0))
    assert not figure.admits(Spread(1.0, 1.5, 1.999))
    assert not figure.admits(Spread(3.001, 3.5, 4.0))


@pytest.mark.contract
def test_every_miss_of_a_bow_is_within_half_of_what_was_measured() -> None:
    """A miss is shown, but one that is out by more than half is a fault and no model."""
    assert all(0.5 < check.ours.value / check.measured.value < 1.5 for check in checks())


@pytest.mark.exact
def test_a_source_may_state_its_own_scatter() -> None:
    assert bounds({"expected": "200", "scatter": "1.5 %"}) == Bounds(197.0, 203.0)
    assert bounds({"expected": "200", "scatter": "4"}) == Bounds(196.0, 204.0)
    assert bounds({"band": ["0.98", "1.05"]}) == Bounds(0.98, 1.05)
    assert bounds({"band": ["0.98", "1.00", "1.05"]}) == Bounds(0.98, 1.05)


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
