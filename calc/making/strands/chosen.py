"""A string chosen by its strands: how many of one kind, how thick, and what they hold."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import DomainError, Problem
from calc.geometry.lay import middle_lay
from calc.making.strands.hardest_pull import ShotFacts
from calc.making.strands.speed import speed_kept
from calc.making.strands.strands import strand_count, strength_of, thickness
from calc.numerics import Spread, combine_ratios

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.data import Limbs
    from calc.making.strands.strands import Thickness
    from calc.making.strands.string_strength import Advice, StringStrength
    from calc.mechanics.bow import LimbShape
    from calc.mechanics.estimate import CordEstimate


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """A count of strands and all that follows from it.

    Attributes
    ----------
    strand : CordEstimate
    found : mapping of str to Spread
        Its weight, thickness and strength, `CordEstimate.found`.
    strands, bundles : int
    lay_rad : float
        Lay of the body. [rad]
    shot : ShotFacts
        The bow and its arrow.
    advice : Advice
    strength : StringStrength
    thick : Thickness
    """

    strand: CordEstimate
    found: Mapping[str, Spread]
    strands: int
    bundles: int
    lay_rad: float
    shot: ShotFacts
    advice: Advice
    strength: StringStrength
    thick: Thickness

    @property
    def draw_weight_n(self) -> float:
        """Of the bow [N]."""
        return self.shot.draw_weight_n

    @property
    def arrow(self) -> Spread:
        """As told, or a usual one [kg]."""
        return self.shot.arrow

    @property
    def times(self) -> Spread:
        """Strands added up / draw weight [-]."""
        return self.strength.sum_n.scaled(1.0 / self.draw_weight_n)

    @property
    def times_asked(self) -> Spread:
        """What `times` must be for the working margin [-]."""
        causes = {
            "ratio": self.strength.peak_ratio,
            "margin": practice("working_margin").spread,
            "efficiency": self.strength.efficiency,
        }
        return combine_ratios(lambda at: {"times": at["ratio"] * at["margin"] / at["efficiency"]}, causes)["times"]

    def mass_kg(self, string_m: float, strands: int) -> float:
        """Return what so many strands of a length weigh, without wax, serving and tails [kg]."""
        return strands * self.found["linear"].value * string_m

    def speed_at(self, string_m: float, strands: int) -> Spread:
        """Return arrow speed off another count / off this one, by weight alone [-]."""
        return speed_kept(self.arrow.value, self.mass_kg(string_m, self.strands), self.mass_kg(string_m, strands))

    def at_count(self, strands: int) -> StringStrength:
        """Return what another count of the same strand holds."""
        return strength_of(self.strand, self.found["strength"], strands, self.lay_rad, self.shot)


def choose(
    strand: CordEstimate,
    asked: int | None,
    bundles: int,
    draw_weight_n: float,
    *,
    arrow_kg: float | None = None,
    shape: LimbShape | None = None,
    limbs: Limbs = "wood",
    limb: Spread | None = None,
) -> Chosen:
    """Return a string of the count that was asked for, or else of the count that is advised.

    Parameters
    ----------
    strand : CordEstimate
    asked : int or None
        Strands in the whole string; None: advise.
    bundles : int
        2 or 3.
    draw_weight_n, arrow_kg, shape, limbs, limb
        As for `ShotFacts`.

    Raises
    ------
    DomainError
        ``pair`` with reason ``few_strands`` or ``uneven_strands``, and all that `ShotFacts` and `strand_count` raise.

    Notes
    -----
    Source: `strand_count`, `strength_of` and `thickness` at the lay of the bench sheet's body.
    """
    if asked is not None and asked < bundles:
        raise DomainError(Problem(field="strands", code="pair", other="bundles", reason="few_strands"))
    if asked is not None and asked % bundles:
        raise DomainError(Problem(field="strands", code="pair", other="bundles", reason="uneven_strands"))
    lay_rad = middle_lay(*(practice(name).spread.value for name in ("lay_loosest", "lay_tightest")))
    facts = ShotFacts(draw_weight_n=draw_weight_n, arrow_kg=arrow_kg, shape=shape, limbs=limbs, limb=limb)
    advice = strand_count(strand, bundles, lay_rad, facts)
    strands, found = asked or advice.strands, strand.found()
    return Chosen(
        strand=strand,
        found=found,
        strands=strands,
        bundles=bundles,
        lay_rad=lay_rad,
        shot=facts,
        advice=advice,
        strength=strength_of(strand, found["strength"], strands, lay_rad, facts),
        thick=thickness(strand, strands, bundles, lay_rad),
    )
