"""An endless string with tips that nobody told, and every way it is refused."""

from __future__ import annotations

from dataclasses import replace
from math import acos, atan, pi, sqrt, tan

import pytest

from calc.data import fibre, practice
from calc.errors import DomainError
from calc.geometry.ends import RoundTip
from calc.making.string import Winding, endless
from calc.numerics.spread import Spread

pytestmark = pytest.mark.exact
WINDING = Winding(
    string_m=1.6,
    post_m=0.0127,
    fibre=fibre("polyester"),
    yarn_kg_m=167e-6,
    strands=12,
    brace_n=Spread.exactly(260.0),
    winding_n=2.0,
    thread_m=0.0005,
    upper=RoundTip(0.0127),
    lower=RoundTip(0.0127),
)


@pytest.mark.parametrize("end", ["upper", "lower"])
def test_a_tip_not_told_is_the_usual_round_one(end: str) -> None:
    usual = RoundTip(practice("tip_usual").spread.value)
    told = endless(replace(WINDING, **{end: usual})).figures  # type: ignore[arg-type]
    untold = endless(replace(WINDING, **{end: None})).figures  # type: ignore[arg-type]
    assert {key: each.value for key, each in untold.items()} == pytest.approx(
        {key: each.value for key, each in told.items()}
    )


REFUSED = [
    ({"strands": 11}, ("strands", "model", "", "odd_strands")),
    ({"strands": 0}, ("strands", "min", "", "")),
    ({"brace_n": Spread.exactly(1e5)}, ("strands", "model", "brace_n", "string_breaks")),
    ({"brace_n": Spread.exactly(0.0)}, ("brace_n", "min", "", "")),
    ({"thread_m": 0.01}, ("thread_m", "pair", "strands", "thread_thick")),
    ({"winding_n": 1e4}, ("winding_n", "max", "", "")),
    *(({name: 0.0}, (name, "min", "", "")) for name in ("string_m", "post_m", "yarn_kg_m", "thread_m")),
]


@pytest.mark.parametrize(("changed", "told"), REFUSED)
def test_what_cannot_be_wound_is_refused_by_name(changed: dict[str, object], told: tuple[str, str, str, str]) -> None:
    with pytest.raises(DomainError) as refused:
        replace(WINDING, **changed)  # type: ignore[arg-type]
    problem = refused.value.problem
    assert (problem.field, problem.code, problem.other, problem.reason) == told


def test_one_wrap_is_half_the_strands() -> None:
    assert WINDING.wraps == 6
    assert replace(WINDING, strands=2, thread_m=1e-4).wraps == 1


def made(**changed: object) -> dict[str, float]:
    wound = endless(replace(WINDING, **changed))  # type: ignore[arg-type]
    return {key: each.value for key, each in wound.figures.items()}


def across(strands: int) -> float:
    """Return how thick so many strands are, rolled round, from their area [m]."""
    fill = fibre("polyester")
    return sqrt(4.0 * strands * 167e-6 / (pi * fill.density_kg_m3.value * fill.packing.value))


def test_a_wrap_goes_twice_from_post_to_post_and_once_round_them() -> None:
    """It lies half-way out in the pile of wraps, which is one strand thick at first and a whole side in the end."""
    for post_m in (0.005, 0.0127, 0.03):
        found = made(post_m=post_m)
        lies_m = (across(1) + across(6)) / 4.0
        assert found["around"] == pytest.approx(pi * (post_m + 2.0 * lies_m))
        assert 2.0 * found["post_centres"] + found["around"] == pytest.approx(found["wrap_wound"])
        assert found["post_spacing"] == pytest.approx(found["post_centres"] + post_m)


def test_it_is_as_long_and_as_heavy_as_its_wraps() -> None:
    found = made()
    ends_m = practice("tie_off").spread.value
    assert found["cord_total"] == pytest.approx(6 * found["wrap_slack"] + 2.0 * ends_m)
    assert found["string_mass"] == pytest.approx(6 * found["wrap_slack"] * 167e-6)
    strain = endless(WINDING).causes["strain"].value
    bedding = practice("endless_bedding").spread.value
    assert found["wrap_bow"] == pytest.approx(found["wrap_slack"] * (1.0 + strain) * (1.0 + bedding))
    assert found["bundle_diameter"] == pytest.approx(across(12))
    assert found["side_diameter"] == pytest.approx(across(6))


def test_twist_takes_the_square_of_the_turns() -> None:
    """Without a turn it is its longest, at the most turns its shortest; both from one flat length."""
    found = made()
    most = found["twist_taken"] * (found["turns_most"] / found["turns_body"]) ** 2
    assert found["string_longest"] == pytest.approx(1.6 + found["twist_taken"])
    assert found["string_shortest"] == pytest.approx(1.6 + found["twist_taken"] - most)
    flat_m = (pi * across(12) * found["turns_body"]) ** 2 / 4.0 / found["twist_taken"]
    angle = 2.0 * atan(pi * across(12) * found["turns_body"] / (2.0 * flat_m))
    assert flat_m - found["twist_taken"] == pytest.approx(flat_m * (1.0 - tan(angle / 2.0) ** 2), rel=1e-9)
    taut = acos(1.0 / (1.0 + 2.0 * endless(WINDING).causes["strain"].value))
    assert found["turns_taut"] == pytest.approx(2.0 * tan(taut / 2.0) * flat_m / (pi * across(12)))


def test_more_turns_leave_less_of_the_strength_and_the_most_what_is_kept() -> None:
    found = made()
    assert found["turns_body"] < found["turns_most"]
    assert 1.0 > found["turns_kept"] > found["most_kept"] > 0.5
    stiff = made(fibre=fibre("hmpe"))
    assert stiff["most_kept"] == pytest.approx(practice("endless_kept").spread.value, rel=1e-3)


def test_thread_is_that_of_both_loops_and_their_ends() -> None:
    wound = endless(WINDING)
    ends_m = practice("tie_off").spread.value
    loops = [wound.upper, wound.lower]
    thread_m = sum(each.single.thread_m + each.bound.thread_m for each in loops)
    assert wound.figures["thread_length"].value == pytest.approx(thread_m + 4.0 * ends_m)
    assert wound.upper.single.turns == pytest.approx(wound.figures["serve_turns_upper"].value)


@pytest.mark.parametrize(
    ("changed", "told"),
    [
        ({"string_m": 0.1}, ("string_m", "model", "", "loops_long")),
        ({"string_m": 0.6, "post_m": 0.4}, ("post_m", "model", "string_m", "short_wrap")),
    ],
)
def test_what_leaves_no_room_is_refused_by_name(changed: dict[str, object], told: tuple[str, str, str, str]) -> None:
    with pytest.raises(DomainError) as refused:
        endless(replace(WINDING, **changed))  # type: ignore[arg-type]
    problem = refused.value.problem
    assert (problem.field, problem.code, problem.other, problem.reason) == told
