"""Rules of the trade are said in our own words, as common practice; nobody is quoted, no bow of anybody's is shown."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from calc.data import rules
from calc.worksheets import catalogue
from calc.worksheets.core import Answer, ask, usual
from site_build.setup.paths import DOCS

if TYPE_CHECKING:
    from pathlib import Path

pytestmark = pytest.mark.exact
SHEETS = sorted((DOCS / "worksheets").glob("*.md"))
HEADING = "## Beside common practice"


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
def test_no_rule_stands_in_quotation_marks(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert not re.search(r'\*\*"|[“”]', text)
    assert "makers say" not in text
    if HEADING in text:
        assert "common practice, no published source" in text.partition(HEADING)[2]


def test_rules_are_marked_and_name_no_one_bow() -> None:
    for rule in rules():
        assert rule.source == "common-practice" or re.search(r"\d{4}", rule.source), rule.id
        assert not re.search(r'["“”]', rule.words), rule.id
        assert "46 in" not in rule.words, rule.id


def test_the_table_beside_the_strands_says_what_it_is() -> None:
    sheet = catalogue()["strands"]
    answer = ask(sheet, usual(sheet, {}), "inch")
    assert isinstance(answer, Answer)
    (table,) = [each for each in answer.tables("inch") if each.key == "rules"]
    assert "common practice, no published source" in table.title


def test_demo_bows_are_our_own() -> None:
    for sheet in catalogue().values():
        for example in sheet.examples:
            assert "46 in" not in (example.words, example.inputs.get("nock_to_nock")), (sheet.id, example.name)
