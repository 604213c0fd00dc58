"""A loop round a limb tip: two straight legs from the throat, and the cord laid round the far side."""

from __future__ import annotations

from dataclasses import dataclass
from math import acos, cos, pi, sin, sqrt
from typing import TYPE_CHECKING

from calc.errors import require
from calc.geometry.bounds import require_length
from calc.geometry.ends.sections import EllipseTip, outline_ahead, outline_behind, touch
from calc.numerics import find_root

if TYPE_CHECKING:
    from calc.geometry.ends.sections import Section


@dataclass(frozen=True, slots=True)
class Loop:
    """A loop's centre line.

    Attributes
    ----------
    length_m : float
        From throat to throat. [m]
    throat_m : float
        From the middle of the tip to the throat. [m]
    leg_m : float
        Each straight leg. [m]
    opening_rad : float
        Between the legs. [rad]
    """

    length_m: float
    throat_m: float
    leg_m: float
    opening_rad: float


def widest_opening(section: Section, cord_diameter_m: float) -> float:
    """Return the angle between the legs of the shortest loop, whose throat lies against the tip.

    Parameters
    ----------
    section : Section
        Limb tip, its width across the string.
    cord_diameter_m : float, > 0
        Of the cord. [m]

    Returns
    -------
    float
        Up to a straight angle, where the tip is so wide that the legs lie along its belly. [rad]

    Raises
    ------
    DomainError
        ``number``, ``min`` or ``max`` for the cord.

    Notes
    -----
    Source: own derivation (``derived:loop``): where the line half a cord outside the tip has come within half
    a cord of the middle.

    Examples
    --------
    A cord as thick as the pin, three circles that touch:

    >>> from calc.geometry.ends.sections import RoundTip
    >>> round(widest_opening(RoundTip(1.0), 1.0) / pi, 12)
    0.666666666667
    """
    require_length("cord_diameter_m", cord_diameter_m)
    half_m = cord_diameter_m / 2.0
    if isinstance(section, EllipseTip):
        wide_m, deep_m = section.width_m / 2.0, section.depth_m / 2.0

        def aside(across: float) -> float:
            reach_m = sqrt((wide_m * across) ** 2 + deep_m**2 * (1.0 - across**2))
            return wide_m**2 * across / reach_m - half_m * (1.0 - across)

        return 2.0 * acos(find_root(aside, 0.0, 1.0))
    inner_m = section.width_m / 2.0 - section.corner_m
    return 2.0 * acos(max(0.0, half_m - inner_m) / (half_m + section.corner_m))


def loop_at(section: Section, cord_diameter_m: float, half_rad: float) -> Loop:
    """Return the loop whose legs stand at an angle off the middle line.

    Parameters
    ----------
    section : Section
        Of the limb tip.
    cord_diameter_m : float, > 0
        Of the cord. [m]
    half_rad : float, > 0
        Half the opening at the throat. [rad]

    Notes
    -----
    Source: as `loop_nocked`.
    """
    half_m = cord_diameter_m / 2.0
    at = touch(section, half_rad)
    throat_m = (at.reach_m + half_m * (1.0 - cos(half_rad))) / sin(half_rad)
    leg_m = max(0.0, throat_m * cos(half_rad) - half_m * sin(half_rad) - at.slide_m)
    outline_m = outline_behind(section) + outline_ahead(section, half_rad)
    length_m = 2.0 * (leg_m + outline_m + half_m * (half_rad + pi / 2.0))
    return Loop(length_m, throat_m, leg_m, 2.0 * half_rad)


def loop_nocked(section: Section, cord_diameter_m: float, opening_rad: float) -> Loop:
    """Return a loop that sits in its nock with a chosen angle between the legs.

    Parameters
    ----------
    section : Section
        Limb tip, its width across the string.
    cord_diameter_m : float, > 0
        Of the cord. [m]
    opening_rad : float, > 0 and up to `widest_opening`
        Angle between the legs. Wider shortens the loop, and pulls its throat harder apart. [rad]

    Returns
    -------
    Loop

    Raises
    ------
    DomainError
        ``max`` when the loop cannot open so wide on this tip, or is so narrow that its throat is out of sight
        (``min``); ``number`` for what is not finite.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    A thread round a pin of radius 1, legs 60 degrees apart: the throat is at distance 2.

    >>> from calc.geometry.ends.sections import RoundTip
    >>> round(loop_nocked(RoundTip(2.0), 1e-12, pi / 3).throat_m, 9)
    2.0
    """
    require("opening_rad", opening_rad, low=1e-9)
    require("opening_rad", opening_rad, high=widest_opening(section, cord_diameter_m))
    return loop_at(section, cord_diameter_m, opening_rad / 2.0)


def shortest_loop(section: Section, cord_diameter_m: float) -> Loop:
    """Return the loop that lies tight round the tip.

    Parameters
    ----------
    section, cord_diameter_m
        As for `loop_nocked`.

    Returns
    -------
    Loop

    Raises
    ------
    DomainError
        ``number``, ``min`` or ``max`` for the cord.

    Notes
    -----
    Source: as `loop_nocked`.

    Examples
    --------
    >>> from calc.geometry.ends.sections import RoundTip
    >>> round(shortest_loop(RoundTip(1.0), 1.0).throat_m, 9) == round(0.75**0.5, 9)
    True
    """
    return loop_at(section, cord_diameter_m, widest_opening(section, cord_diameter_m) / 2.0)
