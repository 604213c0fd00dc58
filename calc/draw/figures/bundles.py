"""Strands and bundles before any twist: cut, stepped, marked, waxed, rolled."""

from __future__ import annotations

from itertools import accumulate
from math import cos, pi, radians, sin
from typing import TYPE_CHECKING

from calc.draw import FIRM, HAIR, LINE, Arc, Circle, CubicTo, Dim, Label, Line, Many, Pen, Scale, Shape, To, tape
from calc.draw.cord.arrows import arrow, straight, word
from calc.draw.cord.laid import NAMES
from calc.draw.cord.props import box, marked, pin, wax
from calc.draw.figures.bench import Bench, Sheet
from calc.draw.figures.parts import cut_short, leg, plied, single
from calc.draw.string import packed

if TYPE_CHECKING:
    from calc.draw import PathStep, Point

_INCH = 0.0254
_STRAND = Pen("a", 2.0, cap="butt")
_ZONES = (("tail", 8.0), ("loop_upper", 4.0), ("body_raw", 44.0), ("loop_lower", 4.0), ("tail", 8.0))
_NAMES = ("tail", "loop", "body", "loop", "tail")


def _strands_cut(b: Bench) -> Sheet:
    """Draw strands of one length between two nails."""
    left, right = 26.0, 334.0
    lines = tuple(((left, -12.0 + 4.0 * row), (To((right, -12.0 + 4.0 * row)),)) for row in range(7))
    shapes: list[Shape] = [Many(lines, _STRAND), *pin((left - 8.0, 0.0)), *pin((right + 8.0, 0.0))]
    shapes += [Line((x, -22.0), (x, 20.0), Pen("accent", 2.0)) for x in (left, right)]
    shapes.append(Dim((left, 18.0), (right, 18.0), b.said("cut_length", "cut length"), 18.0, size=15.0))
    count = b.said("strands")
    said = f"{count} strands alike" if count else "all alike"
    return Sheet([], [*shapes, word((180.0, -28.0), said)])


def _strands_staggered(b: Bench) -> Sheet:
    """Draw two bundles whose strands end a step behind one another, in the other order at the other end."""
    step_m = b.length("step", 0.5 * _INCH)
    per_m = 34.0 / step_m
    first = 214.0
    shapes: list[Shape] = []
    for middle, name in zip((-28.0, 28.0), NAMES, strict=False):
        rows = [middle - 15.0 + 7.5 * row for row in range(5)]
        lines = [((150.0, y), (To((first + 34.0 * row, y)),)) for row, y in enumerate(rows)]
        lines += [((16.0 + 21.5 * row, y), (To((134.0, y)),)) for row, y in enumerate(rows)]
        shapes += [
            Many(tuple(lines), Pen(name, 4.5, cap="butt")),
            *(cut_short(x, 20.0, middle) for x in (134.0, 150.0)),
        ]
        shapes.append(Label((4.0, middle + 5.5), name.upper(), 15.0, "middle", bold=True))
    scale = Scale(0.0, (354.0 - first) / per_m, first, per_m)
    said = b.said("step", "13 mm" if b.system == "metric" else "1/2 in")
    shapes += [Line((x, -54.0), (x, 56.0), HAIR) for x in (first, first + 34.0)]
    shapes += [Dim((first, -54.0), (first + 34.0, -54.0), said, -8.0, size=14.0), *tape(scale, 58.0, b.system)]
    return Sheet([], [*shapes, Label((80.0, 74.0), "other order here", 13.0, "middle")])


def _bundle_marks_first(b: Bench) -> Sheet:
    """Draw the ends of two bundles side by side with the marks of tail and first loop, measured from the end."""
    tail, loop = (b.length(key, inches * _INCH) for key, inches in _ZONES[:2])
    per_m = 250.0 / (tail + loop)
    edges = (20.0, 20.0 + per_m * tail, 270.0)
    shapes: list[Shape] = []
    for y, name in zip((-9.0, 9.0), NAMES, strict=False):
        shapes += single(leg((edges[0], y), (348.0, y)), name, bundle=12.0)
        shapes.append(Label((8.0, y + 5.5), name.upper(), 15.0, "middle", bold=True))
    shapes += [*(one for x in edges[1:] for one in marked((x, -20.0), (x, 20.0))), cut_short(348.0, 20.0)]
    for left, right, key, zone in ((edges[0], edges[1], "tail", "tail"), (edges[1], edges[2], "loop_upper", "loop")):
        shapes.append(Dim((left, 16.0), (right, 16.0), b.said(key), 16.0, size=14.0))
        shapes.append(Label(((left + right) / 2.0, -28.0), zone, 14.0, "middle", bold=True))
    return Sheet([], [*shapes, Label((310.0, -28.0), "body", 14.0, "middle", "quiet"), word((310.0, 40.0), "level")])


def _bundle_marks(b: Bench) -> Sheet:
    """Draw two bundles side by side with level marks and named zones."""
    lengths = [b.length(key, inches * _INCH) for key, inches in _ZONES]
    drawn = [max(34.0, each) for each in _shares(lengths, 340.0)]
    squeeze = 340.0 / sum(drawn)
    edges = [10.0 + each * squeeze for each in accumulate(drawn, initial=0.0)]
    shapes: list[Shape] = []
    for y, name in zip((-9.0, 9.0), NAMES, strict=False):
        way = leg((edges[0], y), (edges[-1], y))
        shapes += single(way, name, bundle=12.0)
        shapes.append(Label((0.0, y + 5.5), name.upper(), 15.0, "middle", bold=True))
    shapes += [one for x in edges[1:-1] for one in marked((x, -20.0), (x, 20.0))]
    for index, zone in enumerate(_NAMES):
        middle = (edges[index] + edges[index + 1]) / 2.0
        shapes.append(Label((middle, -30.0), zone, 13.0, "middle", bold=True))
        own = b.said(_ZONES[index][0])
        if own:
            low = 39.0 + 18.0 * (index % 2)
            shapes.append(Label((middle, low), own, 14.0, "middle"))
    if not any(b.said(key) for key, _ in _ZONES):
        shapes.append(word((180.0, 42.0), "marks level"))
    return Sheet([], shapes)


def _shares(lengths: list[float], width: float) -> list[float]:
    whole = sum(lengths)
    return [width * each / whole for each in lengths]


def _wax_bundle(_: Bench) -> Sheet:
    """Draw a block of wax rubbed along a bundle."""
    way = leg((6.0, 0.0), (352.0, 0.0))
    shapes: list[Shape] = [
        *single(way, "a", bundle=16.0, own=radians(2.0)),
        cut_short(6.0, 14.0),
        cut_short(352.0, 14.0),
    ]
    shapes += wax(132.0, -34.0, 84.0, 36.0)
    shapes += straight((238.0, -22.0), (320.0, -22.0))
    return Sheet([], [*shapes, Label((180.0, 36.0), "wax block", 14.0, "middle"), word((280.0, -34.0), "rub along")])


def _round_bundle(_: Bench) -> Sheet:
    """Draw loose, flat strands that become one round bundle."""
    flat = [(-20.0 + 22.0 * (at % 6) + 6.0 * (at // 6), 8.0 * (at // 6) - 6.0 + 3.0 * (at % 2)) for at in range(12)]
    shapes: list[Shape] = [Circle((x + 20.0, y + 4.0), 8.0, Pen("ground", 1.5), "a") for x, y in flat]
    ratio, places = packed(12)
    size = 62.0 / ratio
    middle: Point = (288.0, 0.0)
    shapes += [
        Circle((middle[0] + x * size, middle[1] + y * size), size / 2.0, Pen("ground", 1.2), "a") for x, y in places
    ]
    shapes += [Circle(middle, 32.0, FIRM), *straight((178.0, 0.0), (228.0, 0.0))]
    start, end = _on(middle, 46.0, 205.0), _on(middle, 46.0, 335.0)
    shapes += arrow(start, Arc(end, 46.0, clockwise=True), rim=False)
    words = [
        Label((80.0, 44.0), "loose, flat", 14.0, "middle"),
        Label((288.0, 60.0), "round, one piece", 14.0, "middle"),
    ]
    return Sheet([], [*shapes, *words, word((288.0, -54.0), "roll")])


def _on(middle: Point, radius: float, degrees: float) -> Point:
    angle = degrees * pi / 180.0
    return middle[0] + radius * cos(angle), middle[1] + radius * sin(angle)


def _cord_roll_up(b: Bench) -> Sheet:
    """Draw strands rolled together over a mark of the width wanted."""
    wide = 26.0
    shapes: list[Shape] = [box(96.0, -70.0, 264.0, 70.0, pen=LINE, tint=False)]
    shapes += [
        Line((x, -64.0), (x, 64.0), Pen("accent", 1.0, dash=True)) for x in (180.0 - wide / 2.0, 180.0 + wide / 2.0)
    ]
    shapes += single(leg((180.0, -88.0), (180.0, 24.0)), "a", bundle=wide, own=radians(9.0))
    said = "3 mm" if b.system == "metric" else "1/8 in"
    shapes.append(Dim((180.0 - wide / 2.0, 44.0), (180.0 + wide / 2.0, 44.0), "", 0.0))
    shapes.append(Label((202.0, 50.0), said, 16.0, bold=True, backed=True))
    return Sheet([], [*shapes, Label((222.0, -48.0), "rolled", 13.0, backed=True)])


def _cord_kinds(b: Bench) -> Sheet:
    """Draw a laid cord, a braid and loose yarn."""
    shapes: list[Shape] = [*plied(b, leg((6.0, -52.0), (250.0, -52.0)), bundle=13.0, bundles=3)]
    shapes += _braid(6.0, 250.0, 0.0, 26.0)
    lines: list[tuple[Point, tuple[PathStep, ...]]] = []
    for row in range(9):
        y = 52.0 + 3.2 * (row - 4)
        sway = 3.0 * (-1.0) ** row
        lines.append(((6.0, y), (CubicTo((80.0, y + sway), (160.0, y - sway), (250.0, y + sway / 2.0)),)))
    shapes.append(Many(tuple(lines), Pen("a", 1.6)))
    names = [
        Label((262.0, y + 5.0), text, 15.0) for y, text in ((-52.0, "laid"), (0.0, "braided"), (52.0, "loose yarn"))
    ]
    return Sheet([], [*shapes, *names])


def _braid(left: float, right: float, y: float, wide: float) -> list[Shape]:
    """Draw a round braid: strands that slant in from both sides and pass under in the middle by turns."""
    half, step, slant = wide / 2.0, 12.0, 16.0
    count = int((right - left - slant) / step)
    xs = [left + step * index for index in range(count + 1)]
    upper = tuple(((x, y - half + 3.0), (To((x + slant, y + 4.0)),)) for x in xs)
    lower = tuple(((x + step / 2.0, y + half - 3.0), (To((x + step / 2.0 + slant, y - 4.0)),)) for x in xs[:-1])
    rim, core = Pen("ink", 8.5), Pen("ground", 6.5)
    return [Many(lower, rim), Many(lower, Pen("a", 6.5)), Many(upper, rim), Many(upper, core)]


DRAWN = (
    _strands_cut,
    _strands_staggered,
    _bundle_marks_first,
    _bundle_marks,
    _wax_bundle,
    _round_bundle,
    _cord_roll_up,
    _cord_kinds,
)
