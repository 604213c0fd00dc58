"""The guides' figures: sound in both hands, geometry mirrored and words not, alive with a reader's own numbers."""

from __future__ import annotations

import re
from collections import Counter
from functools import cache
from itertools import pairwise
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.draw import (
    Arc,
    Circle,
    CubicTo,
    Dim,
    Drawing,
    Frame,
    Label,
    Line,
    Many,
    Path,
    Pen,
    Polyline,
    To,
    stylesheet,
    svg,
    turned_over,
)
from calc.draw.cord.props import MARKED
from calc.draw.drawing import every
from calc.draw.figures import FIGURES, figure
from calc.draw.shapes import Comb
from calc.draw.steps import extent

if TYPE_CHECKING:
    from collections.abc import Callable

    from calc.geometry.lay import Hand

pytestmark = pytest.mark.exact
NAMES = sorted(FIGURES)
HANDS: tuple[Hand, ...] = ("S", "Z")
WIDEST = 376.0
OTHER = {"S": "Z", "Z": "S"}


@cache
def drawn(name: str, hand: Hand = "Z") -> Drawing:
    return figure(name, hand=hand)


@pytest.mark.parametrize("hand", HANDS)
@pytest.mark.parametrize("name", NAMES)
def test_a_figure_is_sound(name: str, hand: Hand, sound: Callable[[Drawing], str]) -> None:
    drawing = drawn(name, hand)
    text = sound(drawing)
    assert drawing.frame.width <= WIDEST, drawing.frame
    assert "{" not in drawing.title + drawing.desc
    assert re.search(r'class="d-(fill|line)', text)


@pytest.mark.parametrize("name", NAMES)
def test_words_are_long_enough_to_help_and_short_enough_for_a_phone(name: str) -> None:
    drawing = drawn(name)
    assert len(drawing.desc) > len(drawing.title)
    for label in drawing.labels:
        assert label.size >= 11.0, label
        assert len(label.text.split()) <= 4, label


@pytest.mark.parametrize("name", NAMES)
def test_one_figure_never_shares_an_id_with_another(name: str) -> None:
    ids = [set(re.findall(r' id="([^"]+)"', svg(drawn(name), prefix=prefix))) for prefix in ("one", "two")]
    assert not ids[0] & ids[1]


@pytest.mark.parametrize("name", [each for each in NAMES if FIGURES[each].turns])
def test_a_turned_figure_mirrors_lines_and_not_words(name: str) -> None:
    """S is Z turned over the level line: up becomes down, left stays left, words stay words with S and Z exchanged."""
    one, two = drawn(name, "Z"), drawn(name, "S")
    assert one.frame.left == pytest.approx(two.frame.left, abs=45.0)
    for letter in HANDS:
        count = Counter(each.text for each in one.labels)[letter]
        assert Counter(each.text for each in two.labels)[OTHER[letter]] == count
    for label in two.labels:
        assert label.text == label.text.strip()
    assert "<text" not in re.sub(r"<text [^>]*>", "<text>", svg(two, prefix="p")).replace("<text>", "")
    assert "transform=" not in svg(two, prefix="p").replace("patternTransform=", "")


@pytest.mark.parametrize("name", [each for each in NAMES if not FIGURES[each].turns])
def test_what_does_not_turn_stands_the_same_way_for_both_hands(name: str) -> None:
    one, two = drawn(name, "Z"), drawn(name, "S")
    assert [each.at for each in one.labels] == [each.at for each in two.labels]


@pytest.mark.parametrize("name", [each for each in NAMES if FIGURES[each].moves])
def test_a_motion_has_a_still_that_is_complete(name: str) -> None:
    frames = [each for each in every(drawn(name).shapes) if isinstance(each, Frame)]
    assert len(frames) >= 2
    text = svg(drawn(name), prefix="p")
    assert text.count('visibility="hidden"') == len(frames) - 1
    assert f'd-f{len(frames) - 1}">' in text
    rules = stylesheet()
    assert f".d-of{len(frames)}.d-f0" in rules
    assert all("prefers-reduced-motion:no-preference" in line for line in rules.splitlines() if "animation:" in line)
    assert ".d-paused" in rules
    assert ":not(.d-still)" in rules


def test_figures_that_do_not_move_have_no_frames() -> None:
    for name in NAMES:
        frames = [each for each in every(drawn(name).shapes) if isinstance(each, Frame)]
        assert bool(frames) == FIGURES[name].moves, name


def test_own_numbers_stand_in_the_figures() -> None:
    said = {
        "strands-cut": ("cut_length", "1788 mm"), "brace-measure": ("brace_height", "159 mm"),
        "length-on-nails": ("string_length", "1512 mm"), "bundle-marks": ("body_raw", "1176 mm"),
        "bow-draw": ("draw_length", "660 mm"), "body-turns": ("turns_body", "31"),
    }  # fmt: skip
    for name, (key, text) in said.items():
        assert any(text in label.text for label in figure(name, numbers={key: text}).labels), name


def test_a_length_given_as_a_number_is_printed_in_the_readers_units() -> None:
    inch = figure("strands-cut", numbers={"cut_length": 1.778})
    metric = figure("strands-cut", numbers={"cut_length": 1.778, "system": "metric"})
    assert any("70 in" in label.text for label in inch.labels)
    assert any("mm" in label.text for label in metric.labels)


@settings(max_examples=25, deadline=None)
@given(st.sampled_from(NAMES), st.sampled_from(HANDS), st.floats(0.001, 5.0), st.sampled_from(["inch", "metric"]))
def test_any_measure_keeps_a_figure_within_its_frame(name: str, hand: Hand, length: float, system: str) -> None:
    keys = ("cut_length", "loop_upper", "loop_lower", "body_raw", "tail", "string_length", "nock_to_nock", "step")
    numbers: dict[str, str | float] = {**dict.fromkeys(keys, length), "system": system}
    drawing = figure(name, hand=hand, numbers=numbers)
    assert all(drawing.frame.holds(each.box()) for each in drawing.shapes)


@pytest.mark.parametrize("lay", [0.3, 0.5])
def test_a_readers_own_lay_is_the_one_drawn(lay: float) -> None:
    """More lay, more crossings: counted as pieces of bundle in the picture."""
    usual = svg(figure("rub-warm", numbers={"lay": 0.4}), prefix="p")
    own = svg(figure("rub-warm", numbers={"lay": lay}), prefix="p")
    pieces = [sum(len(re.findall("[Mm]", data)) for data in re.findall(r'rim-front" d="([^"]*)"', text))
              for text in (usual, own)]  # fmt: skip
    assert (pieces[1] > pieces[0]) == (lay > 0.4)


@pytest.mark.parametrize("hand", HANDS)
def test_three_bundles_lie_apart_in_their_order_beside_their_names(hand: Hand) -> None:
    drawing = figure("three-bundle-walk", hand=hand)
    named = {
        each.text.lower(): each.at[1] - 0.35 * each.size for each in drawing.labels if each.text in {"A", "B", "C"}
    }
    assert sorted(named, key=lambda name: named[name]) == ["a", "b", "c"]
    frames = [each for each in drawing.shapes if isinstance(each, Frame)]
    assert frames
    for frame in frames:
        ends: dict[str, list[float]] = {name: [] for name in named}
        for each in every(frame.shapes):
            if isinstance(each, Many) and each.role[:1] in named and each.role[1:2] == "-":
                points = [point for start, steps in each.parts for point in extent(start, steps)]
                half = (each.band + 1.0) / 2.0  # with half of the line along each side
                ends[each.role[0]] += [y + side for x, y in points if x > 334.0 for side in (-half, half)]
        for name, high in named.items():
            assert (min(ends[name]) + max(ends[name])) / 2.0 == pytest.approx(high, abs=4.0)
            assert max(ends[name]) - min(ends[name]) == pytest.approx(8.0, abs=0.5)


@pytest.mark.parametrize("name", NAMES)
def test_a_pen_mark_shows_on_a_bundle_of_its_own_tone(name: str) -> None:
    """In bright sun mark and bundle are both black: a wider rim of ground lies under each mark that crosses a cord."""
    shapes = [each for each in every(drawn(name).shapes) if isinstance(each, Line)]
    for under, over in pairwise([Line((0.0, 0.0), (0.0, 0.0)), *shapes]):
        if over.pen == MARKED and name != "taper-comb":
            assert (under.start, under.end, under.pen.ink) == (over.start, over.end, "ground"), over
            assert under.pen.weight >= over.pen.weight + 2.0


def test_an_unknown_name_is_refused() -> None:
    with pytest.raises(KeyError):
        figure("no-such-figure")


def test_turning_over_twice_changes_nothing() -> None:
    bow = CubicTo((1.0, 1.0), (2.0, 2.0), (3.0, 4.0))
    shapes = (
        Line((0.0, 1.0), (2.0, 3.0)), Circle((1.0, 2.0), 3.0), Polyline(((0.0, 1.0), (1.0, 5.0))),
        Path((0.0, 1.0), (To((1.0, 2.0)), Arc((3.0, 2.0), 1.0, clockwise=True), bow)),
        Many((((0.0, 1.0), (To((1.0, 2.0)),)),)), Label((1.0, 2.0), "S"), Dim((0.0, 1.0), (5.0, 1.0), "five", 12.0),
        Frame(0, 2, (Line((0.0, 1.0), (2.0, 3.0)),)), Comb(1.0, ((0.0, 4.0), (2.0, 6.0))),
    )  # fmt: skip
    for shape in shapes:
        over = turned_over(shape)
        box, turned = shape.box(), over.box()
        assert (turned.top, turned.bottom) == pytest.approx((-box.bottom, -box.top), abs=1e-9)
        assert turned_over(over).box() == pytest.approx(box)


def test_a_comb_is_a_stroke_from_its_level_to_the_end_of_each_tick() -> None:
    comb = Comb(1.0, ((0.0, 4.0), (2.25, 6.5)), Pen("quiet", 1.0))
    drawn = svg(Drawing(key="comb", title="A comb", desc="Two ticks.", shapes=(comb,)), prefix="c")
    assert re.findall(r' d="([^"]*)"', drawn) == ["M0 1V4M2.25 1V6.5"]
    assert comb.box() == pytest.approx((-0.5, 0.5, 2.75, 7.0))
    assert comb.mirrored(1.0).ticks == ((2.0, 4.0), (-0.25, 6.5))
    assert comb.mirrored(1.0).mirrored(1.0) == comb
