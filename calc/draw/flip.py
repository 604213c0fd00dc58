"""Shapes turned over the level line y = 0: what is away from the maker comes near; words stay readable."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from calc.draw.dims import Dim
from calc.draw.readouts import Readout
from calc.draw.shapes import Circle, Comb, Frame, Group, Label, Line, Many, Path
from calc.draw.steps import Arc, CubicTo, To
from calc.draw.text import ASCENT, DESCENT

if TYPE_CHECKING:
    from calc.draw.boxes import Point
    from calc.draw.shapes import Shape
    from calc.draw.steps import PathStep


def turned_over(shape: Shape) -> Shape:  # noqa: PLR0911 - one answer a kind of shape
    """Return a shape turned over the level line.

    Parameters
    ----------
    shape : Shape
        Of any kind; what it is made of is turned over with it.

    Examples
    --------
    >>> turned_over(Line((0.0, 1.0), (2.0, -3.0))).end
    (2.0, 3.0)
    """
    match shape:
        case Label(at, _, size):
            return replace(shape, at=(at[0], -at[1] + (ASCENT - DESCENT) * size))
        case Circle(centre):
            return replace(shape, centre=_point(centre))
        case Line(start, end):
            return replace(shape, start=_point(start), end=_point(end))
        case Dim(start, end):
            return replace(shape, start=_point(start), end=_point(end), offset=-shape.offset)
        case Path(start, steps):
            return replace(shape, start=_point(start), steps=tuple(_step(each) for each in steps))
        case Many(parts):
            return replace(shape, parts=tuple((_point(a), tuple(_step(each) for each in b)) for a, b in parts))
        case Comb(level, ticks):
            return replace(shape, level=-level, ticks=tuple(_point(each) for each in ticks))
        case Group() | Frame():
            return replace(shape, shapes=tuple(turned_over(each) for each in shape.shapes))
        case Readout():
            return shape
        case _:
            return replace(shape, points=tuple(_point(each) for each in shape.points))


def _point(point: Point) -> Point:
    return point[0], -point[1]


def _step(step: PathStep) -> PathStep:
    match step:
        case To(end):
            return To(_point(end))
        case Arc(end):
            return replace(step, end=_point(end), clockwise=not step.clockwise)
        case CubicTo(first, second, end):
            return CubicTo(_point(first), _point(second), _point(end))
