"""Rows for the reference pages: all facts told, in words, with the right figures."""

from __future__ import annotations

from dataclasses import replace

import pytest

from calc.data import (
    fibre,
    fibre_rows,
    fibres,
    figure,
    practice,
    practice_rows,
    practices,
    rule_rows,
    rules,
    source,
    source_rows,
    sources,
)

pytestmark = pytest.mark.exact


def test_every_fact_and_class_of_every_fibre_is_told_once() -> None:
    rows = fibre_rows()
    assert len(rows) == sum(len(each.facts) + len(each.verdicts) for each in fibres())
    assert len({(row.subject, row.words) for row in rows}) == len(rows)
    assert all(row.source == source(row.source_key).words for row in rows)


def test_a_figure_shows_its_range_and_unit() -> None:
    rows = {(row.subject, row.words): row for row in fibre_rows()}
    melts = rows["high-tenacity polyester", "Melts"]
    assert (melts.figure, melts.kind) == ("258 (255–268) °C", "from a document")
    assert "Callister" in melts.source
    assert rows["nylon", "Density"].figure == "1.14 g/cm³"
    assert rows["silk", "In sunlight"].figure == "poor"


def test_a_figure_without_unit_or_range_is_bare() -> None:
    fact = practice("working_margin")
    assert figure(fact) == "1.5 (1.3–2)"
    exact = replace(fact, printed=practice("efficiency_ford").printed)
    assert figure(exact) == "0.66"


def test_words_of_recall_are_plain() -> None:
    density = dict(fibre("sinew").facts)["density"]
    row = next(each for each in fibre_rows() if each.words == density.words and each.subject == fibre("sinew").words)
    assert row.kind == "recalled, not read again"


def test_constants_rules_and_sources_are_all_told() -> None:
    assert [row.words for row in practice_rows()] == [practice(key).words for key in practices()]
    assert len(rule_rows()) == sum(len(each.figures) for each in rules())
    assert {row.subject for row in rule_rows()} <= {each.words for each in rules()}
    assert [row.key for row in source_rows()] == [each.key for each in sources()]
    assert {row.read for row in source_rows()} >= {"read in a copy", "worked out here", "nothing is published"}
