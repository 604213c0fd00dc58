"""Bows: measured, strung, braced, drawn, their tips and nocks."""

from __future__ import annotations

from math import cos, sin
from typing import TYPE_CHECKING

from calc.draw import (
    FIRM,
    HAIR,
    LINE,
    Arc,
    Circle,
    CubicTo,
    Dim,
    Label,
    Line,
    Path,
    Pen,
    Polyline,
    Scale,
    Shape,
    To,
    tape,
)
from calc.draw.cord import Way
from calc.draw.cord.arrows import end_view, letter, straight, word
from calc.draw.cord.props import box, cross_out, dashed, ground_line, square, tick_off
from calc.draw.figures.bench import Bench, Sheet
from calc.draw.figures.parts import leg, plied
from calc.numerics import find_root

if TYPE_CHECKING:
    from calc.draw import Point

_INCH = 0.0254
_STRING = Pen("ink", 2.0)
_GHOST = Pen("quiet", 1.0, dash=True)
_SHALLOWEST, _DEEPEST = 0.02, 0.25
"""Brace height / length of a bow, as far as one can be drawn."""


def limb_line(bend: float, half: float = 160.0, handle: float = 16.0, count: int = 24) -> list[Point]:
    """Return the belly of a bow lying level about x = 180: a stiff handle and two evenly bent limbs.

    Parameters
    ----------
    bend : float
        Angle through which each limb bends, tip against handle; the tips go down the page. [rad]
    half : float
        Length of half a bow along its belly.
    handle : float
        Half of the stiff length.
    count : int
        Straight steps in each limb.
    """
    right: list[Point] = [(handle, 0.0)]
    step = (half - handle) / count
    x, y = handle, 0.0
    for index in range(count):
        angle = bend * (index + 0.5) / count
        x, y = x + step * cos(angle), y + step * sin(angle)
        right.append((x, y))
    left = [(-x, y) for x, y in reversed(right)]
    return [(180.0 + x, y) for x, y in (*left, *right)]


def bow(bend: float, *, half: float = 160.0, pen: Pen | None = None) -> tuple[list[Shape], Point, Point]:
    """Return a bow seen from the side, belly down, with both its nocks.

    Parameters
    ----------
    bend, half : float
        As for `limb_line`.
    pen : Pen or None
        Draws the bow as one line; None for its wood and its grip.
    """
    belly = limb_line(bend, half)
    if pen:
        return [Polyline(tuple(belly), pen)], belly[0], belly[-1]
    way = Way(belly)
    thick = [way.aside(s, 3.0 + 6.0 * (1.0 - abs(2.0 * s / way.length - 1.0))) for s in _stops(way.length, 40)]
    wood = Polyline((*belly, *reversed(thick)), LINE, "tint", closed=True)
    grip = Polyline(((164.0, -9.0), (196.0, -9.0), (196.0, 3.0), (164.0, 3.0)), LINE, "ground", closed=True)
    return [wood, grip], belly[0], belly[-1]


def _stops(length: float, count: int) -> list[float]:
    return [length * index / count for index in range(count + 1)]


def _brace_measure(b: Bench) -> Sheet:
    """Draw a square from the string to the deepest part of the grip."""
    shapes, one, two = bow(0.66)
    y = one[1]
    shapes += [Line(one, two, _STRING), *square((180.0, y), y - 3.0, 62.0)]
    shapes.append(Dim((180.0, 3.0), (180.0, y), "", 22.0))
    said = b.said("brace_height", "brace height")
    return Sheet([], [*shapes, Label((158.0, y + 22.0), said, 15.0, "middle", bold=True)])


def _bow_braced(b: Bench) -> Sheet:
    """Draw a braced bow as deep as it is braced, with its length, brace height and string."""
    half = 150.0
    nock_m, brace_m = b.length("nock_to_nock", 60.0 * _INCH), b.length("brace_height", 6.0 * _INCH)
    deep = 2.0 * half * min(max(brace_m / nock_m, _SHALLOWEST), _DEEPEST)
    bend = find_root(lambda bend: limb_line(bend, half)[0][1] - deep, 0.0, 1.5, within=1e-6)
    shapes, one, two = bow(bend, half=half)
    y = one[1]
    shapes += [Line(one, two, _STRING), *(Circle(each, 2.5, FIRM, "ground") for each in (one, two))]
    shapes += [Line((180.0, 3.0), (180.0, y), HAIR)]
    words = [
        Label((180.0, -22.0), b.said("nock_to_nock", "nock to nock"), 16.0, "middle", bold=True),
        Label((180.0, y + 20.0), b.said("brace_height", "brace height"), 16.0, "middle", bold=True),
    ]
    return Sheet([], [*shapes, *words])


def _bow_nock_to_nock(b: Bench) -> Sheet:
    """Draw an unbraced bow, belly up, with a tape along the belly."""
    shapes: list[Shape] = [
        Polyline(
            (
                (16.0, -3.0),
                (140.0, 0.0),
                (220.0, 0.0),
                (344.0, -3.0),
                (344.0, 3.0),
                (220.0, 14.0),
                (140.0, 14.0),
                (16.0, 3.0),
            ),
            LINE,
            "tint",
            closed=True,
        )
    ]
    shapes += [Line((x, -6.0), (x, 5.0), Pen("ink", 2.0)) for x in (24.0, 336.0)]
    nock = b.length("nock_to_nock", 60.0 * _INCH)
    shapes += tape(Scale(0.0, nock, 24.0, 312.0 / nock), -34.0, b.system)
    shapes.append(Dim((24.0, -36.0), (336.0, -36.0), b.said("nock_to_nock", "nock to nock"), -12.0, size=15.0))
    shapes.append(Dim((150.0, 16.0), (210.0, 16.0), b.said("handle", "stiff handle"), 14.0, size=14.0))
    words = [Label((40.0, 28.0), "belly up", 14.0, "start", "quiet")]
    return Sheet([], [*shapes, *words])


def _bow_thread(b: Bench) -> Sheet:
    """Draw an unbraced bow with set and a proud handle, a thread from nock to nock and both gaps to it."""
    grip = 14.0
    shapes, one, two = bow(0.5)
    shapes[1] = Polyline(((164.0, -9.0), (196.0, -9.0), (196.0, grip), (164.0, grip)), LINE, "ground", closed=True)
    y = one[1]
    shapes += [Line(one, two, Pen("accent", 1.5)), *(Circle(each, 2.5, FIRM, "ground") for each in (one, two))]
    shapes += [Dim((152.0, 1.0), (152.0, y), "", 0.0), Dim((180.0, grip), (180.0, y), "", 0.0)]
    words = [
        Label((144.0, y + 22.0), b.said("string_follow", "set"), 15.0, "end", bold=True),
        Label((174.0, y + 22.0), b.said("thread_gap", "gap to the handle"), 15.0, bold=True),
        Label((272.0, y - 5.0), "thread", 14.0, "middle", "quiet"),
        Label((180.0, -16.0), "unbraced, belly down", 14.0, "middle", "quiet"),
    ]
    return Sheet([], [*shapes, *words])


def _bow_tip(_: Bench) -> Sheet:
    """Draw round, flat and pipe tips, with what to measure."""
    shapes: list[Shape] = [Circle((64.0, 0.0), 26.0, FIRM, "tint"), box(140.0, -14.0, 220.0, 14.0)]
    shapes += [Circle((300.0, 0.0), 30.0, FIRM, "tint"), Circle((300.0, 0.0), 22.0, FIRM, "ground")]
    shapes += [Dim((38.0, 30.0), (90.0, 30.0), "width", 8.0), Dim((140.0, 18.0), (220.0, 18.0), "width", 8.0)]
    shapes += [Dim((224.0, 14.0), (224.0, -14.0), "", 8.0), Dim((270.0, 34.0), (330.0, 34.0), "outside", 8.0)]
    names = [
        Label((x, -42.0), text, 15.0, "middle", bold=True)
        for x, text in ((64.0, "round"), (180.0, "flat"), (300.0, "pipe"))
    ]
    return Sheet([], [*shapes, *names, Label((180.0, -22.0), "depth at the side", 13.0, "middle", "quiet")])


def _bow_draw(b: Bench) -> Sheet:
    """Draw a bow held at its grip, a hanging scale on the string, and the draw length from the grip."""
    shapes, one, two = bow(0.98, half=150.0)
    low = 158.0
    shapes += [box(168.0, -70.0, 192.0, -9.0), ground_line(60.0, 300.0, 236.0)]
    shapes += [Line(one, (180.0, low), _STRING), Line((180.0, low), two, _STRING)]
    shapes += [box(168.0, low + 6.0, 192.0, low + 44.0, tint=False), Circle((180.0, low + 18.0), 8.0, LINE)]
    shapes += [Line((180.0, low + 18.0), (185.0, low + 13.0), FIRM), Line((180.0, low), (180.0, low + 6.0), FIRM)]
    shapes += straight((180.0, low + 46.0), (180.0, low + 76.0))
    shapes.append(Dim((180.0, 3.0), (180.0, low), "", 40.0))
    said = b.said("draw_length", "draw length")
    words = [Label((148.0, 84.0), said, 15.0, bold=True, backed=True), Label((202.0, low + 30.0), "scale", 14.0)]
    return Sheet([], [*shapes, *words])


def _limb_weighed(b: Bench) -> Sheet:
    """Draw a bow clamped by its grip, belly down, a bucket on one nock, and how far that nock drops."""
    level, bent = limb_line(0.0, half=250.0)[25:], limb_line(0.42, half=250.0)[25:]
    free, held = ([(x - 130.0, y) for x, y in each] for each in (level, bent))
    (x0, y0), (x1, y1) = free[-1], held[-1]
    shapes: list[Shape] = [box(22.0, 4.0, 62.0, 140.0), box(22.0, -11.0, 68.0, 4.0)]
    shapes += [box(28.0, -26.0, 56.0, -11.0, tint=False), Line((42.0, -26.0), (42.0, -11.0), HAIR)]
    shapes += [Polyline(tuple(free), _GHOST), Polyline(tuple(held), Pen("ink", 5.0))]
    pail = ((x1 - 16.0, y1 + 36.0), (x1 + 16.0, y1 + 36.0), (x1 + 11.0, y1 + 68.0), (x1 - 11.0, y1 + 68.0))
    shapes += [Line((x1, y1), (x1, y1 + 22.0), LINE), Polyline(pail, LINE, "tint", closed=True)]
    shapes.append(Polyline((pail[0], (x1, y1 + 22.0), pail[1]), LINE))
    shapes += [ground_line(10.0, 350.0, 140.0), Line((x0, y0), (x0 + 18.0, y0), HAIR)]
    shapes += [Line((x1 + 6.0, y1), (x0 + 18.0, y1), HAIR), Dim((x0 + 12.0, y0), (x0 + 12.0, y1), "", 0.0)]
    words = [Label((x0 + 14.0, -12.0), b.said("limb_drop_upper", "drop"), 15.0, "end", bold=True)]
    words += [
        Label((76.0, 126.0), "grip clamped level", 14.0),
        Label((150.0, 64.0), "belly down", 14.0, "middle", "quiet"),
    ]
    return Sheet([], [*shapes, *words])


def _bow_pictured(_: Bench) -> Sheet:
    """Draw a braced bow with the points to tap along its belly, and the camera square to it, far away."""
    curve = limb_line(0.45)
    left, right = curve[0], curve[-1]
    shapes: list[Shape] = [Polyline(tuple((x, y - 4.0) for x, y in curve), Pen("ink", 5.0)), Line(left, right, _STRING)]
    taps = [curve[k] for k in range(0, len(curve), 4)]
    shapes += [Circle(each, 4.0, LINE, "ground") for each in taps]
    low = max(y for _, y in curve)
    eye = low + 96.0
    shapes += [Line((180.0, eye - 10.0), end, _GHOST) for end in (left, right)]
    shapes += [box(162.0, eye - 8.0, 198.0, eye + 18.0), Circle((180.0, eye + 4.0), 7.0, LINE)]
    shapes.append(Dim((216.0, 0.0), (216.0, eye), "", 0.0))
    words = [
        Label((224.0, low + 58.0), "six steps", 15.0, bold=True),
        Label((150.0, eye + 10.0), "camera", 14.0, "end"),
        Label((180.0, -18.0), "tap along the belly", 14.0, "middle"),
    ]
    return Sheet([], [*shapes, *words])


def _loop_in_groove(b: Bench) -> Sheet:
    """Draw a loop that lies in both grooves, and one that rides on an edge."""
    shapes: list[Shape] = []
    for x, wrong in ((94.0, False), (266.0, True)):
        tip = (
            (x - 22.0, 92.0),
            (x - 20.0, -4.0),
            (x - 15.0, -8.0),
            (x - 18.0, -16.0),
            (x - 8.0, -56.0),
            (x + 8.0, -56.0),
            (x + 18.0, -16.0),
            (x + 15.0, -8.0),
            (x + 20.0, -4.0),
            (x + 22.0, 92.0),
        )
        shapes.append(Polyline(tip, FIRM, "tint", closed=True))
        right = (x + 18.0, -12.0) if not wrong else (x + 24.0, -34.0)
        ways = Way.smooth((x - 2.0, 74.0), (x - 10.0, 40.0), (x - 20.0, 10.0), (x - 18.0, -12.0))
        across = Way.smooth((x + 2.0, 74.0), (x + 10.0, 40.0), (x + 22.0, 8.0), right)
        for way in (ways, across):
            shapes += plied(b, way, bundle=5.0)
        shapes += plied(b, leg((x, 70.0), (x, 132.0)), bundle=6.0)
        shapes += cross_out((x + 48.0, 20.0)) if wrong else [tick_off((x + 48.0, 20.0))]
        shapes.append(Label((x, 152.0), "on the edge" if wrong else "in both grooves", 14.0, "middle"))
    return Sheet([], shapes)


def _turns_shorten(b: Bench) -> Sheet:
    """Draw the near loop off and turned: the string shortens and the brace height rises."""
    shapes, one, two = bow(0.66)
    ghost, _, _ = bow(0.76, pen=_GHOST)
    y, deep = one[1], limb_line(0.76)[0]
    shapes += [*ghost, Line(one, two, _STRING), Line(deep, (360.0 - deep[0], deep[1]), _GHOST)]
    shapes += [*straight((150.0, y - 2.0), (150.0, deep[1] + 12.0)), word((142.0, deep[1] + 26.0), "brace up", "end")]
    clockwise = b.hand == "S"
    shapes += [*end_view((246.0, y + 54.0), 23.0, clockwise=clockwise), letter((246.0, y + 54.0), b.hand, 22.0)]
    return Sheet([], [*shapes, Label((280.0, y + 50.0), "turn the", 14.0), Label((280.0, y + 66.0), "near end", 14.0)])


def _bow_stringer(_: Bench) -> Sheet:
    """Draw a cord from tip to tip held underfoot, the upper loop slid towards its groove."""
    belly = limb_line(0.34)
    shapes, one, two = bow(0.34)
    low = 128.0
    shapes += [Polyline((one, (160.0, low), (200.0, low), two), Pen("ink", 3.0)), ground_line(90.0, 270.0, low + 12.0)]
    shapes.append(
        Path(
            (150.0, low - 4.0),
            (CubicTo((154.0, low - 30.0), (204.0, low - 30.0), (214.0, low - 4.0)), To((150.0, low - 4.0))),
            FIRM,
            "tint",
            closed=True,
        )
    )
    slid = belly[6]
    shapes += [Line(slid, two, Pen("a", 2.0)), Circle(slid, 6.0, Pen("a", 2.0))]
    shapes += straight((slid[0] - 4.0, slid[1] - 24.0), (one[0] + 8.0, one[1] - 24.0))
    shapes += straight((180.0, -14.0), (180.0, -50.0))
    shapes.append(
        dashed(((2.0, one[1] + 16.0), (2.0, -44.0), (66.0, -44.0), (66.0, one[1] + 16.0), (2.0, one[1] + 16.0)))
    )
    words = [word((192.0, -40.0), "lift", "start"), Label((182.0, low - 10.0), "foot", 13.0, "middle")]
    words += [word((34.0, -50.0), "face clear"), Label((100.0, -24.0), "slide", 13.0, "middle", backed=True)]
    return Sheet([], [*shapes, *words])


def _draw_stages(_: Bench) -> Sheet:
    """Draw a bow drawn a quarter, half, three quarters and fully, each time with an arrow on the string."""
    shapes: list[Shape] = []
    drawn: list[tuple[float, str]] = []
    for share, text in ((0.25, "1/4"), (0.5, "1/2"), (0.75, "3/4"), (1.0, "full")):
        bend = 0.6 + 0.34 * share
        pen = _GHOST if share < 1.0 else None
        wood, one, two = bow(bend, half=154.0, pen=pen)
        low = 62.0 + 104.0 * share
        shapes = [*wood, *shapes] if share == 1.0 else [*shapes, *wood]
        shapes.append(Polyline((one, (180.0, low), two), _STRING if share == 1.0 else _GHOST))
        drawn.append((low, text))
    for at, text in drawn[:-1]:
        past = 180.0 + (two[0] - 180.0) * (low - at) / (low - two[1]) + 10.0
        shapes += [Line((182.0, at), (past, at), HAIR), Label((past + 4.0, at + 5.0), text, 14.0, bold=True)]
    shapes.append(Label((190.0, low + 14.0), drawn[-1][1], 14.0, bold=True))
    shapes += on_string((180.0, low), 214.0)
    words = [Label((196.0, -34.0), "arrow on it", 14.0, bold=True), word((164.0, -48.0), "at the target", "end")]
    return Sheet([], [*shapes, *words])


def on_string(nock: Point, long: float) -> list[Shape]:
    """Return an arrow with its nock on the string, its point up the page, past the grip.

    Parameters
    ----------
    nock : Point
        Where the string lies in it.
    long : float
        From nock to point.
    """
    x, y = nock
    shaft = Line((x, y), (x, y - long), Pen("ink", 4.0))
    point = Polyline(((x - 6.0, y - long + 12.0), (x, y - long), (x + 6.0, y - long + 12.0)), FIRM)
    fork = Polyline(((x - 5.0, y + 5.0), (x, y - 6.0), (x + 5.0, y + 5.0)), Pen("ink", 3.0))
    vanes = [
        Line((x, y - 16.0 - 9.0 * k), (x + 9.0 * side, y - 8.0 - 9.0 * k), Pen("ink", 2.0))
        for k in range(3)
        for side in (-1.0, 1.0)
    ]
    return [Line((x, y), (x, y - long), Pen("ground", 9.0)), shaft, point, fork, *vanes]


def _nock_throat(b: Bench) -> Sheet:
    """Draw an arrow nock from the side with its throat."""
    left, half, out = 120.0, 11.0, 24.0
    steps = (
        To((left + 70.0, -half)),
        Arc((left + 70.0, half), half, clockwise=True),
        To((left, half)),
        To((left, out)),
        To((left + 120.0, out)),
        To((left + 140.0, 15.0)),
        To((344.0, 15.0)),
        To((344.0, -15.0)),
        To((left + 140.0, -15.0)),
        To((left + 120.0, -out)),
        To((left, -out)),
    )
    shapes: list[Shape] = [Path((left, -half), steps, FIRM, "tint", closed=True)]
    shapes.append(Dim((left - 4.0, half), (left - 4.0, -half), "", -12.0))
    said = b.said("nock_throat", "throat")
    return Sheet(
        [],
        [
            *shapes,
            Label((left - 26.0, 5.0), said, 16.0, "end", bold=True),
            Label((300.0, 36.0), "arrow", 14.0, "middle", "quiet"),
        ],
    )


DRAWN = (
    _brace_measure,
    _loop_in_groove,
    _turns_shorten,
    _bow_stringer,
    _draw_stages,
    _bow_braced,
    _bow_nock_to_nock,
    _bow_thread,
    _bow_tip,
    _bow_draw,
    _limb_weighed,
    _bow_pictured,
    _nock_throat,
)
