"""Pulling a string or a cord with a weight, or with its own bow: the ways, and what keeps people clear."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.draw import Circle, Curve, FIRM, LINE, Label, Line, Path, Pen, Polyline, Shape
from calc.draw.cord import Laid, Station, Way, painted, served
from calc.draw.cord.arrows import word
from calc.draw.cord.props import box, cross_out, dashed, ground_line, jar, pin, tick_off, weight
from calc.draw.figures.bench import Bench, Sheet
from calc.draw.figures.bows import bow
from calc.draw.figures.parts import eye, leg, plied

if TYPE_CHECKING:
    from calc.draw import Point

_STRING = Pen("ink", 2.0)
_SLACK = Pen("quiet", 2.0)


def _clock(at: Point, hours: str) -> list[Shape]:
    """Draw a clock face with how long."""
    x, y = at
    hands = [Line(at, (x, y - 11.0), FIRM), Line(at, (x + 7.0, y + 4.0), FIRM)]
    return [Circle(at, 16.0, FIRM, "ground"), *hands, Label((x + 24.0, y + 5.0), hours, 15.0, bold=True)]


def _small_bow(x: float, y: float) -> list[Shape]:
    """Draw a small braced bow lying level."""
    limb = Path((x - 60.0, y), (Curve((x - 34.0, y - 40.0), (x + 34.0, y - 40.0), (x + 60.0, y)),), Pen("ink", 4.0))
    return [limb, Line((x - 60.0, y), (x + 60.0, y), _STRING)]


def settle_ways(b: Bench) -> Sheet:
    """Draw the two ways beside each other: under a weight, or on a sound bow with somebody by it."""
    shapes: list[Shape] = [box(40.0, -70.0, 130.0, -60.0), ground_line(16.0, 152.0, 84.0)]
    shapes += [*plied(b, leg((84.0, -60.0), (84.0, 12.0)), bundle=4.0), *weight((84.0, 10.0), 34.0, 46.0)]
    shapes.append(Polyline(((116.0, -60.0), (122.0, -14.0), (94.0, 18.0)), _SLACK))
    shapes += [*_small_bow(272.0, 8.0), *_clock((252.0, 44.0), "1 h"), Line((180.0, -70.0), (180.0, 90.0), LINE)]
    words = [Label((84.0, 108.0), "under a weight", 14.0, "middle"), word((180.0, -80.0), "one or the other")]
    words += [
        Label((272.0, -40.0), "a sound bow", 14.0, "middle"),
        Label((272.0, 84.0), "somebody by it", 14.0, "middle"),
    ]
    return Sheet([], [*shapes, *words])


def brace_watched(_: Bench) -> Sheet:
    """Draw a braced bow on two pegs for an hour, a clear space round it, and somebody near."""
    shapes, one, two = bow(0.6)
    shapes += [Line(one, two, _STRING), *pin((96.0, one[1] - 26.0), 5.0), *pin((264.0, one[1] - 26.0), 5.0)]
    shapes.append(dashed(((2.0, -58.0), (358.0, -58.0), (358.0, 92.0), (2.0, 92.0), (2.0, -58.0))))
    shapes += _clock((152.0, -30.0), "1 h")
    words = [Label((180.0, 78.0), "nobody passes", 14.0, "middle"), word((180.0, 112.0), "stay near it")]
    return Sheet([], [*shapes, *words])


def hang_strand(_: Bench) -> Sheet:
    """Draw one strand with a bucket that is filled until it breaks, and a sound and an unsound broken end."""
    x, floor = 96.0, 118.0
    shapes: list[Shape] = [box(30.0, -90.0, 164.0, -80.0), Line((x, -80.0), (x, 30.0), Pen("a", 3.0))]
    shapes += [jar(x - 26.0, x + 26.0, 52.0, 100.0), Path((x - 26.0, 52.0), (Curve((x - 14.0, 22.0), (x + 14.0, 22.0),
               (x + 26.0, 52.0)),), FIRM), box(x - 24.0, 74.0, x + 24.0, 98.0, pen=Pen("quiet", 1.0))]  # fmt: skip
    shapes += [ground_line(16.0, 184.0, floor), Polyline(((146.0, -80.0), (150.0, 10.0), (x + 26.0, 54.0)), _SLACK)]
    for y, sound in ((-40.0, True), (40.0, False)):
        shapes += [Line((210.0, y), (256.0, y), Pen("a", 5.0, cap="butt"))]
        if sound:
            shapes += [Line((256.0, y + 0.5 * off), (274.0 - abs(off), y + 2.0 * off), Pen("a", 1.5))
                       for off in (-4.0, -1.5, 1.5, 4.0)]  # fmt: skip
        else:
            shapes += [Circle((262.0 + 6.0 * k, y + 4.0 * (k % 3) - 3.0), 1.6, None, "a") for k in range(5)]
        shapes += [tick_off((318.0, y))] if sound else [*cross_out((318.0, y))]
        shapes.append(Label((264.0, y + 28.0), "long fibres" if sound else "dust, short bits", 14.0, "middle"))
    words = [
        word((x, 142.0), "fill bit by bit"),
        Label((154.0, 60.0), "second", 13.0),
        Label((154.0, 74.0), "line", 13.0),
    ]
    return Sheet([], [*shapes, *words])


def endless_hang(b: Bench) -> Sheet:
    """Draw an endless string under a weight: served loops, hardly any twist, a second line."""
    x, hook, floor = 150.0, 104.0, 180.0
    shapes: list[Shape] = [box(70.0, -42.0, 230.0, -30.0)]
    for at, way in ((-14.0, 1.0), (90.0, -1.0)):
        loop = eye((0.0, 0.0), reach=26.0, half=9.0)
        line = Way([(x + py, at + way * (26.0 + px)) for px, py in loop.points])
        shapes += served(line, 0.0, line.length, width=8.0, pitch=3.5)
        near, far = sorted((at + way * 22.0, at + way * 44.0))
        shapes += served(leg((x, near), (x, far)), 0.0, far - near, width=15.0, pitch=3.5)
    body = Laid(leg((x, 28.0), (x, 48.0)), (Station(0.0, 6.0, b.lay * 0.4),), 2, ("a", "a"))
    shapes = [*painted(body), *shapes, *pin((x, -8.0), 6.0), *weight((x, hook - 20.0), 52.0, 76.0)]
    shapes += [
        ground_line(40.0, 330.0, floor),
        Polyline(((206.0, -30.0), (214.0, 40.0), (x + 14.0, hook - 8.0)), _SLACK),
    ]
    shapes.append(dashed(((84.0, floor - 2.0), (84.0, 76.0), (224.0, 76.0), (224.0, floor - 2.0))))
    words = [Label((222.0, 30.0), "second line", 15.0), word((234.0, floor - 22.0), "feet clear", "start")]
    return Sheet([], [*shapes, *words, Label((x, hook + 26.0), b.said("weight", "weight"), 14.0, "middle", bold=True)])


def weight_corner(_: Bench) -> Sheet:
    """Draw the roped-off row in which strings settle all at once: some on their bows, some under weights."""
    shapes: list[Shape] = [ground_line(14.0, 346.0, 90.0)]
    for y in (-66.0, -22.0, 22.0):
        shapes += _small_bow(104.0, y)
    shapes.append(box(196.0, -96.0, 330.0, -86.0))
    for x in (226.0, 266.0, 306.0):
        shapes += [Line((x, -86.0), (x, 6.0), Pen("a", 3.0)), box(x - 12.0, 6.0, x + 12.0, 36.0)]
        shapes.append(Path((x + 14.0, -86.0), (Curve((x + 20.0, -40.0), (x + 18.0, -6.0), (x + 10.0, 10.0)),), _SLACK))
    for x in (24.0, 336.0):
        shapes.append(Line((x, 44.0), (x, 90.0), Pen("ink", 4.0)))
    rope = Path((24.0, 50.0), (Curve((120.0, 80.0), (240.0, 80.0), (336.0, 50.0)),), Pen("accent", 2.5))
    words = [word((180.0, 116.0), "keep behind the rope"), Label((104.0, -104.0), "all at once", 14.0, "middle")]
    return Sheet([], [*shapes, rope, *words])


def string_stored(b: Bench) -> Sheet:
    """Draw a string hung by one loop, out of sun, wet and heat."""
    x, top, low = 80.0, -90.0, 90.0
    loop = eye((0.0, 0.0), reach=44.0, half=12.0)
    shapes: list[Shape] = [*pin((x, top + 8.0), 7.0)]
    shapes += plied(b, Way([(x + py, top + 44.0 + px) for px, py in loop.points]), bundle=4.0)
    shapes += plied(b, Way([(x + py, low - 44.0 - px) for px, py in loop.points]), bundle=4.0)
    shapes += plied(b, leg((x, top + 42.0), (x, low - 42.0)), bundle=4.4)
    sun: Point = (214.0, -64.0)
    shapes.append(Circle(sun, 14.0, FIRM, "ground"))
    around = ((1.0, 0.0), (0.7, 0.7), (0.0, 1.0), (-0.7, 0.7), (-1.0, 0.0), (-0.7, -0.7), (0.0, -1.0), (0.7, -0.7))
    shapes += [Line((sun[0] + 18.0 * dx, sun[1] + 18.0 * dy), (sun[0] + 25.0 * dx, sun[1] + 25.0 * dy), FIRM)
               for dx, dy in around]  # fmt: skip
    drop = Curve((232.0, 16.0), (230.0, 36.0), (214.0, 36.0)), Curve((198.0, 36.0), (196.0, 16.0), (214.0, -10.0))
    shapes.append(Path((214.0, -10.0), drop, FIRM, "tint", closed=True))
    bars = [Line((196.0 + 12.0 * k, 62.0), (196.0 + 12.0 * k, 96.0), Pen("ink", 4.0)) for k in range(4)]
    shapes += [*bars, Line((190.0, 66.0), (238.0, 66.0), FIRM), Line((190.0, 92.0), (238.0, 92.0), FIRM)]
    for y, text in ((-64.0, "sun"), (14.0, "damp"), (79.0, "dry heat")):
        shapes += [*cross_out((262.0, y)), Label((280.0, y + 5.0), text, 15.0)]
    return Sheet([], shapes)


DRAWN = (settle_ways, brace_watched, hang_strand, endless_hang, weight_corner, string_stored)
