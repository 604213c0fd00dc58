"""Loops on limbs: in the groove, slid down the limb, too small for it, off its middle."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.draw import Circle, Curve, Dim, FIRM, HAIR, Label, Line, Path, Pen, Polyline, Shape
from calc.draw.cord import Way
from calc.draw.cord.arrows import straight, word
from calc.draw.cord.props import cross_out, tick_off
from calc.draw.figures.bench import Bench, Sheet
from calc.draw.figures.parts import leg, plied

if TYPE_CHECKING:
    from calc.draw import Point

_STRING = Pen("ink", 2.0)
_TIP, _TAPER = 12.0, 0.075


def _half(x: float) -> float:
    """Return half the limb's width, so far from its tip."""
    return _TIP + _TAPER * x


def _limb(y: float, right: float = 352.0) -> Shape:
    """Draw a limb from its tip at the left, its groove at x = 40, wider towards the grip."""
    groove = 40.0
    upper: list[Point] = [(8.0, -_half(0.0) + 4.0), (groove - 8.0, -_half(groove)), (groove, -_half(groove) + 5.0)]
    upper += [(groove + 8.0, -_half(groove)), (right, -_half(right))]
    lower = [(x, -up) for x, up in reversed(upper)]
    return Polyline(tuple((x, y + up) for x, up in (*upper, *lower)), FIRM, "tint", closed=True)


def _round(b: Bench, x: float, y: float, half: float, throat: float) -> list[Shape]:
    """Draw a loop across a limb at x, as wide as told, closing at its throat further down the limb."""
    shapes: list[Shape] = []
    for side in (-1.0, 1.0):
        shapes += plied(
            b, Way.smooth((x, y + side * half), (x + 26.0, y + side * 0.62 * half), (throat, y)), bundle=4.5
        )
    shapes += plied(b, Way.smooth((x, y - half), (x - 5.0, y), (x, y + half)), bundle=4.5)
    return shapes


def loop_slides(b: Bench) -> Sheet:
    """Draw one tip twice: a loop that sits in its groove; one slid down the limb, which must go round it there."""
    shapes: list[Shape] = [_limb(-52.0), *_round(b, 40.0, -52.0, 14.0, 96.0)]
    shapes += [*plied(b, leg((94.0, -52.0), (352.0, -52.0)), bundle=4.5)]
    low = 52.0
    shapes += [_limb(low), *_round(b, 176.0, low, _half(176.0) + 4.0, 246.0)]
    shapes += [*plied(b, Way.smooth((244.0, low), (300.0, low + 8.0), (352.0, low + 2.0)), bundle=4.5)]
    shapes += straight((58.0, low - 34.0), (160.0, low - 34.0))
    shapes.append(Dim((176.0, low - _half(176.0)), (176.0, low + _half(176.0)), "", -44.0))
    words = [Label((40.0, -20.0), "nocked: small", 14.0, "start"), word((108.0, low - 42.0), "slides down")]
    words += [Label((146.0, low + 46.0), "as wide as here", 14.0, "middle")]
    return Sheet([], [*shapes, *words])


def loop_slid_down(b: Bench) -> Sheet:
    """Draw the resting bow: the lower loop in its groove, the upper one slid down the limb, the string slack."""
    limb = Pen("ink", 6.0)
    shapes: list[Shape] = [Path((20.0, 0.0), (Curve((120.0, -22.0), (240.0, -22.0), (340.0, 0.0)),), limb)]
    shapes.append(Line((164.0, -17.0), (196.0, -17.0), Pen("ink", 12.0, cap="butt")))
    shapes += [Line((x, -9.0), (x, 9.0), Pen("ink", 2.0)) for x in (28.0, 332.0)]
    slack = Way.smooth((338.0, 3.0), (250.0, 34.0), (150.0, 30.0), (86.0, -2.0))
    shapes += plied(b, slack, bundle=3.6)
    shapes += [Circle((330.0, 0.0), 7.0, Pen("a", 3.0)), Circle((80.0, -9.0), 11.0, Pen("a", 3.0))]
    shapes += straight((34.0, -40.0), (76.0, -34.0))
    words = [word((24.0, -50.0), "slid down", "start"), Label((20.0, 26.0), "upper tip", 13.0)]
    words += [
        Label((356.0, 54.0), "in its groove", 14.0, "end", bold=True),
        Label((160.0, 54.0), "string slack", 14.0, "middle"),
    ]
    return Sheet([], [*shapes, *words, Line((330.0, 10.0), (322.0, 40.0), HAIR)])


def loop_too_small(b: Bench) -> Sheet:
    """Draw a loop that sticks on the limb before it is down where it must lie."""
    shapes: list[Shape] = [_limb(0.0), *_round(b, 96.0, 0.0, _half(96.0) + 1.0, 156.0)]
    shapes += plied(b, Way.smooth((154.0, 0.0), (260.0, 10.0), (352.0, 4.0)), bundle=4.5)
    shapes += [*straight((110.0, -42.0), (196.0, -42.0)), *cross_out((212.0, -42.0))]
    shapes.append(Dim((236.0, -_half(236.0)), (236.0, _half(236.0)), "", 0.0))
    return Sheet(
        [], [*shapes, word((150.0, -54.0), "sticks here"), Label((236.0, 52.0), "must pass here", 14.0, "middle")]
    )


def loop_off_centre(b: Bench) -> Sheet:
    """Draw the belly of a braced bow with its string over the middle, and with the string to one side."""
    shapes: list[Shape] = []
    for y, off in ((-40.0, 0.0), (44.0, 13.0)):
        body = ((10.0, y - 5.0), (140.0, y - 15.0), (220.0, y - 15.0), (350.0, y - 5.0))
        under = tuple((x, 2.0 * y - up) for x, up in reversed(body))
        shapes.append(Polyline((*body, *under), FIRM, "tint", closed=True))
        shapes.append(Line((180.0, y - 15.0), (180.0, y + 15.0), HAIR))
        shapes += plied(b, Way.smooth((18.0, y + 0.3 * off), (180.0, y + 0.7 * off), (342.0, y)), bundle=3.6)
        if off:
            shapes += [*cross_out((180.0, y + 34.0)), Label((198.0, y + 39.0), "to one side", 14.0)]
        else:
            shapes += [tick_off((180.0, y + 30.0)), Label((198.0, y + 35.0), "over the middle", 14.0)]
    return Sheet([], [*shapes, word((180.0, -66.0), "look along it")])


DRAWN = (loop_slides, loop_slid_down, loop_too_small, loop_off_centre)
