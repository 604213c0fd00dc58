"""A loop round a limb tip: two straight legs from the throat, and the cord laid round the far side."""

from __future__ import annotations

from dataclasses import dataclass
from math import asin, atan2, hypot, pi, sqrt
from typing import TYPE_CHECKING

from calc.errors import DomainError, Problem, require
from calc.geometry.sections import perimeter
from calc.roots import crossing

if TYPE_CHECKING:
    from calc.geometry.sections import Section

_FAR = 1e4
"""Throats further off than this many tip perimeters count as infinitely far."""


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


def nearest_throat(section: Section, cord_m: float) -> float:
    """Return how close the throat can come to the middle of the tip. [m].

    The two centre lines stand one cord diameter apart at the throat; a round tip reaches a little between
    them, a flat one does not.
    """
    require("cord_m", cord_m, low=0.0, open_=True)
    half_m = cord_m / 2.0
    rise_m = section.corner_m + half_m
    out_m = half_m - (section.width_m / 2.0 - section.corner_m)
    within = rise_m**2 - max(0.0, out_m) ** 2 if abs(out_m) < rise_m else 0.0
    return section.depth_m / 2.0 - section.corner_m + sqrt(within)


def loop_of_throat(section: Section, cord_m: float, throat_m: float) -> Loop:
    """Return the loop that closes at a known distance.

    Parameters
    ----------
    section : Section
        Limb tip, its width across the string.
    cord_m : float, > 0
        Cord diameter. [m]
    throat_m : float
        Middle of the tip to the throat, at least `nearest_throat`. [m]

    Raises
    ------
    DomainError
        ``min`` for a throat that is too close; ``number`` for what is not finite.

    Notes
    -----
    Source: own derivation (``derived:loop``): the centre line runs half a cord off the tip; each leg is the
    tangent from its place at the throat to the near corner. Leaves out flattening and the slant of a nock.

    Examples
    --------
    A thread round a pin of radius 1, throat at distance 2: half-angle 30 degrees.

    >>> from calc.geometry.sections import RoundTip
    >>> made = loop_of_throat(RoundTip(2.0), 1e-12, 2.0)
    >>> round(made.length_m - (4 * pi / 3 + 2 * sqrt(3)), 9), round(made.opening_rad - pi / 3, 9)
    (0.0, 0.0)
    """
    nearest_m = nearest_throat(section, cord_m)
    require("throat_m", throat_m)
    if throat_m < nearest_m * (1.0 - 1e-12):
        raise DomainError(Problem(field="throat_m", code="min", limit=nearest_m))
    rise_m = section.corner_m + cord_m / 2.0
    across_m = section.width_m / 2.0 - section.corner_m - cord_m / 2.0
    along_m = throat_m - (section.depth_m / 2.0 - section.corner_m)
    away_m = hypot(across_m, along_m)
    leg_m = sqrt(max(0.0, away_m**2 - rise_m**2))
    half_rad = atan2(across_m, along_m) + asin(min(1.0, rise_m / away_m))
    side_m = section.depth_m - 2.0 * section.corner_m
    end_m = section.width_m - 2.0 * section.corner_m
    length_m = 2.0 * (leg_m + rise_m * (half_rad + pi / 2.0) + side_m) + end_m
    return Loop(length_m, throat_m, leg_m, 2.0 * half_rad)


def loop_of_length(section: Section, cord_m: float, length_m: float) -> Loop:
    """Return where a loop of known length closes.

    Parameters
    ----------
    section, cord_m
        As for `loop_of_throat`.
    length_m : float
        Centre line from throat to throat. [m]

    Raises
    ------
    DomainError
        ``min`` when it does not go round the tip, with the shortest as limit.
    """
    require("length_m", length_m, high=_FAR * perimeter(section))
    shortest = loop_of_throat(section, cord_m, nearest_throat(section, cord_m))
    if length_m < shortest.length_m * (1.0 - 1e-12):
        raise DomainError(Problem(field="length_m", code="min", limit=shortest.length_m))
    if length_m <= shortest.length_m:
        return shortest

    def over(throat_m: float) -> float:
        return loop_of_throat(section, cord_m, throat_m).length_m - length_m

    return loop_of_throat(section, cord_m, crossing(over, shortest.throat_m, shortest.throat_m + length_m))


def loop_nocked(section: Section, cord_m: float, opening_rad: float) -> Loop:
    """Return a loop that sits in its nock with a chosen angle between the legs.

    Parameters
    ----------
    section, cord_m
        As for `loop_of_throat`.
    opening_rad : float, > 0
        Wider shortens the loop, and pulls its throat harder apart. [rad]

    Raises
    ------
    DomainError
        ``max`` when the loop cannot open so wide on this tip.
    """
    require("opening_rad", opening_rad, low=0.0, open_=True)
    near_m = nearest_throat(section, cord_m)
    widest = loop_of_throat(section, cord_m, near_m).opening_rad
    if opening_rad >= widest:
        raise DomainError(Problem(field="opening_rad", code="max", limit=widest))

    def over(throat_m: float) -> float:
        return loop_of_throat(section, cord_m, throat_m).opening_rad - opening_rad

    return loop_of_throat(section, cord_m, crossing(over, near_m, near_m + _FAR * perimeter(section)))


def loop_sliding(section: Section, cord_m: float, ease: float) -> Loop:
    """Return a loop that passes over the limb with some ease.

    Parameters
    ----------
    section, cord_m
        As for `loop_of_throat`; the section where the loop must pass.
    ease : float, >= 0
        Extra length as a share of the section's perimeter. [-]
    """
    require("ease", ease, low=0.0)
    shortest = loop_of_throat(section, cord_m, nearest_throat(section, cord_m))
    return loop_of_length(section, cord_m, shortest.length_m + ease * perimeter(section))
