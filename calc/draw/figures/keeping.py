"""Before the making and after it: is the cord good enough, pulling it, how it is kept, when it is done."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.draw import FIRM, HAIR, LINE, Circle, CubicTo, Label, Line, Many, Path, Pen, Polyline, Shape, To
from calc.draw.cord import CordStation, Laid, Way, painted, served
from calc.draw.cord.arrows import arrow, word
from calc.draw.cord.props import box, cross_out, dashed, ground_line, jar, pin, tick_off, weight
from calc.draw.figures.bench import Bench, Sheet
from calc.draw.figures.bows import bow
from calc.draw.figures.parts import eye, leg, plied, whole

if TYPE_CHECKING:
    from calc.draw import Point

_STRING = Pen("ink", 2.0)


def _hung(b: Bench, x: float, top: float, low: float, sway: float = 0.0) -> list[Shape]:
    """Draw a string that hangs by one loop, straight or in curls."""
    line = eye((0.0, 0.0), reach=44.0, half=12.0)
    shapes: list[Shape] = [*pin((x, top + 8.0), 7.0)]
    shapes += plied(b, Way([(x + py, top + 44.0 + px) for px, py in line.points]), bundle=4.0)
    shapes += plied(b, Way([(x + py, low - 44.0 - px) for px, py in line.points]), bundle=4.0)
    shares = (0.0, 0.15, 0.4, 0.65, 0.88, 1.0)
    sides = (0.0, 0.4, 1.0, -1.0, 0.3, 0.0)
    tall = low - top - 84.0
    line_down = [(x + sway * side, top + 42.0 + tall * share) for share, side in zip(shares, sides, strict=True)]
    return [*shapes, *plied(b, Way.smooth(*line_down), bundle=4.4)]


def _hang_at_rest(b: Bench) -> Sheet:
    """Draw a string that hangs still, and one that turns."""
    shapes: list[Shape] = []
    for x, still in ((90.0, True), (250.0, False)):
        shapes += _hung(b, x, -90.0, 90.0, 0.0 if still else 13.0)
        if still:
            shapes.append(tick_off((x + 42.0, 0.0)))
        else:
            shapes += arrow((x - 22.0, 62.0), CubicTo((x - 14.0, 80.0), (x + 14.0, 80.0), (x + 22.0, 62.0)))
            shapes += cross_out((x + 48.0, 0.0))
        shapes.append(Label((x, 116.0), "hangs still" if still else "curls and turns", 15.0, "middle"))
    return Sheet([], shapes)


def _spare_string(b: Bench) -> Sheet:
    """Draw two strings of one length with their card."""
    shapes: list[Shape] = [*whole(b, left=8.0, right=352.0, y=-40.0), *whole(b, left=8.0, right=352.0, y=0.0)]
    shapes += [Line((x, -58.0), (x, 18.0), Pen("accent", 1.0, dash=True)) for x in (7.0, 353.0)]
    shapes.append(box(130.0, 28.0, 230.0, 86.0, pen=LINE, tint=False))
    shapes += [Line((140.0, y), (140.0 + wide, y), HAIR) for y, wide in ((54.0, 78.0), (64.0, 60.0), (74.0, 70.0))]
    return Sheet(
        [], [*shapes, Label((180.0, 45.0), "one card", 13.0, "middle", bold=True), word((180.0, -62.0), "alike")]
    )


def _retire_cut(b: Bench) -> Sheet:
    """Draw a worn string cut in pieces."""
    shapes: list[Shape] = []
    for index in range(5):
        x, tilt = 16.0 + 68.0 * index, 7.0 * (-1.0) ** index
        shapes += plied(b, leg((x, -tilt), (x + 50.0, tilt)), bundle=6.0)
    for at in (75.0, 211.0):
        shapes += [
            Line((at - 9.0, -30.0), (at + 5.0, 12.0), Pen("ink", 3.0)),
            Line((at + 9.0, -30.0), (at - 5.0, 12.0), Pen("ink", 3.0)),
        ]
        shapes += [Circle((at - 11.0, -37.0), 7.0, FIRM), Circle((at + 11.0, -37.0), 7.0, FIRM)]
    return Sheet([], [*shapes, word((180.0, 44.0), "cut it up")])


def _loop_wear(b: Bench) -> Sheet:
    """Draw a loop out of its groove, with the two places where it wears."""
    bundle = 10.0
    way = eye((196.0, 0.0), reach=180.0, half=50.0, gap=20.0)
    shapes: list[Shape] = [
        *plied(b, way, bundle=bundle),
        *plied(b, leg((192.0, 0.0), (350.0, 0.0)), bundle=bundle * 1.3),
    ]
    rings: tuple[tuple[Point, str, Point], ...] = (
        ((16.0, 0.0), "bend", (70.0, 5.0)),
        ((196.0, 0.0), "throat", (196.0, 52.0)),
    )
    for at, text, said in rings:
        shapes += [Circle(at, 26.0, Pen("accent", 2.0, dash=True)), word(said, text, "middle")]
    for index in range(7):
        y = -15.0 + 5.0 * index
        shapes.append(Path((6.0, y), (CubicTo((0.0, y - 4.0), (-3.0, y + 3.0), (-9.0, y)),), Pen("quiet", 0.8)))
    return Sheet([], shapes)


def _brace_log(_: Bench) -> Sheet:
    """Draw brace height as it falls with the first shots and then stays, read at three counts."""
    left, foot = 44.0, 70.0
    line = Path(
        (left, -44.0), (CubicTo((left + 40.0, 6.0), (left + 110.0, 26.0), (left + 290.0, 30.0)),), Pen("a", 2.5)
    )
    shapes: list[Shape] = [Line((left, foot), (344.0, foot), LINE), Line((left, foot), (left, -56.0), LINE), line]
    for x, y, text in ((left + 20.0, -22.5, "10"), (left + 76.0, 8.5, "50"), (left + 240.0, 28.0, "200")):
        shapes += [Line((x, y + 6.0), (x, foot + 4.0), HAIR), Circle((x, y), 4.5, Pen("accent", 2.5), "ground")]
        shapes.append(Label((x, foot + 20.0), text, 15.0, "middle", bold=True))
    words = [
        Label((344.0, foot + 38.0), "shots", 14.0, "end", "quiet"),
        Label((left + 8.0, -48.0), "brace height", 14.0, ink="quiet"),
    ]
    return Sheet([], [*shapes, *words, Label((300.0, 18.0), "then stays", 14.0, "middle")])


def _strong_enough(_: Bench) -> Sheet:
    """Draw a shot's hardest pull beside what the string holds."""
    shapes: list[Shape] = [box(20.0, -40.0, 90.0, -12.0), box(20.0, 20.0, 340.0, 48.0, tint=False)]
    shapes += [Line((20.0 + 70.0 * index, 20.0), (20.0 + 70.0 * index, 48.0), HAIR) for index in range(1, 5)]
    shapes.append(Line((20.0, -50.0), (20.0, 58.0), FIRM))
    words = [Label((98.0, -20.0), "hardest pull", 15.0), Label((20.0, 74.0), "what it holds", 15.0, bold=True)]
    return Sheet([], [*shapes, *words, Label((340.0, 74.0), "several times more", 14.0, "end")])


def _read_label(_: Bench) -> Sheet:
    """Draw a reel of cord with what to read on its label."""
    shapes: list[Shape] = [
        box(24.0, -60.0, 40.0, 60.0),
        box(140.0, -60.0, 156.0, 60.0),
        box(40.0, -46.0, 140.0, 46.0, tint=False),
    ]
    turns = tuple(((44.0 + 6.0 * index, -45.0), (To((48.0 + 6.0 * index, 45.0)),)) for index in range(16))
    shapes += [
        Many(turns, Pen("a", 4.0, cap="butt")),
        Path((136.0, 45.0), (CubicTo((150.0, 74.0), (190.0, 74.0), (214.0, 70.0)),), Pen("a", 4.0)),
    ]
    shapes += [box(190.0, -58.0, 346.0, 44.0, pen=LINE, tint=False), Line((156.0, 0.0), (190.0, 0.0), HAIR)]
    for index, text in enumerate(("fibre", "breaking load", "weight, length")):
        y = -30.0 + 30.0 * index
        shapes += [Label((202.0, y), text, 15.0, bold=True), Line((202.0, y + 7.0), (334.0, y + 7.0), HAIR)]
    return Sheet([], shapes)


def _club_rules(_: Bench) -> Sheet:
    """Draw the rules of the room: no arrows, nobody draws, adults brace."""
    shapes: list[Shape] = []
    x = 62.0
    shapes += [
        Line((x - 42.0, 26.0), (x + 38.0, -22.0), Pen("ink", 3.0)),
        Polyline(((x + 24.0, -22.0), (x + 42.0, -25.0), (x + 34.0, -8.0)), FIRM),
    ]
    shapes += [Line((x - 42.0 + 7.0 * k, 26.0 - 4.2 * k), (x - 46.0 + 7.0 * k, 16.0 - 4.2 * k), FIRM) for k in range(3)]
    shapes += cross_out((x, 2.0), 26.0)
    limb = Path((148.0, 34.0), (CubicTo((156.0, -44.0), (204.0, -44.0), (212.0, 34.0)),), Pen("ink", 4.0))
    shapes += [limb, Polyline(((148.0, 34.0), (180.0, 52.0), (212.0, 34.0)), _STRING), *cross_out((180.0, 8.0), 26.0)]
    brace = Path((266.0, 26.0), (CubicTo((276.0, -34.0), (322.0, -34.0), (332.0, 26.0)),), Pen("ink", 4.0))
    shapes += [brace, Line((266.0, 26.0), (332.0, 26.0), _STRING), tick_off((299.0, 8.0), 12.0)]
    words = [Label((x, 84.0), "no arrows", 15.0, "middle"), Label((180.0, 84.0), "nobody draws", 15.0, "middle")]
    return Sheet([], [*shapes, *words, Label((300.0, 84.0), "adults brace", 15.0, "middle")])


def _club_cut(_: Bench) -> Sheet:
    """Draw cut strands taped together in sets, each with its bow's name."""
    shapes: list[Shape] = []
    for index, (wide, name) in enumerate(((320.0, "bow 1"), (290.0, "bow 2"), (248.0, "bow 3"))):
        y = -52.0 + 52.0 * index
        lines = tuple(((16.0, y - 9.0 + 3.0 * row), (To((16.0 + wide, y - 9.0 + 3.0 * row)),)) for row in range(7))
        shapes += [Many(lines, Pen("a", 1.6, cap="butt")), box(40.0, y - 14.0, 106.0, y + 14.0, pen=LINE, tint=False)]
        shapes.append(Label((73.0, y + 5.0), name, 14.0, "middle", bold=True))
    return Sheet([], [*shapes, word((252.0, 86.0), "longest first")])


def _inspect_bow(b: Bench) -> Sheet:
    """Draw a braced bow with numbered places to look at."""
    shapes, one, two = bow(0.66)
    y = one[1]
    shapes += plied(b, leg(one, two), bundle=3.4)
    shapes += served(leg((150.0, y), (214.0, y)), 0.0, 64.0, width=9.0, pitch=3.5, hand=b.hand)
    places: tuple[tuple[Point, Point], ...] = (
        (one, (22.0, y + 34.0)),
        ((80.0, 15.0), (70.0, -26.0)),
        ((176.0, -9.0), (176.0, -38.0)),
        ((280.0, 15.0), (290.0, -26.0)),
        ((182.0, y + 5.0), (182.0, y + 34.0)),
        (two, (338.0, y + 34.0)),
    )
    for index, (near, far) in enumerate(places):
        shapes += [Line(near, far, HAIR), Circle(far, 11.0, FIRM, "ground")]
        shapes.append(Label((far[0], far[1] + 5.2), str(index + 1), 15.0, "middle", bold=True))
    return Sheet([], shapes)


_SLACK = Pen("quiet", 2.0)


def _clock(at: Point, hours: str) -> list[Shape]:
    """Draw a clock face with how long."""
    x, y = at
    hands = [Line(at, (x, y - 11.0), FIRM), Line(at, (x + 7.0, y + 4.0), FIRM)]
    return [Circle(at, 16.0, FIRM, "ground"), *hands, Label((x + 24.0, y + 5.0), hours, 15.0, bold=True)]


def _small_bow(x: float, y: float) -> list[Shape]:
    """Draw a small braced bow lying level."""
    limb = Path((x - 60.0, y), (CubicTo((x - 34.0, y - 40.0), (x + 34.0, y - 40.0), (x + 60.0, y)),), Pen("ink", 4.0))
    return [limb, Line((x - 60.0, y), (x + 60.0, y), _STRING)]


def _settle_ways(b: Bench) -> Sheet:
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


def _brace_watched(_: Bench) -> Sheet:
    """Draw a braced bow on two pegs for an hour, a clear space round it, and somebody near."""
    shapes, one, two = bow(0.6)
    shapes += [Line(one, two, _STRING), *pin((96.0, one[1] - 26.0), 5.0), *pin((264.0, one[1] - 26.0), 5.0)]
    shapes.append(dashed(((2.0, -58.0), (358.0, -58.0), (358.0, 92.0), (2.0, 92.0), (2.0, -58.0))))
    shapes += _clock((152.0, -30.0), "1 h")
    words = [Label((180.0, 78.0), "nobody passes", 14.0, "middle"), word((180.0, 112.0), "stay near it")]
    return Sheet([], [*shapes, *words])


def _hang_strand(_: Bench) -> Sheet:
    """Draw one strand with a bucket that is filled until it breaks, and a sound and an unsound broken end."""
    x, floor = 96.0, 118.0
    shapes: list[Shape] = [box(30.0, -90.0, 164.0, -80.0), Line((x, -80.0), (x, 30.0), Pen("a", 3.0))]
    shapes += [jar(x - 26.0, x + 26.0, 52.0, 100.0), Path((x - 26.0, 52.0), (CubicTo((x - 14.0, 22.0), (x + 14.0, 22.0),
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


def _endless_hang(b: Bench) -> Sheet:
    """Draw an endless string under a weight: served loops, hardly any twist, a second line."""
    x, hook, floor = 150.0, 104.0, 162.0
    shapes: list[Shape] = [box(70.0, -28.0, 230.0, -18.0)]
    for at, way in ((-14.0, 1.0), (90.0, -1.0)):
        loop = eye((0.0, 0.0), reach=26.0, half=9.0)
        line = Way([(x + py, at + way * (26.0 + px)) for px, py in loop.points])
        shapes += served(line, 0.0, line.length, width=8.0, pitch=3.5)
        near, far = sorted((at + way * 22.0, at + way * 44.0))
        shapes += served(leg((x, near), (x, far)), 0.0, far - near, width=15.0, pitch=3.5)
    body = Laid(leg((x, 28.0), (x, 48.0)), (CordStation(0.0, 6.0, b.lay * 0.4),), 2, ("a", "a"))
    shapes = [*painted(body), *shapes, *pin((x, -8.0), 6.0), *weight((x, hook - 20.0), 52.0, 76.0)]
    shapes += [
        ground_line(40.0, 330.0, floor),
        Polyline(((206.0, -18.0), (214.0, 40.0), (x + 14.0, hook - 8.0)), _SLACK),
    ]
    shapes.append(dashed(((84.0, floor - 2.0), (84.0, 76.0), (224.0, 76.0), (224.0, floor - 2.0))))
    words = [Label((222.0, 30.0), "second line", 15.0), word((234.0, floor - 22.0), "feet clear", "start")]
    return Sheet([], [*shapes, *words, Label((x, hook + 26.0), b.said("weight", "weight"), 14.0, "middle", bold=True)])


def _weight_corner(_: Bench) -> Sheet:
    """Draw the roped-off row in which strings settle all at once: some on their bows, some under weights."""
    shapes: list[Shape] = [ground_line(14.0, 346.0, 90.0)]
    for y in (-66.0, -22.0, 22.0):
        shapes += _small_bow(104.0, y)
    shapes.append(box(196.0, -96.0, 330.0, -86.0))
    for x in (226.0, 266.0, 306.0):
        shapes += [Line((x, -86.0), (x, 6.0), Pen("a", 3.0)), box(x - 12.0, 6.0, x + 12.0, 36.0)]
        shapes.append(
            Path((x + 14.0, -86.0), (CubicTo((x + 20.0, -40.0), (x + 18.0, -6.0), (x + 10.0, 10.0)),), _SLACK)
        )
    for x in (24.0, 336.0):
        shapes.append(Line((x, 44.0), (x, 90.0), Pen("ink", 4.0)))
    rope = Path((24.0, 50.0), (CubicTo((120.0, 80.0), (240.0, 80.0), (336.0, 50.0)),), Pen("accent", 2.5))
    words = [word((180.0, 116.0), "keep behind the rope"), Label((104.0, -104.0), "all at once", 14.0, "middle")]
    return Sheet([], [*shapes, rope, *words])


def _string_stored(b: Bench) -> Sheet:
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
    drop = CubicTo((232.0, 16.0), (230.0, 36.0), (214.0, 36.0)), CubicTo((198.0, 36.0), (196.0, 16.0), (214.0, -10.0))
    shapes.append(Path((214.0, -10.0), drop, FIRM, "tint", closed=True))
    bars = [Line((196.0 + 12.0 * k, 62.0), (196.0 + 12.0 * k, 96.0), Pen("ink", 4.0)) for k in range(4)]
    shapes += [*bars, Line((190.0, 66.0), (238.0, 66.0), FIRM), Line((190.0, 92.0), (238.0, 92.0), FIRM)]
    for y, text in ((-64.0, "sun"), (14.0, "damp"), (79.0, "dry heat")):
        shapes += [*cross_out((262.0, y)), Label((280.0, y + 5.0), text, 15.0)]
    return Sheet([], shapes)


DRAWN = (
    _hang_at_rest,
    _spare_string,
    _retire_cut,
    _loop_wear,
    _brace_log,
    _strong_enough,
    _read_label,
    _club_rules,
    _club_cut,
    _inspect_bow,
    _settle_ways,
    _brace_watched,
    _hang_strand,
    _endless_hang,
    _weight_corner,
    _string_stored,
)
