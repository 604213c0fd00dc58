"""A planned string put together again from its pieces, at causes that are none of them usual."""

from __future__ import annotations

from dataclasses import replace
from math import cos, pi, sqrt
from typing import Any

import pytest

from calc.data import fibre, practice
from calc.errors import DomainError
from calc.geometry.ends import RoundTip, loop_nocked, loop_sliding
from calc.geometry.lay import middle_lay
from calc.making.string import End, Order
from calc.making.string.raw_lengths import Lengths, Looped, lengths, reach_m, section_of
from calc.making.string.turns import plied, turned_to_count
from calc.making.string.window import braces_made, edges
from calc.mechanics.bow import Bow, string_length
from calc.mechanics.estimate import BowEstimate, CordEstimate

pytestmark = pytest.mark.exact
IN = 0.0254
ORDER = Order(
    bow=BowEstimate(
        nock_to_nock_m=66 * IN,
        handle_length_m=8 * IN,
        shape="arc",
        draw_weight_n=178.0,
        draw_m=26 * IN,
        braced_m=6.5 * IN,
    ),
    brace_m=6.5 * IN,
    upper=End(section=RoundTip(0.6 * IN), fit="sliding"),
    lower=End(section=None, fit="nocked"),
    cord=CordEstimate(fibre=fibre("polyester"), laid=False, yarn_kg_m=167e-6),
    strands=None,
    bundles=2,
    tail_m=7 * IN,
)


def changed(order: Order, **values: Any) -> Order:  # noqa: ANN401 - fields of an order or of its bow
    """Return an order with some of its own measures, or of its bow's, changed."""
    of_bow = {name: value for name, value in values.items() if name in BowEstimate.__dataclass_fields__}
    own = {name: value for name, value in values.items() if name not in of_bow}
    bow = replace(order.bow, **of_bow, braced_m=own.get("brace_m", order.brace_m))
    return replace(order, bow=bow, **own)


AT = {
    "tape": 0.002, "handle": 0.15, "limb": 0.0, "tip": 0.011, "seat": 0.4, "packing": 0.68, "roll": 1.03,
    "loop_lay": 0.33, "splice_lay": 0.3, "body_lay": 0.2, "strain": 0.015, "bedding": 0.006, "creep": 0.002,
    "proud": 0.004, "follow": 0.012, "twist_held": 1.3, "tails_take": 0.35, "alike": 0.0,
}  # fmt: skip
STRANDS = 12
GROWN = 1.006 * 1.002
BOW = Bow(66 * IN + 0.002, 0.15, "arc", 0.004, 0.012)


def reach(end: Looped, tip_m: float) -> float:
    return end.loop.throat_m - 0.6 * tip_m / 2.0


def on_bow(body_m: float, splice_m: float) -> float:
    """Return a body and two splices as long as they are on the bow [m].

    Its path takes ``cos^3`` from the stiffness of a cord, twist ``cos (1 + cos) / 2``; over a splice the tails take
    0.35 at one end and nothing at the other, 0.175 on the whole.
    """
    soft = [1.0 / (cos(lay) ** 4 * (1.0 + cos(lay)) / 2.0) for lay in (0.2, 0.3)]
    splice_strain = 0.015 * (1.0 - 0.175) * soft[1] / soft[0]
    return (body_m * 1.015 + 2.0 * splice_m * (1.0 + splice_strain)) * GROWN


def put_together(made: Lengths, bundle_m: float, bundles: int) -> tuple[float, float]:
    """Return the length on the bow and slack, from the raw bundles up."""
    middle = plied(made.middle.raw_m, bundle_m, bundles, 0.2)
    splice = plied(7 * IN, bundle_m * sqrt(2.0), bundles, 0.3, 1.3)
    settled_m = (middle.cord_m + 2.0 * splice.cord_m) * GROWN
    ends_m = reach(made.upper, 0.6 * IN) + reach(made.lower, 0.011)
    return on_bow(middle.cord_m, splice.cord_m) + ends_m, settled_m + ends_m


@pytest.mark.parametrize("bundles", [2, 3])
def test_the_pieces_make_the_string_the_bow_asks_for(bundles: int) -> None:
    order = changed(ORDER, bundles=bundles)
    made = lengths(order, STRANDS, AT)
    bundle_m = 1.03 * sqrt(4.0 * STRANDS / bundles * 167e-6 / (pi * 1380.0 * 0.68))
    assert made.lays.bundle_m == pytest.approx(bundle_m, rel=1e-12)
    assert made.string_m == pytest.approx(string_length(BOW, 6.5 * IN), rel=1e-12)
    assert put_together(made, bundle_m, bundles) == pytest.approx((made.string_m, made.slack_m), rel=1e-12)
    assert made.body_raw_m == pytest.approx(made.middle.raw_m + 14 * IN, rel=1e-12)
    lays = (made.lays.loop, made.lays.splice, made.lays.body)
    assert [each.lay_rad for each in lays] == [0.33, 0.3, 0.2]
    assert [each.diameter_m for each in lays] == pytest.approx([bundle_m, bundle_m * sqrt(2.0), bundle_m])
    for end in (made.upper, made.lower):
        assert plied(end.raw.raw_m, bundle_m, bundles, 0.33, 1.3).cord_m == pytest.approx(end.loop.length_m, rel=1e-12)


def test_each_loop_has_its_own_fit_and_its_splice_is_of_doubled_bundles() -> None:
    made = lengths(ORDER, STRANDS, AT)
    cord_m = made.lays.loop.cord_diameter_m
    thicker_m = 0.6 * IN + practice("limb_thicker").spread.value
    sliding = loop_sliding(RoundTip(thicker_m), cord_m, practice("sliding_ease").spread.value)
    nocked = loop_nocked(RoundTip(0.011), cord_m, practice("throat_opening").spread.value)
    assert made.upper.loop.length_m == pytest.approx(sliding.length_m, rel=1e-12)
    assert made.lower.loop.length_m == pytest.approx(nocked.length_m, rel=1e-12)
    assert (made.upper.section, made.lower.section) == (RoundTip(0.6 * IN), RoundTip(0.011))
    assert made.splice == plied(7 * IN, made.lays.bundle_m * sqrt(2.0), 2, 0.3, 1.3)


def test_a_short_bow_of_unknown_shape_is_planned_as_an_arc() -> None:
    short = changed(ORDER, nock_to_nock_m=40 * IN, brace_m=5 * IN)
    assert lengths(changed(short, shape=None), STRANDS, AT) == lengths(short, STRANDS, AT)
    assert 0.0 < lengths(short, STRANDS, AT).middle.cord_m < 0.7


def test_a_throat_stands_where_the_string_leaves_the_tip() -> None:
    """Level with the belly, at the middle, and half a depth further out."""
    made = lengths(ORDER, STRANDS, AT).upper
    for seat, back in ((0.0, 0.3 * IN), (1.0, 0.0), (-1.0, 0.6 * IN)):
        assert reach_m(made.section, made.loop, seat) == pytest.approx(made.loop.throat_m - back, rel=1e-12)


def test_a_tip_not_known_is_round_and_of_the_size_that_stands_for_it() -> None:
    assert section_of(ORDER.lower, 0.011) == RoundTip(0.011)
    assert section_of(ORDER.upper, 0.011) == RoundTip(0.6 * IN)


def test_the_bow_is_as_told_and_an_unknown_shape_stands_on_the_arc() -> None:
    known = changed(ORDER, shape="tapered").bow.state(AT)
    assert known.string_m(6.5 * IN) == pytest.approx(string_length(replace(BOW, shape="tapered"), 6.5 * IN), rel=1e-12)
    assert changed(ORDER, shape=None).bow.state(AT) == ORDER.bow.state(AT)


def test_tails_that_leave_no_body_are_refused() -> None:
    short = changed(ORDER, nock_to_nock_m=22 * IN, brace_m=2 * IN, tail_m=11 * IN)
    with pytest.raises(DomainError) as refused:
        lengths(short, STRANDS, AT)
    assert (refused.value.problem.field, refused.value.problem.code, refused.value.problem.other) == (
        "tail_m",
        "pair",
        "nock_to_nock_m",
    )
    assert refused.value.problem.reason == "tails_long"


@pytest.mark.parametrize("limb", [0.0, 0.4, -0.6])
def test_a_bow_between_two_shapes_is_braced_as_planned(limb: float) -> None:
    at = {**AT, "limb": limb}
    made = lengths(ORDER, STRANDS, at)
    assert braces_made(ORDER, made, STRANDS, at, (made.middle.turns,))[0] == pytest.approx(6.5 * IN, rel=1e-7)


@pytest.mark.parametrize("bundles", [2, 3])
def test_a_string_made_as_planned_braces_as_planned_and_other_turns_move_it_as_the_pieces_say(bundles: int) -> None:
    order = changed(ORDER, bundles=bundles)
    made = lengths(order, STRANDS, AT)
    turns = made.middle.turns
    assert braces_made(order, made, STRANDS, AT, (turns,))[0] == pytest.approx(6.5 * IN, rel=1e-7)
    more = turned_to_count(made.middle, made.lays.bundle_m, bundles, turns + 10.0)
    splice = plied(7 * IN, made.lays.bundle_m * sqrt(2.0), bundles, 0.3, 1.3)
    string_m = on_bow(more.cord_m, splice.cord_m)
    string_m += reach(made.upper, 0.6 * IN) + reach(made.lower, 0.011)
    found = braces_made(order, made, STRANDS, AT, (turns, turns + 10.0))
    assert len(found) == 2
    assert string_length(BOW, found[1]) == pytest.approx(string_m, rel=1e-9)
    assert found[1] > found[0]


def test_the_edges_have_the_lays_they_are_named_for_and_the_middle_is_half_way() -> None:
    made = lengths(ORDER, STRANDS, AT)
    both = edges(ORDER, made, 0.07, 0.28)
    for edge in (both.loose, both.tight):
        assert edge.raw_m == made.middle.raw_m
        assert edge.counter == made.middle.counter
        again = turned_to_count(made.middle, made.lays.bundle_m, 2, edge.turns)
        assert again.cord_m == pytest.approx(edge.cord_m, rel=1e-9)
    assert both.loose.turns < made.middle.turns < both.tight.turns
    assert both.loose.cord_m > both.tight.cord_m
    assert middle_lay(0.0, pi / 2.0) == pytest.approx(pi / 3.0)
