"""Ranges as bars: in order, within their width, the shorter the surer, held against what is wanted."""

from __future__ import annotations

import pytest

from calc.numerics import Spread
from calc.worksheets import catalogue
from calc.worksheets.core import Answer, Row, Sentence, ask, outcome, usual
from calc.worksheets.core.outcome_data import bar

pytestmark = pytest.mark.exact


def row(key: str, low: float, value: float, high: float) -> Row:
    return Row(key, "", key, "ratio", Spread(low, value, high), "", "input")


def drawn(spread: tuple[float, float, float], against: str = "") -> dict[str, float | str]:
    made = bar(
        Sentence(text="{a}", span="{a.low} to {a.high}", against=against),
        {"a": row("a", *spread), "w": row("w", 3, 3, 3)},
    )
    return {name: float(text[:-1]) if text.endswith("%") else text for name, text in made.items()}


def test_the_shorter_bar_is_the_surer_number() -> None:
    sure, unsure = drawn((9.9, 10.0, 10.1)), drawn((8.0, 10.0, 12.0))
    widths = [float(each["high"]) - float(each["low"]) for each in (sure, unsure)]
    assert widths[0] == pytest.approx(widths[1] * 0.05, rel=0.02)
    assert sure["value"] == unsure["value"] == 50.0
    assert sure["held"] == "no"


@pytest.mark.parametrize(("against", "place"), [("w", 3.0), ("1", 1.0)])
def test_what_it_is_held_against_lies_where_it_belongs(against: str, place: float) -> None:
    made = drawn((1.1, 1.9, 2.9), against)
    scale = (float(made["high"]) - float(made["low"])) / 1.8
    assert float(made["against"]) == pytest.approx(float(made["low"]) + (place - 1.1) * scale, abs=0.2)
    assert made["held"] == "yes"


def test_a_number_without_a_range_has_no_bar() -> None:
    assert drawn((2.0, 2.0, 2.0))["shown"] == "no"


@pytest.mark.parametrize("key", list(catalogue()))
def test_the_bars_of_every_sheet_are_in_order(key: str) -> None:
    sheet = catalogue()[key]
    answer = ask(sheet, usual(sheet), "inch")
    assert isinstance(answer, Answer)
    for each in outcome(sheet, answer, "inch")["headlines"]:
        made = each["bar"]
        assert ("{" in each["range"]) is False
        if made["shown"] == "yes":
            places = [float(made[name][:-1]) for name in ("low", "value", "high")]
            assert 0 < places[0] <= places[1] <= places[2] < 100


def test_the_verdict_on_strength_comes_before_its_number_and_is_held_against_breaking() -> None:
    for key in ("string", "strands"):
        sheet = catalogue()[key]
        answer = ask(sheet, usual(sheet), "inch")
        assert isinstance(answer, Answer)
        strength = next(each for each in outcome(sheet, answer, "inch")["headlines"] if "under 1" in each["range"])
        assert strength["text"].startswith("strong enough: ")
        assert strength["bar"]["held"] == "yes"
        assert strength["range"].startswith("at the least ")
