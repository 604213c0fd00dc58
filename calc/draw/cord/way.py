"""A centre line on the page, measured along itself."""

from __future__ import annotations

from bisect import bisect_right
from itertools import accumulate, pairwise
from math import ceil, cos, hypot, pi, sin
from typing import TYPE_CHECKING

from calc.draw import Arc, CubicTo

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.draw import PathStep, Point

_FINE = 1.0
_HALF = 1.2


class Way:
    """A line through close points, measured along itself; beyond its ends it runs on straight.

    Parameters
    ----------
    points : sequence of Point
        At least two that differ; repeated points are dropped.

    Attributes
    ----------
    points : tuple of Point
        Those that are kept.
    sums : tuple of float
        Running length at each of them, from 0, in drawing units.

    Raises
    ------
    ValueError
        For fewer than two points that differ.
    """

    def __init__(self, points: Sequence[Point]) -> None:
        kept = [points[0]]
        kept += [b for a, b in pairwise(points) if hypot(b[0] - a[0], b[1] - a[1]) > 1e-9]
        if len(kept) < 2:
            msg = f"Way: got {len(kept)} point, expected two that differ"
            raise ValueError(msg)
        self.points = tuple(kept)
        steps = (hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(kept))
        self.sums = tuple(accumulate(steps, initial=0.0))

    @classmethod
    def along(cls, start: Point, *steps: PathStep) -> Way:
        """Make a way of straight, round and free steps."""
        points, here = [start], start
        for step in steps:
            points += _walked(here, step)
            here = step.end
        return cls(points)

    @classmethod
    def smooth(cls, *points: Point) -> Way:
        """Make a smooth way through some points."""
        steps: list[PathStep] = []
        for index in range(len(points) - 1):
            before, a, b, after = (points[min(max(0, index + by), len(points) - 1)] for by in (-1, 0, 1, 2))
            third = hypot(b[0] - a[0], b[1] - a[1]) / 3.0
            (ux, uy), (vx, vy) = _unit(before, b), _unit(a, after)
            first, second = (a[0] + third * ux, a[1] + third * uy), (b[0] - third * vx, b[1] - third * vy)
            steps.append(CubicTo(first, second, b))
        return cls.along(points[0], *steps)

    @property
    def length(self) -> float:
        """From end to end along it."""
        return self.sums[-1]

    def at(self, along: float) -> Point:
        """Return the point at a running length."""
        index = bisect_right(self.sums, along, 1, len(self.points) - 1)
        (x1, y1), (x2, y2) = self.points[index - 1], self.points[index]
        before = self.sums[index - 1]
        share = (along - before) / (self.sums[index] - before)
        return x1 + share * (x2 - x1), y1 + share * (y2 - y1)

    def toward(self, along: float) -> tuple[float, float]:
        """Return the unit vector along it."""
        (x1, y1), (x2, y2) = self.at(along - _HALF), self.at(along + _HALF)
        size = hypot(x2 - x1, y2 - y1)
        return (x2 - x1) / size, (y2 - y1) / size

    def aside(self, along: float, off: float) -> Point:
        """Return the point off it, to the left as one walks along (up, when one walks to the right)."""
        x, y = self.at(along)
        tx, ty = self.toward(along)
        return x + off * ty, y - off * tx

    def part(self, start: float, end: float) -> Way:
        """Return the stretch between two running lengths."""
        inner = [point for point, at in zip(self.points, self.sums, strict=True) if start < at < end]
        return Way([self.at(start), *inner, self.at(end)])

    def nearest(self, point: Point) -> float:
        """Return the running length of the close point that lies nearest to a point."""
        away = [hypot(x - point[0], y - point[1]) for x, y in self.points]
        return self.sums[away.index(min(away))]

    def back(self) -> Way:
        """Return it walked the other way."""
        return Way(self.points[::-1])

    def then(self, *others: Way) -> Way:
        """Return it with others joined on; what lies between is straight."""
        return Way([point for each in (self, *others) for point in each.points])

    def shifted(self, off: float) -> Way:
        """Return a way that runs beside it, to its left."""
        count = max(2, ceil(self.length / (2.0 * _FINE)))
        return Way([self.aside(self.length * index / count, off) for index in range(count + 1)])


def _unit(a: Point, b: Point) -> tuple[float, float]:
    size = hypot(b[0] - a[0], b[1] - a[1])
    return ((b[0] - a[0]) / size, (b[1] - a[1]) / size) if size else (0.0, 0.0)


def _walked(start: Point, step: PathStep) -> list[Point]:
    """Return close points of a step, its start left out."""
    if isinstance(step, Arc):
        (x, y), (first, turn) = step.centre(start), step.swept(start)
        count = max(2, ceil(abs(turn) * step.radius / _FINE), ceil(abs(turn) * 24.0 / pi))
        angles = [first + turn * index / count for index in range(1, count)]
        return [*((x + step.radius * cos(each), y + step.radius * sin(each)) for each in angles), step.end]
    if isinstance(step, CubicTo):
        size = sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise((start, step.first, step.second, step.end)))
        count = max(4, ceil(size / _FINE))
        return [_cubic(start, step, index / count) for index in range(1, count + 1)]
    return [step.end]


def _cubic(start: Point, step: CubicTo, t: float) -> Point:
    u = 1.0 - t
    weights = (u * u * u, 3.0 * u * u * t, 3.0 * u * t * t, t * t * t)
    points = (start, step.first, step.second, step.end)
    return (
        sum(w * p[0] for w, p in zip(weights, points, strict=True)),
        sum(w * p[1] for w, p in zip(weights, points, strict=True)),
    )
