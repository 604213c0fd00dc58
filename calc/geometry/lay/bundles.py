"""Strands gathered into a round bundle: dry, waxed, pressed."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, sqrt

from calc.data import packing_ratios
from calc.errors import DomainError, Problem, require
from calc.geometry.bounds import require_length
from calc.numerics import Spread

CLOSEST_PACKING = pi / sqrt(12.0)
"""Share that equal circles fill at the very most, in a hexagonal pattern without end (``derived:hexagonal``)."""

LOOSE_PACKING = 0.80
"""Share of the envelope that many strands fill: the packing tables run from 0.78 to 0.82 above 30 strands."""


def _require_fibre(linear_density_kg_m: float, density_kg_m3: float) -> None:
    require("linear_density_kg_m", linear_density_kg_m, low=0.0, high=1e6, open_=True)
    require("density_kg_m3", density_kg_m3, low=1.0, high=1e5)


def bundle_diameter(linear_density_kg_m: float, density_kg_m3: float, packing: float) -> float:
    """Return the diameter of a round bundle.

    Parameters
    ----------
    linear_density_kg_m : float, > 0
        Of the whole bundle. [kg/m]
    density_kg_m3 : float, >= 1
        Of the fibre. [kg/m^3]
    packing : float, >= 0.01 and <= 1
        Share of the cross-section that is fibre. [-]

    Returns
    -------
    float
        [m]

    Raises
    ------
    DomainError
        ``number``, ``min`` or ``max``.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> round(1000 * bundle_diameter(111.1e-6, 1380, 0.75), 4)
    0.3697
    """
    _require_fibre(linear_density_kg_m, density_kg_m3)
    require("packing", packing, low=0.01, high=1.0)
    return sqrt(4.0 * linear_density_kg_m / (pi * density_kg_m3 * packing))


def waxed_diameter(
    linear_density_kg_m: float, density_kg_m3: float, packing: float, wax_share: float, wax_density_kg_m3: float
) -> float:
    """Return the diameter of a bundle with wax rubbed in: wax fills the gaps first and only then adds girth.

    Parameters
    ----------
    linear_density_kg_m : float
        Of the dry bundle. [kg/m]
    density_kg_m3 : float
        Of its fibre. [kg/m^3]
    packing : float
        Share of its section that is fibre. [-]
    wax_share : float, >= 0 and <= 10
        Mass of wax / mass of fibre. [-]
    wax_density_kg_m3 : float, >= 1
        Of the wax. [kg/m^3]

    Returns
    -------
    float
        [m]

    Raises
    ------
    DomainError
        ``number``, ``min`` or ``max``.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    A quarter of the dry bundle is gaps; 10 % of wax goes into them, 60 % does not:

    >>> dry = bundle_diameter(1e-3, 1380, 0.75)
    >>> waxed_diameter(1e-3, 1380, 0.75, 0.1, 960) == dry, waxed_diameter(1e-3, 1380, 0.75, 0.6, 960) > dry
    (True, True)
    """
    dry_m = bundle_diameter(linear_density_kg_m, density_kg_m3, packing)
    require("wax_share", wax_share, low=0.0, high=10.0)
    require("wax_density_kg_m3", wax_density_kg_m3, low=1.0, high=1e5)
    filled = 1.0 / (1.0 + wax_share * density_kg_m3 / wax_density_kg_m3)
    return dry_m * sqrt(max(1.0, packing / filled))


@dataclass(frozen=True, slots=True)
class Pressed:
    """A bundle pressed out of round.

    Attributes
    ----------
    thickness_m, width_m : Spread
        Across the press; along it. [m]
    """

    thickness_m: Spread
    width_m: Spread


def pressed(diameter_m: float, squeeze: Spread) -> Pressed:
    """Return a round bundle flattened under load, its cross-section kept.

    Parameters
    ----------
    diameter_m : float, > 0
        Unloaded. [m]
    squeeze : Spread, > 0 and <= 1
        Thickness under load / diameter. [-]

    Returns
    -------
    Pressed
        An ellipse of the same area; laid bundles stand as far apart as their thickness.

    Raises
    ------
    DomainError
        ``number``, ``min`` or ``max``.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> pressed(2.0, Spread(0.8, 1.0, 1.0)).width_m
    Spread(low=2.0, value=2.0, high=2.5)
    """
    require_length("diameter_m", diameter_m)
    require("squeeze", squeeze.low, low=0.01)
    require("squeeze", squeeze.high, high=1.0)
    wide = Spread(diameter_m / squeeze.high, diameter_m / squeeze.value, diameter_m / squeeze.low)
    return Pressed(squeeze.scaled(diameter_m), wide)


def envelope_ratio(strands: int) -> float:
    """Return the smallest round envelope of equal round strands, in strand diameters.

    Parameters
    ----------
    strands : int, >= 1

    Returns
    -------
    float
        [-]

    Raises
    ------
    DomainError
        ``min`` below one strand.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> envelope_ratio(2), envelope_ratio(7), round(envelope_ratio(12), 4)
    (2.0, 3.0, 4.0296)
    """
    if strands < 1:
        raise DomainError(Problem(field="strands", code="min", limit=1))
    return packing_ratios().get(strands) or sqrt(strands / LOOSE_PACKING)


def rolled_diameter(strands: int, strand_diameter_m: float) -> Spread:
    """Return the diameter of strands rolled into one round bundle.

    Parameters
    ----------
    strands : int, >= 1
    strand_diameter_m : float, > 0
        Of one strand. [m]

    Returns
    -------
    Spread
        Low: strands pressed into one solid round; high: strands that keep their own round in the smallest
        envelope; typical: the same fibre area at the closest packing of round strands. [m]

    Raises
    ------
    DomainError
        As `envelope_ratio`; ``number``, ``min`` or ``max`` for the diameter.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> rolled_diameter(4, 1.0).low, round(rolled_diameter(4, 1.0).high, 4)
    (2.0, 2.4142)
    """
    require_length("strand_diameter_m", strand_diameter_m)
    widest = envelope_ratio(strands)
    solid = sqrt(strands)
    between = min(widest, solid / sqrt(CLOSEST_PACKING))
    return Spread(solid, between, widest).scaled(strand_diameter_m)
