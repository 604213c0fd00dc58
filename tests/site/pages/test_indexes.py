"""The lists of guides and of worksheets: a figure of its own beside every line."""

from __future__ import annotations

import re

import pytest

from calc.worksheets import catalogue
from site_build.pages.indexes import GUIDES, with_index_figures

pytestmark = pytest.mark.contract
_SHAPES = re.compile(r"<(?:path|line|circle|polyline|polygon|use|rect)\b")


def listed(names: list[str], page: str) -> list[str]:
    html = "".join(f'<li><a href="{name}/">{name}</a></li>' for name in names)
    return with_index_figures(html, page).split("</li>")[:-1]


def test_every_worksheet_has_a_figure_without_words() -> None:
    lines = listed(list(catalogue()), "worksheets/index.md")
    for line in lines:
        assert _SHAPES.search(line)
        assert "<text" not in line
        assert 'aria-hidden="true"' in line
    assert len(lines) == len(catalogue())


def test_every_guide_has_a_figure_of_its_own() -> None:
    names = sorted(path.stem for path in GUIDES.glob("*.md") if path.stem != "index")
    lines = listed(names, "guides/index.md")
    drawn = [re.sub(r"index-[\w-]+", "", line.partition("</span>")[0]) for line in lines]
    assert all(map(_SHAPES.search, drawn))
    assert len(set(drawn)) == len(names) >= 15


def test_other_pages_stay_as_they_are() -> None:
    html = '<li><a href="two-bundle/">x</a></li>'
    assert with_index_figures(html, "index.md") == html
