"""The drawn cord measured from its SVG alone, by a reader of its own, and held against the geometry's numbers.

The reader knows path data and the order in which shapes are painted. A piece of bundle is read from a path whose role
begins with ``rim``, its axis drawn as thick as the bundle and the line along its sides; or, where it tapers, from one
whose role begins with ``edge``, one side there and the other back. Everything else it works out: crossings as meetings
of axes, over and under from the order of painting, depth from the distance to the cord's axis.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import combinations, pairwise
from math import atan, cos, degrees, hypot, pi, radians, sin, sqrt, tan
from statistics import fmean

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.draw import Arc, Box, Drawing, To, svg
from calc.draw.cord import CordStation, Laid, Way, even, painted
from calc.draw.figures import figure
from calc.geometry.lay import Hand, lay

pytestmark = pytest.mark.exact
_STEPS = 4
_EDGE = 1.0
"""Thickness of the line along both sides of a bundle, half of it outside."""
Point = tuple[float, float]


@dataclass(frozen=True)
class Run:
    """One piece of a bundle as read: its layer in painting order, points of its axis, its thickness."""

    layer: int
    axis: list[Point]
    wide: float


def cubic(a: Point, b: Point, c: Point, d: Point, t: float) -> Point:
    w = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
    return sum(k * p[0] for k, p in zip(w, (a, b, c, d), strict=True)), sum(
        k * p[1] for k, p in zip(w, (a, b, c, d), strict=True)
    )


def subpaths(data: str) -> list[list[Point] | None]:
    """Return points along each subpath of cubics; None for one that holds straight steps (the closing of a cut end)."""
    found: list[list[Point] | None] = []
    here, handle = (0.0, 0.0), (0.0, 0.0)
    for letter, rest in re.findall(r"([A-Za-z])([^A-Za-z]*)", data):
        v = [float(each) for each in re.findall(r"-?(?:\d+\.?\d*|\.\d+)", rest)]
        points = found[-1] if found else None
        if letter in "Mm":
            here = (v[0], v[1]) if letter == "M" else (here[0] + v[0], here[1] + v[1])
            found.append([here])
        elif letter in "cs":
            takes = 6 if letter == "c" else 4
            for at in range(0, len(v), takes):
                given_points = [(here[0] + v[k], here[1] + v[k + 1]) for k in range(at, at + takes, 2)]
                smooth = (2 * here[0] - handle[0], 2 * here[1] - handle[1])
                b, c, d = given_points if letter == "c" else (smooth, *given_points)
                if points is not None:
                    points += [cubic(here, b, c, d, (k + 1) / _STEPS) for k in range(_STEPS)]
                here, handle = d, c
        else:
            assert letter == "l", letter
            for at in range(0, len(v), 2):
                here = (here[0] + v[at], here[1] + v[at + 1])
            found[-1] = None
    return found


def read(text: str) -> list[Run]:
    """Return every piece of bundle in the order it is painted."""
    runs: list[Run] = []
    drawn = re.findall(r'stroke-width="([\d.]+)"[^>]* data-role="(rim|edge)-(\w+)" d="([^"]*)"', text)
    for weight, kind, word, data in drawn:
        layer = ("back", "middle", "front").index(word)
        lines = [each for each in subpaths(data) if each]
        if kind == "rim":
            runs += [Run(layer, axis, float(weight) - _EDGE) for axis in lines]
            continue
        assert len(lines) % 2 == 0
        for left, right in zip(lines[::2], lines[1::2], strict=True):
            axis = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in zip(left, right[::-1], strict=True)]
            wide = fmean(hypot(a[0] - b[0], a[1] - b[1]) for a, b in zip(left, right[::-1], strict=True))
            runs.append(Run(layer, axis, wide))
    return runs


def near(a: Point, b: Point) -> bool:
    """Tell whether two points are the same but for rounding."""
    return hypot(a[0] - b[0], a[1] - b[1]) < 1.0


def crossings(runs: list[Run]) -> list[tuple[Point, float]]:
    """Return where axes cross, with the turn from the upper one to the lower one, down the page counted as positive.

    Where one piece of a bundle ends and its next begins the two meet but do not cross.
    """
    found: list[tuple[Point, float]] = []
    for under, over in combinations(runs, 2):
        if under.layer == over.layer or not Box.of(under.axis).grown(1.0).meets(Box.of(over.axis).grown(1.0)):
            continue
        joints = [a for a in (under.axis[0], under.axis[-1]) for b in (over.axis[0], over.axis[-1]) if near(a, b)]
        low, high = (under, over) if under.layer < over.layer else (over, under)
        for a, b in pairwise(high.axis):
            for c, d in pairwise(low.axis):
                p, q = (b[0] - a[0], b[1] - a[1]), (d[0] - c[0], d[1] - c[1])
                cross = p[0] * q[1] - p[1] * q[0]
                if cross == 0.0:
                    continue
                t = ((c[0] - a[0]) * q[1] - (c[1] - a[1]) * q[0]) / cross
                u = ((c[0] - a[0]) * p[1] - (c[1] - a[1]) * p[0]) / cross
                at = (a[0] + t * p[0], a[1] + t * p[1])
                if (
                    0 <= t <= 1
                    and 0 <= u <= 1
                    and not any(near(at, each) for each in (*joints, *(one for one, _ in found)))
                ):
                    found.append((at, cross / (hypot(*p) * hypot(*q))))
    return found


def drawn(cord: Laid) -> str:
    return svg(Drawing(key="cord", title="t", desc="d", shapes=painted(cord, strands=False)), prefix="p")


STRAIGHT = Way([(0.0, 0.0), (700.0, 0.0)])


@pytest.mark.parametrize("deg", [12.0, 18.0, 24.0, 30.0])
@pytest.mark.parametrize("hand", ["S", "Z"])
def test_lay_angle_crossings_and_take_up_come_back_from_the_picture(deg: float, hand: Hand) -> None:
    bundle = 14.0
    runs = read(drawn(even(STRAIGHT, bundle, radians(deg if hand == "Z" else -deg))))
    known = lay(bundle, 2, radians(deg))
    inner = [run for run in runs if run.axis[0][0] > 30.0 and run.axis[-1][0] < 670.0]
    halves = [run.axis[-1][0] - run.axis[0][0] for run in inner]
    radius = fmean(max(abs(y) for _, y in run.axis) for run in inner)
    found = atan(2 * pi * radius / (2 * fmean(halves)))
    assert degrees(found) == pytest.approx(degrees(known.lay_rad), abs=0.1)
    assert radius == pytest.approx(known.radius_m, abs=0.03)
    assert fmean(run.wide for run in inner) == pytest.approx(bundle, abs=0.02)

    met = [point for point, _ in crossings(runs) if 30.0 < point[0] < 670.0]
    apart = [b - a for a, b in pairwise(sorted(x for x, _ in met))]
    assert 2 * fmean(apart) == pytest.approx(known.pitch_m, rel=2e-3)
    assert all(each == pytest.approx(fmean(apart), rel=0.02) for each in apart)

    assert fmean(taken_up(run, radius) for run in inner) == pytest.approx(known.take_up, abs=2e-3)


def taken_up(run: Run, radius: float) -> float:
    """Return the take-up over one half turn, its depth worked out from how far it lies off the cord's axis."""
    deep = [sqrt(max(0.0, radius**2 - y**2)) for _, y in run.axis]
    points = [(x, y, z) for (x, y), z in zip(run.axis, deep, strict=True)]
    length = sum(hypot(*(b[k] - a[k] for k in range(3))) for a, b in pairwise(points))
    return 1.0 - (run.axis[-1][0] - run.axis[0][0]) / length


@given(
    st.floats(8.0, 32.0),
    st.floats(10.0, 20.0),
    st.sampled_from(["S", "Z"]),
    st.sampled_from([2, 3]),
    st.floats(0.0, 6.0),
)
@settings(max_examples=20, deadline=None)
def test_every_crossing_has_the_sign_of_its_hand(
    deg: float, bundle: float, hand: Hand, bundles: int, turned: float
) -> None:
    """A right-handed (Z) cord shows its upper strands going down the page to the right, whichever way it lies."""
    way = Way([(0.0, 0.0), (300.0 * cos(turned), 300.0 * sin(turned))])
    signed = radians(deg if hand == "Z" else -deg)
    met = crossings(read(drawn(even(way, bundle, signed, bundles=bundles))))
    assert met
    assert all((sign < 0.0) == (hand == "Z") for _, sign in met)


@pytest.mark.parametrize("bundles", [2, 3])
def test_crossings_keep_their_sign_round_a_loop(bundles: int) -> None:
    way = Way.along((300.0, 40.0), To((120.0, 40.0)), Arc((120.0, -40.0), 40.0, clockwise=True), To((300.0, -40.0)))
    met = crossings(read(drawn(even(way, 10.0, radians(24.0), bundles=bundles))))
    assert len(met) > 10
    assert all(sign < 0.0 for _, sign in met)


def test_a_wrong_way_stretch_crosses_the_other_way() -> None:
    z = radians(24.0)
    stops = (
        CordStation(0.0, 12.0, z),
        CordStation(300.0, 12.0, z),
        CordStation(304.0, 12.0, -z),
        CordStation(600.0, 12.0, -z),
    )
    met = crossings(read(drawn(Laid(Way([(0.0, 0.0), (600.0, 0.0)]), stops))))
    assert {sign < 0.0 for (x, _), sign in met if x < 280.0} == {True}
    assert {sign < 0.0 for (x, _), sign in met if x > 320.0} == {False}


@given(st.floats(10.0, 30.0), st.floats(10.0, 30.0))
@settings(max_examples=15, deadline=None)
def test_turns_of_a_changing_lay_add_up(first: float, last: float) -> None:
    """Crossings over a lay that changes evenly follow the mean of its tangent."""
    stops = (CordStation(0.0, 12.0, radians(first)), CordStation(700.0, 12.0, radians(last)))
    met = crossings(read(drawn(Laid(STRAIGHT, stops))))
    steps = [radians(first + (last - first) * (k + 0.5) / 200) for k in range(200)]
    halves = 700.0 * fmean(tan(each) for each in steps) / (pi * 6.0)
    assert len(met) == pytest.approx(halves, abs=1.01)


def test_a_taper_is_as_thick_as_it_is_told_at_both_ends() -> None:
    stops = (CordStation(0.0, 20.0, radians(20.0)), CordStation(700.0, 10.0, radians(20.0)))
    runs = sorted(read(drawn(Laid(STRAIGHT, stops))), key=lambda run: run.axis[0][0])
    for run in runs:
        middle = (run.axis[0][0] + run.axis[-1][0]) / 2.0
        assert run.wide == pytest.approx(20.0 - 10.0 * middle / 700.0, abs=0.25)


@pytest.mark.parametrize("hand", ["S", "Z"])
@pytest.mark.parametrize("name", ["two-bundle-loop-plied", "rub-warm", "count-turns", "whip-end", "broken-strand"])
def test_the_cord_of_a_figure_has_the_hand_the_figure_says(name: str, hand: Hand) -> None:
    """Turned over for S or drawn as S, each figure of one cord shows one hand throughout."""
    met = crossings(read(svg(figure(name, hand=hand), prefix="p")))
    assert len(met) >= 3
    assert all((sign < 0.0) == (hand == "Z") for _, sign in met)


@pytest.mark.parametrize("hand", ["S", "Z"])
def test_the_wrong_way_figure_shows_both_hands_in_the_order_it_says(hand: Hand) -> None:
    met = sorted(crossings(read(svg(figure("wrong-way-twist", hand=hand), prefix="p"))))
    assert [(sign < 0.0) == (hand == "Z") for _, sign in met] == [True, True, False, False]
