"""Bundles laid round each other: touching helical tubes, from straight to the jam."""

from __future__ import annotations

from math import acos, asin, atan, cos, inf, pi, sin, sqrt, tan
from typing import TYPE_CHECKING, NamedTuple

from calc.errors import DomainError, Problem, require
from calc.geometry.bounds import require_length
from calc.geometry.lay.approach import radius_ratio, ratio_at, sine_left
from calc.geometry.lay.jam_limit import jam, jam_turns
from calc.numerics import find_root, fixed_point

if TYPE_CHECKING:
    from collections.abc import Callable

_ROUNDING = 1.0 + 1e-12


class Lay(NamedTuple):
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
        Turns of lay per metre of cord; turns of lay per metre of bundle. [turn/m]
    take_up : float
        Share of the bundle's length that laying takes, ``1 - cord / bundle``. [-]
    cord_diameter_m : float
        Of the cord, over everything. [m]
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

    @property
    def ratio(self) -> float:
        """Cord length / bundle length [-]."""
        return cos(self.lay_rad)


def _lay_at(diameter_m: float, bundles: int, lay_rad: float, ratio: float) -> Lay:
    radius_m = diameter_m * ratio
    around_m = 2.0 * pi * radius_m
    take_up = 2.0 * sin(lay_rad / 2.0) ** 2
    per_cord, per_strand = tan(lay_rad) / around_m, sin(lay_rad) / around_m
    return Lay(bundles, diameter_m, lay_rad, radius_m, per_cord, per_strand, take_up, 2.0 * radius_m + diameter_m)


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
        ``model`` with reason ``jam`` past the jam; ``number``, ``min``, ``max`` or ``choice`` otherwise.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    Two 2 mm bundles at 50 turns a metre of cord:

    >>> from math import degrees
    >>> made = lay(0.002, 2, atan(2 * pi * 0.001 * 50))
    >>> round(degrees(made.lay_rad), 3), round(100 * made.take_up, 3), round(made.turns_per_m, 9)
    (17.441, 4.597, 50.0)
    """
    require_length("diameter_m", diameter_m)
    require("lay_rad", lay_rad, low=0.0)
    limit = jam(bundles)
    if lay_rad > limit.lay_rad * _ROUNDING:
        raise DomainError(Problem(field="lay_rad", code="model", limit=limit.lay_rad, reason="jam"))
    return _lay_at(diameter_m, bundles, lay_rad, radius_ratio(bundles, lay_rad))


def lay_of_turns(diameter_m: float, bundles: int, turns: float, strand_m: float) -> Lay:
    """Return the lay of a known count of turns over a known length of bundle.

    Parameters
    ----------
    diameter_m : float, > 0
        Bundle diameter. [m]
    bundles : int
        2, 3 or 4.
    turns : float, >= 0
        Turns of lay. [turn]
    strand_m : float, > 0
        Bundle length before plying, its own twist already in it. [m]

    Returns
    -------
    Lay

    Raises
    ------
    DomainError
        ``model`` with reason ``jam`` and the most turns as limit; ``number``, ``min``, ``max`` or ``choice``
        otherwise.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

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
    if bundles == 2 and wanted <= sqrt(2.0):
        return _lay_at(diameter_m, bundles, asin(wanted / 2.0), 0.5)
    return _solved(diameter_m, bundles, lambda t, s, ratio: sqrt(t / (t + s)) / ratio - wanted)


def lay_of_cord_turns(diameter_m: float, bundles: int, turns: float, cord_m: float) -> Lay:
    """Return the lay of a known count of turns over a known length of finished cord.

    Parameters
    ----------
    diameter_m : float, > 0
        Bundle diameter. [m]
    bundles : int
        2, 3 or 4.
    turns : float, >= 0
        Turns of lay. [turn]
    cord_m : float, > 0
        Finished cord. [m]

    Returns
    -------
    Lay

    Raises
    ------
    DomainError
        ``model`` with reason ``jam`` and the most turns over that cord as limit; ``number``, ``min``, ``max``
        or ``choice`` otherwise.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> round(100 * lay_of_cord_turns(0.002, 2, 80, 1.0).take_up, 3)
    10.652
    """
    require_length("diameter_m", diameter_m)
    require_length("cord_m", cord_m)
    require("turns", turns, low=0.0)
    most = jam(bundles).cord_turns_times_diameter * cord_m / diameter_m
    if turns > most:
        raise DomainError(Problem(field="turns", code="model", limit=most, reason="jam"))
    wanted = 2.0 * pi * turns * diameter_m / cord_m
    if bundles == 2 and wanted <= 2.0:
        return _lay_at(diameter_m, bundles, atan(wanted / 2.0), 0.5)
    return _solved(diameter_m, bundles, lambda t, s, ratio: sqrt(t / s) / ratio - wanted)


def bundle_of_laid(over_m: float, bundles: int, turns: float, cord_m: float) -> float:
    """Return the bundle diameter of a laid cord that measures so much over everything [m].

    Parameters
    ----------
    over_m : float, > 0
        Diameter of the cord. [m]
    bundles : int
        2, 3 or 4.
    turns : float, >= 0
        Turns of lay; more than the cord can hold count as the most it can. [turn]
    cord_m : float, > 0
        Over this length of finished cord. [m]

    Raises
    ------
    DomainError
        ``number``, ``min``, ``max`` or ``choice``.

    Notes
    -----
    Source: `lay_of_cord_turns`: the cord's diameter is ``bundle x (2 x radius_ratio + 1)``, and the ratio depends on
    the lay, which depends on the bundle.

    Examples
    --------
    >>> bundle_of_laid(0.004, 2, 50.0, 1.0)
    0.002
    """
    require_length("over_m", over_m)
    require_length("cord_m", cord_m)
    require("turns", turns, low=0.0)

    def thinner(bundle_m: float) -> float:
        most = jam(bundles).cord_turns_times_diameter * cord_m / bundle_m
        lay_rad = lay_of_cord_turns(bundle_m, bundles, min(turns, most), cord_m).lay_rad
        return over_m / (2.0 * radius_ratio(bundles, lay_rad) + 1.0)

    return fixed_point(thinner, over_m / (2.0 * radius_ratio(bundles, 0.0) + 1.0), within=_SAME * over_m)


def _solved(diameter_m: float, bundles: int, over: Callable[[float, float, float], float]) -> Lay:
    """Find the lay by the angle between the ends of its closest approach, in which all is closed form."""

    def at(root: float) -> float:
        t = root * root
        return over(t, sine_left(bundles, t), ratio_at(bundles, t))

    furthest = sqrt(2.0 * pi * jam(bundles).turns_times_diameter)
    root = furthest if at(furthest) <= _LAST_DIGITS else find_root(at, _NEAREST[bundles], furthest)
    t = root * root
    return _lay_at(diameter_m, bundles, atan(sqrt(t / sine_left(bundles, t))), ratio_at(bundles, t))


_SAME = 1e-12
"""A bundle's diameter is found within this share of the cord's."""
_NEAREST = {2: 1e-6, 3: 0.0, 4: 0.0}
"""Where the search begins: for two bundles just off the axis, on which the angle says nothing."""
_LAST_DIGITS = 1e-15
"""Turns grow no more at the jam: what is asked for within these last digits of its turns lies at the jam itself."""


def middle_lay(loosest_rad: float, tightest_rad: float) -> float:
    """Return the lay angle half-way in take-up, so that turns can lengthen a body as much as shorten it. [rad].

    Parameters
    ----------
    loosest_rad, tightest_rad : float, >= 0
        Ends of the window. [rad]

    Raises
    ------
    DomainError
        ``min`` or ``number``.

    Notes
    -----
    Source: cord / bundle = cos(lay) (``derived:unroll``). Leaves out the bundles' own retraction, which shifts
    the middle by less than a tenth of the window.

    Examples
    --------
    >>> from math import cos, radians
    >>> round(cos(middle_lay(radians(60), radians(90))), 12)
    0.25
    """
    require("loosest_rad", loosest_rad, low=0.0)
    require("tightest_rad", tightest_rad, low=0.0)
    return acos((cos(loosest_rad) + cos(tightest_rad)) / 2.0)
