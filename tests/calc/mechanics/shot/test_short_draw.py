"""A bow drawn hardly past its brace, off a string that stretches: energy is stored, or the bow is refused by name."""

from __future__ import annotations

from random import Random

import pytest

from calc.errors import DomainError
from calc.mechanics.bow import SHAPES, Bow, limb
from calc.mechanics.shot import ShotString
from calc.mechanics.shot.full_draw import FullDrawState, full_draw_state
from calc.units import INCH, POUND_FORCE
from calc.worksheets import catalogue
from calc.worksheets.core import Answer, ask, usual

pytestmark = pytest.mark.exact
SHEET = catalogue()["shot"]


def ready_for(bow: Bow, brace_m: float, draw_m: float, force_n: float, stiffness_n: float) -> FullDrawState:
    return full_draw_state(bow, brace_m, draw_m, force_n, string=ShotString(stiffness_n, 0.007), limb_mass_kg=0.2)


def test_the_bow_that_ended_in_an_error_of_the_square_root() -> None:
    """100 in, hinged, 40 lb drawn to 8 in from 3.96 in: on a string of polyester the sums would stretch it by half."""
    short = {"nock_to_nock": "100 in", "limb_shape": "hinged", "draw_length": "8 in", "brace_height": "3.96 in"}
    told = ask(SHEET, usual(SHEET, short), "inch")
    assert not isinstance(told, Answer)
    assert "stretches by more than 15 in 100" in told[0].text
    lighter = ask(SHEET, usual(SHEET, short | {"draw_weight": "10 lb", "strands": "12"}), "inch")
    assert isinstance(lighter, Answer)
    assert next(row.spread for row in lighter.rows if row.key == "stored_energy").low > 0.0


def test_seeded_short_draws_on_the_sheet_are_answered_or_refused_in_words() -> None:
    seeded = Random(707)  # noqa: S311 - not for secrets
    answered = 0
    for _ in range(60):
        bow_in = seeded.uniform(30, 100)
        brace_in = seeded.uniform(2, min(16, bow_in / 5))
        changed = {
            "nock_to_nock": f"{bow_in:.2f} in", "brace_height": f"{brace_in:.2f} in",
            "draw_length": f"{max(8.0, brace_in + seeded.uniform(4, 8)):.2f} in",
            "draw_weight": f"{seeded.uniform(5, 120):.1f} lbf",
            "limb_shape": seeded.choice(["arc", "hinged", "tapered", "uniform", "unknown"]),
        }  # fmt: skip
        told = ask(SHEET, usual(SHEET, changed), "inch")
        if isinstance(told, Answer):
            found = {row.key: row.spread for row in told.rows}
            assert found["stored_energy"].low > 0.0, changed
            assert found["arrow_speed"].low > 0.0, changed
            answered += 1
        else:
            assert told[0].text, changed
    assert answered > 40


def test_seeded_short_draws_store_energy_and_their_strings_are_as_long_as_their_pull_makes_them() -> None:
    seeded = Random(1600)  # noqa: S311 - not for secrets
    answered, refused = 0, set()
    for _ in range(1500):
        bow = Bow(seeded.uniform(20, 100) * INCH, seeded.uniform(0, 12) * INCH, seeded.choice(SHAPES))
        brace_m = seeded.uniform(2, 16) * INCH
        draw_m = max(8 * INCH, brace_m + seeded.uniform(4, 9) * INCH)
        force_n, stiffness_n = seeded.uniform(5, 200) * POUND_FORCE, 10.0 ** seeded.uniform(3.3, 5.6)
        try:
            ready = ready_for(bow, brace_m, draw_m, force_n, stiffness_n)
        except DomainError as error:
            refused.add(error.problem.reason or error.problem.field)
            continue
        answered += 1
        assert ready.energy_j > 0.0, (bow, brace_m, draw_m, force_n, stiffness_n)
        stretch_m, behind_m = ready.model.string(ready.state)
        assert behind_m > 0.0
        assert ready.model.spring_n_m * stretch_m == pytest.approx(ready.draw_n, rel=1e-6)
    assert answered > 700
    assert refused == {"brace_m", "string_soft"}


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("stiffness_n", [6e3, 2e4, 1e5])
def test_what_is_stored_is_the_area_under_the_draw_force(shape: str, stiffness_n: float) -> None:
    """The bow is drawn again in small steps, its limbs as stiff as found; the work of the fingers is summed up."""
    brace_m, draw_m, steps = 0.12, 0.24, 16
    bow = Bow(2.0, 0.2, shape)  # type: ignore[arg-type]
    ready = ready_for(bow, brace_m, draw_m, 90.0, stiffness_n)
    bending_nm = ready.model.stiffness_nm[0][0] / limb(bow.shape, 4).stiffness[0][0]
    forces = [0.0]
    for k in range(1, steps + 1):
        at_m = brace_m + (draw_m - brace_m) * k / steps
        low_n, high_n = 1e-3, 90.0 * min(1.0, 2.0 * k / steps) + 1.0
        for _ in range(34):  # the draw weight at this place that asks for limbs of that stiffness
            tried_n = (low_n + high_n) / 2.0
            here = ready_for(bow, brace_m, at_m, tried_n, stiffness_n)
            as_stiff = here.model.stiffness_nm[0][0] / limb(bow.shape, 4).stiffness[0][0]
            low_n, high_n = (tried_n, high_n) if as_stiff < bending_nm else (low_n, tried_n)
        forces.append(low_n)
    step_m = (draw_m - brace_m) / steps
    area_j = step_m * (sum(forces) - forces[-1] / 2.0)
    assert ready.energy_j == pytest.approx(area_j, rel=5e-3)
    assert forces[-1] == pytest.approx(90.0, rel=1e-4)


def test_a_string_too_stiff_to_stretch_draws_like_one_that_hardly_stretches() -> None:
    """Its stretch is less than the last digit of its length: there is nothing left to look for."""
    bow = Bow(1.5276458902159966, 0.2, "hinged")
    stiff, hard = (ready_for(bow, 0.001, 0.478, 0.001, stiffness_n) for stiffness_n in (6.0e202, 1.0e9))
    assert stiff.draw_n == pytest.approx(hard.draw_n, rel=1e-6)
    assert stiff.state == pytest.approx(hard.state, rel=1e-6, abs=1e-9)
