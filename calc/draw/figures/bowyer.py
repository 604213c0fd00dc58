"""What a bowyer does with cord: hears a string, tillers, braces with a stringer."""

from __future__ import annotations

from math import pi, sin
from typing import TYPE_CHECKING

from calc.draw import LINE, CubicTo, Label, Line, Path, Pen, Polyline, To
from calc.draw.cord.arrows import arrow, word
from calc.draw.figures.bench import Bench, Sheet

if TYPE_CHECKING:
    from calc.draw import Point, Shape

_STRING = Pen("ink", 2.0)
_SWING = Pen("quiet", 1.0, dash=True)


def _swing(one: Point, two: Point, high: float) -> Path:
    """Return the shape of a string that swings as a whole: half a wave between its nocks."""
    wide = two[0] - one[0]
    slope = high * pi / wide
    points = [(one[0] + wide * k / 4.0, one[1] + high * sin(pi * k / 4.0)) for k in range(5)]
    slopes = [slope, slope * sin(pi / 4.0), 0.0, -slope * sin(pi / 4.0), -slope]
    third = wide / 12.0
    steps = tuple(
        CubicTo(
            (points[k][0] + third, points[k][1] + third * slopes[k]),
            (points[k + 1][0] - third, points[k + 1][1] - third * slopes[k + 1]),
            points[k + 1],
        )
        for k in range(4)
    )
    return Path(one, steps, _SWING)


def _pluck(b: Bench) -> Sheet:
    """Draw a braced bow as its archer sees it, the string in front, moved sideways: it swings as a whole."""
    one, two, middle = (20.0, 0.0), (340.0, 0.0), 180.0
    edge = ((20.0, -4.0), (90.0, -11.0), (150.0, -13.0), (210.0, -13.0), (270.0, -11.0), (340.0, -4.0))
    limbs = Polyline((*edge, *((x, -y) for x, y in reversed(edge))), LINE, "tint", closed=True)
    grip = Polyline(((156.0, -13.0), (204.0, -13.0), (204.0, 13.0), (156.0, 13.0)), LINE, "ground", closed=True)
    shapes: list[Shape] = [limbs, grip, _swing(one, two, 34.0), _swing(one, two, -34.0), Line(one, two, _STRING)]
    shapes += [Line((middle - 26.0, 0.0), (middle + 26.0, 0.0), Pen("ink", 4.0))]
    shapes += arrow((middle, 30.0), To((middle, -30.0)), both=True)
    words = [word((middle + 12.0, -42.0), "across the bow", "start")]
    words += [Label((middle, 62.0), b.said("note_wanted", "one low note"), 15.0, "middle", bold=True)]
    words.append(Label((20.0, 62.0), "no arrow", 14.0, ink="quiet"))
    words.append(Label((340.0, 62.0), "not drawn", 14.0, "end", "quiet"))
    return Sheet([], [*shapes, *words])


DRAWN = (_pluck,)
