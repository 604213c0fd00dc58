"""A new string's settling, put together again from what a pull takes out of its fibre."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from calc.data import fibre, practice
from calc.errors import DomainError
from calc.making.tuning import SETTLING_TIMES_S, NewString, OnBow, settle_new_string
from calc.mechanics.bow import Bow, string_length
from calc.mechanics.fibre import Load, settle
from calc.numerics import Spread

pytestmark = pytest.mark.exact
HOUR_S = 3600.0


def new(**changed: Any) -> NewString:  # noqa: ANN401 - any field of the string
    bow = OnBow(brace_m=0.16, handle_length_m=0.2, shape="tapered", bundles=2, tail_m=0.2, turns=60.0)
    usual = NewString(
        string_m=1.6,
        fibre=fibre("polyester"),
        yarn_kg_m=167e-6,
        strands=12,
        brace_n=Spread(180.0, 220.0, 300.0),
        hang_n=150.0,
        hang_s=2 * HOUR_S,
        work_s=5e5,
        temperature_k=293.15,
        on_bow=bow,
    )
    on_bow = {key: changed.pop(key) for key in tuple(changed) if hasattr(bow, key)}
    return replace(usual, **changed, on_bow=replace(bow, **on_bow))


def taken(string: NewString, pull_n: float, time_s: float) -> tuple[float, float]:
    """Return what a pull takes out in a time, and what is left for the bow to take [-]."""
    work = Load(string.brace_n.value, string.work_s, string.temperature_k)
    done = settle(string.fibre, 12 * 167e-6, Load(pull_n, time_s, string.temperature_k), work)
    return done.taken.value, done.left.value


def test_its_share_is_what_was_taken_of_all_that_it_grows() -> None:
    out, left = taken(new(), 150.0, 2 * HOUR_S)
    found = settle_new_string(new()).figures["settled_share"]
    assert found.value == pytest.approx(out / (out + left), rel=1e-9)
    assert 0.0 <= found.low < found.value < found.high <= 1.0


def test_the_two_curves_are_those_of_the_weight_and_of_the_bow() -> None:
    made = settle_new_string(new())
    for curve, pull_n in ((made.hung, 150.0), (made.braced, 220.0)):
        for time_s, each in zip(SETTLING_TIMES_S, curve, strict=True):
            assert each.taken.value == pytest.approx(taken(new(), pull_n, time_s)[0], rel=1e-12)
    alike = settle_new_string(new(hang_n=220.0))
    assert [each.taken.value for each in alike.hung] == [each.taken.value for each in alike.braced]


def test_an_hour_and_a_night_are_those_of_the_bow_alone() -> None:
    made = settle_new_string(new())
    long_m = made.figures["make_length"].value
    night_s = practice("braced_night").spread.value
    for key, time_s in (("hour_taken", HOUR_S), ("night_taken", night_s)):
        assert made.figures[key].value == pytest.approx(taken(new(), 220.0, time_s)[0] * long_m, rel=1e-9)
    assert made.figures["night_left"].value == pytest.approx(taken(new(), 220.0, night_s)[1] * 1.6, rel=1e-9)


def test_no_growth_is_less_than_none_and_lengths_keep_their_spread() -> None:
    made = settle_new_string(new(fibre=fibre("aramid"), brace_n=Spread(5.0, 220.0, 300.0)))
    assert all(each.low >= 0.0 for each in made.figures.values())
    slack = made.figures["string_length_slack"]
    assert 1.5 < slack.low < slack.value < slack.high


@pytest.mark.parametrize("shape", ["tapered", "uniform", "arc"])
@pytest.mark.parametrize("handle_m", [0.1, 0.25])
def test_its_bow_is_the_one_that_this_string_braces_at_that_height(shape: Any, handle_m: float) -> None:  # noqa: ANN401
    stave = new(shape=shape, handle_length_m=handle_m).tuned().bow
    assert stave.nock_to_nock_m is not None
    assert string_length(Bow(stave.nock_to_nock_m, handle_m, shape), 0.16) == pytest.approx(1.6, rel=1e-9)


def test_a_bow_that_nobody_measured_has_a_usual_handle_and_even_limbs() -> None:
    unknown = new(shape=None, handle_length_m=None).tuned().bow
    told = new(shape="arc", handle_length_m=practice("handle_usual").spread.value).tuned().bow
    assert unknown.nock_to_nock_m == pytest.approx(told.nock_to_nock_m, rel=1e-12)
    assert (unknown.shape, unknown.handle_length_m) == (None, None)


def problem(**changed: Any) -> tuple[str, str, str | None, str | None]:  # noqa: ANN401 - any field of the string
    with pytest.raises(DomainError) as caught:
        new(**changed)
    found = caught.value.problem
    return found.field, found.code, found.other, found.reason


def test_what_would_break_it_is_refused_and_a_light_weight_is_not() -> None:
    holds = new().breaking_n.value
    assert problem(brace_n=Spread.exactly(holds)) == ("strands", "model", "brace_n", "string_breaks")
    assert problem(hang_n=1.01 * holds)[:2] == ("hang_n", "max")
    assert problem(hang_n=0.0)[0] == "hang_n"
    assert problem(hang_s=0.0)[0] == "hang_s"
    assert new(hang_n=0.5, hang_s=0.5).hang_n == 0.5
