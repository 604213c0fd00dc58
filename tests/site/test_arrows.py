"""Imports run one way, files stay small, numbers have sources."""

from __future__ import annotations

import ast
import sys
from pathlib import Path

import pytest

from calc.data import source
from calc.worksheets import catalogue
from calc.worksheets.rows import table

pytestmark = pytest.mark.exact
ROOT = Path(__file__).resolve().parents[2]
FLOORS = {
    "console": 1, "errors": 1, "written": 1, "spread": 1, "roots": 1, "geometry": 2, "units": 2, "data": 2, "draw": 3,
    "mechanics": 3, "making": 4, "worksheets": 5, "share": 6, "own_figures": 6, "bridge": 7, "warming": 8,
    "__main__": 8,
}  # fmt: skip
CALC = sorted((ROOT / "calc").rglob("*.py"))
LONGEST = 400  # most have fewer than 300; one idea may take more


def imported(path: Path) -> set[str]:
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {each.name for each in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            found |= {f"{node.module}.{each.name}" if node.module == "calc" else node.module for each in node.names}
    return found


@pytest.mark.parametrize("path", CALC, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_a_room_uses_only_what_stands_below_it(path: Path) -> None:
    parts = path.relative_to(ROOT / "calc").with_suffix("").parts
    if parts == ("__init__",):
        return
    here = parts[0]
    for name in imported(path):
        first, *rest = name.split(".")
        if first != "calc":
            assert first in sys.stdlib_module_names, name
        elif rest and rest[0] != here:
            below = FLOORS[rest[0]] < FLOORS[here] or (rest[0] in {"data", "units"} and here in {"geometry", "data"})
            assert below, f"{here} imports {name}"


@pytest.mark.parametrize("folder", ["calc", "site_build", "tests"])
def test_no_file_is_long(folder: str) -> None:
    long = [path.name for path in (ROOT / folder).rglob("*.py") if len(path.read_text("utf-8").splitlines()) > LONGEST]
    assert long == []


def test_every_row_has_a_known_source() -> None:
    for told in (*table().values(), *(each for sheet in catalogue().values() for each in sheet.told)):
        assert source(told.source).words, told.key


def test_the_built_site_names_no_outside_host_that_a_page_would_load() -> None:
    ours = [*(ROOT / "site_build" / "web").glob("*"), *(ROOT / "docs").rglob("*.md")]
    for path in ours:
        assert "http://" not in path.read_text(encoding="utf-8"), path.name
        assert "https://" not in path.read_text(encoding="utf-8"), path.name
