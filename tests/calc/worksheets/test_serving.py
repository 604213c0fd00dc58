"""The serving worksheet: coils worked by hand, the trade's lengths, laws of fit, and its sentences."""

from __future__ import annotations

from math import atan, cos, hypot, pi, sqrt
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.geometry.ends import coil
from calc.making.string import serve
from calc.units import show
from calc.worksheets import catalogue
from calc.worksheets.core import Answer, ask, by_key, usual
from tests.calc.worksheets.typed_sheet import TypedSheet

if TYPE_CHECKING:
    from calc.units import System

SHEET = catalogue()["serving"]
TYPED = TypedSheet("serving", "metric")
answer, numbers, values = TYPED.answer, TYPED.spreads, TYPED.values
INCH = 0.0254


ROUND = {"cord_diameter": "3 mm", "thread_diameter": "0.5 mm", "served_length": "150 mm", "nock_throat": "4 mm"}


@pytest.mark.exact
def test_a_coil_unrolled_by_hand() -> None:
    """3 mm of string, 0.5 mm of thread over 150 mm: a slant whose foot is pi x 3.5 mm and whose rise is the pitch.

    Turns touch across the thread: pitch x cos(slant) = 0.5 mm, and sin(slant) = 0.5 / (pi x 3.5).
    """
    around = pi * 0.0035
    pitch = 0.0005 / sqrt(1 - (0.0005 / around) ** 2)
    made = values(**ROUND)
    assert made["served_diameter"] == pytest.approx(0.004, rel=1e-12)
    assert made["serving_turns"] == pytest.approx(0.150 / pitch, rel=1e-9)
    assert made["thread_length"] == pytest.approx(0.150 / pitch * hypot(around, pitch), rel=1e-9)
    assert pitch * cos(atan(pitch / around)) == pytest.approx(0.0005, rel=1e-12)
    assert made["nock_fit"] == pytest.approx(0.0, abs=1e-12)


@pytest.mark.exact
@settings(derandomize=True, deadline=None, max_examples=100)
@given(core=st.floats(0.5, 8.0), share=st.floats(0.01, 1.0), length=st.floats(5.0, 500.0), press=st.floats(0.7, 1.0))
def test_the_thread_keeps_its_volume_and_a_hard_one_is_the_geometrys_coil(
    core: float, share: float, length: float, press: float
) -> None:
    """The winding room works the same coil its own way; pressed flat, a thread is as much wider as it is thinner."""
    thread = core * share
    hard, soft = serve(core, thread, length), serve(core, thread, length, press)
    known = coil(core, thread, length)
    assert (hard.turns, hard.thread_m) == pytest.approx((known.turns, known.thread_m), rel=1e-9)
    assert hard.diameter_m == pytest.approx(known.diameter_m, rel=1e-12)
    assert soft.thread_m == pytest.approx(length * pi * (core + thread * press) / (thread / press), rel=1e-9)
    assert soft.turns <= hard.turns
    assert soft.diameter_m <= hard.diameter_m


@pytest.mark.practice
def test_a_serving_of_seven_inches_lies_as_the_trade_has_it() -> None:
    """Common practice, no published source: 50 to 65 mm above the nocking point and 100 to 130 mm below."""
    made = values(served_length="7 in")
    assert 0.050 <= made["above_nock"] <= 0.065
    assert 0.100 <= made["below_nock"] <= 0.130
    assert made["above_nock"] + made["below_nock"] == pytest.approx(7 * INCH, rel=1e-12)


@pytest.mark.practice
def test_a_turn_a_thread() -> None:
    """Common practice, no published source: a serving has about as many turns as threads fit side by side along it."""
    made = values()
    assert made["serving_turns"] == pytest.approx(6.5 / 0.018, rel=0.01)


THICK = st.floats(1.0, 5.0)
THREAD = st.floats(0.2, 0.9)


@pytest.mark.exact
@settings(derandomize=True, deadline=None, max_examples=60)
@given(core=THICK, thread=THREAD, throat=st.floats(1.2, 8.0), more=st.floats(1.01, 1.6))
def test_thicker_is_tighter(core: float, thread: float, throat: float, more: float) -> None:
    def made(*, core: float = core, thread: float = thread, throat: float = throat) -> dict[str, float]:
        typed = {"cord_diameter": core, "thread_diameter": thread, "nock_throat": throat}
        return values(**{key: f"{value:.9f} mm" for key, value in typed.items()})

    usual_one = made()
    assert made(core=core * more)["nock_fit"] < usual_one["nock_fit"]
    if thread * more < core:
        thicker = made(thread=thread * more)
        assert thicker["nock_fit"] < usual_one["nock_fit"]
        assert thicker["serving_turns"] < usual_one["serving_turns"]
        assert thicker["thread_length"] < usual_one["thread_length"]
        assert thicker["cord_fits"] <= usual_one["cord_fits"]
    assert made(throat=throat * more)["nock_fit"] > usual_one["nock_fit"]
    assert made(throat=throat * more)["thread_fits"] >= usual_one["thread_fits"]


@pytest.mark.exact
@settings(derandomize=True, deadline=None, max_examples=60)
@given(core=THICK, room=st.floats(0.3, 1.6), strands=st.integers(2, 60))
def test_what_would_fit_does_fit(core: float, room: float, strands: int) -> None:
    """Serve with the thread, or make the string of the strands, that the sheet names: the throat is just filled."""
    typed = {"cord_diameter": f"{core:.9f} mm", "nock_throat": f"{core + room:.9f} mm", "thread_diameter": "0.15 mm"}
    made = values(**typed, strands=str(strands))
    again = values(**{**typed, "thread_diameter": f"{made['thread_fits'] * 1000:.9f} mm"})
    assert again["nock_fit"] == pytest.approx(0.0, abs=2e-12)
    core_m = made["cord_diameter"] * sqrt(made["strands_fit"] / strands)
    remade = values(**{**typed, "cord_diameter": f"{core_m * 1000:.9f} mm"})
    assert remade["nock_fit"] == pytest.approx(0.0, abs=2e-12)


@pytest.mark.exact
def test_strands_that_fit_go_with_the_square_of_the_thickness() -> None:
    """A string of 12 strands and 2 mm; 3 mm are wanted: 27 strands."""
    made = values(cord_diameter="2 mm", thread_diameter="0.5 mm", nock_throat="4 mm", strands="12")
    assert made["strands_fit"] == pytest.approx(27.0, rel=1e-12)


@pytest.mark.exact
def test_the_tables_agree_with_the_sheet() -> None:
    """Each thread of the list, typed into the sheet, is told the same thickness; each line has its verdict."""
    found = answer(**ROUND)
    threads, counts = found.tables("metric")
    assert {line[-1] for line in (*threads.cells, *counts.cells)} == {"too loose", "fits", "too tight"}
    for thread, served, _ in threads.cells[:-1]:
        said = answer(**{**ROUND, "thread_diameter": thread}).tables("metric")[0].cells
        assert (thread, served) in {line[:2] for line in said}
        made = values(**{**ROUND, "thread_diameter": thread})
        assert float(served.split()[0]) / 1000 == pytest.approx(made["served_diameter"], abs=6e-6)
    assert threads.cells[-1][1] == "5.00 mm"
    assert ("14", "3.00 mm", "4.00 mm", "fits") in counts.cells
    assert [int(line[0]) for line in counts.cells] == sorted({int(line[0]) for line in counts.cells})
    assert len(answer(strands="not known").tables("metric")) == 1


@pytest.mark.exact
def test_each_reading_widens_the_fit() -> None:
    made = numbers(**ROUND)
    assert made["nock_fit"].low < 0.0 < made["nock_fit"].high
    assert made["served_diameter"].low < made["served_diameter"].value < made["served_diameter"].high
    assert made["served_diameter"].high == pytest.approx(0.004 + hypot(0.05 * 0.003, 2 * 0.05 * 0.0005), rel=1e-9)


@pytest.mark.exact
def test_units_change_no_number() -> None:
    found = [ask(SHEET, usual(SHEET), system) for system in ("inch", "metric")]
    first, second = (each for each in found if isinstance(each, Answer))
    assert first.rows == second.rows


VERDICTS = [
    ({}, "should fit", "may turn out"),
    ({"thread_diameter": "0.028 in"}, "too tight", "Too tight. Take a thread"),
    ({"thread_diameter": "0.008 in"}, "too loose", "lay more strands in"),
    ({"cord_diameter": "0.150 in"}, "too tight", "no serving fits"),
    ({"served_length": "4 in"}, "should fit", "Short for fingers"),
]  # fmt: skip


@pytest.mark.exact
@pytest.mark.parametrize(("typed", "verdict", "words"), VERDICTS)
def test_the_verdict_and_what_to_change(typed: dict[str, str], verdict: str, words: str) -> None:
    found = answer(**typed)
    assert verdict in found.headlines[0].text
    assert words in " ".join(each.text for each in found.cautions)
    assert "Tap test" in " ".join(each.text for each in found.cautions if each.level == "caution")


@pytest.mark.exact
def test_fewer_strands_are_never_advised_without_a_word_on_strength() -> None:
    for typed in ({"thread_diameter": "0.028 in"}, {"cord_diameter": "0.150 in"}):
        said = " ".join(each.text for each in answer(**typed).cautions)
        assert "{strands_fit} strands" in said
        assert "Fewer strands hold less" in said


SENTENCES = [
    ({"thread_diameter": "0.1 in", "cord_diameter": "0.05 in"}, "thread_diameter", "The thread must be no thicker"),
    ({"nock_throat": ""}, "nock_throat", "Enter the throat of the nock"),
    ({"thread_diameter": "50 tex"}, "thread_diameter", "Thickness of the thread must be a thickness"),
    ({"served_length": "2 mm"}, "served_length", "Served length must be"),
    ({"strands": "1"}, "strands", "Strands in the whole string must be 2 or more"),
]  # fmt: skip


@pytest.mark.exact
@pytest.mark.parametrize(("typed", "field", "begins"), SENTENCES)
def test_sentences(typed: dict[str, str], field: str, begins: str) -> None:
    found = ask(SHEET, usual(SHEET, typed), "metric")
    assert not isinstance(found, Answer)
    assert (found[0].field, found[0].text[: len(begins)]) == (field, begins)


@pytest.mark.exact
def test_long_threads_are_told_in_yards_and_metres_and_short_ones_as_on_a_tape() -> None:
    """A yard is 0.9144 m by definition; two of them are the longest that is told in inches."""
    units: tuple[tuple[System, str, str], ...] = (("inch", " yd", " in"), ("metric", " m", " mm"))
    for system, long_one, short_one in units:
        for length, unit in (("160 mm", long_one), ("20 mm", short_one)):
            row = by_key(answer(served_length=length).rows)["thread_to_cut"]
            assert (row.spread.value > 2 * 0.9144) == (unit == long_one)
            assert show(row.spread.value, row.quantity, system).endswith(unit)


@pytest.mark.exact
def test_a_serving_weighs_its_thread() -> None:
    """So many metres of 140 tex, by hand; nothing is said of a thread whose weight nobody knows."""
    told = ask(SHEET, usual(SHEET, {"thread_weight": "140 tex"}), "inch")
    assert isinstance(told, Answer)
    rows = {row.key: row.spread for row in told.rows}
    assert rows["serving_mass"].value == pytest.approx(rows["thread_length"].value * 140e-6, rel=1e-12)
    bare = ask(SHEET, usual(SHEET), "inch")
    assert isinstance(bare, Answer)
    assert "serving_mass" not in {row.key for row in bare.rows}
