"""Fibres under load: how far they stretch, how stiff they are, and the heat they bear."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, log1p
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import require
from calc.geometry.lay import retraction
from calc.numerics import Spread, combine

if TYPE_CHECKING:
    from calc.data import Fibre

_NEARLY_STRAIGHT = 1e-4


@dataclass(frozen=True, slots=True)
class StressStrain:
    """Load against stretch of one fibre, up to its breaking point and on along the last slope.

    Parameters
    ----------
    stiffness, strength : float, > 0
        At small stretch; at break. [N/(kg/m)]
    break_strain : float, > 0
        [-]
    knee : float, >= 0 and below `strength`
        Stress at which the first stiffness ends; 0 where the curve bends evenly. [N/(kg/m)]

    Raises
    ------
    DomainError
        ``min`` and ``max`` for figures out of these bounds.

    Notes
    -----
    Source: own form (``derived:curve``). With a knee, two straight lines: the first stiffness up to the knee, then
    straight to the breaking point. Without, ``stress = stiffness x strain / (1 + bend x strain)``, the one bend
    that ends in the breaking point. Against the work factors of ``morton2008`` (Table 13.1) it is right for flax,
    hemp, jute and silk, and high for cotton (0.52 for 0.49) and ramie (0.49 for 0.47), whose curves turn upwards.
    Leaves out the speed of loading, and that a fibre stretched before is stiffer.

    Examples
    --------
    >>> yarn = StressStrain(10e6, 0.8e6, 0.13, 0.1e6)
    >>> round(yarn.strain(0.1e6), 4), round(yarn.strain(0.8e6), 4)
    (0.01, 0.13)
    """

    stiffness: float
    strength: float
    break_strain: float
    knee: float = 0.0

    def __post_init__(self) -> None:
        for name in ("stiffness", "strength", "break_strain"):
            require(name, getattr(self, name), low=0.0, open_=True)
        top = min(self.strength, self.stiffness * self.break_strain)
        require("knee", self.knee, low=0.0)
        require("knee", self.knee, high=top)

    @property
    def _bend(self) -> float:
        return (self.stiffness * self.break_strain / self.strength - 1.0) / self.break_strain

    @property
    def _beyond_knee(self) -> float:
        """Strain per stress between knee and break."""
        return (self.break_strain - self.knee / self.stiffness) / (self.strength - self.knee)

    def strain(self, stress: float) -> float:
        """Return the stretch at a pull [N/(kg/m)], from 0 up."""
        require("stress", stress, low=0.0)
        if self.knee:
            if stress <= self.knee:
                return stress / self.stiffness
            return self.knee / self.stiffness + (stress - self.knee) * self._beyond_knee
        if stress <= self.strength:
            return stress / (self.stiffness - self._bend * stress)
        softest = self.stiffness * (self.break_strain / self.strength) ** 2
        return self.break_strain + (stress - self.strength) * softest

    def stress(self, strain: float) -> float:
        """Return the pull at a stretch from 0 to the breaking point [N/(kg/m)]."""
        require("strain", strain, low=0.0, high=self.break_strain)
        if not self.knee:
            return self.stiffness * strain / (1.0 + self._bend * strain)
        at_knee = self.knee / self.stiffness
        if strain <= at_knee:
            return self.stiffness * strain
        return self.knee + (strain - at_knee) / self._beyond_knee

    @property
    def work(self) -> float:
        """Work to break, per mass [J/kg]."""
        if self.knee:
            at_knee = self.knee / self.stiffness
            return (self.knee * self.break_strain + self.strength * (self.break_strain - at_knee)) / 2.0
        bent = self._bend * self.break_strain
        if abs(bent) < _NEARLY_STRAIGHT:
            return self.stiffness * self.break_strain**2 * (0.5 - bent / 3.0)
        return self.stiffness * (bent - log1p(bent)) / self._bend**2

    @property
    def work_factor(self) -> float:
        """Work to break / strength x stretch at break: 1/2 for a straight line [-]."""
        return self.work / (self.strength * self.break_strain)


def stress_pa(n_per_kg_m: float, density_kg_m3: float) -> float:
    """Return a pull for the weight as a pull for the area [Pa].

    Parameters
    ----------
    n_per_kg_m : float
        Strength or stiffness for the weight; 1e6 is 1 N/tex. [N/(kg/m)]
    density_kg_m3 : float, > 0
        [kg/m^3]

    Raises
    ------
    DomainError
        ``min`` for a density that is not above 0, ``number`` for figures not finite.

    Notes
    -----
    Source: definitions; force / area = force / (mass / length) x mass / volume, so GPa = N/tex x g/cm^3.

    Examples
    --------
    >>> stress_pa(1e6, 1000.0)
    1000000000.0
    """
    require("n_per_kg_m", n_per_kg_m)
    require("density_kg_m3", density_kg_m3, low=0.0, open_=True)
    return n_per_kg_m * density_kg_m3


def curve(fibre: Fibre) -> StressStrain:
    """Return a fibre's typical load-stretch curve.

    Parameters
    ----------
    fibre : Fibre
        From the fibre table.

    Notes
    -----
    Source: typical stiffness, strength, stretch at break and knee of the fibre table (``fibre-table``), joined as
    `StressStrain` has it.

    Examples
    --------
    >>> from calc.data import fibre
    >>> round(100 * curve(fibre("polyester")).strain(0.3e6), 1)
    4.4
    """
    knee = fibre.knee_n_per_kg_m
    return StressStrain(
        fibre.modulus_n_per_kg_m.value,
        fibre.tenacity_n_per_kg_m.value,
        fibre.break_strain.value,
        0.0 if knee is None else knee.value,
    )


def fibre_strain(fibre: Fibre, stress: float) -> Spread:
    """Return the stretch of a straight fibre at a pull for its weight.

    Parameters
    ----------
    fibre : Fibre
        From the fibre table.
    stress : float, >= 0
        Pull / linear density. [N/(kg/m)]

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> from calc.data import fibre
    >>> round(100 * fibre_strain(fibre("hmpe"), 0.3e6).value, 2)
    0.25
    """
    causes = {
        "stiffness": fibre.modulus_n_per_kg_m,
        "strength": fibre.tenacity_n_per_kg_m,
        "break_strain": fibre.break_strain,
        "knee": fibre.knee_n_per_kg_m or Spread.exactly(0.0),
    }
    return combine(lambda at: {"strain": StressStrain(**at).strain(stress)}, causes)["strain"]


def twist_efficiency(surface_rad: float) -> float:
    """Return what twisting a bundle leaves of its strength and stiffness.

    Parameters
    ----------
    surface_rad : float, >= 0 and below a right angle
        Angle of the surface fibres to the bundle's axis. [rad]

    Returns
    -------
    float
        Force along the bundle at a stretch / force of the same fibres side by side at that stretch. [-]

    Raises
    ------
    DomainError
        ``min`` for a negative angle, ``number`` for one that is not finite.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> from math import radians
    >>> round(twist_efficiency(radians(20)), 4)
    0.9114
    """
    require("surface_rad", surface_rad, low=0.0)
    return cos(surface_rad) ** 2 / (1.0 - retraction(surface_rad))


def string_stiffness(fibre: Fibre, linear_density_kg_m: float, lay_rad: float = 0.0) -> Spread:
    """Return the pull for a stretch of one at small stretch, EA [N].

    Parameters
    ----------
    fibre : Fibre
        From the fibre table.
    linear_density_kg_m : float, > 0
        Of all strands together, untwisted. [kg/m]
    lay_rad : float, >= 0
        Lay of a balanced cord, whose bundles keep a surface angle like the lay's; 0: straight strands. [rad]

    Raises
    ------
    DomainError
        ``min`` for strands of no weight or a negative lay, ``number`` for figures not finite.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> from calc.data import fibre
    >>> round(string_stiffness(fibre("polyester"), 0.002).value)
    20000
    """
    require("linear_density_kg_m", linear_density_kg_m, low=0.0, open_=True)
    require("lay_rad", lay_rad)
    softened = twist_efficiency(lay_rad) * cos(lay_rad) ** 3
    return fibre.modulus_n_per_kg_m.scaled(linear_density_kg_m * softened)


@dataclass(frozen=True, slots=True)
class HeatLimit:
    """Where a fibre is hurt by heat.

    Attributes
    ----------
    softening_k : Spread
        Where it softens, scorches or creeps away. [K]
    melting_k : Spread or None
        Where it melts; None where it scorches or decomposes first. [K]
    over_wax_k : Spread
        How far its softening lies above the melting of beeswax. [K]
    rope_rule_k : float
        Hottest place for slings of fibre rope, whatever the fibre. [K]
    """

    softening_k: Spread
    melting_k: Spread | None
    over_wax_k: Spread
    rope_rule_k: float


def heat_limit(fibre: Fibre) -> HeatLimit:
    """Return where a fibre is hurt by heat, and how far above beeswax that is.

    Parameters
    ----------
    fibre : Fibre
        From the fibre table.

    Notes
    -----
    Source: fibre table (``fibre-table``) the melting of beeswax (``krell1996``), a rule for slings
    (``osha1926``). Leaves out how long it is hot.

    Examples
    --------
    >>> from calc.data import fibre
    >>> round(heat_limit(fibre("hmpe")).over_wax_k.low)
    4
    """
    soft, wax = fibre.softening_k, practice("wax_melting").spread
    over = Spread(soft.low - wax.high, soft.value - wax.value, soft.high - wax.low)
    return HeatLimit(soft, fibre.melting_k, over, practice("rope_heat").spread.value)
