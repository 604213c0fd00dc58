"""The jam: the lay that holds the most turns a length of bundle can make, and the limit that warns of it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from math import atan, cos, pi, sin, sqrt

from calc.geometry.bounds import require_length
from calc.geometry.lay.approach import phase_rad, ratio_at, sine_left
from calc.numerics import find_root


@dataclass(frozen=True, slots=True)
class Jam:
    """The lay with the most turns a length of bundle can make: no more fit, whatever the pull.

    Attributes
    ----------
    bundles : int
    lay_rad : float
        Helix angle from the cord's axis. [rad]
    take_up : float
        Share of the bundle's length that laying takes, ``1 - cord / bundle``. [-]
    turns_times_diameter : float
        Turns per bundle length x bundle diameter. [turn]
    cord_turns_times_diameter : float
        Turns per cord length x bundle diameter. [turn]
    radius_ratio : float
        Cord axis to bundle axis / bundle diameter. [-]
    """

    bundles: int
    lay_rad: float
    take_up: float
    turns_times_diameter: float
    cord_turns_times_diameter: float
    radius_ratio: float

    @property
    def pitch_rad(self) -> float:
        """Angle between bundle and the plane across the cord, as Olsen and Bohr measure it [rad]."""
        return pi / 2.0 - self.lay_rad

    @property
    def ratio(self) -> float:
        """Cord length / bundle length [-]."""
        return cos(self.lay_rad)


@cache
def jam(bundles: int) -> Jam:
    """Return the zero-twist state, at which a cord neither winds nor unwinds when it is pulled.

    Parameters
    ----------
    bundles : int
        2, 3 or 4.

    Returns
    -------
    Jam

    Raises
    ------
    DomainError
        ``choice`` for the bundles.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> from math import degrees
    >>> [round(degrees(jam(n).pitch_rad), 1) for n in (2, 3, 4)]
    [39.4, 42.8, 43.8]
    """
    phase = phase_rad(bundles)
    t = find_root(lambda x: x - 2.0 * sin((phase - x) / 2.0), 0.0, phase)
    lay_rad = atan(sqrt(t / sine_left(bundles, t)))
    most = t / (2.0 * pi)
    return Jam(bundles, lay_rad, 2.0 * sin(lay_rad / 2.0) ** 2, most, most / cos(lay_rad), ratio_at(bundles, t))


def jam_turns(diameter_m: float, bundles: int, strand_m: float) -> float:
    """Return the most turns a length of bundle can make.

    Parameters
    ----------
    diameter_m : float, > 0
        Bundle diameter. [m]
    bundles : int
        2, 3 or 4.
    strand_m : float, > 0
        Bundle length before plying, its own twist already in it. [m]

    Returns
    -------
    float
        [turn]

    Raises
    ------
    DomainError
        ``number``, ``min`` or ``max`` for a length, ``choice`` for the bundles.

    Notes
    -----
    Source: `jam`.

    Examples
    --------
    >>> round(jam_turns(0.002, 2, 1.0), 1)
    117.6
    """
    require_length("diameter_m", diameter_m)
    require_length("strand_m", strand_m)
    return jam(bundles).turns_times_diameter * strand_m / diameter_m


def warn_lay(bundles: int) -> float:
    """Return the lay past which one turn more shortens the cord by more than the length a turn lies on.

    Worksheets warn from here on: more than nine tenths of the jam's turns are in, a single turn
    moves the length by a whole pitch, and two bundles no longer bear on each other along one line.

    Parameters
    ----------
    bundles : int
        2, 3 or 4.

    Returns
    -------
    float
        Helix angle from the cord's axis. [rad]

    Raises
    ------
    DomainError
        ``choice`` for the bundles.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> from math import degrees
    >>> [round(degrees(warn_lay(n)), 2) for n in (2, 3, 4)]
    [45.0, 37.88, 36.62]
    """
    if bundles == 2:
        return pi / 4.0

    def over(turned: float) -> float:
        left = sine_left(bundles, turned)
        return turned / left + turned * (turned + left) * ratio_at(bundles, turned) ** 2 - 1.0

    turned = find_root(over, 0.0, 2.0 * pi * jam(bundles).turns_times_diameter)
    return atan(sqrt(turned / sine_left(bundles, turned)))
