"""Closest approach of helices: how near bundles of one lay come to each other."""

from __future__ import annotations

from functools import lru_cache
from math import pi, sin, sqrt, tan

from calc.errors import DomainError, Problem, require
from calc.numerics import find_root

MOST_BUNDLES = 4
_PHASES = {bundles: 2.0 * pi / bundles for bundles in range(2, MOST_BUNDLES + 1)}
STEEPEST_RAD = pi / 3.0
"""Past this the bundles' own next turns, and not their neighbours, come nearest; every jam lies well below. [rad]"""


def phase_rad(bundles: int) -> float:
    """Return the angle between neighbouring bundles about the cord's axis.

    Parameters
    ----------
    bundles : int
        2, 3 or 4.

    Returns
    -------
    float
        [rad]

    Raises
    ------
    DomainError
        ``choice`` for another count.

    Notes
    -----
    Source: a full turn in equal parts.
    """
    if bundles not in _PHASES:
        raise DomainError(Problem(field="bundles", code="choice"))
    return _PHASES[bundles]


def turned_rad(bundles: int, lay_rad: float) -> float:
    """Return how far round the axis a bundle turns between the two ends of a closest approach.

    Parameters
    ----------
    bundles : int
        2, 3 or 4.
    lay_rad : float
        Helix angle from the cord's axis, from 0 to 60 degrees. [rad]

    Returns
    -------
    float
        From 0 for a straight lay, always below the phase of the neighbours. [rad]

    Raises
    ------
    DomainError
        ``choice`` for the bundles; ``number``, ``min`` or ``max`` for the angle.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> turned_rad(2, 0.5), round(turned_rad(3, 0.5), 6)
    (0.0, 0.290366)
    """
    phase = phase_rad(bundles)
    require("lay_rad", lay_rad, low=0.0, high=STEEPEST_RAD)
    slant = tan(lay_rad) ** 2
    if slant == 0.0 or (bundles == 2 and slant <= 1.0):
        return 0.0

    # for two bundles leave the maximum on the axis: the sine's series has its root at twice this or further out
    start = sqrt(6.0 * (slant - 1.0) / slant) / 2.0 if bundles == 2 else 0.0
    return find_root(lambda t: t - slant * sine_left(bundles, t), start, phase)


def radius_ratio(bundles: int, lay_rad: float) -> float:
    """Return how far bundles lie from the cord's axis, in bundle diameters.

    Parameters
    ----------
    bundles, lay_rad
        As for `turned_rad`.

    Returns
    -------
    float
        Distance of the axes / bundle diameter. [-]

    Raises
    ------
    DomainError
        As `turned_rad`.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> radius_ratio(2, 0.5), round(radius_ratio(3, 0.0), 6)
    (0.5, 0.57735)
    """
    return _ratio(bundles, lay_rad)


@lru_cache(maxsize=256)
def _ratio(bundles: int, lay_rad: float) -> float:
    return ratio_at(bundles, turned_rad(bundles, lay_rad))


def ratio_at(bundles: int, turned: float) -> float:
    """Return the radius ratio from the angle of `turned_rad`: with it all about a lay is closed form.

    Parameters
    ----------
    bundles : int
        2, 3 or 4.
    turned : float
        As `turned_rad` gives it. [rad]

    Returns
    -------
    float
        Cord axis to bundle axis / bundle diameter. [-]

    Notes
    -----
    Source: as `turned_rad`.
    """
    left = phase_rad(bundles) - turned
    sine = sin(turned) if bundles == 2 else sin(left)
    return 1.0 / sqrt(4.0 * sin(left / 2.0) ** 2 + turned * sine)


def sine_left(bundles: int, turned: float) -> float:
    """Return the sine of the phase that is left of the neighbours' after `turned`, exact on the axis.

    Parameters
    ----------
    bundles : int
        2, 3 or 4.
    turned : float
        As `turned_rad` gives it. [rad]

    Returns
    -------
    float
        [-]

    Notes
    -----
    Source: as `turned_rad`.
    """
    return sin(turned) if bundles == 2 else sin(phase_rad(bundles) - turned)
