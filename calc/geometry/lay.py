"""Bundles laid round each other: touching helical tubes, from straight to the jam."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import atan, cos, inf, pi, sin, sqrt, tan

from calc.errors import DomainError, Problem, require
from calc.roots import crossing

MOST_BUNDLES = 4
_STEEPEST = 1.57
"""Helix angles end just short of a right angle [rad]."""


@dataclass(frozen=True, slots=True)
class Jam:
    """The lay with the most turns a length of strand can make: no more fit, whatever the pull.

    Attributes
    ----------
    lay_rad : float
        Helix angle from the cord's axis. [rad]
    take_up : float
        ``1 - cord / strand``. [-]
    turns_times_diameter : float
        Turns per strand length x bundle diameter. [turn]
    """

    lay_rad: float
    take_up: float
    turns_times_diameter: float


@dataclass(frozen=True, slots=True)
class Lay:
    """Bundles of one diameter laid at one angle.

    Attributes
    ----------
    bundles : int
    diameter_m : float
        Of one bundle. [m]
    lay_rad : float
        Helix angle from the cord's axis. [rad]
    radius_m : float
        Cord axis to bundle axis. [m]
    turns_per_m, turns_per_strand_m : float
        Turns of lay per metre of cord, of bundle. [turn/m]
    take_up : float
        ``1 - cord / bundle``. [-]
    cord_diameter_m : float
        Over everything. [m]
    """

    bundles: int
    diameter_m: float
    lay_rad: float
    radius_m: float
    turns_per_m: float
    turns_per_strand_m: float
    take_up: float
    cord_diameter_m: float

    @property
    def pitch_m(self) -> float:
        """Cord length of one full turn, infinite for a straight lay [m]."""
        return 1.0 / self.turns_per_m if self.turns_per_m else inf


def _check(bundles: int) -> None:
    if bundles not in range(2, MOST_BUNDLES + 1):
        raise DomainError(Problem(field="bundles", code="choice"))


@lru_cache(maxsize=512)
def radius_ratio(bundles: int, lay_rad: float) -> float:
    """Return how far bundles lie from the cord's axis, in bundle diameters.

    Parameters
    ----------
    bundles : int
        2, 3 or 4.
    lay_rad : float
        From 0 to below a right angle. [rad]

    Returns
    -------
    float
        Distance of the axes / bundle diameter, by the closest approach of the bundles' centre lines.

    Raises
    ------
    DomainError
        ``choice`` for the bundles; ``number``, ``min`` or ``max`` for the angle.

    Notes
    -----
    Source: own derivation (``derived:closest-approach``). With phase ``p`` between two of the bundles, the
    squared distance is least where ``sin(p - t) = t / tan^2(lay)``. Leaves out flattening.

    Examples
    --------
    >>> radius_ratio(2, 0.5), round(radius_ratio(3, 0.0), 6)
    (0.5, 0.57735)
    """
    _check(bundles)
    require("lay_rad", lay_rad, low=0.0, high=_STEEPEST)
    if lay_rad == 0.0:
        return 1.0 / (2.0 * sin(pi / bundles))
    steep = 1.0 / tan(lay_rad) ** 2
    return max(1.0 / sqrt(_closest(2.0 * pi * k / bundles, steep)) for k in range(1, bundles // 2 + 1))


def _closest(phase: float, steep: float) -> float:
    """Return the least squared distance of two centre lines, the helix radius being 1."""

    def slope(t: float) -> float:
        return steep * t - sin(phase - t)

    at = 0.0
    start = 1e-9
    if slope(start) < 0.0:
        at = crossing(slope, start, phase)
    return 2.0 * (1.0 - cos(at - phase)) + steep * at * at


def lay(diameter_m: float, bundles: int, lay_rad: float) -> Lay:
    """Lay bundles of a known diameter at a known angle.

    Parameters
    ----------
    diameter_m : float, > 0
        Of one bundle. [m]
    bundles : int
        2, 3 or 4.
    lay_rad : float
        Helix angle from the cord's axis, from 0 to the jam. [rad]

    Returns
    -------
    Lay

    Raises
    ------
    DomainError
        ``model`` with reason ``jam`` past the jam; ``number``, ``min`` or ``choice`` otherwise.

    Notes
    -----
    Source: own derivation, unrolled cylinder (``derived:unroll``) on the radius of closest approach. Leaves
    out flattening, stretch and friction.

    Examples
    --------
    Two 2 mm bundles at 50 turns a metre of cord:

    >>> from math import degrees
    >>> made = lay(0.002, 2, atan(2 * pi * 0.001 * 50))
    >>> round(degrees(made.lay_rad), 3), round(100 * made.take_up, 3), round(made.turns_per_m, 9)
    (17.441, 4.597, 50.0)
    """
    require("diameter_m", diameter_m, low=0.0, open_=True)
    require("lay_rad", lay_rad, low=0.0)
    limit = jam(bundles)
    if lay_rad > limit.lay_rad * (1.0 + 1e-12):
        raise DomainError(Problem(field="lay_rad", code="model", limit=limit.lay_rad, reason="jam"))
    radius_m = diameter_m * radius_ratio(bundles, lay_rad)
    return Lay(
        bundles,
        diameter_m,
        lay_rad,
        radius_m,
        tan(lay_rad) / (2.0 * pi * radius_m),
        sin(lay_rad) / (2.0 * pi * radius_m),
        1.0 - cos(lay_rad),
        2.0 * radius_m + diameter_m,
    )


@lru_cache(maxsize=8)
def jam(bundles: int) -> Jam:
    """Return the zero-twist state, at which a cord neither winds nor unwinds when it is pulled.

    Parameters
    ----------
    bundles : int
        2, 3 or 4.

    Notes
    -----
    Source: reproduces Olsen and Bohr's pitch angles (``olsen2011``, ``bohr2011``) by a closed form of our own
    (``derived:zero-twist``): ``t = 2 sin((p - t) / 2)`` with ``p = 2 pi / bundles`` is bundle diameter over
    helix arc for one radian, and ``tan^2(pitch angle) = sin(p - t) / t``.

    Examples
    --------
    >>> from math import degrees
    >>> [round(90 - degrees(jam(n).lay_rad), 1) for n in (2, 3, 4)]
    [39.4, 42.8, 43.8]
    """
    _check(bundles)
    phase = 2.0 * pi / bundles
    t = crossing(lambda x: x - 2.0 * sin((phase - x) / 2.0), 0.0, phase)
    pitch_angle = atan(sqrt(sin(phase - t) / t))
    return Jam(pi / 2.0 - pitch_angle, 1.0 - sin(pitch_angle), t / (2.0 * pi))


def jam_turns(diameter_m: float, bundles: int, strand_m: float) -> float:
    """Return the most turns a length of bundle can make. [turn].

    >>> round(jam_turns(0.002, 2, 1.0), 1)
    117.6
    """
    require("diameter_m", diameter_m, low=0.0, open_=True)
    require("strand_m", strand_m, low=0.0, open_=True)
    return jam(bundles).turns_times_diameter * strand_m / diameter_m


def lay_of_turns(diameter_m: float, bundles: int, turns: float, strand_m: float) -> Lay:
    """Return the lay of a known count of turns over a known length of bundle.

    Parameters
    ----------
    diameter_m, strand_m : float, > 0
        Bundle diameter; bundle length before plying, its own twist already in it. [m]
    bundles : int
        2, 3 or 4.
    turns : float, >= 0
        [turn]

    Raises
    ------
    DomainError
        ``model`` with reason ``jam`` and the most turns as limit; ``number`` or ``min`` otherwise.

    Examples
    --------
    >>> from math import degrees
    >>> round(degrees(lay_of_turns(0.002, 2, 50, 1.0).lay_rad), 2)
    18.31
    """
    require("turns", turns, low=0.0)
    most = jam_turns(diameter_m, bundles, strand_m)
    if turns > most:
        raise DomainError(Problem(field="turns", code="model", limit=most, reason="jam"))
    wanted = 2.0 * pi * turns * diameter_m / strand_m
    steepest = jam(bundles).lay_rad

    def over(angle: float) -> float:
        return sin(angle) / radius_ratio(bundles, angle) - wanted

    angle = steepest if over(steepest) <= 0.0 else crossing(over, 0.0, steepest)
    return lay(diameter_m, bundles, angle)


def lay_of_cord_turns(diameter_m: float, bundles: int, turns: float, cord_m: float) -> Lay:
    """Return the lay of a known count of turns over a known length of finished cord.

    Parameters
    ----------
    diameter_m, cord_m : float, > 0
        [m]
    bundles : int
        2, 3 or 4.
    turns : float, >= 0
        [turn]

    Raises
    ------
    DomainError
        ``model`` with reason ``jam`` and the most turns over that cord as limit; ``number`` or ``min`` otherwise.

    Examples
    --------
    >>> round(100 * lay_of_cord_turns(0.002, 2, 80, 1.0).take_up, 3)
    10.652
    """
    require("diameter_m", diameter_m, low=0.0, open_=True)
    require("cord_m", cord_m, low=0.0, open_=True)
    require("turns", turns, low=0.0)
    steepest = jam(bundles).lay_rad
    wanted = 2.0 * pi * turns * diameter_m / cord_m

    def over(angle: float) -> float:
        return tan(angle) / radius_ratio(bundles, angle) - wanted

    if over(steepest) < 0.0:
        most = tan(steepest) / radius_ratio(bundles, steepest) * cord_m / (2.0 * pi * diameter_m)
        raise DomainError(Problem(field="turns", code="model", limit=most, reason="jam"))
    return lay(diameter_m, bundles, crossing(over, 0.0, steepest))
