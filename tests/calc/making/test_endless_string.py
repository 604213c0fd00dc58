"""An endless string with tips that nobody told, and every way it is refused."""

from __future__ import annotations

from dataclasses import replace

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
