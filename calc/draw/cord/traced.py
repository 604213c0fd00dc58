"""Smooth steps through a line that is known at any running length."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.draw import CubicTo, PathStep

if TYPE_CHECKING:
    from collections.abc import Callable

    from calc.draw import Point

_SIDE = 0.01


def traced(line: Callable[[float], Point], start: float, end: float, count: int) -> tuple[Point, tuple[PathStep, ...]]:
    """Return cubics that meet a line at even stations, and run the way it runs there.

    Parameters
    ----------
    line : callable
        Point at a running length, smooth from start to end.
    start, end : float
        Running lengths; the end may lie before the start.
    count : int, >= 1
        Cubics.
    """
    step = (end - start) / count
    side = _SIDE * step
    stops = [start + step * index for index in range(count + 1)]
    points = [line(each) for each in stops]
    slopes = []
    for at in stops:
        (x1, y1), (x2, y2) = line(at - side), line(at + side)
        slopes.append(((x2 - x1) * step / (6.0 * side), (y2 - y1) * step / (6.0 * side)))
    steps = tuple(
        CubicTo(
            (points[i][0] + slopes[i][0], points[i][1] + slopes[i][1]),
            (points[i + 1][0] - slopes[i + 1][0], points[i + 1][1] - slopes[i + 1][1]),
            points[i + 1],
        )
        for i in range(count)
    )
    return points[0], steps
