"""Fibres under load: strength of a strand, of a made string, stiffness, stretch and heat."""

from __future__ import annotations

from dataclasses import dataclass
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


def breaking_force(fibre: Fibre, linear_density_kg_m: float, efficiency: Spread) -> Spread:
    """Return what a made string holds [N].

    Parameters
    ----------
    fibre : Fibre
        From `calc.data`.
    linear_density_kg_m : float, > 0
        Of all strands together. [kg/m]
    efficiency : Spread
        Made string / sum of strands, from `assembly_efficiency`. [-]

    Notes
    -----
    Source: sum of strands x assembly efficiency (``derived:strength``), spreads in quadrature. Leaves out wear,
    age and knots.

    Examples
    --------
    >>> from calc.data import fibre
    >>> round(breaking_force(fibre("polyester"), 0.002, Spread.exactly(0.5)).value)
    800
    """
    causes = {"sum": strand_strength(fibre, linear_density_kg_m), "efficiency": efficiency}
    return combine(lambda at: {"product": at["sum"] * at["efficiency"]}, causes)["product"]


def string_stiffness(fibre: Fibre, linear_density_kg_m: float) -> Spread:
    """Return the pull for a strain of one at small strain, EA [N].

    Parameters
    ----------
    fibre : Fibre
        From `calc.data`.
    linear_density_kg_m : float, > 0
        Of all strands together. [kg/m]

    Notes
    -----
    Source: modulus x linear density, with the fibre table's spread. Leaves out the lay, which softens a string.

    Examples
    --------
    >>> from calc.data import fibre
    >>> round(string_stiffness(fibre("polyester"), 0.002).value)
    20000
    """
    require("linear_density_kg_m", linear_density_kg_m, low=0.0, open_=True)
    return fibre.modulus_n_per_kg_m.scaled(linear_density_kg_m)


@dataclass(frozen=True, slots=True)
class HeatLimit:
    """Where a fibre is hurt by heat.

    Attributes
    ----------
    softening_k : Spread
        Where it softens, scorches or creeps away. [K]
    melting_k : Spread or None
        Where it melts; None where it scorches or decomposes first. [K]
    """

    softening_k: Spread
    melting_k: Spread | None


def heat_limit(fibre: Fibre) -> HeatLimit:
    """Return where a fibre is hurt by heat, from the fibre table."""
    return HeatLimit(fibre.softening_k, fibre.melting_k)


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
