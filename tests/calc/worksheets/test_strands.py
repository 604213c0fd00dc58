"""The strand sheet: held against hand calculations, the bench sheet, ropes, broken strings and the trade."""

from __future__ import annotations

import re
from math import hypot, log, pi, sqrt
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.data import fibre, fibres, practice, rule
from calc.making.strands import ShotFacts, WholeString, choose, peak_ratio, thickness
from calc.mechanics.estimate import CordEstimate
from calc.worksheets import catalogue
from calc.worksheets.core import Answer, ask, by_key, usual

if TYPE_CHECKING:
    from calc.numerics import Spread

SHEET, STRING = catalogue()["strands"], catalogue()["string"]
LBF, GRAIN = 4.4482216152605, 64.79891e-6


def told(sheet: str = "strands", **changed: str) -> Answer:
    answer = ask(catalogue()[sheet], usual(catalogue()[sheet], changed), "inch")
    assert isinstance(answer, Answer), answer
    return answer


def value(key: str, **changed: str) -> float:
    return by_key(told(**changed).rows)[key].spread.value


def said(**changed: str) -> str:
    return " ".join(each.text for each in told(**changed).cautions)


@pytest.mark.exact
def test_by_hand() -> None:
    """12 strands of 167 tex at 0.8 N/tex; lay, sharing 0.8 and ends 0.9; the ratio times 40 lb.

    The figures of fibre and trade stand in the tables; what is worked here is what is made of them.
    """
    rows = by_key(told(strands="12").rows)
    tenacity, density, packing = 0.8e6, 1380.0, 0.70
    assert fibre("polyester").tenacity_n_per_kg_m.value == pytest.approx(tenacity)
    assert rows["strand_strength"].spread.value == pytest.approx(tenacity * 167e-6)
    kept = rows["efficiency"].spread.value
    assert rows["breaking_force"].spread.value == pytest.approx(12 * tenacity * 167e-6 * kept)
    hardest = rows["peak_ratio"].spread.value * 40 * LBF
    assert rows["tension_peak"].spread.value == pytest.approx(hardest)
    assert rows["safety_factor"].spread.value == pytest.approx(12 * tenacity * 167e-6 * kept / hardest)
    bundle = sqrt(4 * 6 * 167e-6 / (pi * density * packing))
    assert rows["bundle_diameter"].spread.value == pytest.approx(bundle)
    assert rows["cord_diameter"].spread.value == pytest.approx(2 * bundle)


@pytest.mark.pinned
@pytest.mark.parametrize(
    ("kind", "size_mm", "printed_lbf", "lb_100ft"),
    [("polypropylene", 6, 1125, 1.2), ("polyester", 6, 1315, 2.0), ("nylon", 6, 1486, 1.6)],
)
def test_the_range_of_a_laid_cord_holds_what_rope_tables_print(
    kind: str, size_mm: int, printed_lbf: float, lb_100ft: float
) -> None:
    """Smallest strengths and weights of 3-strand rope, CI 1301, 1303, 1304, on pages that quote them.

    They lie in our range, whose width is our own, and our middle is up to twice as much: no proof of it.
    """
    strand = CordEstimate(fibre=fibre(kind), laid=True, yarn_kg_m=lb_100ft * 0.45359237 / 30.48)
    found = strand.found()
    assert found["strength"].low < printed_lbf * LBF < found["strength"].high
    assert found["thickness"].low < size_mm * 1e-3 < found["thickness"].high


@pytest.mark.exact
@pytest.mark.parametrize("fibre_id", [each.id for each in fibres()])
@pytest.mark.parametrize("bundles", ["2", "3"])
def test_it_says_what_the_bench_sheet_says(fibre_id: str, bundles: str) -> None:
    asked = {"fibre": fibre_id, "bundles": bundles, "yarn": "250 tex", "draw_weight": "33 lb"}
    here, bench = by_key(told(**asked).rows), by_key(told("string", **asked).rows)
    for key in ("strands", "breaking_force", "tension_peak", "safety_factor", "for_strength", "for_thickness"):
        assert here[key].spread.value == pytest.approx(bench[key].spread.value), key
        assert here[key].spread.low == pytest.approx(bench[key].spread.low), key
    for key in ("bundle_diameter", "cord_diameter"):
        assert here[key].spread.value == pytest.approx(bench[key].spread.value), key


@pytest.mark.practice
def test_counts_of_polyester_come_near_the_trades() -> None:
    """12 to 14 strands for youth bows: the upper half of them, 25 to 45 lb, in yarn of the usual size."""
    known = rule("polyester_strands").figure("youth bows").spread
    assert value("strands", draw_weight="40 lb", yarn="167 tex") == pytest.approx(known.value, abs=2.0)


@pytest.mark.practice
def test_two_hardware_cords_serve_bows_up_to_50_lbf() -> None:
    changed = {"fibre": "polypropylene", "strand_kind": "cord", "yarn": "", "strand_thickness": "1/8 in",
               "rated_load": "450 lb", "rating": "breaking", "draw_weight": "50 lb"}  # fmt: skip
    assert value("strands", **changed) == rule("hardware_cord").figure("strands").spread.value


@pytest.mark.exact
def test_a_cord_keeps_its_round() -> None:
    """Two cords of 3 mm in each bundle: an envelope of two circles is 6 mm, two solid halves sqrt(2) times 3."""
    cord = CordEstimate(fibre=fibre("polyester"), laid=True, yarn_kg_m=4e-3, thickness_m=0.003)
    made = thickness(cord, 4, 2, 0.2)
    assert made.bundle_m.low == pytest.approx(0.003 * sqrt(2.0))
    assert made.bundle_m.high == pytest.approx(0.006)
    assert made.cord_m.high == pytest.approx(0.012)


@pytest.mark.exact
def test_weight_and_thickness_are_two_ways_to_say_one_size() -> None:
    for laid in (False, True):
        heavy = CordEstimate(fibre=fibre("nylon"), laid=laid, yarn_kg_m=1e-3)
        across = heavy.found()["thickness"].value
        again = CordEstimate(fibre=fibre("nylon"), laid=laid, yarn_kg_m=None, thickness_m=across)
        assert again.found()["linear"].value == pytest.approx(1e-3)
        assert again.found()["linear"].low < again.found()["linear"].high


@pytest.mark.exact
def test_what_is_told_of_the_shot_narrows_what_the_string_must_hold() -> None:
    """Limb shape, arrow and a weighed limb, one after the other; a light arrow and a heavy limb pull harder."""

    def ratio(**changed: str) -> Spread:
        return by_key(told(strands="14", **changed).rows)["peak_ratio"].spread

    seen = {"limb_shape": "arc"}
    arrow = seen | {"arrow_mass": "360 gr"}
    limb = arrow | {"limb_mass": "0.16 kg"}
    every = [ratio(limb_shape="unknown"), ratio(**seen), ratio(**arrow), ratio(**limb)]
    widths = [each.high / each.low for each in every]
    assert widths == sorted(widths, reverse=True)
    assert len(set(widths)) == 4
    assert ratio(**seen | {"arrow_mass": "220 gr"}).value > ratio(**arrow).value
    assert ratio(**arrow | {"limb_mass": "0.3 kg"}).value > ratio(**limb).value


@pytest.mark.exact
def test_one_string_is_answered_by_what_it_is_made_of() -> None:
    """The ratio of the sheet is that of a string as stiff and as heavy as its strands make it."""
    facts = ShotFacts(draw_weight_n=40 * LBF, shape="arc", arrow_kg=360 * GRAIN)
    strand, lay_rad = CordEstimate(fibre=fibre("polyester"), laid=False, yarn_kg_m=167e-6), 0.3
    string = WholeString.of(strand, 14, lay_rad)
    assert peak_ratio(facts, strand, 14, lay_rad) == facts.peak_ratio(string.mass_kg, string.stiffness_n)
    assert string.mass_kg.value > 14 * 167e-6 * 1.49
    stiffer = WholeString.of(strand, 28, lay_rad)
    assert stiffer.stiffness_n.value == pytest.approx(2.0 * string.stiffness_n.value)
    assert peak_ratio(facts, strand, 28, lay_rad).value > peak_ratio(facts, strand, 14, lay_rad).value


PULLS = st.floats(10.0, 120.0)
SIZES = st.floats(40.0, 900.0)


@pytest.mark.exact
@settings(derandomize=True, deadline=None, max_examples=60)
@given(pull=PULLS, more=st.floats(1.0, 1.5), tex=SIZES, kind=st.sampled_from([each.id for each in fibres()]))
def test_more_pull_never_takes_fewer_strands_and_more_yarn_never_more(
    pull: float, more: float, tex: float, kind: str
) -> None:
    def strands(force: float, size: float) -> int:
        return choose(CordEstimate(fibre=fibre(kind), laid=False, yarn_kg_m=size * 1e-6), None, 2, force * LBF).strands

    assert strands(pull, tex) <= strands(pull * more, tex)
    assert strands(pull, tex * more) <= strands(pull, tex)


@pytest.mark.exact
@settings(derandomize=True, deadline=None, max_examples=60)
@given(pull=PULLS, tex=SIZES, kind=st.sampled_from([each.id for each in fibres()]), laid=st.booleans())
def test_advice_is_the_fewest_that_do(pull: float, tex: float, kind: str, *, laid: bool) -> None:
    strand = CordEstimate(fibre=fibre(kind), laid=laid, yarn_kg_m=tex * 1e-6)
    made = choose(strand, None, 2, pull * LBF)
    margin, thinnest = practice("working_margin").spread.value, practice("cord_thinnest").spread.value

    def does(strands: int) -> bool:
        held = made.at_count(strands).safety
        least = held.value * (held.low / held.value) ** 1.25  # where a fiftieth lies beyond, not a twentieth
        enough = held.value >= margin * (1.0 - 1e-9) and least >= 1.0 - 1e-9
        return enough and thickness(strand, strands, 2, made.lay_rad).cord_m.value >= thinnest * (1.0 - 1e-12)

    assert does(made.strands)
    assert made.strands == 2 or not does(made.strands - 2)


@pytest.mark.exact
def test_twice_the_strands_hold_twice_as_much() -> None:
    few, many = by_key(told(strands="8").rows), by_key(told(strands="16").rows)
    for key in ("breaking_force", "times"):
        assert many[key].spread.value == pytest.approx(2.0 * few[key].spread.value)
    gained = many["safety_factor"].spread.value / few["safety_factor"].spread.value
    assert 1.5 < gained < 2.0, "a stiffer, heavier string is pulled harder"
    assert many["cord_diameter"].spread.value == pytest.approx(sqrt(2.0) * few["cord_diameter"].spread.value)


@pytest.mark.exact
def test_a_label_raises_an_answer_only_where_it_says_what_breaks_a_known_fibre() -> None:
    def holds(**label: str) -> Spread:
        cord = {"strand_kind": "cord", "yarn": "3000 tex", "fibre": "polypropylene"} | label
        return by_key(told(**cord).rows)["strand_strength"].spread

    bare = holds()
    for kind in ("unknown", "working"):
        assert holds(rated_load="4500 lb", rating=kind) == bare
        assert holds(rated_load="9000 lb", rating=kind, fibre="unknown") == holds(fibre="unknown")
    assert holds(rated_load="60 lb", rating="unknown").value == pytest.approx(60 * LBF)
    assert holds(rated_load="20 lb", rating="working").value == pytest.approx(8 * 20 * LBF)
    said = holds(rated_load="300 lb", rating="breaking")
    assert said.value == pytest.approx(300 * LBF)
    assert said.value > bare.value
    assert holds(rated_load="4500 lb", rating="breaking").high == pytest.approx(bare.high)
    nameless, named = holds(fibre="unknown"), holds(rated_load="300 lb", rating="breaking", fibre="unknown")
    assert (named.low, named.value) == (nameless.low, nameless.value)
    assert named.high < nameless.high


@pytest.mark.exact
def test_units_and_hand_change_no_number() -> None:
    rows = told().rows
    metric = ask(SHEET, usual(SHEET), "metric")
    assert isinstance(metric, Answer)
    assert metric.rows == rows
    assert told(hand="S").rows == rows


@pytest.mark.exact
def test_cautions_come_where_they_apply() -> None:
    assert "Not on this bow" not in said()
    for kind in ("hmpe", "lcp", "aramid", "aramid-high-modulus"):
        assert "Not on this bow" in said(fibre=kind)
        assert "Not on this bow" not in said(fibre=kind, bow_kind="low_stretch")
        assert "hardly stretches" in said(fibre=kind, bow_kind="low_stretch")
    assert "Plastic pipe" in said(bow_kind="pipe")
    assert "adult" in said(bow_kind="youth")
    assert "Too weak" in said(strands="4")
    assert "At the low end" in said(strands="10")
    assert "low end" not in said()
    assert "lift" in said(rated_load="100 lb")
    assert "promises more" in said(rated_load="100 lb", rating="breaking")
    assert "promises more" not in said(rated_load="30 lb")
    assert "less than 5 grains" in said(arrow_mass="190 gr")
    assert "less than 8 grains" in said(arrow_mass="210 gr")
    assert "grains" not in said(arrow_mass="330 gr")
    assert "more than most nocks" in said(strand_kind="cord", yarn="3000 tex")


@pytest.mark.exact
def test_rules_are_told_where_they_speak_of_this_cord() -> None:
    def rules(**changed: str) -> list[tuple[str, ...]]:
        return [each[:3] for each in told(**changed).tables("inch")[0].cells]

    assert len(rules()) == 3
    assert len(rules(fibre="nylon")) == 2
    assert any("thread" in each[0] for each in rules(fibre="linen"))
    polypropylene = rules(fibre="polypropylene", strand_kind="cord", yarn="3000 tex")
    assert [each[1] for each in polypropylene[-2:]] == ["2 strands", "no count"]
    four = next(each for each in rules() if "4 times" in each[0])
    assert four[1] == "8 strands"  # 5.5 x 40 lb / 30.03 lb = 7.3


@pytest.mark.transcribed
def test_popes_rule_counts_popes_threads() -> None:
    """S. Pope, Hunting with the Bow and Arrow (1923): threads of 6 lb, one for each pound; 50 of them hold 300 lb."""
    answer = told(fibre="linen", yarn="160 tex", rated_load="6 lb", rating="breaking", draw_weight="50 lb")
    lines = answer.tables("inch")[0].cells
    assert next(each[1] for each in lines if "6 lb" in each[0]) == "50 strands"
    fifty = told(
        fibre="linen", yarn="160 tex", rated_load="6 lb", rating="breaking", draw_weight="50 lb", strands="50"
    )  # fmt: skip
    assert by_key(fifty.rows)["times"].spread.value * 50 == pytest.approx(300)


@pytest.mark.exact
def test_the_roll_up_rule_by_hand() -> None:
    """Strands of 0.469 mm: (3.175 / 0.469)^2 is 45.8."""
    lines = told().tables("inch")[0].cells
    assert next(each[1] for each in lines if "roll together" in each[0]) == "46 strands"


@pytest.mark.exact
def test_a_bundle_too_full_to_draw_keeps_its_chart() -> None:
    assert [each.key for each in told().figures("inch")] == ["section", "safety", "speed"]
    many = told(yarn="10 tex", fibre="cotton").figures("inch")
    assert [each.key for each in many] == ["safety", "speed"]


@pytest.mark.exact
def test_heavy_limbs_of_pipe_pull_harder_and_want_more_strands() -> None:
    """A limb of pipe weighs two to four times what wood of its strength does, and goes on when the arrow has gone."""
    asked = {"draw_weight": "25 lb", "yarn": "167 tex"}
    assert value("strands", bow_kind="pipe", **asked) >= value("strands", **asked)
    assert value("tension_peak", bow_kind="pipe", **asked) > value("tension_peak", **asked)


SAME = {
    "draw_weight": "25 lb", "yarn": "167 tex", "nock_to_nock": "50 in", "handle_length": "6 in",
    "tip_upper": "pipe 1/2", "pipe_wall": "80", "bow_kind": "youth", "broken_load": "26 lb",
}  # fmt: skip
"""Told alike to the strand sheet and the bench sheet."""


@pytest.mark.exact
@pytest.mark.parametrize("less", [(), ("tip_upper", "pipe_wall"), ("broken_load",), ("pipe_wall", "handle_length")])
def test_the_bench_sheet_says_the_same_of_what_both_are_told(less: tuple[str, ...]) -> None:
    asked = {key: "" if key == "handle_length" and key in less else each for key, each in SAME.items()}
    asked = {key: each for key, each in asked.items() if key not in less or not each}
    bench = by_key(told("string", draw_length="20 in", brace_height="5 in", **asked).rows)
    strands = by_key(told("strands", **asked).rows)
    for key in ("strands", "strand_strength", "tension_peak", "safety_factor"):
        for end in ("low", "value", "high"):
            assert getattr(bench[key].spread, end) == pytest.approx(getattr(strands[key].spread, end)), key


@pytest.mark.exact
def test_a_pipe_of_which_size_and_wall_are_told_is_weighed_by_them() -> None:
    """Density of PVC x ring x length: schedule 80 has a ring of 0.320 sq in where 40 has 0.250 (1/2 in pipe)."""
    asked = {key: each for key, each in SAME.items() if key != "broken_load"}
    thin, thick = (value("tension_peak", **{**asked, "pipe_wall": each}) for each in ("40", "80"))
    assert 1.0 < thick / thin < (0.320 / 0.250) ** 0.5


@pytest.mark.exact
def test_the_page_on_ranges_adds_up_to_what_the_sheet_tells() -> None:
    """Logarithms of its table as the sides of a right angle, about the likeliest pull; and the range it quotes."""
    page = (Path(__file__).resolve().parents[3] / "docs/reference/ranges.md").read_text(encoding="utf-8")
    rows = re.findall(r"^\|.*\| ÷ ([\d.]+) \| (?:× ([\d.]+)|none) \|$", page, re.MULTILINE)
    assert len(rows) == 7
    below, above = (hypot(*(log(float(each or 1.0)) for each in side)) for side in zip(*rows, strict=True))
    found = by_key(told("strands", arrow_mass="360 gr").rows)
    pull, weight = found["tension_peak"].spread, found["draw_weight"].spread.value
    assert log(pull.value / pull.low) == pytest.approx(below, rel=0.03)
    assert log(pull.high / pull.value) == pytest.approx(above, rel=0.03)
    assert f"{pull.low / weight:.1f} to {pull.high / weight:.1f} draw weights" in page
