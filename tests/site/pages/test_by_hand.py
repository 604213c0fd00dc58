"""Tables to read off by hand: they keep the laws of what they tell, and agree with the page's own example."""

from __future__ import annotations

import re
from itertools import pairwise
from xml.etree import ElementTree as ET

import pytest

from calc.units import read
from calc.worksheets import catalogue
from calc.worksheets.core import Answer, ask, by_key, show_row, usual
from site_build.pages.by_hand import TABLES, table

pytestmark = pytest.mark.exact
CELL = re.compile(r"<td>(.*?)</td>")


def cells(key: str) -> list[list[str]]:
    """Return the first number of each cell, line by line."""
    lines = table(key).replace("&#160;", " ").partition("<tbody>")[2].split("</tr>")[:-1]
    return [[re.split(r" <small>|<br>", each)[0] for each in CELL.findall(line)] for line in lines]


@pytest.mark.parametrize("key", TABLES)
def test_a_table_is_whole_and_shows_only_where_scripts_are_off(key: str) -> None:
    html = table(key)
    ET.fromstring(html.replace("<br>", " "))  # noqa: S314 - our own writing
    assert html.startswith("<noscript>")
    assert html.endswith("</noscript>")
    down, across = TABLES[key].measures
    assert [len(line) for line in cells(key)] == [len(across)] * len(down)
    assert "–" not in [cell for line in cells(key) for cell in line]


@pytest.mark.parametrize("key", TABLES)
def test_a_cell_says_what_the_sheet_answers(key: str) -> None:
    told, sheet = TABLES[key], catalogue()[key]
    for first, line in zip(told.measures[0], cells(key), strict=True):
        for second, cell in zip(told.measures[1], line, strict=True):
            answer = ask(sheet, usual(sheet, {told.down: first, told.across: second}), "inch")
            assert isinstance(answer, Answer)
            assert cell == show_row(by_key(answer.rows)[told.result], "inch")


def test_a_string_is_shorter_the_higher_it_braces_and_longer_the_longer_the_bow() -> None:
    found = [[read("x", cell, "length", low=0.0, high=9.0, system="inch") for cell in line] for line in cells("brace")]
    assert all(higher < lower for line, after in pairwise(found) for lower, higher in zip(line, after, strict=True))
    assert all(short < long for line in found for short, long in pairwise(line))
    bows = [read("x", each, "length", low=0.0, high=9.0, system="inch") for each in TABLES["brace"].measures[1]]
    assert all(string < bow for line in found for string, bow in zip(line, bows, strict=True))


def test_more_draw_weight_or_thinner_yarn_never_takes_fewer_strands() -> None:
    found = [[int(cell) for cell in line] for line in cells("strands")]
    assert all(less <= more for line, after in pairwise(found) for less, more in zip(line, after, strict=True))
    assert all(thin >= thick for line in found for thin, thick in pairwise(line))


def test_turns_go_with_the_length_and_against_the_thickness() -> None:
    """One lay: turns times thickness by length is one number, within half a turn."""
    (down, across), found = TABLES["twist"].measures, cells("twist")
    ratios = [
        float(cell) * float(thick.split()[0]) / float(long.split()[0])
        for thick, line in zip(down, found, strict=True)
        for long, cell in zip(across, line, strict=True)
    ]
    assert max(ratios) - min(ratios) < 0.5 * 0.07 / 34
