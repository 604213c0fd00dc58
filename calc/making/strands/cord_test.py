"""A cord that nobody can name: what it may be, what it holds, and how many of it make a string."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import require
from calc.geometry.lay import linear_density, wound_diameter
from calc.making.strands.chosen import choose
from calc.making.strands.strands import fitting, weakest
from calc.mechanics.estimate import CordEstimate
from calc.mechanics.fibre import fill as filled
from calc.mechanics.fibre import trust_in
from calc.numerics import Spread, combine

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.data import Limbs
    from calc.making.strands.chosen import Chosen
    from calc.mechanics.bow import LimbShape
    from calc.mechanics.fibre import Match, Rating, Trust


@dataclass(frozen=True, slots=True, kw_only=True)
class UnknownCord:
    """What was done with a cord.

    Parameters
    ----------
    mass_kg, length_m : float
        Of a weighed length; the mass above what a scale may be off. [kg], [m]
    floats : bool or None
        None: not tried.
    roll_m : float or None, > 0
        Width of `wraps` turns side by side; None: not tried. [m]
    wraps : int, >= 1
    held_n, rated_n : float or None
        A weight one cord carried; the load on its label. [N]
    rating : str
        What that load is said to be.
    broken_n : float or None
        The pull at which one cord broke; it carried as much until then. [N]

    Raises
    ------
    DomainError
        ``min``, ``max`` and ``number`` for figures out of bounds.
    """

    mass_kg: float
    length_m: float
    floats: bool | None
    roll_m: float | None
    wraps: int
    held_n: float | None
    rated_n: float | None
    rating: Rating
    broken_n: float | None = None

    def __post_init__(self) -> None:
        require("mass_kg", self.mass_kg, low=practice("scale_reading").spread.high, open_=True)
        require("length_m", self.length_m, low=practice("tape_reading").spread.high, open_=True)
        if self.roll_m is not None:
            require("roll_m", self.roll_m, low=practice("tape_reading").spread.high, open_=True)

    @property
    def carried_n(self) -> float | None:
        """The most that one cord is known to have carried [N]."""
        return max((each for each in (self.held_n, self.broken_n) if each is not None), default=None)

    def weight(self) -> Spread:
        """Return its linear density [kg/m]."""
        causes = {"scale": practice("scale_reading").spread, "tape": practice("tape_reading").spread}

        def weighed(at: Mapping[str, float]) -> dict[str, float]:
            return {"linear": linear_density(self.mass_kg + at["scale"], self.length_m + at["tape"])}

        return combine(weighed, causes)["linear"]

    def thickness(self) -> Spread | None:
        """Return its thickness by the roll-up [m]."""
        if self.roll_m is None:
            return None
        tape = practice("tape_reading").spread
        ends = (wound_diameter(self.roll_m + each, self.wraps) for each in (tape.low, tape.value, tape.high))
        return Spread(*ends)


@dataclass(frozen=True, slots=True)
class CordFindings:
    """What a cord turned out to be.

    Attributes
    ----------
    weight : Spread
        [kg/m]
    thickness : Spread or None
        As rolled up. [m]
    matches : tuple of Match
        Every fibre; those that fit first.
    trust : Trust
    strength : Spread
        What one cord holds; where nothing fits, from nothing to the most of any fibre. [N]
    chosen : Chosen or None
        The string it makes; None where nothing fits.
    """

    weight: Spread
    thickness: Spread | None
    matches: tuple[Match, ...]
    trust: Trust
    strength: Spread
    chosen: Chosen | None

    @property
    def fits(self) -> int:
        """How many fibres fit."""
        return sum(not each.against for each in self.matches)


def examine_cord(
    cord: UnknownCord,
    draw_weight_n: float,
    bundles: int,
    *,
    arrow_kg: float | None = None,
    shape: LimbShape | None = None,
    limbs: Limbs = "wood",
    limb: Spread | None = None,
) -> CordFindings:
    """Return a cord held against every fibre, with the strands that the weakest that fits would need.

    Parameters
    ----------
    cord : UnknownCord
        What was found about it.
    draw_weight_n : float, > 0
        Of the bow. [N]
    bundles : int, 2 or 3
        Of the string.
    arrow_kg, shape, limbs, limb
        As for `choose`.

    Raises
    ------
    DomainError
        As `choose`.

    Notes
    -----
    Source: `fitting` (``derived:cord-test``); the strength is that of the weakest that fits, and lower where the label
    says less. Leaves out what `judge` leaves out.
    """
    weight, thickness = cord.weight(), cord.thickness()
    matches = fitting(
        weight, thickness, floats=cord.floats, held_n=cord.carried_n, rated_n=cord.rated_n, rating=cord.rating
    )
    fits = [each for each in matches if not each.against]
    if not fits:
        least = cord.carried_n or 0.0
        most = max(least, *(each.strength_n.high for each in matches))
        return CordFindings(weight, thickness, matches, trust_in(fits), Spread(0.0, least, most), None)
    least_strong = weakest((each.fibre for each in fits), laid=True)
    across = None if thickness is None else thickness.value
    if across is not None and filled(least_strong.density_kg_m3.value, weight.value, across) > 1.0:
        across = None
    strand = CordEstimate(
        fibre=least_strong,
        laid=True,
        yarn_kg_m=weight.value,
        thickness_m=across,
        rated_n=cord.rated_n,
        rating=cord.rating,
        fits=tuple(each.fibre for each in fits),
        weighed=weight,
        held_n=cord.held_n,
        broken_n=cord.broken_n,
    )
    chosen = choose(strand, None, bundles, draw_weight_n, arrow_kg=arrow_kg, shape=shape, limbs=limbs, limb=limb)
    return CordFindings(weight, thickness, matches, trust_in(fits), chosen.found["strength"], chosen)
