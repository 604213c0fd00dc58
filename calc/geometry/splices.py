"""Tails laid in: stagger of the strand ends, and how a splice holds."""

from __future__ import annotations

from math import exp, sin

from calc.errors import DomainError, Problem, require
from calc.spread import Spread


def stagger(strands: int, tail_m: float, least_m: float, wanted_m: float) -> float:
    """Return the even step between neighbouring strand ends of one bundle. [m].

    Parameters
    ----------
    strands : int, >= 1
        In the bundle.
    tail_m, least_m : float, > 0
        Longest and shortest tail. [m]
    wanted_m : float, > 0
        Step to use where the tail is long enough for it. [m]

    Examples
    --------
    >>> stagger(7, 8.0, 2.0, 0.5), stagger(25, 8.0, 2.0, 0.5), stagger(1, 8.0, 2.0, 0.5)
    (0.5, 0.25, 0.0)
    """
    if strands < 1:
        raise DomainError(Problem(field="strands", code="min", limit=1))
    require("least_m", least_m, low=0.0, open_=True)
    require("tail_m", tail_m, low=least_m)
    require("wanted_m", wanted_m, low=0.0, open_=True)
    return 0.0 if strands == 1 else min(wanted_m, (tail_m - least_m) / (strands - 1))


def wrap_angle(strand_m: float, radius_m: float, lay_rad: float) -> float:
    """Return the angle through which a strand turns on its helix: arc length x curvature. [rad].

    Notes
    -----
    Source: curvature of a helix, ``sin^2(lay) / radius`` (``derived:helix``).
    """
    require("strand_m", strand_m, low=0.0)
    require("radius_m", radius_m, low=0.0, open_=True)
    require("lay_rad", lay_rad, low=0.0)
    return strand_m * sin(lay_rad) ** 2 / radius_m


def holding_ratio(strand_m: float, radius_m: float, lay_rad: float, friction: Spread) -> Spread:
    """Return how many times its own grip a tail can hold before it slips: an estimate.

    Parameters
    ----------
    strand_m : float, >= 0
        Tail laid in. [m]
    radius_m : float, > 0
        Cord axis to bundle axis in the splice. [m]
    lay_rad : float, >= 0
        Helix angle in the splice. [rad]
    friction : Spread, >= 0
        Of waxed fibre on itself. [-]

    Notes
    -----
    Source: belt friction, ``exp(friction x wrap angle)`` (Euler; ``capstan``), along the helix. Leaves out the
    squeeze of the neighbouring bundles and the grip of wax, which both help.

    Examples
    --------
    >>> from math import radians
    >>> round(holding_ratio(0.2, 0.001, radians(20), Spread(0.1, 0.15, 0.3)).low, 1)
    10.4
    """
    turned = wrap_angle(strand_m, radius_m, lay_rad)
    require("friction", friction.low, low=0.0)
    return Spread(exp(friction.low * turned), exp(friction.value * turned), exp(friction.high * turned))
