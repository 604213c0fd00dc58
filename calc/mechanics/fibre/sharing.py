"""Strands of uneven length and strength: how much of their sum holds when the first one breaks."""

from __future__ import annotations

from functools import cache, lru_cache
from math import erfc, hypot, sqrt, tan
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import require
from calc.numerics import combine, find_root

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.data import Fibre
    from calc.mechanics.fibre.fibres import StressStrain
    from calc.numerics import Spread

MOST_STRANDS = 10_000
_FAR = 9.0
_STEPS = 360
_RINGS = 16
_STEEPEST_RAD = 1.2


def expected_worst(count: int) -> float:
    """Return how far the worst of many normal draws lies from their mean, in standard deviations [-].

    Parameters
    ----------
    count : int, >= 1 and up to `MOST_STRANDS`
        Of the draws.

    Raises
    ------
    DomainError
        ``min`` or ``max`` for a count out of bounds.

    Notes
    -----
    Source: mean of the largest, ``9 - integral of Phi(x)^count from -9 to 9``, by equal steps; within 1e-9
    (``derived:sharing``).

    Examples
    --------
    >>> round(expected_worst(2), 6)
    0.56419
    """
    require("count", count, low=1.0, high=MOST_STRANDS)
    step = 2.0 * _FAR / _STEPS
    below = sum(phi**count for phi in _normal())
    return _FAR - step * (below + 0.5)


@cache
def _normal() -> tuple[float, ...]:
    """Return the normal distribution at the inner steps from -9 to 9; the ends are 0 and 1."""
    return tuple(0.5 * erfc(_FAR * (1.0 - 2.0 * k / _STEPS) / sqrt(2.0)) for k in range(1, _STEPS))


def sharing_efficiency(fibre: Fibre, strands: int) -> Spread:
    """Return what uneven strands leave of their sum.

    Parameters
    ----------
    fibre : Fibre
        A fibre that stretches far before it breaks evens out unequal lengths; one that does not, cannot.
    strands : int, >= 1 and up to `MOST_STRANDS`
        In the whole string.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> from calc.data import fibre
    >>> round(sharing_efficiency(fibre("linen"), 18).value, 2)
    0.87
    """
    worst = expected_worst(strands)
    causes = {
        "length": practice("length_scatter").spread,
        "strength": practice("strand_scatter").spread,
        "break_strain": fibre.break_strain,
    }

    def kept(at: Mapping[str, float]) -> dict[str, float]:
        return {"kept": 1.0 - worst * hypot(at["length"] / at["break_strain"], at["strength"])}

    return combine(kept, causes)["kept"]


def one_bundle_efficiency(one: StressStrain, surface_rad: float) -> float:
    """Return what is left of the strength of strands that are all alike long and twisted together as one bundle [-].

    Parameters
    ----------
    one : StressStrain
        Of the fibre.
    surface_rad : float, >= 0 and up to 1.2
        Angle of the outermost strands to the axis. [rad]

    Raises
    ------
    DomainError
        ``min`` or ``max`` for an angle out of bounds, ``number`` for one that is not finite.

    Notes
    -----
    Source: own derivation (``derived:one-bundle``): a strand at a share ``q`` of the radius runs
    ``sqrt(1 + (q tan a)^2)`` times the length of the axis, so the outermost are stretched most and break first; what
    the others bear at that moment is read off the fibre's curve, nothing where they are slack, and summed along the
    axis over the section. Leaves out strands that wander from outside to inside, which would share better, and
    friction.

    Examples
    --------
    >>> from calc.data import fibre
    >>> from calc.mechanics.fibre.fibres import curve
    >>> [round(one_bundle_efficiency(curve(fibre(name)), 0.28), 2) for name in ("polyester", "hmpe")]
    [0.82, 0.48]
    """
    require("surface_rad", surface_rad, low=0.0, high=_STEEPEST_RAD)
    steep = tan(surface_rad) ** 2
    axis = (1.0 + one.break_strain) / sqrt(1.0 + steep)
    borne = 0.0
    for k in range(_RINGS):  # rings of one area each
        longer = sqrt(1.0 + steep * (k + 0.5) / _RINGS)
        strain = min(max(0.0, axis * longer - 1.0), one.break_strain)
        borne += one.stress(strain) / longer
    return borne / _RINGS / one.strength


@lru_cache(maxsize=256)
def one_bundle_angle(one: StressStrain, kept: float) -> float:
    """Return the surface angle at which twisting strands together as one leaves a share of their strength [rad].

    Parameters
    ----------
    one : StressStrain
        Of the fibre.
    kept : float, 0.05 to 0.999999
        `one_bundle_efficiency` wanted. [-]

    Raises
    ------
    DomainError
        ``min`` or ``max`` for a share out of bounds, ``number`` for one that is not finite.

    Notes
    -----
    Source: `one_bundle_efficiency`, the other way about.
    """
    require("kept", kept, low=0.05, high=1.0 - 1e-6)
    return find_root(lambda at: one_bundle_efficiency(one, at) - kept, 0.0, _STEEPEST_RAD, within=1e-6)
