"""A cord that nobody can name: what a tape, a scale and a pencil say of it."""

from __future__ import annotations

from math import pi

from calc.errors import DomainError, Problem, require
from calc.geometry.bounds import require_length


def wound_diameter(width_m: float, wraps: int) -> float:
    """Return the diameter of a cord wound side by side on a rod.

    Parameters
    ----------
    width_m : float, > 0
        Over all the wraps, which touch and are not pressed. [m]
    wraps : int, >= 1

    Returns
    -------
    float
        [m]

    Raises
    ------
    DomainError
        ``number``, ``min`` or ``max`` for the width, ``min`` for the wraps.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> wound_diameter(0.030, 20)
    0.0015
    """
    require_length("width_m", width_m)
    if wraps < 1:
        raise DomainError(Problem(field="wraps", code="min", limit=1))
    return width_m / wraps


def linear_density(mass_kg: float, length_m: float) -> float:
    """Return the linear density of a weighed length.

    Parameters
    ----------
    mass_kg : float, > 0
        What the length weighs. [kg]
    length_m : float, > 0
        Straight, not stretched. [m]

    Returns
    -------
    float
        1 tex is 1e-6 of it. [kg/m]

    Raises
    ------
    DomainError
        ``number``, ``min`` or ``max``.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> linear_density(0.005, 10.0)
    0.0005
    """
    require("mass_kg", mass_kg, low=0.0, high=1e6, open_=True)
    require_length("length_m", length_m)
    return mass_kg / length_m


def bulk_density(linear_density_kg_m: float, diameter_m: float) -> float:
    """Return the density of a cord with all its gaps, as if it were a solid rod.

    Parameters
    ----------
    linear_density_kg_m : float, > 0
        [kg/m]
    diameter_m : float, > 0
        [m]

    Returns
    -------
    float
        No fibre of the cord can be lighter. [kg/m^3]

    Raises
    ------
    DomainError
        ``number``, ``min`` or ``max``.

    Notes
    -----
    Source: own derivation (``derived:packing``).

    Examples
    --------
    >>> round(bulk_density(111.1e-6, 0.0003697))
    1035
    """
    require("linear_density_kg_m", linear_density_kg_m, low=0.0, high=1e6, open_=True)
    require_length("diameter_m", diameter_m)
    return linear_density_kg_m / (pi * diameter_m * diameter_m / 4.0)


def packing_of(linear_density_kg_m: float, density_kg_m3: float, diameter_m: float) -> float:
    """Return the share of a cord that would be fibre if the fibre had a known density.

    Parameters
    ----------
    linear_density_kg_m : float, > 0
        Of the cord. [kg/m]
    density_kg_m3 : float, >= 1
        Of the fibre it might be. [kg/m^3]
    diameter_m : float, > 0
        Of the cord. [m]

    Returns
    -------
    float
        Above 1 it cannot be this fibre; above `CLOSEST_PACKING` hardly; far below the usual, hardly either. [-]

    Raises
    ------
    DomainError
        ``number``, ``min`` or ``max``.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> round(packing_of(111.1e-6, 1380, 0.0003697), 3)
    0.75
    """
    require("density_kg_m3", density_kg_m3, low=1.0, high=1e5)
    return bulk_density(linear_density_kg_m, diameter_m) / density_kg_m3
