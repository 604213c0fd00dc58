"""Strands gathered into a round bundle."""

from __future__ import annotations

from math import pi, sqrt

from calc.data import packing_ratios
from calc.errors import DomainError, Problem, require

LOOSE_PACKING = 0.80
"""Share of the envelope that many strands fill: the packing tables run from 0.78 to 0.82 above 30 strands."""


def bundle_diameter(linear_density_kg_m: float, density_kg_m3: float, packing: float) -> float:
    """Return the diameter of a round bundle.

    Parameters
    ----------
    linear_density_kg_m : float, > 0
        Of the whole bundle. [kg/m]
    density_kg_m3 : float, > 0
        Of the fibre. [kg/m^3]
    packing : float, > 0 and <= 1
        Share of the cross-section that is fibre. [-]

    Notes
    -----
    Source: own derivation, area = linear density / (density x packing) (``derived:packing``). Leaves out
    flattening under load.

    Examples
    --------
    >>> round(1000 * bundle_diameter(111.1e-6, 1380, 0.75), 4)
    0.3697
    """
    require("linear_density_kg_m", linear_density_kg_m, low=0.0, open_=True)
    require("density_kg_m3", density_kg_m3, low=0.0, open_=True)
    require("packing", packing, low=0.0, open_=True)
    require("packing", packing, high=1.0)
    return sqrt(4.0 * linear_density_kg_m / (pi * density_kg_m3 * packing))


def envelope_ratio(strands: int) -> float:
    """Return the smallest round envelope of equal round strands, in strand diameters.

    Parameters
    ----------
    strands : int, >= 1

    Notes
    -----
    Source: circle packing in a circle, 1 to 20 (``graham1998``, table in ``calc/data/packing.toml``); above
    that the envelope is taken to be filled to `LOOSE_PACKING`.

    Examples
    --------
    >>> envelope_ratio(7), envelope_ratio(2)
    (3.0, 2.0)
    """
    if strands < 1:
        raise DomainError(Problem(field="strands", code="min", limit=1))
    table = packing_ratios()
    return table[strands] if strands in table else sqrt(strands / LOOSE_PACKING)
