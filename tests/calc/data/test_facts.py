"""Every table of facts: sources known, units known, spreads in order, rows sorted and in use."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pint
import pytest

from calc.data import UNITS, fibres, practice, practices, rule, rules, source, sources
from calc.data.facts import table

if TYPE_CHECKING:
    from collections.abc import Iterator

pytestmark = pytest.mark.exact

CALC = Path(__file__).parents[3] / "calc"
REGISTRY: Any = pint.UnitRegistry()
PUBLISHED = Path(__file__).parents[2] / "published"
KINDS = {"exact", "measured", "practice", "memory"}
READ = {"read", "secondary", "memory", "own", "none"}


def _rows() -> Iterator[tuple[str, dict[str, Any]]]:
    """Give every number of the tables of facts, with a name for messages."""
    for key, row in table("fibres").items():
        for name, each in row.items():
            if isinstance(each, dict) and "unit" in each:
                yield f"{key}.{name}", each
    for key, row in table("practice").items():
        yield key, row
    for key, row in table("rules").items():
        for each in row["figures"]:
            yield f"{key}: {each['words']}", {**each, "source": row["source"]}


def _verdicts() -> Iterator[tuple[str, dict[str, Any]]]:
    for key, row in table("fibres").items():
        for name in ("creep", "uv"):
            yield f"{key}.{name}", row[name]


ROWS = dict(_rows())
VERDICTS = dict(_verdicts())
TABLES = ("fibres", "practice", "rules", "sources")


def test_there_are_rows() -> None:
    assert len(ROWS) > 200
    assert len(VERDICTS) == 2 * len(fibres())


def _all() -> dict[str, dict[str, Any]]:
    return {**ROWS, **VERDICTS}


def _recalled(row: dict[str, Any]) -> bool:
    return source(row["source"]).read == "memory"


def test_every_row_has_a_known_source_unit_and_kind() -> None:
    assert {row["source"] for row in _all().values()} <= set(table("sources"))
    assert {row["unit"] for row in ROWS.values()} <= set(UNITS)
    assert {row.get("kind", "practice") for row in _all().values()} <= KINDS


def test_low_typical_and_high_are_in_order() -> None:
    assert [name for name, row in ROWS.items() if not row["low"] <= row["value"] <= row["high"]] == []


def test_classes_are_of_their_kind() -> None:
    allowed = {"creep": {"low", "medium", "high"}, "uv": {"good", "fair", "poor"}}
    assert [name for name, row in VERDICTS.items() if row["class"] not in allowed[name.rpartition(".")[2]]] == []


def test_what_is_exact_has_no_spread() -> None:
    exact = {name: row for name, row in ROWS.items() if row.get("kind") == "exact"}
    assert exact
    assert [name for name, row in exact.items() if row["low"] != row["high"]] == []


def test_what_rests_on_recall_says_so() -> None:
    told = [name for name, row in _all().items() if _recalled(row) and row["kind"] != "memory"]
    assert told == []


def test_a_day_of_reading_is_a_day_and_its_source_was_read() -> None:
    read = {name: row for name, row in _all().items() if "read_on" in row}
    assert read
    assert min(date.fromisoformat(row["read_on"]) for row in read.values()) > date(2026, 1, 1)
    assert [name for name, row in read.items() if source(row["source"]).read not in {"read", "secondary"}] == []


@pytest.mark.parametrize("name", TABLES)
def test_tables_are_sorted(name: str) -> None:
    keys = list(table(name))
    assert keys == sorted(keys)


def _used(name: str) -> str:
    """Return all text in which a key may be in use, the table itself left out."""
    files = (*CALC.rglob("*.py"), *CALC.rglob("*.toml"), *PUBLISHED.rglob("*.toml"))
    return "\n".join(each.read_text(encoding="utf-8") for each in files if each.name != f"{name}.toml")


def test_no_source_is_unused() -> None:
    text = _used("sources")
    unused = [each.key for each in sources() if f'"{each.key}"' not in text and f"``{each.key}``" not in text]
    assert unused == []


def test_no_source_named_in_a_docstring_is_unknown() -> None:
    text = "\n".join(each.read_text(encoding="utf-8") for each in CALC.rglob("*.py"))
    named = set(re.findall(r"``(derived:[a-z-]+)``", text))
    assert named <= {each.key for each in sources()}


def test_no_working_constant_is_unused() -> None:
    text = _used("practice")
    assert [key for key in practices() if f'"{key}"' not in text] == []


def test_a_source_says_what_it_is_and_how_it_was_read() -> None:
    assert {each.read for each in sources()} <= READ
    assert [each.key for each in sources() if not each.words.startswith(each.author or each.title)] == []
    assert [each.key for each in sources() if (f"({each.year})" in each.words) != bool(each.year)] == []
    assert [each.key for each in sources() if each.author and not each.licence] == []


def test_a_source_of_our_own_names_no_author() -> None:
    assert all(not each.author for each in sources() if each.read in {"own", "none"})


@pytest.mark.parametrize("unit", [unit for unit in UNITS if unit not in {"", "1", "%"}])
def test_units_agree_with_an_independent_library(unit: str) -> None:
    names = {
        "N/tex": "newton / (gram / kilometre)",
        "degC": "degC",
        "g/cm3": "gram / centimetre ** 3",
        "lb/100ft": "pound / (100 * foot)",
    }
    asked = REGISTRY.Quantity(3.0, "degC") if unit == "degC" else 3.0 * REGISTRY(names.get(unit, unit))
    base = asked.to_base_units()
    factor, offset = UNITS[unit]
    assert 3.0 * factor + offset == pytest.approx(base.magnitude, rel=1e-12)


def test_a_constant_without_a_kind_is_practice() -> None:
    assert practice("waste").kind == "practice"
    assert practice("creep_start").kind == "memory"


def test_a_rule_is_found_by_its_id_and_its_figures_by_their_words() -> None:
    assert [each.id for each in rules()] == sorted(table("rules"))
    loop = rule("loop_length")
    assert loop.figure("over a 1 in pipe").spread.value == pytest.approx(4 * 0.0254, rel=1e-12)
    assert loop.figure("most bows").source == "common-practice"
