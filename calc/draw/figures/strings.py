"""Whole strings: pulled, measured, settled, named, and looked at for faults."""

from __future__ import annotations

from math import pi
from typing import TYPE_CHECKING

from calc.draw import FIRM, HAIR, LINE, Circle, CubicTo, Dim, Label, Line, Pen, Polyline, Scale, Shape, tape
from calc.draw.cord import CordStation, Laid, Way, painted, served
from calc.draw.cord.arrows import arrow, letter, straight, word
from calc.draw.cord.paint import painted_layers
from calc.draw.cord.props import box, cross_out, dashed, ground_line, marked, pin, tick_off, weight
from calc.draw.figures.bench import Bench, Sheet
from calc.draw.figures.parts import DOUBLED, eye, leg, plied, whole

if TYPE_CHECKING:
    from calc.draw import Point
    from calc.draw.cord.laid import Name

_INCH = 0.0254
_STOPS = 2000
"""Places along a cord at which its depth is read."""


def _pull_string(b: Bench) -> Sheet:
    """Draw a nail in one loop and a pull at the other, hand over hand between."""
    shapes: list[Shape] = [*whole(b, left=10.0, right=290.0), *pin((28.0, 0.0), 7.0)]
    shapes += straight((286.0, 0.0), (350.0, 0.0))
    for x in (110.0, 160.0, 210.0):
        shapes += arrow((x - 16.0, -16.0), CubicTo((x - 10.0, -34.0), (x + 14.0, -34.0), (x + 20.0, -16.0)), rim=False)
    return Sheet([], [*shapes, word((322.0, -14.0), "pull"), word((164.0, -44.0), "hand over hand")])


def _length_on_nails(b: Bench) -> Sheet:
    """Draw a finished string on two nails, measured outside them under a pull."""
    left, right = 24.0, 304.0
    shapes: list[Shape] = [*whole(b, left=left - 8.0, right=right + 8.0)]
    shapes += [
        *pin((left + 5.0, 0.0), 7.0),
        *pin((right - 5.0, 0.0), 7.0),
        *straight((right + 12.0, 0.0), (354.0, 0.0)),
    ]
    length = b.length("string_length", 57.0 * _INCH)
    shapes += tape(Scale(0.0, length, left - 2.0, (right - left + 4.0) / length), 64.0, b.system)
    said = b.said("string_length", "string length")
    shapes.append(Dim((left - 2.0, 8.0), (right + 2.0, 8.0), said, 26.0, size=15.0))
    return Sheet([], [*shapes, word((338.0, -14.0), "pull")])


def _rub_warm(b: Bench) -> Sheet:
    """Draw a folded pad rubbed along the string both ways."""
    shapes: list[Shape] = [*plied(b, leg((4.0, 0.0), (354.0, 0.0)), bundle=11.0)]
    shapes += [box(128.0, -30.0, 232.0, 16.0, tint=False), Line((128.0, -24.0), (232.0, -24.0), LINE)]
    shapes += straight((100.0, 40.0), (260.0, 40.0), both=True)
    return Sheet([], [*shapes, Label((180.0, -2.0), "leather", 14.0, "middle"), word((180.0, 62.0), "rub both ways")])


def _string_parts(b: Bench) -> Sheet:
    """Draw all parts of a finished string, with their names."""
    shapes: list[Shape] = [*whole(b, left=4.0, right=356.0, bundle=6.0, eyes=48.0)]
    shapes += served(leg((150.0, 0.0), (252.0, 0.0)), 0.0, 102.0, width=16.0, hand=b.hand)
    shapes.append(Line((190.0, -9.0), (190.0, 9.0), Pen("accent", 6.0, cap="butt")))
    tags: list[tuple[float, float, float, str]] = [
        (26.0, 22.0, 52.0, "loop"),
        (64.0, 8.0, 76.0, "throat"),
        (94.0, 8.0, 52.0, "splice"),
        (140.0, 8.0, 76.0, "body"),
        (224.0, 9.0, 52.0, "serving"),
        (190.0, -10.0, -34.0, "nocking point"),
    ]
    for x, near, far, text in tags:
        shapes += [Line((x, near), (x, far - (12.0 if far > 0.0 else -4.0)), HAIR)]
        shapes.append(Label((x, far + (2.0 if far > 0.0 else 0.0)), text, 14.0, "middle"))
    return Sheet([], shapes)


def _hang_weight(b: Bench) -> Sheet:
    """Draw a weight hung low on the string, a second line on it, and feet well clear."""
    return hung(b, 2)


def hung(b: Bench, bundles: int) -> Sheet:
    """Return a string with a weight on it, low over the ground.

    Parameters
    ----------
    b : Bench
        The hand and the measures.
    bundles : int, 2 or 3
        Of the string.
    """
    x, hook, floor = 150.0, 96.0, 172.0
    loop = eye((0.0, 0.0), reach=31.0, half=9.0)
    upper = Way([(x + py, 31.0 + px) for px, py in loop.points])
    lower = Way([(x + py, hook - 22.0 - px) for px, py in loop.points])
    shapes: list[Shape] = [box(70.0, -22.0, 230.0, -10.0), *pin((x, 8.0), 6.0)]
    for way in (upper, lower, Way([(x, 28.0), (x, hook - 19.0)])):
        shapes += plied(b, way, bundle=4.0, bundles=bundles)
    shapes += [*weight((x, hook), 54.0, 76.0), ground_line(40.0, 330.0, floor)]
    line = ((206.0, -10.0), (212.0, 50.0), (190.0, 100.0), (x + 14.0, hook + 12.0))
    shapes.append(Polyline(line, Pen("quiet", 2.0)))
    shapes.append(dashed(((84.0, floor - 2.0), (84.0, 84.0), (224.0, 84.0), (224.0, floor - 2.0))))
    said = b.said("weight", "weight")
    words = [Label((222.0, 52.0), "second line", 15.0), word((234.0, floor - 22.0), "feet clear", "start")]
    words += [Label((x, hook + 50.0), said, 14.0, "middle", bold=True)]
    return Sheet([], [*shapes, *words])


def _throat_mark(b: Bench) -> Sheet:
    """Draw a pen line across the throat: whole, or parted where it slipped."""
    shapes: list[Shape] = []
    for y, slipped in ((-48.0, False), (48.0, True)):
        way = eye((0.0, 0.0), reach=84.0, half=26.0, gap=12.0)
        shapes += plied(b, Way([(98.0 + px, y + py) for px, py in way.points]), bundle=7.0)
        cord = Laid(
            leg((96.0, y), (266.0, y)),
            (CordStation(0.0, 7.0 * DOUBLED, b.lay), CordStation(170.0, 8.0, b.lay)),
            2,
            b.names(),
        )
        shapes += painted(cord, halo=True)
        apart = 14.0 if slipped else 0.0
        shapes += [
            *marked((112.0, y - 17.0), (112.0, y)),
            *marked((112.0 + apart, y), (112.0 + apart, y + 17.0)),
        ]
        shapes += cross_out((300.0, y)) if slipped else [tick_off((300.0, y))]
        shapes.append(Label((300.0, y + 32.0), "slipped" if slipped else "kept", 14.0, "middle"))
    return Sheet([], shapes)


def over_the_top(cord: Laid, name: Name) -> list[float]:
    """Return where a bundle of an even cord comes over the top: once in each turn.

    Parameters
    ----------
    cord : Laid
        Even: one station.
    name : {"a", "b", "c"}
        Which bundle.
    """
    bundle = cord.names.index(name)
    step = cord.way.length / _STOPS
    depth = [cord.depth(step * index, bundle) for index in range(_STOPS + 1)]
    return [step * at for at in range(1, _STOPS) if depth[at - 1] < depth[at] >= depth[at + 1]]


def _count_turns(b: Bench) -> Sheet:
    """Draw the crossings of one bundle counted over a tape: each time that A comes over the top is one turn."""
    left, right = 30.0, 330.0
    cord = Laid(leg((4.0, 0.0), (356.0, 0.0)), (CordStation(0.0, 12.0, b.lay),), 2, b.names(), 176.0, pi / 2.0)
    shapes: list[Shape] = list(painted(cord))
    tops = [4.0 + at for at in over_the_top(cord, "a") if left <= 4.0 + at < right]
    for turn, x in enumerate(tops, start=1):
        shapes += [Line((x, -19.0), (x, -14.0), HAIR), Label((x, -24.0), str(turn), 14.0, "middle", bold=True)]
    span = 0.1 if b.system == "metric" else 4.0 * _INCH
    shapes += tape(Scale(0.0, span, left, (right - left) / span), 30.0, b.system)
    shapes += [Line((x, -36.0), (x, 30.0), Pen("accent", 1.0)) for x in (left, right)]
    return Sheet([], [*shapes, word((180.0, -44.0), "A over: one turn")])


def _serving_gap(b: Bench) -> Sheet:
    """Draw a serving whose turns have parted."""
    way = leg((4.0, 0.0), (354.0, 0.0))
    shapes: list[Shape] = [*plied(b, way, bundle=9.0)]
    shapes += served(way, 40.0, 150.0, width=24.0, pitch=6.0, hand=b.hand)
    for index in range(4):
        at = 160.0 + 17.0 * index
        shapes += served(way, at, at + 6.0, width=24.0, pitch=6.0, hand=b.hand)
    shapes += served(way, 230.0, 310.0, width=24.0, pitch=6.0, hand=b.hand)
    return Sheet([], [*shapes, word((188.0, -26.0), "turns apart"), *cross_out((188.0, 38.0))])


def _proud_bundle(b: Bench) -> Sheet:
    """Draw one bundle that stands out in waves."""
    way = leg((4.0, 0.0), (354.0, 0.0))
    tight, loose = b.names()
    slack = Laid(way, (CordStation(0.0, 11.0, b.lay * 0.9, 2.1),), 2, (loose, loose))
    held = Laid(way, (CordStation(0.0, 11.0, b.lay * 0.42, 0.5),), 2, (tight, tight), zero_at=20.0)
    back, front = painted_layers(slack, 0.0, way.length, only=0)
    core = painted_layers(held, 0.0, way.length, only=1)
    shapes: list[Shape] = [*back, *(each for layer in core for each in layer), *front]
    names = [
        word((92.0, -34.0), f"{loose.upper()} too long"),
        Label((262.0, 42.0), f"{tight.upper()} carries all", 14.0, "middle"),
    ]
    return Sheet([], [*shapes, *names])


def _kinked_cord(b: Bench) -> Sheet:
    """Draw a slack cord that throws a kink."""
    points: tuple[Point, ...] = (
        (4.0, 32.0),
        (90.0, 36.0),
        (150.0, 26.0),
        (204.0, -8.0),
        (226.0, -50.0),
        (196.0, -80.0),
        (166.0, -50.0),
        (188.0, -8.0),
        (242.0, 26.0),
        (300.0, 36.0),
        (354.0, 32.0),
    )
    way = Way.smooth(*points)
    cord = Laid(way, (CordStation(0.0, 8.0, b.lay * 1.35),), 2, b.names())
    shapes: list[Shape] = list(painted(cord))
    crossing = way.nearest((200.0, 2.0))
    crossing = max(crossing, way.length - way.back().nearest((192.0, -2.0)))
    shapes += painted(cord, crossing - 26.0, crossing + 26.0, halo=True, ends=False)
    return Sheet([], [*shapes, word((262.0, -50.0), "kink", size=16.0), letter((70.0, 4.0), b.hand, 24.0)])


def _inspect_where(b: Bench) -> Sheet:
    """Draw numbered places to look at on a string."""
    shapes: list[Shape] = [*whole(b, left=4.0, right=356.0, bundle=6.0, eyes=48.0)]
    shapes += served(leg((150.0, 0.0), (252.0, 0.0)), 0.0, 102.0, width=16.0, hand=b.hand)
    shapes.append(Line((190.0, -9.0), (190.0, 9.0), Pen("accent", 6.0, cap="butt")))
    for index, (x, y) in enumerate(
        ((10.0, 42.0), (64.0, 42.0), (120.0, 42.0), (190.0, -34.0), (236.0, 42.0), (300.0, 42.0))
    ):
        shapes += [
            Line((x, y * 0.68), (x + (4.0 if index == 0 else 0.0), y * 0.28), HAIR),
            Circle((x, y), 11.0, FIRM, "ground"),
        ]
        shapes.append(Label((x, y + 5.2), str(index + 1), 15.0, "middle", bold=True))
    return Sheet([], shapes)


DRAWN = (
    _pull_string,
    _length_on_nails,
    _rub_warm,
    _string_parts,
    _hang_weight,
    _throat_mark,
    _count_turns,
    _serving_gap,
    _proud_bundle,
    _kinked_cord,
    _inspect_where,
)
