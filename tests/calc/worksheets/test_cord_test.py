"""The cord test: ropes of printed tables go in without their names, and come out with them."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.data import fibre, fibres
from calc.making.strands import UnknownCord, examine_cord
from calc.mechanics.estimate import CordEstimate
from calc.units import POUND_FORCE
from calc.worksheets import catalogue
from calc.worksheets.core import Answer, Complaint, ask, by_key, usual
from tests.calc.worksheets.typed_sheet import TypedSheet

SHEET = catalogue()["cord-test"]
TYPED = TypedSheet("cord-test")
told = TYPED.answer
FLOATING = {"polypropylene", "polypropylene-monofilament", "hmpe"}


def complained(**changed: str) -> Complaint:
    answer = ask(SHEET, usual(SHEET, changed), "inch")
    assert not isinstance(answer, Answer)
    return answer[0]


def fitting(**changed: object) -> set[str]:
    asked: dict[str, object] = {
        "mass_kg": 0.022, "length_m": 6.0, "floats": None, "roll_m": None, "wraps": 20, "held_n": None, "rated_n": None,
        "rating": "unknown",
    }  # fmt: skip
    made = examine_cord(UnknownCord(**{**asked, **changed}), 178.0, 2)  # type: ignore[arg-type]
    return {each.fibre.id for each in made.matches if not each.against}


@pytest.mark.pinned
@pytest.mark.parametrize("size_mm", [6, 8, 10])
@pytest.mark.parametrize(
    ("name", "floats", "strengths_lbf", "weights"),
    [
        ("polypropylene", True, (1125, 1710, 2430), (1.2, 1.8, 2.8)),
        ("polyester", False, (1315, 2050, 2900), (2.0, 3.1, 4.4)),
        ("nylon", False, (1486, 2295, 3240), (1.6, 2.5, 3.6)),
    ],
)
def test_a_printed_rope_is_known_by_its_weight_its_floating_and_its_roll_up(
    name: str, size_mm: int, *, floats: bool, strengths_lbf: tuple[int, ...], weights: tuple[float, ...]
) -> None:
    """3-strand rope of CI 1301, 1303 and 1304, as pages print it: lbf, lb for 100 ft, 100 ft weighed.

    How far a measure may be off and a fibre still fit is our own choice, so this notices a change and proves nothing.
    """
    at = (6, 8, 10).index(size_mm)
    held_n = strengths_lbf[at] * POUND_FORCE
    strand = CordEstimate(fibre=fibre(name), laid=True, yarn_kg_m=weights[at] * 0.45359237 / 30.48)
    holds = strand.found()["strength"]
    assert holds.low <= held_n <= holds.high
    found = fitting(
        mass_kg=weights[at] * 0.45359237, length_m=30.48, floats=floats, roll_m=20 * size_mm * 1e-3,
    )  # fmt: skip
    assert name in found
    assert found <= FLOATING if floats else not found & FLOATING


@pytest.mark.exact
def test_water_parts_the_fibres_lighter_than_it() -> None:
    """Fresh water is 0.998 g/cm3 at 20 C; only these three of the table are lighter."""
    assert fitting(floats=True) == FLOATING
    assert fitting(floats=False) == {each.id for each in fibres()} - FLOATING - {"sinew"}
    assert fitting(floats=None) == fitting(floats=True) | fitting(floats=False)


@pytest.mark.exact
def test_by_hand() -> None:
    """22 g in 20 ft is 3609 tex; polypropylene of 0.6 N/tex in cord that keeps half of it holds 1083 N."""
    rows = by_key(told().rows)
    line = 0.022 / (20 * 0.3048)
    assert rows["yarn"].spread.value == pytest.approx(line)
    assert rows["yarn"].spread.high == pytest.approx(line * 22.5 / 22.0, rel=1e-3)
    assert rows["yarn"].spread.low == pytest.approx(line * 21.5 / 22.0, rel=1e-3)
    assert rows["roll_thickness"].spread.value == pytest.approx(2.25 * 0.0254 / 20)
    weakest = fibre("polypropylene").tenacity_n_per_kg_m.value
    assert rows["cord_strength"].spread.value == pytest.approx(line * weakest * 0.5)
    force = rows["cord_strength"].spread.value * rows["efficiency"].spread.value * rows["strands"].spread.value
    assert rows["safety_factor"].spread.value == pytest.approx(
        force / (rows["peak_ratio"].spread.value * 40 * POUND_FORCE)
    )


@pytest.mark.exact
def test_what_it_carried_is_the_least_it_holds() -> None:
    spread = by_key(told(held_load="300 lb").rows)["cord_strength"].spread
    assert spread.low == pytest.approx(300 * POUND_FORCE)
    assert spread.value >= spread.low


@pytest.mark.exact
def test_a_scale_that_may_be_off_rules_nothing_out() -> None:
    """Two grams may be 1.5 or 2.5: more fibres fit than of two hundred grams of the same cord."""
    roll = {"roll_m": 0.2, "wraps": 200}
    short, long = fitting(mass_kg=0.002, length_m=6.0, **roll), fitting(mass_kg=0.2, length_m=600.0, **roll)
    assert long < short


LAWS = settings(derandomize=True, deadline=None, max_examples=60)
TEX = st.floats(100.0, 20_000.0)
KINDS = st.sampled_from([each.id for each in fibres() if each.id != "sinew"])


@pytest.mark.exact
@LAWS
@given(tex=TEX, kind=KINDS, share=st.floats(0.36, 0.79), keeps=st.floats(0.25, 0.79))
def test_a_cord_of_the_table_is_always_found_among_those_that_fit(
    tex: float, kind: str, share: float, keeps: float
) -> None:
    """Made of a known fibre, filled and kept as cords are: none of its tests may speak against it."""
    known, line = fibre(kind), tex * 1e-6
    across = (4.0 * line / (3.141592653589793 * known.density_kg_m3.value * share)) ** 0.5
    holds = line * known.thread_n_per_kg_m.value * keeps
    found = fitting(
        mass_kg=line * 100.0, length_m=100.0, floats=kind in FLOATING, roll_m=20 * across, held_n=0.9 * holds,
        rated_n=holds, rating="breaking",
    )  # fmt: skip
    assert kind in found


@pytest.mark.exact
@LAWS
@given(
    tex=TEX, floats=st.sampled_from([None, True, False]), held=st.floats(1.0, 5000.0), across=st.floats(0.0005, 0.01)
)
def test_one_test_more_never_lets_in_a_fibre(tex: float, held: float, across: float, *, floats: bool | None) -> None:
    asked: dict[str, object] = {"mass_kg": tex * 1e-4, "length_m": 100.0}
    more: tuple[dict[str, object], ...] = (
        {"floats": floats}, {"held_n": held}, {"roll_m": 20 * across}, {"rated_n": held, "rating": "breaking"}
    )  # fmt: skip
    before = fitting(**asked)
    for each in more:
        asked |= each
        after = fitting(**asked)
        assert after <= before
        before = after


@pytest.mark.exact
@pytest.mark.parametrize("rating", ["unknown", "breaking", "working"])
@pytest.mark.parametrize("load", ["6 lb", "60 lb", "400 lb", "4000 lb"])
def test_a_label_lowers_trust_and_strength_and_never_raises_them(load: str, rating: str) -> None:
    """A floating cord of 14 g in 20 ft, labelled 60 lb to work with, was named HMPE and given 599 lb."""
    bare, labelled = told(weighed_mass="14 g"), told(weighed_mass="14 g", rated_load=load, rating=rating)
    rows, with_label = by_key(bare.rows), by_key(labelled.rows)
    assert with_label["fits"].spread == rows["fits"].spread
    for end in ("low", "value", "high"):
        for key in ("cord_strength", "safety_factor"):
            if key == "safety_factor" and with_label["strands"].spread.value != rows["strands"].spread.value:
                continue
            assert getattr(with_label[key].spread, end) <= getattr(rows[key].spread, end) * (1.0 + 1e-9)
    assert with_label["strands"].spread.value >= rows["strands"].spread.value
    assert [each.text for each in labelled.headlines if each.lead == "It may be"] == [
        each.text for each in bare.headlines if each.lead == "It may be"
    ]


@pytest.mark.exact
def test_a_label_no_fibre_can_keep_makes_the_cord_doubtful() -> None:
    answer = told(rated_load="4000 lb", rating="breaking")
    assert next(each.text for each in answer.headlines if each.lead == "Trust it").startswith("little: its label")
    assert "not of this cord" in answer.cautions[0].text


@pytest.mark.exact
def test_what_fits_nothing_makes_no_string() -> None:
    answer = told(held_load="5000 lb")
    rows = by_key(answer.rows)
    assert rows["strands"].spread.value == rows["fits"].spread.value == 0
    assert "none of it" in answer.headlines[-1].text
    assert answer.figures("inch") == ()
    assert {line[1] for line in answer.tables("inch")[0].cells} == {"no"}


@pytest.mark.exact
def test_the_next_test_is_the_one_that_parts_what_fits() -> None:
    def trust(**changed: str) -> str:
        return next(each.text for each in told(**changed).headlines if each.lead == "Trust it")

    assert "whether it floats" in trust(in_water="untried")
    assert "Roll it up" in trust(roll_width="")
    assert "Hang a weight" in trust()
    assert trust(held_load="600 lb").startswith("as far as these tests go")
    assert trust(held_load="5000 lb").startswith("no:")


@pytest.mark.exact
def test_units_and_hand_change_no_number() -> None:
    metric = ask(SHEET, usual(SHEET), "metric")
    assert isinstance(metric, Answer)
    assert metric.rows == told().rows == told(hand="S").rows


@pytest.mark.exact
@pytest.mark.parametrize(
    ("changed", "field", "text"),
    [
        ({"weighed_mass": "0.2 g"}, "weighed_mass", "Its weight must be 1 g or more"),
        ({"weighed_length": "400 m", "weighed_mass": "2 g", "roll_width": "", "draw_weight": "200 lb"},
         "weighed_mass", "It would take thousands of cords like this"),
        ({"in_water": "swims"}, "in_water", "In water it must be one of floats, sinks, untried"),
        ({"roll_turns": "0"}, "roll_turns", "Turns in the roll-up must be 1 or more"),
    ],
)  # fmt: skip
def test_sentences(changed: dict[str, str], field: str, text: str) -> None:
    said = complained(**changed)
    assert said.field == field
    assert set(said.others) <= {each.key for each in SHEET.fields}
    assert said.text.startswith(text)


@pytest.mark.exact
def test_cautions_name_what_it_may_be() -> None:
    def said(**changed: str) -> str:
        return " ".join(each.text for each in told(**changed).cautions)

    assert "If it is one of those that fit: this fibre hardly stretches" in said()
    assert "This fibre hardly stretches" in said(held_load="600 lb")
    assert "flies back" in said(held_load="5000 lb")
    assert "is no test" in said(rated_load="100 lb")
    assert "weakest fibre that fits" in said(rated_load="900 lb", rating="breaking")


@pytest.mark.exact
def test_what_a_kitchen_scale_gives_is_grams() -> None:
    """A bare 22 was taken for 22 grains on a page in inches, so light that no fibre fitted; 13 was refused."""
    sheet = catalogue()["cord-test"]

    def density(text: str) -> float:
        told = ask(sheet, usual(sheet, {"weighed_mass": text}), "inch")
        assert isinstance(told, Answer), told
        return by_key(told.rows)["yarn"].spread.value

    assert density("22") == density("22 g")
    assert density("13") == density("13 g") == density("13 gr")
    asked = ask(sheet, usual(sheet, {"weighed_mass": "22 gr"}), "inch")
    assert not isinstance(asked, Answer)
    assert "22 grains or as 22 g" in asked[0].text
