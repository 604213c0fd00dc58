"""At the range: the turns are those of the tuning sheet, and settling follows the law of creep."""

from __future__ import annotations

from math import log10

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc import share, units
from calc.notebook_range import at_range, planned, tuning_inputs
from calc.records import AHEAD, HeightReading, Notebook, Record, edit, fit_settling, height_readings
from calc.worksheets import catalogue
from calc.worksheets.core import Answer, ask, by_key, fill
from tests.tolerances import CLOSED_FORM

pytestmark = pytest.mark.exact
NOW = "2026-05-03T10:11:12.000Z"


def record(kind: str, ident: str, **texts: str) -> Record:
    return edit(Record(kind, f"{kind}-{ident:0>6}"), texts, NOW, "aaaa")


BOW = record("bow", "1", name="Ash", nock_to_nock="62 in", brace_height="6 1/2 in", limb_shape="arc")
STRING = record("string", "1", bow="bow-000001", turns="60", cord_diameter="0.098 in", bundles="2")


def book(*found: Record) -> Notebook:
    return Notebook({each.id: each for each in found})


def entry(ident: str, **texts: str) -> Record:
    return record("entry", ident, about="string-000001", on="2026-05-03", **texts)


def test_the_turns_are_those_of_the_tuning_sheet_and_nothing_is_taken_from_its_example() -> None:
    told = at_range(book(BOW, STRING), STRING, "6 in", "inch")
    inputs = tuning_inputs(book(BOW, STRING), BOW, STRING) | {"brace_now": "6 in"}
    assert inputs["handle_length"] == "not known"
    assert inputs["turns_per_length"] == "not counted"
    answer = ask(catalogue()["tune"], inputs, "inch")
    assert isinstance(answer, Answer)
    said = fill(answer.headlines[0].text, by_key(answer.rows), "inch")
    assert said.casefold().startswith(told["turns"].casefold())
    assert told["turns"].startswith("Put in ")


def test_turns_put_in_since_count_and_teach() -> None:
    lines = [entry("1", shots="10", brace_height="5 1/2 in", turns_added="10")]
    told = at_range(book(BOW, STRING, *lines), STRING, "6 in", "inch")
    inputs = tuning_inputs(book(BOW, STRING), BOW, STRING)
    inputs |= {"brace_now": "6 in", "turns": "70", "brace_first": "5 1/2 in", "turns_first": "10"}
    answer = ask(catalogue()["tune"], inputs, "inch")
    assert isinstance(answer, Answer)
    assert told["between"] == fill(answer.headlines[0].span, by_key(answer.rows), "inch")


def test_readings_that_contradict_one_another_are_told_and_left_out() -> None:
    lines = [entry("1", shots="10", brace_height="7 in", turns_added="10")]
    told = at_range(book(BOW, STRING, *lines), STRING, "6 in", "inch")
    assert told["turns"].startswith("Earlier readings do not go together with this one, so they are left out. Put in ")


def test_what_is_not_known_is_asked_for_in_words() -> None:
    bare = record("string", "2", bow="bow-000001")
    assert at_range(book(BOW, bare), bare, "6 in", "inch")["why"]
    lonely = record("string", "3")
    assert at_range(book(lonely), lonely, "6 in", "inch")["why"].startswith("Give the bow its length")


def test_a_string_from_the_bench_sheet_needs_nothing_measured() -> None:
    sheet = catalogue()["string"]
    link = share.encode(sheet, {"nock_to_nock": "62 in"}, "inch")
    string = record("string", "4", bow="bow-000001", plan=link)
    answer = ask(sheet, share.decode(link).inputs, "inch")
    assert isinstance(answer, Answer)
    rows = by_key(answer.rows)
    assert planned(string)["turns"] == units.show(rows["turns_body"].spread.value, "turns", "metric")
    assert at_range(book(BOW, string), string, "6 in", "metric")["turns"].startswith("Put in ")
    assert planned(record("string", "5", plan="v2/tune?end=xxxx")) == {}


@settings(derandomize=True, deadline=None)
@given(
    st.floats(0.1, 0.25),
    st.floats(-0.004, 0.004),
    st.lists(st.integers(0, 5000), min_size=3, max_size=6, unique=True),
)
def test_readings_on_the_law_give_it_back(first_m: float, per_decade_m: float, shots: list[int]) -> None:
    found = fit_settling([HeightReading(n, first_m - per_decade_m * log10(1 + n)) for n in shots])
    assert found is not None
    assert found.per_decade_m == pytest.approx(per_decade_m, rel=CLOSED_FORM, abs=1e-12)
    last = max(shots)
    drop_m = per_decade_m * log10((1 + last + AHEAD) / (1 + last))
    assert found.drop_m == pytest.approx(drop_m, rel=CLOSED_FORM, abs=1e-12)
    assert found.apart_m <= 1e-12


def test_too_few_readings_tell_nothing_and_turning_the_string_begins_anew() -> None:
    assert fit_settling([HeightReading(0, 0.16), HeightReading(10, 0.159), HeightReading(10, 0.158)]) is None
    lines = [
        entry("1", shots="0", brace_height="6 1/2 in"),
        entry("2", shots="10", brace_height="6 3/8 in", turns_added="4"),
        entry("3", shots="20", brace_height="6 1/2 in"),
        entry("4", brace_height="6 in"),
    ]
    assert [each.shots for each in height_readings(lines)] == [20.0]


@pytest.mark.parametrize(
    ("heights", "words"),
    [
        (("6 1/2 in", "6 1/2 in", "6 1/2 in"), "Settled: less than you can read off will change in 200 shots."),
        (("7 in", "6 1/2 in", "6 in"), "Still settling: about 1/4 in lower in 200 more shots."),
        (("6 in", "6 1/2 in", "7 in"), "It rises from shot to shot, which no settling does."),
        (("6 in",), "Read it 2 more times, with the shots, to see whether it has settled."),
    ],
)
def test_settling_is_told_in_words(heights: tuple[str, ...], words: str) -> None:
    """Half an inch while shots grow tenfold is 0.24 in from 99 shots to 299: log10(300 / 100) = 0.477."""
    shots = ("0", "9", "99")
    lines = [
        entry(str(at), shots=n, brace_height=height) for at, (n, height) in enumerate(zip(shots, heights, strict=False))
    ]
    assert at_range(book(BOW, STRING, *lines), STRING, "", "inch")["settling"].startswith(words)
