"""A plane as a camera sees it: back from the picture to the plane by four points that are known."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, hypot, tan
from typing import TYPE_CHECKING, TypeAlias

from calc.errors import DomainError, Problem, require
from calc.numerics import solve_linear

if TYPE_CHECKING:
    from collections.abc import Sequence

Point: TypeAlias = tuple[float, float]
_FOUR = 4
_FLAT = 1e-3
"""Three corners are in line where their triangle is this small beside its longest side squared. [-]"""


@dataclass(frozen=True, slots=True)
class Plane:
    """The way from a picture to the plane in it.

    Attributes
    ----------
    rows : tuple of three tuples of three float
        The homography, by rows; its third gives a number above 0 before the camera.
    """

    rows: tuple[tuple[float, float, float], ...]

    def at(self, point: Point) -> Point:
        """Return where a point of the picture lies in the plane.

        Parameters
        ----------
        point : (float, float)
            In the picture. [px]

        Raises
        ------
        DomainError
            ``model`` with reason ``beyond_horizon`` for a point that is no place of the plane.
        """
        x, y = point
        u, v, w = (a * x + b * y + c for a, b, c in self.rows)
        if not w > 0.0:
            raise DomainError(Problem(field="marks", code="model", reason="beyond_horizon"))
        return u / w, v / w

    def seen(self, point: Point) -> Point:
        """Return where a point of the plane is in the picture: the inverse of `at` [px].

        Parameters
        ----------
        point : (float, float)
            In the plane.
        """
        x, y, w = solve_linear([list(row) for row in self.rows], [point[0], point[1], 1.0])
        return x / w, y / w

    def size_at(self, point: Point) -> float:
        """Return how long a pixel is where it lies, along its longer way [plane units / px].

        Parameters
        ----------
        point : (float, float)
            In the picture. [px]

        Raises
        ------
        DomainError
            As `at`.
        """
        x, y = self.at(point)
        sides = (self.at((point[0] + 1.0, point[1])), self.at((point[0], point[1] + 1.0)))
        return max(hypot(u - x, v - y) for u, v in sides)


def plane_of(corners: Sequence[Point], wide: float, high: float) -> Plane:
    """Return the plane in which four marks are the corners of a rectangle.

    Parameters
    ----------
    corners : sequence of four (float, float)
        In the picture, going round; the first two are `wide` apart. [px]
    wide, high : float, > 0
        Sides of the rectangle.

    Raises
    ------
    DomainError
        ``min`` or ``number`` for a side; ``model`` with field ``marks`` and reason ``marks_flat`` for corners of which
        three lie in line, or that do not go round.

    Notes
    -----
    Source: the eight equations that four points give a plane projective map (``derived:photo``). Leaves out the
    bulge of a lens.

    Examples
    --------
    A square seen square on, in pixels of a quarter:

    >>> plane = plane_of(((0, 0), (4, 0), (4, 4), (0, 4)), 1.0, 1.0)
    >>> [round(each, 9) for each in plane.at((2, 1))]
    [0.5, 0.25]
    """
    require("wide", wide, low=0.0, open_=True)
    require("high", high, low=0.0, open_=True)
    _check_round(corners)
    rows, right = [], []
    for (x, y), (u, v) in zip(corners, ((0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high)), strict=True):
        rows += [[x, y, 1.0, 0.0, 0.0, 0.0, -u * x, -u * y], [0.0, 0.0, 0.0, x, y, 1.0, -v * x, -v * y]]
        right += [u, v]
    a, b, c, d, e, f, g, h = solve_linear(rows, right)
    (x, y), *_ = corners
    front = 1.0 if g * x + h * y + 1.0 > 0.0 else -1.0
    return Plane(((front * a, front * b, front * c), (front * d, front * e, front * f), (front * g, front * h, front)))


def _check_round(corners: Sequence[Point]) -> None:
    """Raise unless four corners go round, none of them on the line of two others."""
    for x, y in corners:
        require("marks", x)
        require("marks", y)
    turns = []
    for k in range(_FOUR):
        (x0, y0), (x1, y1), (x2, y2) = (corners[(k + i) % _FOUR] for i in range(3))
        longest = max(hypot(x1 - x0, y1 - y0), hypot(x2 - x1, y2 - y1))
        turns.append(((x1 - x0) * (y2 - y1) - (y1 - y0) * (x2 - x1)) / longest**2 if longest else 0.0)
    if not (min(turns) > _FLAT or max(turns) < -_FLAT):
        raise DomainError(Problem(field="marks", code="model", reason="marks_flat"))


def square_on() -> Plane:
    """Return the plane that a camera square to it sees: pixels as they are.

    Notes
    -----
    Source: ``derived:photo``.
    """
    return Plane(((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)))


def leaning(about: Point, far_px: float, slants_rad: Point) -> Plane:
    """Return the plane of a picture whose camera leans a little from square, by how it leans.

    Parameters
    ----------
    about : (float, float)
        The point of the picture that stays where it is. [px]
    far_px : float, > 0
        How far the camera is from the plane, in pixels there. [px]
    slants_rad : (float, float)
        About the picture's upright, and about its level line. [rad]

    Raises
    ------
    DomainError
        ``min`` or ``number``.

    Notes
    -----
    Source: a pinhole that looks at the plane aslant (``derived:photo``), exact for one slant and to second order for
    both: what leans away is seen shorter by the
    cosine and smaller by the distance.

    Examples
    --------
    >>> [round(each, 2) for each in leaning((0.0, 0.0), 1000.0, (0.1, 0.0)).at((100.0, 0.0))]
    [101.52, 0.0]
    """
    require("far_px", far_px, low=0.0, open_=True)
    (x0, y0), (yaw, pitch) = about, slants_rad
    g, h = -tan(yaw) / far_px, -tan(pitch) / far_px
    wide, high = 1.0 / cos(yaw), 1.0 / cos(pitch)
    # u = x0 + wide (x - x0) / w and v likewise, with w = 1 + g (x - x0) + h (y - y0)
    k = 1.0 - g * x0 - h * y0
    return Plane(
        (
            ((wide + x0 * g) / k, x0 * h / k, (x0 * k - wide * x0) / k),
            (y0 * g / k, (high + y0 * h) / k, (y0 * k - high * y0) / k),
            (g / k, h / k, 1.0),
        )
    )
