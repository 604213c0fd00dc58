"""Limb-tip sections: what a loop has to go round."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, hypot, pi, sin
from typing import TypeAlias

from calc.errors import require
from calc.geometry.bounds import require_length
from calc.geometry.ends.ellipse import quarter_arc


@dataclass(frozen=True, slots=True)
class RoundTip:
    """A round tip.

    Parameters
    ----------
    diameter_m : float, > 0
        Of the tip. [m]
    """

    diameter_m: float

    def __post_init__(self) -> None:
        require_length("diameter_m", self.diameter_m)

    @property
    def width_m(self) -> float:
        """Across the limb [m]."""
        return self.diameter_m

    @property
    def depth_m(self) -> float:
        """From belly to back [m]."""
        return self.diameter_m

    @property
    def corner_m(self) -> float:
        """Radius of the corners [m]."""
        return self.diameter_m / 2.0


@dataclass(frozen=True, slots=True)
class FlatTip:
    """A flat tip.

    Parameters
    ----------
    width_m, depth_m : float, > 0
        Across the limb; from belly to back. [m]
    corner_m : float, >= 0
        Radius that rounds its corners. [m]
    """

    width_m: float
    depth_m: float
    corner_m: float = 0.0

    def __post_init__(self) -> None:
        require_length("width_m", self.width_m)
        require_length("depth_m", self.depth_m)
        require("corner_m", self.corner_m, low=0.0, high=min(self.width_m, self.depth_m) / 2.0)


@dataclass(frozen=True, slots=True)
class EllipseTip:
    """An elliptical tip.

    Parameters
    ----------
    width_m, depth_m : float, > 0
        Across the limb; from belly to back. [m]
    """

    width_m: float
    depth_m: float

    def __post_init__(self) -> None:
        require_length("width_m", self.width_m)
        require_length("depth_m", self.depth_m)


Section: TypeAlias = RoundTip | FlatTip | EllipseTip


@dataclass(frozen=True, slots=True)
class Touch:
    """Where a straight line lies against a section.

    Attributes
    ----------
    reach_m : float
        Distance of the line from the middle of the section. [m]
    slide_m : float
        From the foot of that distance to the place of touch, in the direction of growing angle. [m]
    """

    reach_m: float
    slide_m: float


def touch(section: Section, normal_rad: float) -> Touch:
    """Lay a straight line against a section.

    Parameters
    ----------
    section : Section
        Width across, belly ahead.
    normal_rad : float
        Direction of the line's outward normal: 0 to the side, a right angle towards the belly. [rad]

    Returns
    -------
    Touch
        At the last place of touch where the line lies along a straight side.

    Raises
    ------
    DomainError
        ``number``, ``min`` or ``max`` for an angle outside 0 to a right angle.

    Notes
    -----
    Source: own derivation (``derived:support``): support function of a rectangle with round corners and of an
    ellipse.

    Examples
    --------
    >>> touch(RoundTip(2.0), 0.0)
    Touch(reach_m=1.0, slide_m=0.0)
    """
    require("normal_rad", normal_rad, low=0.0, high=pi / 2.0)
    across, along = cos(normal_rad), sin(normal_rad)
    half_m, deep_m = section.width_m / 2.0, section.depth_m / 2.0
    if isinstance(section, EllipseTip):
        reach_m = hypot(half_m * across, deep_m * along)
        return Touch(reach_m, (deep_m**2 - half_m**2) * across * along / reach_m)
    corner_m = section.corner_m
    half_m, deep_m = half_m - corner_m, deep_m - corner_m
    return Touch(half_m * across + deep_m * along + corner_m, deep_m * across - half_m * along)


def outline_behind(section: Section) -> float:
    """Return the outline from the middle of the back round to the belly end of the side.

    Parameters
    ----------
    section : Section

    Returns
    -------
    float
        [m]

    Notes
    -----
    Source: as `touch`.

    Examples
    --------
    >>> outline_behind(FlatTip(3.0, 2.0))
    3.5
    """
    half_m, deep_m = section.width_m / 2.0, section.depth_m / 2.0
    if isinstance(section, EllipseTip):
        return quarter_arc(half_m, deep_m, pi / 2.0)
    return half_m + 2.0 * deep_m - section.corner_m * (3.0 - pi / 2.0)


def outline_ahead(section: Section, normal_rad: float) -> float:
    """Return the outline from the belly end of the side to where a line touches.

    Parameters
    ----------
    section, normal_rad
        As for `touch`.

    Returns
    -------
    float
        [m]

    Raises
    ------
    DomainError
        As `touch`.

    Notes
    -----
    Source: as `touch`.

    Examples
    --------
    >>> round(outline_ahead(RoundTip(2.0), pi / 2), 6)
    1.570796
    """
    require("normal_rad", normal_rad, low=0.0, high=pi / 2.0)
    if isinstance(section, EllipseTip):
        return quarter_arc(section.width_m / 2.0, section.depth_m / 2.0, normal_rad)
    return section.corner_m * normal_rad


def perimeter(section: Section) -> float:
    """Return the length once round a tip.

    Parameters
    ----------
    section : Section

    Returns
    -------
    float
        [m]

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> perimeter(FlatTip(3.0, 2.0)), round(perimeter(RoundTip(1.0)), 6), round(perimeter(EllipseTip(4.0, 2.0)), 6)
    (10.0, 3.141593, 9.688448)
    """
    if isinstance(section, EllipseTip):
        return 4.0 * outline_behind(section)
    straight_m = 2.0 * (section.width_m + section.depth_m - 4.0 * section.corner_m)
    return straight_m + 2.0 * pi * section.corner_m
