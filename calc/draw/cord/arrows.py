"""What hands do, as arrows with a word."""

from __future__ import annotations

from math import cos, hypot, pi, sin
from typing import TYPE_CHECKING

from calc.draw import Arc, CubicTo, Label, Path, Pen, Polyline, To

if TYPE_CHECKING:
    from calc.draw import Anchor, PathStep, Point, Shape

STRONG = Pen("accent", 2.5)
_RIM = Pen("ground", 7.0)
_HEAD, _WIDE = 11.0, 5.0
_SIZE = 14.0


def head(tip: Point, toward: tuple[float, float], pen: Pen = STRONG) -> Polyline:
    """Return a bold open head.

    Parameters
    ----------
    tip : Point
        Where it points, in drawing units.
    toward : (float, float)
        Its direction; any length but zero.
    pen : Pen
        How its two lines are drawn.
    """
    size = hypot(*toward)
    ux, uy = toward[0] / size, toward[1] / size
    x, y = tip[0] - _HEAD * ux, tip[1] - _HEAD * uy
    return Polyline(((x - _WIDE * uy, y + _WIDE * ux), tip, (x + _WIDE * uy, y - _WIDE * ux)), pen)


def arrow(start: Point, *steps: PathStep, rim: bool = True, both: bool = False) -> list[Shape]:
    """Return an arrow along steps; a rim of ground keeps it clear of what it crosses.

    Parameters
    ----------
    start : Point
        Where it begins.
    *steps : PathStep
        At least one; the head stands at the end of the last.
    rim : bool
        Whether it has the rim.
    both : bool
        Whether it has a head at its start too.
    """
    last = steps[-1]
    before = start if len(steps) == 1 else steps[-2].end
    toward = _going(before, last)
    shapes: list[Shape] = [Path(start, steps, _RIM)] if rim else []
    shapes += [Path(start, steps, STRONG), head(last.end, toward)]
    if both:
        first = steps[0]
        away = first.first if isinstance(first, CubicTo) else first.end
        shapes.append(head(start, (start[0] - away[0], start[1] - away[1])))
    return shapes


def _going(start: Point, step: PathStep) -> tuple[float, float]:
    x, y = step.end
    if isinstance(step, CubicTo):
        return x - step.second[0], y - step.second[1]
    if isinstance(step, Arc):
        cx, cy = step.centre(start)
        return (-(y - cy), x - cx) if step.clockwise else (y - cy, -(x - cx))
    return x - start[0], y - start[1]


def straight(start: Point, end: Point, *, both: bool = False) -> list[Shape]:
    """Return a straight arrow.

    Parameters
    ----------
    start, end : Point
        In drawing units.
    both : bool
        As for `arrow`.
    """
    return arrow(start, To(end), both=both)


def roll(at: Point, half: float, *, away: bool = True) -> list[Shape]:
    """Return an arrow over the top of a level bundle: which way it is rolled.

    Parameters
    ----------
    at : Point
        Where the bundle's middle runs.
    half : float
        Half the bundle's thickness.
    away : bool
        Away from the maker, up the page; otherwise towards them.
    """
    x, y = at
    up = -1.0 if away else 1.0
    reach = half + 8.0
    bulge = 0.9 * reach + 6.0
    start, end = (x - 3.0, y - up * reach), (x - 3.0, y + up * reach)
    return arrow(start, CubicTo((x + bulge, y - up * 0.7 * reach), (x + bulge, y + up * 0.7 * reach), end))


def over(start: Point, end: Point, lift: float) -> list[Shape]:
    """Return an arrow that bows to the right between two points.

    Parameters
    ----------
    start, end : Point
        In drawing units.
    lift : float
        How far to the right its control points stand; it bows three quarters as far.
    """
    return arrow(start, CubicTo((start[0] + lift, start[1]), (end[0] + lift, end[1]), end))


def end_view(at: Point, radius: float, *, clockwise: bool) -> list[Shape]:
    """Return an arrow that shows which way an end is turned by whoever looks along the string at it.

    Parameters
    ----------
    at : Point
        Middle of the end.
    radius : float
        Of the arrow's circle, in drawing units.
    clockwise : bool
        As seen on the page.
    """
    x, y = at
    first, last = (-1.25, 1.9) if clockwise else (pi + 1.25, pi - 1.9)
    start = x + radius * cos(first), y + radius * sin(first)
    end = x + radius * cos(last), y + radius * sin(last)
    return arrow(start, Arc(end, radius, clockwise=clockwise, large=True), rim=False)


def word(at: Point, text: str, anchor: Anchor = "middle", *, size: float = _SIZE) -> Label:
    """Return the words that say what an arrow means.

    Parameters
    ----------
    at : Point
        Where the anchor stands on the baseline.
    text : str
        Not yet escaped.
    anchor : Anchor
        Which part of the words stands there.
    size : float
        Font size, in drawing units.
    """
    return Label(at, text, size, anchor, "accent", bold=True, backed=True)


def letter(at: Point, text: str, size: float = 20.0) -> Label:
    """Return the letter S or Z beside what has that lay.

    Parameters
    ----------
    at : Point
        Middle of the letter.
    text : str
        The letter.
    size : float
        Font size, in drawing units.
    """
    return Label((at[0], at[1] + 0.29 * size), text, size, "middle", bold=True, backed=True)
