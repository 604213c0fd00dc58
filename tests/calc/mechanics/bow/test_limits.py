"""Every limit of a bow, its string and its draw, named in full: field, code, limit, the other field and the reason."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from calc.errors import DomainError, Problem
from calc.mechanics.bow import Bow, brace_height, brace_limit, draw_curve, end_tension, limb_reach, string_length
from calc.mechanics.bow.draw_force import limb_state_at
from calc.mechanics.shot import AddedMass, ShotString, shot
from calc.mechanics.shot.full_draw import full_draw_state

if TYPE_CHECKING:
    from collections.abc import Callable

pytestmark = pytest.mark.exact
BOW, NAN = Bow(1.7, 0.2, "arc"), float("nan")
STRING = ShotString(3e4, 0.007)
HALF = 0.75
"""Working limb of BOW. [m]"""


def least(field: str, limit: float = 0.0) -> Problem:
    return Problem(field=field, code="min", limit=limit)


def number(field: str) -> Problem:
    return Problem(field=field, code="number")


def bow_pair(field: str, limit: float, reason: str) -> Problem:
    return Problem(field=field, code="pair", limit=limit, other="nock_to_nock_m", reason=reason)


def load(**more: float) -> object:
    given = {"brace_m": 0.16, "draw_m": 0.7, "draw_force_n": 180.0, "limb_mass_kg": 0.16} | more
    limb_kg = given.pop("limb_mass_kg")
    return full_draw_state(BOW, *given.values(), string=STRING, limb_mass_kg=limb_kg)


def served(mass_kg: float, near_m: float, far_m: float) -> object:
    string = ShotString(3e4, 0.007, (AddedMass(mass_kg, near_m, far_m),))
    return full_draw_state(BOW, 0.16, 0.7, 180.0, string=string, limb_mass_kg=0.16)


DRAW_SHORT = Problem(field="draw_m", code="pair", other="brace_m", reason="draw_short")
DRAW_LONG = Problem(field="draw_m", code="pair", other="nock_to_nock_m", reason="draw_long")

REFUSED: list[tuple[Callable[[], object], Problem]] = [
    (lambda: Bow(0.0, 0.0, "arc"), least("nock_to_nock_m")),
    (lambda: Bow(NAN, 0.0, "arc"), number("nock_to_nock_m")),
    (lambda: Bow(1.7, -1e-9, "arc"), least("handle_length_m")),
    (lambda: Bow(1.7, 0.2, "arc", NAN), number("handle_proud_m")),
    (lambda: Bow(1.7, 0.2, "arc", 0.0, NAN), number("string_follow_m")),
    (lambda: Bow(1.7, 0.2, "arc", contact_m=-1e-9), least("contact_m")),
    (lambda: Bow(1.7, 1.7, "arc"), bow_pair("handle_length_m", 1.7, "handle_long")),
    (lambda: Bow(1.5, 0.5, "arc", contact_m=0.5), bow_pair("contact_m", 0.5, "contact_long")),
    (lambda: Bow(2.5, 0.5, "arc", 0.6), bow_pair("handle_proud_m", 0.6, "proud_deep")),
    (lambda: Bow(2.5, 0.5, "arc", -0.6), bow_pair("handle_proud_m", 0.6, "proud_deep")),
    (lambda: Bow(2.5, 0.5, "arc", 0.0, 0.3), bow_pair("string_follow_m", 0.3, "follow_large")),
    (lambda: Bow(2.5, 0.5, "arc", 0.0, -0.3), bow_pair("string_follow_m", 0.3, "follow_large")),
    (lambda: string_length(BOW, 0.0), least("brace_m")),
    (lambda: string_length(BOW, 0.46), Problem(field="brace_m", code="max", limit=brace_limit(BOW))),
    (
        lambda: string_length(Bow(2.5, 0.5, "arc", 0.01, -0.1), 0.09),
        Problem(field="brace_m", code="pair", limit=0.1 - 0.01, other="string_follow_m", reason="follow_high"),
    ),
    (lambda: brace_height(BOW, 0.0), least("string_m")),
    (lambda: brace_height(BOW, NAN), number("string_m")),
    (lambda: brace_height(BOW, 1.7), bow_pair("string_m", 1.7, "string_long")),
    (
        lambda: brace_height(Bow(1.7, 0.2, "arc", contact_m=0.05), 1.0),
        least("string_m", 0.2 + 2.0 * (0.7 * limb_reach("arc", 0.6) + 0.05)),
    ),
    (lambda: draw_curve(BOW, 0.16, 0.16, 100.0), DRAW_SHORT),
    (lambda: draw_curve(BOW, 0.16, 1.6, 100.0), DRAW_LONG),
    (lambda: draw_curve(BOW, 0.16, 0.7, 0.0), least("draw_force_n")),
    (lambda: draw_curve(BOW, 0.16, 0.0, 1.0), least("draw_m")),
    (lambda: draw_curve(BOW, 0.16, 0.7, 1.0, steps=0), least("steps", 1.0)),
    (lambda: limb_state_at(BOW, 0.16, (0.7, 1.6)), DRAW_LONG),
    (lambda: end_tension(BOW, 0.16, 0.16, 100.0), DRAW_SHORT),
    (lambda: end_tension(BOW, 0.16, 1.6, 100.0), DRAW_LONG),
    (lambda: end_tension(BOW, 0.16, 0.7, 0.0), least("draw_force_n")),
    (lambda: end_tension(BOW, 0.16, 0.0, 1.0), least("draw_m")),
    (lambda: end_tension(BOW, 0.0, 0.7, 1.0), least("brace_m")),
    (lambda: load(limb_mass_kg=0.0), least("limb_mass_kg")),
    (lambda: load(draw_force_n=0.0), least("draw_force_n")),
    (lambda: load(draw_m=0.0), least("draw_m")),
    (lambda: load(brace_m=0.0), least("brace_m")),
    (lambda: load(draw_m=0.16), DRAW_SHORT),
    (lambda: load(draw_m=1.6), DRAW_LONG),
    (
        lambda: full_draw_state(BOW, 0.16, 0.7, 180.0, string=ShotString(0.0, 0.007), limb_mass_kg=0.16),
        least("stiffness_n"),
    ),
    (
        lambda: full_draw_state(BOW, 0.16, 0.7, 180.0, string=ShotString(3e4, 0.0), limb_mass_kg=0.16),
        least("string_mass_kg"),
    ),
    (lambda: served(-1e-9, 0.0, 0.0), least("added_kg")),
    (lambda: served(1e-3, -1e-9, 0.0), least("added_near_m")),
    (lambda: served(1e-3, 0.2, 0.1), least("added_far_m", 0.2)),
    (lambda: shot(BOW, 0.16, 0.7, 180.0, arrow_kg=0.0, string=STRING, limb_mass_kg=0.16), least("arrow_kg")),
    (
        lambda: shot(BOW, 0.16, 0.7, 180.0, arrow_kg=0.02, string=STRING, limb_mass_kg=0.16, after_s=0.0),
        least("after_s"),
    ),
    (
        lambda: shot(BOW, 0.16, 0.7, 180.0, arrow_kg=0.02, string=STRING, limb_mass_kg=0.16, stored_j=0.0),
        least("stored_j"),
    ),
]


@pytest.mark.parametrize(("call", "problem"), REFUSED)
def test_what_is_refused_is_named_in_full(call: Callable[[], object], problem: Problem) -> None:
    with pytest.raises(DomainError) as caught:
        call()
    found = caught.value.problem
    assert (found.field, found.code, found.other, found.reason) == (
        problem.field,
        problem.code,
        problem.other,
        problem.reason,
    )
    assert found.limit == (None if problem.limit is None else pytest.approx(problem.limit, rel=1e-12))


def test_mass_beyond_the_end_of_the_string_is_refused_there() -> None:
    """The end of the slack half string: mass just inside it goes, just outside it does not."""
    half_m = full_draw_state(BOW, 0.16, 0.7, 180.0, string=STRING, limb_mass_kg=0.16).model.slack_m
    served(1e-3, half_m, half_m)
    with pytest.raises(DomainError) as caught:
        served(1e-3, 0.2, half_m * (1.0 + 1e-9))
    assert caught.value.problem == Problem(
        field="added_far_m", code="pair", limit=half_m, other="string", reason="added_far"
    )


def test_what_lies_just_inside_the_limits_is_taken() -> None:
    inside = 1.0 - 1e-9
    assert Bow(1e-3, 0.0, "arc").limb_m == 5e-4
    assert Bow(1.7, 1.7 * inside, "arc").limb_m > 0.0
    assert Bow(1.7, 0.2, "arc", contact_m=HALF * inside).limb_m > 0.0
    for side in (-1.0, 1.0):
        assert Bow(2.5, 0.5, "arc", side * 0.6 * inside).handle_proud_m == side * 0.6 * inside
        assert Bow(2.5, 0.5, "arc", 0.0, side * 0.3 * inside).follow == side * 0.3 * inside
    assert string_length(BOW, 1e-6) == pytest.approx(1.7, abs=1e-9)
    assert string_length(BOW, brace_limit(BOW)) == pytest.approx(0.2 + 1.5 * limb_reach("arc", 0.6), rel=1e-12)
    assert brace_height(BOW, 0.2 + 1.5 * limb_reach("arc", 0.6)) == pytest.approx(0.45, abs=1e-9)
    assert draw_curve(BOW, 0.16, 0.17, 1e-3, steps=1).points[-1].force_n == pytest.approx(1e-3)
    assert served(0.0, 0.0, 0.0) == load()
