"""Fibres under load: strength of a strand, of a made string, and stretch."""

from __future__ import annotations

from math import cos
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import require
from calc.spread import Spread, combine

if TYPE_CHECKING:
    from calc.data import Fibre


def strand_strength(fibre: Fibre, linear_density_kg_m: float) -> Spread:
    """Return what one straight strand holds [N].

    Parameters
    ----------
    fibre : Fibre
        From `calc.data`.
    linear_density_kg_m : float, > 0
        Of the strand. [kg/m]

    Notes
    -----
    Source: tenacity x linear density, with the fibre table's spread. Leaves out age, sun and wear.
    """
    require("linear_density_kg_m", linear_density_kg_m, low=0.0, open_=True)
    return fibre.tenacity_n_per_kg_m.scaled(linear_density_kg_m)


def assembly_efficiency(lay_rad: float) -> Spread:
    """Return the strength of a made string / sum of its strands.

    Parameters
    ----------
    lay_rad : float, >= 0
        Lay angle of the free body. [rad]

    Notes
    -----
    Source: cosine of the lay for the pull along the strands (``derived:unroll``) x sharing x ends
    (``calc/data/practice.toml``). Not fitted to Ford's measured 0.66 (``ford-nagler``), which lies inside the spread.

    Examples
    --------
    >>> made = assembly_efficiency(0.2)
    >>> made.low < 0.66 < made.high
    True
    """
    require("lay_rad", lay_rad, low=0.0, high=1.5)
    causes = {"sharing": practice("sharing").spread, "ends": practice("ends").spread}
    lay = cos(lay_rad)
    return combine(lambda at: {"product": lay * at["sharing"] * at["ends"]}, causes)["product"]


def elastic_stretch(fibre: Fibre, linear_density_kg_m: float, tension_n: float) -> Spread:
    """Return the strain of strands that share a pull.

    Parameters
    ----------
    fibre : Fibre
        From `calc.data`.
    linear_density_kg_m : float, > 0
        Of all strands together. [kg/m]
    tension_n : float, >= 0
        [N]

    Notes
    -----
    Source: strain = tension / (linear density x modulus), at the modulus of small strains and its spread. Leaves
    out the knee of polyester, creep, and the stretch of the lay, which is in the bedding.
    """
    require("linear_density_kg_m", linear_density_kg_m, low=0.0, open_=True)
    require("tension_n", tension_n, low=0.0)
    modulus = fibre.modulus_n_per_kg_m
    ends = [tension_n / (linear_density_kg_m * each) for each in (modulus.high, modulus.value, modulus.low)]
    return Spread(*ends)
