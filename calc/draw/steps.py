"""The steps a path is made of, and how far they reach."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import atan2, cos, hypot, pi, sin, sqrt
from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    from calc.draw.boxes import Point


@dataclass(frozen=True, slots=True)
class To:
    """A straight step.

    Parameters
    ----------
    end : Point
        In drawing units.
    """

    end: Point

    def mirrored(self, axis: float) -> To:
        """Return it turned over the upright line at x = `axis`."""
        return To((2.0 * axis - self.end[0], self.end[1]))

    def reach(self, _start: Point) -> tuple[Point, ...]:
        """Return the points that span its box."""
        return (self.end,)


@dataclass(frozen=True, slots=True)
class Arc:
    """A round step.

    Parameters
    ----------
    end : Point
        In drawing units.
    radius : float
        Of its circle; half the way from start to end at least.
    clockwise : bool
        As seen on the page.
    large : bool
        Whether it goes the longer way round.
    """

    end: Point
    radius: float
    clockwise: bool
    large: bool = False

    def mirrored(self, axis: float) -> Arc:
        """Return it turned over the upright line at x = `axis`: clockwise becomes anticlockwise."""
        return replace(self, end=(2.0 * axis - self.end[0], self.end[1]), clockwise=not self.clockwise)

    def centre(self, start: Point) -> Point:
        """Return the middle of its circle.

        >>> [round(each, 9) + 0.0 for each in Arc((1.0, 1.0), 1.0, clockwise=True).centre((0.0, 0.0))]
        [0.0, 1.0]
        """
        (x1, y1), (x2, y2) = start, self.end
        half = hypot(x2 - x1, y2 - y1) / 2.0
        if half == 0.0:
            return start
        off = sqrt(max(0.0, self.radius**2 - half**2)) * (1.0 if self.clockwise != self.large else -1.0)
        return (x1 + x2) / 2.0 - off * (y2 - y1) / (2.0 * half), (y1 + y2) / 2.0 + off * (x2 - x1) / (2.0 * half)

    def swept(self, start: Point) -> tuple[float, float]:
        """Return the angle at its start and the angle it turns through, clockwise positive [rad]."""
        x, y = self.centre(start)
        first = atan2(start[1] - y, start[0] - x)
        turn = (atan2(self.end[1] - y, self.end[0] - x) - first) % (2.0 * pi)
        return first, turn if self.clockwise else turn - 2.0 * pi

    def reach(self, start: Point) -> tuple[Point, ...]:
        """Return the points that span its box: the end, and where it passes a compass point."""
        x, y = self.centre(start)
        first, turn = self.swept(start)
        points = [self.end]
        for quarter in range(4):
            angle = quarter * pi / 2.0
            behind = (angle - first) % (2.0 * pi) if turn > 0.0 else (first - angle) % (2.0 * pi)
            if behind <= abs(turn):
                points.append((x + self.radius * cos(angle), y + self.radius * sin(angle)))
        return tuple(points)


@dataclass(frozen=True, slots=True)
class CubicTo:
    """A free step: a cubic Bézier curve.

    Parameters
    ----------
    first, second : Point
        Its control points: it leaves towards the first and arrives from the second.
    end : Point
        In drawing units.
    """

    first: Point
    second: Point
    end: Point

    def mirrored(self, axis: float) -> CubicTo:
        """Return it turned over the upright line at x = `axis`."""
        over = [(2.0 * axis - x, y) for x, y in (self.first, self.second, self.end)]
        return CubicTo(*over)

    def reach(self, _start: Point) -> tuple[Point, ...]:
        """Return points whose box holds it: its handles bound a cubic."""
        return self.first, self.second, self.end


PathStep: TypeAlias = To | Arc | CubicTo


def extent(start: Point, steps: tuple[PathStep, ...]) -> list[Point]:
    """Return points that span the box of a path.

    Parameters
    ----------
    start : Point
        Where the path begins.
    steps : tuple of PathStep
        In order.
    """
    points, here = [start], start
    for step in steps:
        points.extend(step.reach(here))
        here = step.end
    return points


def band_extent(start: Point, steps: tuple[PathStep, ...], thick: float) -> list[Point]:
    """Return points that span the box of a band along a path, cut off square at both ends.

    Parameters
    ----------
    start, steps
        As for `extent`.
    thick : float
        Width of the band, in drawing units.

    Examples
    --------
    >>> band_extent((0.0, 0.0), (To((4.0, 0.0)),), 2.0)
    [(0.0, 1.0), (0.0, -1.0), (4.0, 1.0), (4.0, -1.0)]
    """
    hull = extent(start, steps)
    found: list[Point] = []
    for (x1, y1), (x, y), (x2, y2) in zip([hull[0], *hull], hull, [*hull[1:], hull[-1]], strict=False):
        size = hypot(x2 - x1, y2 - y1)
        across = ((y1 - y2) / size, (x2 - x1) / size) if size > 0.0 else (0.0, 1.0)
        found += [(x + side * across[0] * thick / 2.0, y + side * across[1] * thick / 2.0) for side in (1.0, -1.0)]
    return found
