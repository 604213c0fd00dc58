"""How many strands, and what they hold against the hardest pull of a shot."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.making.strands.hardest_pull import peak_pull
from calc.numerics import Spread, combine_ratios

if TYPE_CHECKING:
    from collections.abc import Mapping


@dataclass(frozen=True, slots=True, kw_only=True)
class StringStrength:
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


def judged(strand: Spread, strands: int, efficiency: Spread, ratio: Spread, draw_weight_n: float) -> StringStrength:
    """Return how a string stands to the hardest pull of a shot, which is more than the draw weight.

    Parameters
    ----------
    strand : Spread
        What one strand holds. [N]
    strands : int, > 0
        In the whole string.
    efficiency, ratio : Spread
        Made string / sum of strands; hardest pull / draw weight. [-]
    draw_weight_n : float, > 0
        Of the bow. [N]

    Notes
    -----
    Source: sum of strands x assembly efficiency (`assembly_efficiency`) against `peak_pull`,
    spreads in quadrature as ratios. Leaves out wear, knots, age and a shot without an arrow.
    """
    pull = peak_pull(ratio, draw_weight_n)
    causes = {"strand": strand, "efficiency": efficiency, "peak": pull}

    def answer(at: Mapping[str, float]) -> dict[str, float]:
        total = strands * at["strand"]
        breaking = total * at["efficiency"]
        return {"sum": total, "breaking": breaking, "safety": breaking / at["peak"]}

    out = combine_ratios(answer, causes)
    return StringStrength(
        strand_n=strand,
        sum_n=out["sum"],
        efficiency=efficiency,
        breaking_n=out["breaking"],
        peak_ratio=ratio,
        peak_n=pull,
        safety=out["safety"],
    )


@dataclass(frozen=True, slots=True)
class Advice:
    """A strand count, and which need set it.

    Parameters
    ----------
    strands : int
        The larger of the two counts below.
    for_strength : int
        Fewest strands that are strong enough.
    for_thickness : int
        Fewest strands whose body is no thinner than fingers and nocks are made for.
    """

    strands: int
    for_strength: int
    for_thickness: int
