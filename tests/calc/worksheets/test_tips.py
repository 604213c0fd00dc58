"""Limb tips as people type them."""

from __future__ import annotations

import pytest

from calc.errors import DomainError
from calc.geometry.ends import FlatTip, RoundTip, Section, pipe
from calc.worksheets.core import convert_tip
from calc.worksheets.core.fields import TIP_UPPER
from calc.worksheets.core.tips import read_tip

pytestmark = pytest.mark.exact
IN = 0.0254


@pytest.mark.parametrize(
    ("text", "section"),
    [
        ("round 1/2 in", RoundTip(0.5 * IN)),
        ("1/2 in", RoundTip(0.5 * IN)),
        ("12 mm round", RoundTip(0.012)),
        ("flat 5/8 x 3/8 in", FlatTip(0.625 * IN, 0.375 * IN)),
        ("3/8 by 5/8 in", FlatTip(0.625 * IN, 0.375 * IN)),
        ("Flat: 16 × 10 mm", FlatTip(0.016, 0.010)),
        ("pipe 3/4", RoundTip(pipe("3/4"))),
        ('3/4" pipe', RoundTip(pipe("3/4"))),
        ("pipe DN 20", RoundTip(pipe("3/4"))),
    ],
)
def test_tips(text: str, section: Section) -> None:
    found = read_tip(TIP_UPPER, text, "inch")
    assert type(found) is type(section)
    assert (found.width_m, found.depth_m) == pytest.approx((section.width_m, section.depth_m))


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("square 3", "tip"),
        ("round", "tip_size"),
        ("flat 3", "tip_flat"),
        ("round 1 x 2", "tip_round"),
        ("pipe 9", "pipe"),
    ],
)
def test_what_is_no_tip(text: str, reason: str) -> None:
    with pytest.raises(DomainError) as caught:
        read_tip(TIP_UPPER, text, "inch")
    assert caught.value.problem.reason == reason


def test_pipes_keep_their_name_in_other_units() -> None:
    assert convert_tip(TIP_UPPER, "pipe 3/4", "metric") == "pipe 3/4"
    assert convert_tip(TIP_UPPER, "round 1/2 in", "metric") == "round 12.7 mm"
