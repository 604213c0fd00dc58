"""The twist worksheet: helix triangles, the jam as published, laws of twisting, and its sentences."""

from __future__ import annotations

from math import acos, atan, cos, degrees, pi, sqrt, tan

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from calc.data import rule
from calc.worksheets import catalogue
from calc.worksheets.core import Answer, ask, usual
from tests.calc.worksheets.typed_sheet import TypedSheet

SHEET = catalogue()["twist"]
TYPED = TypedSheet("twist", "metric")
answer, numbers, values, complaint = TYPED.answer, TYPED.spreads, TYPED.values, TYPED.complaint
INCH = 0.0254


@pytest.mark.exact
def test_legs_4_and_3_give_the_3_4_5_triangle() -> None:
    """Two bundles of 2 mm: so many turns that the way round is three quarters of the way along."""
    turns = 0.75 / (pi * 0.002)
    made = values(bundle_diameter="2 mm", cord_length="1 m", turns=f"{turns:.9f}")
    assert made["take_up"] == pytest.approx(0.2, rel=1e-6)
    assert made["bundle_length"] == pytest.approx(1.25, rel=1e-6)
    assert made["lay_angle"] == pytest.approx(atan(0.75), rel=1e-6)
    assert made["cord_diameter"] == pytest.approx(0.004, rel=1e-9)


HELICES = [(2.0, 20, 7.162, 0.780), (2.0, 50, 17.441, 4.597), (2.0, 80, 26.687, 10.652),
           (1.5, 60, 15.788, 3.772), (1.5, 100, 25.232, 9.541)]  # fmt: skip
"""Bundle [mm], turns in a metre of cord, lay angle [deg], take-up [%]: an unrolled cylinder, worked by hand."""


@pytest.mark.exact
@pytest.mark.parametrize(("bundle", "turns", "angle", "taken"), HELICES)
def test_helices_worked_by_hand(bundle: float, turns: int, angle: float, taken: float) -> None:
    made = values(bundle_diameter=f"{bundle} mm", cord_length="1 m", turns=str(turns))
    assert degrees(made["lay_angle"]) == pytest.approx(angle, abs=0.0006)
    assert 100 * made["take_up"] == pytest.approx(taken, abs=0.0006)
    assert made["bundle_length"] == pytest.approx(1 / cos(atan(pi * bundle / 1000 * turns)), rel=1e-9)


@pytest.mark.parametrize(
    ("bundles", "pitch"),
    [
        pytest.param("2", 39.4, marks=pytest.mark.published),
        pytest.param("3", 42.8, marks=pytest.mark.recalled),
    ],
)
def test_the_jam_is_where_olsen_and_bohr_have_it(bundles: str, pitch: float) -> None:
    """Pitch angles of maximally rotated ropes, in degrees: Olsen and Bohr 2011, and Bohr and Olsen 2011 from memory."""
    assert 90 - degrees(values(bundles=bundles)["jam_lay"]) == pytest.approx(pitch, abs=0.05)


@pytest.mark.published
def test_a_triple_rope_at_the_jam_has_68_per_cent_of_its_strands_length() -> None:
    """Bohr and Olsen 2011: a three-strand rope laid to the most turns is 68 % as long as its strands."""
    made = values(bundles="3", lay_wanted=f"{degrees(values(bundles='3')['jam_lay']) - 1e-7:.9f}")
    assert 1 - made["take_up"] == pytest.approx(0.68, abs=0.005)
    assert made["turns"] == pytest.approx(made["jam_turns"], rel=1e-6)


@pytest.mark.exact
def test_turns_up_to_the_jam_are_answered_and_one_more_is_refused() -> None:
    """0.37082 turns x bundle diameter over the cord's length is the most for two bundles (closed form)."""
    most = 0.37082 * 1.0 / 0.002
    near = values(bundle_diameter="2 mm", cord_length="1 m", turns=f"{most - 0.1:.4f}")
    assert near["turns_left"] == pytest.approx(0.0, abs=0.1)
    where, said = complaint(bundle_diameter="2 mm", cord_length="1 m", turns=f"{most + 0.1:.4f}")
    assert where == "turns"
    assert said.startswith("No more than 185 fit")


@pytest.mark.exact
def test_the_flat_bundle_is_longer_by_what_its_own_twist_takes() -> None:
    """Hearle's ideal yarn: a bundle whose fibres lie at an angle is shorter by tan^2 of half of it."""
    made = values(bundle_diameter="2 mm", cord_length="1 m", turns="50")
    left = made["counter_twist"] - 50 * cos(made["lay_angle"])
    angle = atan(pi * 0.002 * left / made["bundle_length"])
    assert made["bundle_flat"] == pytest.approx(made["bundle_length"] / (1 - tan(angle / 2) ** 2), rel=1e-9)
    assert made["bundle_flat"] > made["bundle_length"]


@pytest.mark.practice
def test_the_trades_one_turn_in_an_inch_to_an_inch_and_a_half_lies_in_the_window() -> None:
    """Common practice, no published source; our own middle is tighter: 11/16 in on a string of 0.09 in."""
    said = rule("lay_at_rest").figure("one turn in, two-bundle").spread
    made = values()
    loose, tight = 46 * INCH / made["turns_loose"], 46 * INCH / made["turns_tight"]
    assert tight < said.low < said.high < loose
    assert made["pitch"] < said.low


SIZES = st.floats(0.5, 5.0)


@pytest.mark.exact
@settings(derandomize=True, deadline=None, max_examples=60)
@given(size=SIZES, turns=st.floats(2.0, 120.0), more=st.floats(1.0, 40.0), bundles=st.sampled_from("23"))
def test_more_turns_take_up_more_and_bring_the_jam_nearer(size: float, turns: float, more: float, bundles: str) -> None:
    assume((turns + more) * size < 0.23 * 2000)
    typed = {"bundle_diameter": f"{size:.6f} mm", "cord_length": "2 m", "bundles": bundles}
    few, many = (values(**typed, turns=f"{each:.6f}") for each in (turns, turns + more))
    for key in ("take_up", "lay_angle", "bundle_length", "bundle_flat", "counter_twist"):
        assert few[key] < many[key], key
    assert few["turns_left"] > many["turns_left"]


@pytest.mark.exact
@settings(derandomize=True, deadline=None, max_examples=40)
@given(size=SIZES, angle=st.floats(1.0, 40.0), scale=st.floats(0.5, 2.0), bundles=st.sampled_from("23"))
def test_a_cord_twice_as_large_in_all_has_as_many_turns(size: float, angle: float, scale: float, bundles: str) -> None:
    def made(k: float) -> dict[str, float]:
        return values(bundle_diameter=f"{size * k:.9f} mm", cord_length=f"{1000 * k:.9f} mm",
                      lay_wanted=f"{angle:.6f}", bundles=bundles)  # fmt: skip

    one, other = made(1.0), made(scale)
    assert other["turns"] == pytest.approx(one["turns"], rel=1e-6)
    assert other["bundle_flat"] == pytest.approx(scale * one["bundle_flat"], rel=1e-6)
    assert other["jam_turns"] == pytest.approx(one["jam_turns"], rel=1e-6)


@pytest.mark.exact
def test_a_lay_wanted_and_its_turns_are_one_answer() -> None:
    by_lay = values(lay_wanted="18°", bundles="3")
    by_turns = values(turns=f"{by_lay['turns']:.12f}", bundles="3")
    assert by_turns == pytest.approx(by_lay, rel=1e-9)


@pytest.mark.exact
def test_left_open_it_takes_the_lay_half_way_in_take_up() -> None:
    made = values()
    assert cos(made["lay_angle"]) == pytest.approx((cos(made["lay_loosest"]) + cos(made["lay_tightest"])) / 2)
    assert made["lay_angle"] == pytest.approx(acos((cos(0.07) + cos(0.28)) / 2))


@pytest.mark.exact
def test_a_bundle_read_a_twentieth_out_widens_the_lay_but_not_the_count() -> None:
    made = numbers(bundle_diameter="2 mm", cord_length="1 m", turns="50")
    assert made["turns"].low == made["turns"].high == 50
    assert made["lay_angle"].high == pytest.approx(atan(pi * 0.0021 * 50), rel=1e-9)
    assert made["lay_angle"].low == pytest.approx(atan(pi * 0.0019 * 50), rel=1e-9)


@pytest.mark.exact
def test_units_and_hand_change_no_number() -> None:
    typed = usual(SHEET, {"turns": "75"})
    found = [ask(SHEET, typed | {"hand": hand}, system) for hand in "SZ" for system in ("inch", "metric")]
    assert all(
        isinstance(each, Answer) and each.rows == found[0].rows for each in found if isinstance(found[0], Answer)
    )
    assert isinstance(found[0], Answer)
    leads = [each.headlines[1].lead for each in found if isinstance(each, Answer)]
    assert leads == ["Turn, S lay"] * 2 + ["Turn, Z lay"] * 2


VERDICTS = [({"turns": "8"}, "Too loose"), ({}, "A good lay"), ({"turns": "120"}, "As hard as loops"),
            ({"turns": "180"}, "Harder than loops"), ({"turns": "340"}, "Close to the jam")]  # fmt: skip


@pytest.mark.exact
@pytest.mark.parametrize(("typed", "begins"), VERDICTS)
def test_the_verdict_follows_the_lay(typed: dict[str, str], begins: str) -> None:
    assert answer(**typed).cautions[0].text.startswith(begins)


SENTENCES = [
    ({"turns": "70", "lay_wanted": "12"}, "turns", "Give the turns or the lay angle, not both"),
    ({"lay_wanted": "51°"}, "lay_wanted", "The lay angle must be 50.6° or less"),
    ({"lay_wanted": "3 mm"}, "lay_wanted", "Lay angle wanted must be an angle, in degrees"),
    ({"turns": "0"}, "turns", "Turns must be 0.5 or more"),
    ({"turns": "many"}, "turns", "Turns must be a number"),
    ({"bundles": "4"}, "bundles", "Bundles must be one of 2, 3"),
]  # fmt: skip


@pytest.mark.exact
@pytest.mark.parametrize(("typed", "field", "begins"), SENTENCES)
def test_sentences(typed: dict[str, str], field: str, begins: str) -> None:
    assert complaint(**typed)[0] == field
    assert complaint(**typed)[1].startswith(begins)


@pytest.mark.exact
def test_loop_and_splice_turns_are_those_of_their_own_lay() -> None:
    """A splice's bundles are doubled: root two thicker, so root two fewer turns at one lay and length."""
    made = values()
    radius = made["bundle_diameter"] / 2
    per_m = tan(made["loop_lay"]) / (2 * pi * radius)
    assert made["turns_loop"] == pytest.approx(made["loop_length"] * per_m, rel=1e-6)
    doubled = tan(made["splice_lay"]) / (2 * pi * radius * sqrt(2))
    assert made["turns_splice"] < made["tail"] * doubled
    assert made["turns_splice"] > 0.9 * made["tail"] * doubled
