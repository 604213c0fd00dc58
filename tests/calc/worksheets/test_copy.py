"""A copy of a string: a string whose cut is known is hung and measured, and its cut comes back."""

from __future__ import annotations

from math import acos, pi, sqrt

import pytest

from calc.data import practice
from calc.geometry.lay import lay
from calc.making.string import plied
from tests.calc.worksheets.typed_sheet import TypedSheet

pytestmark = pytest.mark.exact
TYPED = TypedSheet("copy")
answered, numbers = TYPED.answer, TYPED.spreads
INCH = 0.0254


def throat_over_a_peg(peg_m: float, cord_m: float, round_m: float) -> float:
    """Return how far a loop's throat is from the top of its peg: two tangents and an arc, closed by halving."""
    radius = peg_m / 2.0 + cord_m / 2.0
    low, high = radius + cord_m / 2.0, round_m
    for _ in range(80):
        far = (low + high) / 2.0
        half = acos((radius - cord_m / 2.0) / far) if far > radius else 0.0
        legs = 2.0 * sqrt(max(0.0, far**2 - (radius - cord_m / 2.0) ** 2))
        low, high = (far, high) if legs + 2.0 * radius * (pi - half) < round_m else (low, far)
    return far + peg_m / 2.0


def test_a_string_made_forwards_comes_back() -> None:
    """Flat bundle marked off, plied, bedded in, hung over nails under next to nothing, and measured."""
    thick_m, tail_m, loops_m, body_m = 1.24e-3, 8 * INCH, (4 * INCH, 2.6 * INCH), 62 * INCH
    hand = {name: practice(name).spread.value for name in ("lay_loop", "lay_splice", "twist_held", "bedding")}
    shape = lay(thick_m, 2, 0.2)
    rounds = [plied(each, thick_m, 2, hand["lay_loop"], hand["twist_held"]).cord_m for each in loops_m]
    splice = plied(tail_m, thick_m * sqrt(2.0), 2, hand["lay_splice"], hand["twist_held"])
    body = plied(body_m - 2.0 * tail_m, thick_m, 2, 0.2)
    throats_m = (body.cord_m + 2.0 * splice.cord_m) * (1.0 + hand["bedding"])
    cord_m, peg_m = shape.cord_diameter_m, 0.25 * INCH
    hung_m = throats_m + sum(throat_over_a_peg(peg_m, cord_m, each) for each in rounds)
    insides = [(each - pi * cord_m / 2.0) / 2.0 for each in rounds]
    found = numbers(
        cord_diameter=f"{cord_m} m", hung_length=f"{hung_m} m", hanging_weight="1 lb", peg_diameter=f"{peg_m} m",
        loop_inside_upper=f"{insides[0]} m", loop_inside_lower=f"{insides[1]} m", strands="14", tail_length="8 in",
        turns_counted=f"{1.0 / shape.pitch_m}", turns_over="1 m", strand_step="0 in",
    )  # fmt: skip
    assert found["loop_upper"].value == pytest.approx(loops_m[0], rel=1e-5)
    assert found["loop_lower"].value == pytest.approx(loops_m[1], rel=1e-5)
    assert found["body_raw"].value == pytest.approx(body_m, abs=6e-4)
    assert found["cut_length"].value == pytest.approx(sum(loops_m) + body_m + 2.0 * tail_m, abs=6e-4)
    assert found["turns_body"].value == pytest.approx(body.turns, rel=1e-3)


def test_a_longer_string_is_cut_longer_by_what_twisting_takes() -> None:
    one, two = numbers(), numbers(hung_length="65 7/8 in")
    more = two["cut_length"].value - one["cut_length"].value
    assert more == pytest.approx(
        INCH / (1.0 + one["strain"].value) / 1.01 / (1.0 - one["take_up_body"].value), rel=1e-6
    )


def test_a_heavier_weight_on_the_same_length_is_a_shorter_string() -> None:
    light, heavy = numbers(hanging_weight="20 lb"), numbers(hanging_weight="50 lb")
    assert heavy["cut_length"].value < light["cut_length"].value


def test_a_marked_bow_takes_a_string_three_inches_shorter_under_the_standards_weight() -> None:
    """Bow and string standard FP-3: a bow marked 66 takes 63, over pins of 1/4 in under 100 lb."""
    label = numbers(copied_from="bow_label", hung_length="66 in")
    nails = numbers(hung_length="63 in", hanging_weight="100 lb", peg_diameter="1/4 in")
    tag = numbers(copied_from="string_tag", hung_length="63 in")
    for key in ("cut_length", "turns_body", "fresh_hung"):
        assert label[key].value == pytest.approx(nails[key].value)
        assert tag[key].value == pytest.approx(nails[key].value)
    assert any(
        "A label speaks" in each.text for each in answered(copied_from="bow_label", hung_length="66 in").cautions
    )


def test_the_count_of_turns_is_that_of_the_old_body() -> None:
    found = numbers(turns_counted="10", turns_over="10 in")
    assert found["turns_body"].value == pytest.approx(found["middle_cord"].value / INCH, rel=1e-6)


def test_what_an_old_string_and_a_weight_can_do_is_said() -> None:
    said = " ".join(each.text for each in answered().cautions)
    for words in ("Hanging weights fall", "may break under the weight", "tells what fits, not what holds"):
        assert words in said
    assert "more weight than anybody" in " ".join(each.text for each in answered(hanging_weight="150 lb").cautions)
