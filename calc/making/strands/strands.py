"""Strands as they are bought: string yarn that rolls into one, or laid and braided cord that keeps its own round."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, pi, sqrt
from typing import TYPE_CHECKING

from calc.data import peak_rows, practice
from calc.errors import DomainError, Problem, require
from calc.geometry.lay import lay, rolled_diameter
from calc.making.strands.strength import Advice, judged
from calc.mechanics.fibre import assembly_efficiency, grains_per_pound, rated_strength
from calc.mechanics.shot import peak_force_ratio
from calc.numerics import Spread, combine

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.data import Fibre
    from calc.mechanics.fibre import Rating

MOST_STRANDS = 4000
"""More than hands can lay: an answer beyond it is no answer."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Strand:
    """One strand as it is bought.

    Parameters
    ----------
    fibre : Fibre
        From `calc.data`.
    laid : bool
        True for laid or braided cord, False for yarn or thread.
    yarn_kg_m : float or None, > 0
        Linear density; None: not known. [kg/m]
    thickness_m : float or None, > 0
        Measured across; None: not known. Of yarn it is used only where the weight is not known. [m]
    rated_n : float or None, > 0
        The load on its label. [N]
    rating : str
        What that load is said to be.
    tested_n : Spread or None
        What one holds, where that was found out otherwise. [N]

    Raises
    ------
    DomainError
        ``model`` with reason ``no_size`` where neither size is known; ``pair`` with reason ``too_thin`` where the
        thickness has no room for the weight; ``min`` and ``number`` for figures out of bounds.
    """

    fibre: Fibre
    laid: bool
    yarn_kg_m: float | None
    thickness_m: float | None = None
    rated_n: float | None = None
    rating: Rating = "unknown"
    tested_n: Spread | None = None

    def __post_init__(self) -> None:
        for name in ("yarn_kg_m", "thickness_m", "rated_n"):
            value = getattr(self, name)
            if value is not None:
                require(name, value, low=0.0, open_=True)
        if self.yarn_kg_m is None and self.thickness_m is None:
            raise DomainError(Problem(field="yarn_kg_m", code="model", other="thickness_m", reason="no_size"))
        if self.yarn_kg_m is not None and self.thickness_m is not None:
            solid = sqrt(4.0 * self.yarn_kg_m / (pi * self.fibre.density_kg_m3.value))
            if self.thickness_m < solid:
                raise DomainError(
                    Problem(field="thickness_m", code="pair", other="yarn_kg_m", limit=solid, reason="too_thin")
                )

    def causes(self) -> dict[str, Spread]:
        """Return what is uncertain about it."""
        causes = {"fill": practice("cord_fill").spread if self.laid else self.fibre.packing}
        if self.tested_n is not None:
            return causes | {"known": self.tested_n}
        if self.rated_n is not None:
            return causes | {"known": rated_strength(self.rated_n, self.rating)}
        causes["tenacity"] = self.fibre.thread_n_per_kg_m
        if self.laid:
            causes["keeps"] = practice("cord_keeps").spread
        return causes

    def at(self, at: Mapping[str, float]) -> dict[str, float]:
        """Return weight, thickness and strength at one set of causes.

        Notes
        -----
        Source: area = linear density / (density x share that is fibre) (``derived:packing``); strength is the
        one tested, else the one on the label (`rated_strength`), else tenacity x linear density, of which cord keeps
        a share (``cord_keeps`` in the constants).
        """
        solid = self.fibre.density_kg_m3.value * at["fill"] * pi / 4.0
        linear, thickness = self.yarn_kg_m, self.thickness_m
        if linear is None:
            assert thickness is not None
            linear = solid * thickness**2
        if thickness is None or not self.laid:
            thickness = sqrt(linear / solid)
        strength = at["known"] if "known" in at else at["tenacity"] * linear * at.get("keeps", 1.0)
        return {"linear": linear, "thickness": thickness, "strength": strength}

    def found(self) -> dict[str, Spread]:
        """Return weight ``linear`` [kg/m], ``thickness`` [m] and ``strength`` [N], each with its spread."""
        return combine(self.at, self.causes())


@dataclass(frozen=True, slots=True)
class Thick:
    """One bundle, the plied body, and all strands rolled together [m]."""

    bundle_m: Spread
    cord_m: Spread
    together_m: Spread


def thick(strand: Strand, strands: int, bundles: int, lay_rad: float) -> Thick:
    """Return how thick a number of strands becomes.

    Parameters
    ----------
    strand : Strand
    strands, bundles : int
        In the whole string, at least one in each bundle; 2 or 3.
    lay_rad : float
        [rad]

    Raises
    ------
    DomainError
        As `helical_lay`.

    Notes
    -----
    Source: yarn rolls into one round (``derived:packing``), cord keeps its own rounds in an envelope
    (``graham1998``); bundles as `helical_lay`.
    """
    causes = _rolled(strand, strands, bundles)
    ratio = lay(1.0, bundles, lay_rad).cord_diameter_m

    def measured(at: Mapping[str, float]) -> dict[str, float]:
        one = strand.at(at)["thickness"]
        bundle = one * at["roll"]
        return {"bundle": bundle, "cord": bundle * ratio, "together": one * at["roll_all"]}

    out = combine(measured, causes)
    return Thick(out["bundle"], out["cord"], out["together"])


def _rolled(strand: Strand, strands: int, bundles: int) -> dict[str, Spread]:
    """Return what is uncertain about a strand and about bundles of it, in strand thicknesses."""
    counts = {"roll": strands // bundles, "roll_all": strands}
    if strand.laid:
        return strand.causes() | {name: rolled_diameter(each, 1.0) for name, each in counts.items()}
    return strand.causes() | {name: Spread.exactly(sqrt(each)) for name, each in counts.items()}


def peak_ratio(arrow_kg: float | None, draw_weight_n: float) -> Spread:
    """Return the hardest pull of a shot / draw weight [-].

    Parameters
    ----------
    arrow_kg : float or None, > 0
        None: any arrow, typical at a usual one. [kg]
    draw_weight_n : float, > 0
        [N]

    Notes
    -----
    Source: `peak_force_ratio` over limbs of every shape; an arrow beyond its table counts as the table's last.

    Examples
    --------
    >>> peak_ratio(0.0259195, 177.928865).value < peak_ratio(0.0142558, 177.928865).value
    True
    """
    if arrow_kg is None:
        return peak_force_ratio()
    told = {row.grains_per_pound for row in peak_rows()}
    return peak_force_ratio(grains=min(max(told), max(min(told), grains_per_pound(arrow_kg, draw_weight_n))))


def count(strand: Strand, bundles: int, lay_rad: float, ratio: Spread, draw_weight_n: float) -> Advice:
    """Return the fewest strands that are strong enough and thick enough.

    Parameters
    ----------
    strand, bundles, lay_rad
        As for `thick`.
    ratio : Spread
        From `peak_ratio`. [-]
    draw_weight_n : float, > 0
        [N]

    Raises
    ------
    DomainError
        ``model`` with reason ``too_many`` where more than `MOST_STRANDS` would be needed.

    Notes
    -----
    Source: as `advise`, for any strand: the typical strength against the typical hardest pull times the
    working margin, and a body no thinner than fingers and nocks are made for.
    """
    one = judged(strand.found()["strength"], 1, assembly_efficiency(lay_rad), ratio, draw_weight_n)
    for_strength = bundles * ceil(practice("working_margin").spread.value / one.safety.value / bundles)
    least_m = practice("cord_thinnest").spread.value
    most = MOST_STRANDS // bundles
    widest = lay(strand.found()["thickness"].value, bundles, lay_rad).cord_diameter_m

    def thick_enough(each: int) -> bool:
        return widest * _rolled(strand, each * bundles, bundles)["roll"].value >= least_m

    if for_strength > MOST_STRANDS or not thick_enough(most):
        raise DomainError(Problem(field="yarn_kg_m", code="model", other="fibre", reason="too_many"))
    low, high = 0, most
    while high - low > 1:
        middle = (low + high) // 2
        if thick_enough(middle):
            high = middle
        else:
            low = middle
    return Advice(max(for_strength, bundles * high), for_strength, bundles * high)
