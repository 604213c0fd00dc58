"""Take-up against turns, as points for a plot."""

from __future__ import annotations

from typing import NamedTuple

from calc.errors import require
from calc.geometry.lay.helical_lay import lay
from calc.geometry.lay.jam_limit import jam


class Point(NamedTuple):
    """One point of the curve.

    Attributes
    ----------
    turns_per_m : float
        Turns of lay per metre of cord. [turn/m]
    take_up : float
        ``1 - cord / bundle`` at it. [-]
    """

    turns_per_m: float
    take_up: float


def take_up_curve(diameter_m: float, bundles: int, points: int) -> tuple[Point, ...]:
    """Return take-up against turns from a straight lay to the jam.

    Parameters
    ----------
    diameter_m : float, > 0
        Of one bundle. [m]
    bundles : int
        2, 3 or 4.
    points : int, >= 2 and <= 10,000
        At even steps of the lay angle.

    Returns
    -------
    tuple of Point
        Both numbers grow from point to point.

    Raises
    ------
    DomainError
        ``number``, ``min``, ``max`` or ``choice``.

    Notes
    -----
    Source: `lay`.

    Examples
    --------
    >>> curve = take_up_curve(0.002, 3, 50)
    >>> curve[0], round(curve[-1].take_up, 4)
    (Point(turns_per_m=0.0, take_up=0.0), 0.3201)
    """
    require("points", points, low=2, high=10_000)
    steepest = jam(bundles).lay_rad
    shapes = [lay(diameter_m, bundles, steepest * k / (points - 1)) for k in range(points)]
    return tuple(Point(each.turns_per_m, each.take_up) for each in shapes)
