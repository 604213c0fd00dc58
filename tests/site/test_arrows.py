"""Imports run one way, other rooms come in by the door, files stay small, numbers have sources."""

from __future__ import annotations

import ast
import sys
from pathlib import Path

import pytest

from calc.data import source
from calc.worksheets import catalogue
from calc.worksheets.core.row_table import table

pytestmark = pytest.mark.exact
ROOT = Path(__file__).resolve().parents[2]
SOURCES = sorted(path for folder in ("calc", "site_build") for path in (ROOT / folder).rglob("*.py"))
LONGEST = 400
FLOORS = """
calc.console calc.errors calc.tables
calc.numerics
calc.units
calc.data
calc.geometry
calc.geometry.lay
calc.geometry.ends
calc.geometry.photo
calc.draw
calc.draw.labels
calc.draw.charts
calc.draw.cord
calc.draw.string
calc.draw.figures
calc.draw.cards
calc.mechanics.bow
calc.mechanics.fibre
calc.mechanics.photo
calc.mechanics.estimate
calc.mechanics.shot
calc.making.strands
calc.making.string
calc.making.tuning
calc.making.shot
calc.making.club
calc.worksheets.core
calc.records
calc.worksheets.serving calc.worksheets.strands calc.worksheets.string
calc.worksheets.club calc.worksheets.cuts calc.worksheets.nail
calc.worksheets.*
calc.worksheets
calc.notebook_club
calc.share calc.own_figures calc.plain_text calc.notebook_command
calc.paper calc.notebook_range calc.notebook_samples
calc.notebook_asks calc.message
calc.bridge
calc.__main__
site_build.setup
site_build.runtime.in_pyodide
site_build.runtime
site_build.offline
site_build.pages.blocks
site_build.pages.guides site_build.pages.reference site_build.pages.slots
site_build.pages
site_build.checks
site_build.cli
site_build.__main__
site_build.bench
"""
"""The rooms from the ground up; a room uses only what stands above it in this list."""
FLOOR_OF = {name: floor for floor, names in enumerate(FLOORS.split("\n")) for name in names.split()}
OPEN = {"calc", "calc.geometry", "calc.data", "calc.units", "calc.draw", "calc.draw.cord", "calc.worksheets"} | {
    f"calc.worksheets.{name}" for name in ("club", "core", "cuts", "nail", "serving", "strands", "string")
}
"""Rooms whose single files others may name, as all rooms of the site are."""
COMPARED = "tests.published.rows"
"""Ours beside measurements: the tests hold it, and one module of the site tells it."""


def dotted(path: Path) -> str:
    return ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__")


MODULES = {dotted(path): path for path in SOURCES}


def room_of(module: str) -> str:
    """Return the folder a module lies in; files that have a floor, or lie at the top, are rooms of their own."""
    if MODULES[module].name == "__init__.py" or module.count(".") == 1 or module in FLOOR_OF:
        return module
    return module.rpartition(".")[0]


def floor_of(room: str) -> int:
    return FLOOR_OF[room] if room in FLOOR_OF else FLOOR_OF[f"{room.rpartition('.')[0]}.*"]


def imported(path: Path) -> set[str]:
    """Return the modules that a file names, type-only imports included."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {each.name for each in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            named = {f"{node.module}.{each.name}" for each in node.names}
            found |= {each if each in MODULES else node.module for each in named}
    return found


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_a_room_uses_only_what_stands_below_it(path: Path) -> None:
    if path.parent.parent == ROOT and path.name == "__init__.py":
        return
    here = room_of(dotted(path))
    for name in imported(path):
        if name not in MODULES:
            assert here.startswith("site_build.") or name.partition(".")[0] in sys.stdlib_module_names, name
            continue
        there = room_of(name)
        if there == here:
            continue
        assert floor_of(there) < floor_of(here), f"{here} imports {name}"
        inside = here == "site_build.runtime.in_pyodide"  # it empties caches before the snapshot
        known = there in OPEN or there.startswith("site_build.") or inside
        assert name == there or known, f"{here} goes round the door of {there}: {name}"


def test_the_site_asks_the_tests_for_what_was_measured_and_nothing_else() -> None:
    asked = {(module, name) for module, path in MODULES.items() for name in imported(path) if name.startswith("tests")}
    assert asked == {("site_build.pages.reference.measured", COMPARED)}


def test_no_modules_of_the_site_import_each_other_in_a_circle() -> None:
    """Those that only types need count as well."""
    ours = {name: path for name, path in MODULES.items() if name.startswith("site_build")}
    needed = {name: imported(path) & ours.keys() - {name} for name, path in ours.items()}
    while free := {name for name, others in needed.items() if not others & needed.keys()}:
        needed = {name: others for name, others in needed.items() if name not in free}
    assert sorted(needed) == []


def test_no_room_is_listed_that_is_gone() -> None:
    rooms = {room_of(each) for each in MODULES}
    assert {name for name in FLOOR_OF if not name.endswith("*")} <= rooms
    assert {room for room in rooms if not room.startswith("calc.worksheets.")} - set(FLOOR_OF) == {
        "calc",
        "calc.mechanics",
        "calc.making",
        "site_build",
    }


def test_no_folder_is_crowded() -> None:
    folders = {path.parent for path in SOURCES}
    assert [folder.name for folder in folders if len(list(folder.glob("*.py"))) > 15] == []


@pytest.mark.parametrize("folder", ["calc", "site_build", "tests"])
def test_no_file_is_long(folder: str) -> None:
    long = [path.name for path in (ROOT / folder).rglob("*.py") if len(path.read_text("utf-8").splitlines()) > LONGEST]
    assert long == []


def test_every_row_has_a_known_source() -> None:
    for told in (*table().values(), *(each for sheet in catalogue().values() for each in sheet.row_texts)):
        assert source(told.source).words, told.key


def test_the_built_site_names_no_outside_host_that_a_page_would_load() -> None:
    ours = [*(ROOT / "site_build" / "web").rglob("*.*"), *(ROOT / "docs").rglob("*.md")]
    for path in ours:
        assert "http://" not in path.read_text(encoding="utf-8"), path.name
        assert "https://" not in path.read_text(encoding="utf-8"), path.name
