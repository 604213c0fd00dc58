"""Ranges of products, combined as ratios."""

from __future__ import annotations

from math import exp, hypot, log

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.numerics import Spread, combine, combine_ratios

pytestmark = pytest.mark.exact
LAWS = settings(derandomize=True, deadline=None, max_examples=100)
SHARES = st.floats(0.05, 1.0)


@st.composite
def spreads(draw: st.DrawFn) -> Spread:
    value = draw(st.floats(1e-3, 1e3))
    return Spread(value * draw(SHARES), value, value / draw(SHARES))


@LAWS
@given(spreads(), spreads())
def test_a_product_by_hand(one: Spread, other: Spread) -> None:
    found = combine_ratios(lambda at: {"area": at["a"] * at["b"]}, {"a": one, "b": other})["area"]
    assert found.value == one.value * other.value
    for end in ("low", "high"):
        moves = (log(getattr(each, end) / each.value) for each in (one, other))
        assert abs(log(getattr(found, end) / found.value)) == pytest.approx(hypot(*moves), rel=1e-9, abs=1e-12)


@LAWS
@given(spreads(), spreads())
def test_a_ratio_and_its_inverse_have_one_range(strong: Spread, pull: Spread) -> None:
    """Told the one way round or the other, it is the same answer; differences in quadrature do not keep this."""
    found = combine_ratios(
        lambda at: {"safety": at["s"] / at["p"], "share": at["p"] / at["s"]}, {"s": strong, "p": pull}
    )
    assert found["safety"].low * found["share"].high == pytest.approx(1.0, rel=1e-9)
    assert found["safety"].high * found["share"].low == pytest.approx(1.0, rel=1e-9)


def test_no_low_end_falls_to_nothing() -> None:
    """Three causes that may each halve a strength leave a fifth of it or so, where differences leave less than none."""
    causes = {name: Spread(0.4, 1.0, 2.5) for name in "abc"}
    found = combine_ratios(lambda at: {"left": at["a"] * at["b"] * at["c"]}, causes)["left"]
    plain = combine(lambda at: {"left": at["a"] * at["b"] * at["c"]}, causes)["left"]
    assert plain.low < 0.0 < found.low
    assert found.low == pytest.approx(exp(3**0.5 * log(0.4)))


def test_what_is_nothing_has_no_ratio() -> None:
    causes = {"a": Spread(0.0, 0.0, 2.0)}
    assert combine_ratios(lambda at: {"a": at["a"]}, causes) == combine(lambda at: {"a": at["a"]}, causes)
    low = combine_ratios(lambda at: {"a": at["a"]}, {"a": Spread(0.0, 1.0, 2.0)})["a"]
    assert (low.low, low.value) == (0.0, 1.0)
    assert low.high == pytest.approx(2.0)
