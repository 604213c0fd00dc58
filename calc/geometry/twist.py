"""Twist a bundle carries of its own: what it costs in length, and what plying does to it."""

from __future__ import annotations

from math import atan, cos, pi, sin, tan

from calc.errors import require
from calc.geometry.lay import jam, radius_ratio


def retraction(surface_rad: float) -> float:
    """Return how much of its length a bundle gives up to its own twist.

    Parameters
    ----------
    surface_rad : float, >= 0 and below a right angle
        Angle of the surface fibres to the bundle's axis. [rad]

    Returns
    -------
    float
        ``1 - twisted / untwisted`` length. [-]

    Notes
    -----
    Source: ideal helical yarn, contraction factor ``(1 + sec a) / 2`` (``hearle1969``, from memory), which is
    ``tan^2(a / 2)`` as retraction. Leaves out migration of fibres and any slack.

    Examples
    --------
    >>> from math import radians
    >>> round(100 * retraction(radians(20)), 4)
    3.1091
    """
    require("surface_rad", surface_rad, low=0.0, high=pi / 2.0)
    return tan(surface_rad / 2.0) ** 2


def surface_angle(diameter_m: float, twist_per_m: float) -> float:
    """Return the angle of a bundle's surface fibres to its axis. [rad].

    Parameters
    ----------
    diameter_m : float, > 0
        [m]
    twist_per_m : float, >= 0
        Turns per metre of twisted bundle. [turn/m]

    Notes
    -----
    Source: own derivation, unrolled cylinder (``derived:unroll``).

    Examples
    --------
    >>> from math import degrees
    >>> round(degrees(surface_angle(0.0003697, 100)), 2)
    6.62
    """
    require("diameter_m", diameter_m, low=0.0, open_=True)
    require("twist_per_m", twist_per_m, low=0.0)
    return atan(pi * diameter_m * twist_per_m)


def residual_twist(counter: float, turns: float, lay_rad: float) -> float:
    """Return the twist left in a bundle after it was plied by turning the whole end.

    Parameters
    ----------
    counter : float
        Turns put in beforehand, the other way. [turn]
    turns : float
        Turns of lay. [turn]
    lay_rad : float, >= 0
        Helix angle. [rad]

    Returns
    -------
    float
        ``counter - turns x cos(lay)``, positive while it still runs against the lay. [turn]

    Notes
    -----
    Source: linking number = twist + writhe (``white1969``); one turn of a helix holds ``cos(lay)`` turns of
    twist. For two-fold yarn the same factor is in ``jtmsj1961``.
    """
    require("counter", counter)
    require("turns", turns)
    require("lay_rad", lay_rad, low=0.0, high=pi / 2.0)
    return counter - turns * cos(lay_rad)


def balanced_twist(bundles: int, lay_rad: float) -> float:
    """Return the counter-twist for each turn of lay that leaves surface fibres lying along the cord.

    Parameters
    ----------
    bundles : int
        2, 3 or 4.
    lay_rad : float, >= 0
        Helix angle. [rad]

    Returns
    -------
    float
        Turns into each bundle, before plying, per turn of lay. [-]

    Notes
    -----
    Source: own derivation (``derived:balance``): the fibres' own angle equals the lay's, the other way, so the
    twist left is ``tan(lay) / (pi D)`` per length; plying itself takes ``cos(lay)`` per turn.

    Examples
    --------
    >>> from math import radians
    >>> round(balanced_twist(2, radians(20)), 4)
    2.0039
    """
    require("lay_rad", lay_rad, low=0.0, high=jam(bundles).lay_rad)
    return 2.0 * radius_ratio(bundles, lay_rad) / cos(lay_rad) + cos(lay_rad)


def torque_free_ratio(lay_rad: float, stiffness_ratio: float) -> float:
    """Return ply turns per turn of counter-twist at which an elastic two-ply is at rest.

    Parameters
    ----------
    lay_rad : float, > 0 and below 45 degrees
        Helix angle. [rad]
    stiffness_ratio : float, > 0
        Bending / torsion stiffness of a bundle: 0.5 to 1.5. [-]

    Notes
    -----
    Source: energy of the generalised ply (``thompson2002``) at constant radius (``derived:torque-free``).
    Leaves out friction, which holds most of a hand-laid cord: a band, not a rule.

    Examples
    --------
    >>> from math import radians
    >>> round(torque_free_ratio(radians(20), 1.0), 4)
    0.8152
    """
    require("lay_rad", lay_rad, low=0.0, high=pi / 4.0, open_=True)
    require("stiffness_ratio", stiffness_ratio, low=0.0, open_=True)
    left = 2.0 * stiffness_ratio * sin(lay_rad) ** 3 * cos(lay_rad) / cos(2.0 * lay_rad)
    return sin(lay_rad) / (left + sin(lay_rad) * cos(lay_rad))
