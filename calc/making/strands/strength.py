"""How many strands, and what they hold against the hardest pull of a shot."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import TYPE_CHECKING

from calc.data import practice
from calc.geometry.lay import bundle_diameter, lay
from calc.mechanics.fibre import assembly_efficiency, strand_strength
from calc.mechanics.shot import peak_force_ratio
from calc.numerics import Spread, combine

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.data import Fibre


@dataclass(frozen=True, slots=True, kw_only=True)
class Holding:
    """What a string holds, and what the shot asks of it.

    Attributes
    ----------
    strand_n, sum_n, breaking_n, peak_n : Spread
        One strand, all strands added, the made string, the hardest pull of a shot. [N]
    efficiency, peak_ratio, safety : Spread
        Made string / sum of strands; hardest pull / draw weight; made string / hardest pull. [-]
    """

    strand_n: Spread
    sum_n: Spread
    efficiency: Spread
    breaking_n: Spread
    peak_ratio: Spread
    peak_n: Spread
    safety: Spread


def holding(fibre: Fibre, yarn_kg_m: float, strands: int, lay_rad: float, draw_weight_n: float) -> Holding:
    """Judge a string by the hardest pull of a shot, not by the draw weight.

    Parameters
    ----------
    fibre : Fibre
        From `calc.data`.
    yarn_kg_m : float, > 0
        Linear density of a strand. [kg/m]
    strands : int, > 0
        In the whole string.
    lay_rad : float, >= 0
        Lay of the free body. [rad]
    draw_weight_n : float, > 0
        [N]

    Notes
    -----
    Source: sum of strands x assembly efficiency (`assembly_efficiency`) against draw weight x peak ratio
    (`peak_force_ratio`). Leaves out wear, knots, age and a shot without an arrow.
    """
    strand = strand_strength(fibre, yarn_kg_m)
    return judged(strand, strands, assembly_efficiency(lay_rad), peak_force_ratio(), draw_weight_n)


def judged(strand: Spread, strands: int, efficiency: Spread, ratio: Spread, draw_weight_n: float) -> Holding:
    """Judge a string by what one of its strands holds, however that was found out.

    Parameters
    ----------
    strand : Spread
        What one strand holds. [N]
    strands, draw_weight_n
        As for `holding`.
    efficiency, ratio : Spread
        Made string / sum of strands; hardest pull / draw weight. [-]

    Notes
    -----
    Source: as `holding`.
    """
    causes = {"strand": strand, "efficiency": efficiency, "ratio": ratio}

    def answer(at: Mapping[str, float]) -> dict[str, float]:
        total = strands * at["strand"]
        breaking = total * at["efficiency"]
        peak = draw_weight_n * at["ratio"]
        return {"sum": total, "breaking": breaking, "peak": peak, "safety": breaking / peak}

    out = combine(answer, causes)
    return Holding(
        strand_n=strand,
        sum_n=out["sum"],
        efficiency=efficiency,
        breaking_n=out["breaking"],
        peak_ratio=ratio,
        peak_n=out["peak"],
        safety=out["safety"],
    )


@dataclass(frozen=True, slots=True)
class Advice:
    """A strand count, and which need set it."""

    strands: int
    for_strength: int
    for_thickness: int


def advise(fibre: Fibre, yarn_kg_m: float, bundles: int, lay_rad: float, draw_weight_n: float) -> Advice:
    """Return the fewest strands that are strong enough and thick enough to hold and to fit a nock.

    Parameters
    ----------
    fibre, yarn_kg_m, lay_rad, draw_weight_n
        As for `holding`.
    bundles : int
        The count is a multiple of this.

    Returns
    -------
    Advice
        ``for_strength``: typical strength against the typical hardest pull times the working margin;
        ``for_thickness``: cord no thinner than the thinnest that fingers and nocks are made for.
    """
    one = holding(fibre, yarn_kg_m, 1, lay_rad, draw_weight_n)
    margin = practice("working_margin").spread.value
    for_strength = bundles * ceil(margin / one.safety.value / bundles)
    least_m = practice("cord_thinnest").spread.value
    single = lay(bundle_diameter(yarn_kg_m, fibre.density_kg_m3.value, fibre.packing.value), bundles, lay_rad)
    for_thickness = bundles * ceil((least_m / single.cord_diameter_m) ** 2)
    return Advice(max(for_strength, for_thickness), for_strength, for_thickness)
