"""The pages about the code: they name what can be imported, and tell of it what its docstring tells."""

from __future__ import annotations

import re
from importlib import import_module
from pkgutil import walk_packages

import pytest

import calc
from site_build.pages.reference import api

pytestmark = pytest.mark.exact
PAGES = api.pages()
FOLDER = f"{api.FOLDER}/"


def headings(page: str) -> list[str]:
    """Return the names that a page tells of."""
    return re.findall(r"^## (.+)$", page, re.MULTILINE)


def test_every_package_that_exports_names_has_a_page_with_all_of_them() -> None:
    packages = [each.name for each in walk_packages(calc.__path__, "calc.") if each.ispkg]
    with_names = {name: names for name in packages if (names := getattr(import_module(name), "__all__", None))}
    assert {"calc.geometry.lay", "calc.mechanics.bow", "calc.draw.cord"} <= set(with_names)
    for name, names in with_names.items():
        assert headings(PAGES[f"{FOLDER}{name}.md"]) == sorted(names, key=str.casefold), name


@pytest.mark.parametrize("page", sorted(set(PAGES) - {f"{FOLDER}index.md"}))
def test_what_a_page_tells_of_can_be_imported_from_there(page: str) -> None:
    module = import_module(page.removeprefix(FOLDER).removesuffix(".md"))
    names = headings(PAGES[page])
    assert names
    assert [name for name in names if not hasattr(module, name)] == []
    assert f"({page.removeprefix(FOLDER)})" in PAGES[f"{FOLDER}index.md"]


def test_a_function_is_told_with_its_signature_units_errors_and_example() -> None:
    told = PAGES[f"{FOLDER}calc.geometry.lay.md"].split("## jam_turns\n")[1].split("\n## ")[0]
    assert "jam_turns(diameter_m: float, bundles: int, strand_m: float) -> float" in told
    assert "- `diameter_m` (float, > 0) Bundle diameter. [m]" in told
    assert "**Returns**\n\n- (float) [turn]" in told
    assert "- (DomainError) ``number``, ``min`` or ``max`` for a length, ``choice`` for the bundles." in told
    assert ">>> round(jam_turns(0.002, 2, 1.0), 1)\n117.6" in told


def test_the_search_leaves_the_pages_out() -> None:
    for page in PAGES.values():
        assert page.startswith("---\ntitle: ")
        assert "search:\n  exclude: true\n" in page
