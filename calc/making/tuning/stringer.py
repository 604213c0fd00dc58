"""A bow stringer: a cord from tip to tip underfoot that bends the bow until its loop slides home."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot
from typing import TYPE_CHECKING, NamedTuple

from calc.data import practice
from calc.errors import DomainError, Problem, require
from calc.geometry.ends import perimeter
from calc.mechanics.bow import drawn_on_long, limb_state_near
from calc.mechanics.estimate import full_force
from calc.numerics import NoRootError, beside, combine, find_root

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.geometry.ends import Section
    from calc.mechanics.bow import Bow
    from calc.mechanics.estimate import BowEstimate, BowState
    from calc.numerics import Spread

_LEAST_M = 0.08
"""The grip is lifted so far above what the tips come down, at the least: flatter, the cord pulls without end. [m]"""
_NEAR_M = 1e-4
_SHARES = (0.12, 0.5)
"""The cord's length is looked for within this share of what the braced limbs would ask."""


class Pocket(NamedTuple):
    """Leather for a pocket, folded over the tip and sewn along both sides.

    Attributes
    ----------
    girth_m, wide_m, long_m : Spread
        Round its inside; the piece across and along, before it is folded. [m]
    """

    girth_m: Spread
    wide_m: Spread
    long_m: Spread


@dataclass(frozen=True, slots=True, kw_only=True)
class Stringer:
    """A bow that is to be braced with a stringer.

    Parameters
    ----------
    bow : BowEstimate
        With its draw weight and full draw.
    brace_m : float, > 0
        Brace height. [m]
    lift_m : float, > 0
        The grip above the foot on the cord, where the loop slides home. [m]

    Raises
    ------
    DomainError
        ``min`` or ``number``; ``min`` with reason ``lift_low`` for a lift so low that the cord would lie flat.
    """

    bow: BowEstimate
    brace_m: float
    lift_m: float

    def __post_init__(self) -> None:
        require("brace_m", self.brace_m, low=0.0, open_=True)
        least_m = self.brace_m + practice("stringer_ease").spread.high + _LEAST_M
        if not self.lift_m >= least_m:
            raise DomainError(Problem(field="lift_m", code="min", limit=least_m, reason="lift_low"))

    def found(self) -> dict[str, Spread]:
        """Return the cord and what it takes to lift the bow.

        Returns
        -------
        dict of str to Spread
            ``cord``, from nock to nock along it [m]; ``lift``, the force on the grip, and ``pull`` in the cord, where
            the loop slides home [N]; ``bent``, the brace height that the limbs are then bent to [m].

        Raises
        ------
        DomainError
            As `static_tension` and `drawn_on_long`; ``model`` with reason ``lift_far`` where no cord bends the limbs
            so far at that lift.

        Notes
        -----
        Source: the same limbs on a cord too long to brace them, drawn by the grip (`drawn_on_long`;
        ``derived:statics``). Leaves out a foot's breadth, and caps that hold the tips beyond their nocks.
        """
        ease = {"ease": practice("stringer_ease").spread}

        def of(at: Mapping[str, float]) -> dict[str, float]:
            state, bent_m = self.bow.state(at), self.brace_m + at["ease"]
            total = dict.fromkeys(("cord", "lift", "pull"), 0.0)
            for bow, share in state.ends():
                for key, value in self._shaped(bow, state, bent_m).items():
                    total[key] += share * value
            return total | {"bent": bent_m}

        return beside(self.bow.moves, ease).spreads(of)

    def _shaped(self, bow: Bow, state: BowState, bent_m: float) -> dict[str, float]:
        """Return what a bow of one shape asks."""
        assert self.bow.draw_m is not None
        start, full = limb_state_near(bow, self.brace_m, (self.bow.draw_m,))
        braced = limb_state_near(bow, bent_m, (self.bow.draw_m,))[0]
        out_m = bow.handle_length_m / 2.0 + braced.along * bow.limb_m + bow.contact_m
        guess_m = 2.0 * hypot(out_m, self.lift_m + bow.handle_proud_m - braced.across * bow.limb_m)

        def over(cord_m: float) -> float:
            held = drawn_on_long(bow, cord_m, (self.lift_m,), start.angles[-1])[0]
            return held.across - braced.across

        try:
            ends = [(guess_m * (1.0 - share), guess_m * (1.0 + share)) for share in _SHARES]
            apart = next((low_m, high_m) for low_m, high_m in ends if over(low_m) * over(high_m) <= 0.0)
            cord_m = find_root(over, *apart, within=_NEAR_M)
        except (NoRootError, DomainError, StopIteration) as error:
            raise DomainError(Problem(field="lift_m", code="model", reason="lift_far")) from error
        held = drawn_on_long(bow, cord_m, (self.lift_m,), start.angles[-1])[0]
        each_n = state.weight_n / full_force(full)
        return {"cord": cord_m, "lift": each_n * full_force(held), "pull": each_n * held.load}


def pocket(section: Section, over_m: float, deep_m: float | None = None) -> Pocket:
    """Return the leather of a pocket.

    Parameters
    ----------
    section : Section
        The tip, where the pocket sits.
    over_m : float, >= 0
        Thickness of the string's loop that lies under it, on both sides; 0 for none. [m]
    deep_m : float, optional
        How far it goes over the tip; as the trade has it without. [m]

    Notes
    -----
    Source: girth of the tip with what lies on it, and ``pocket_ease``, ``pocket_deep`` and ``pocket_seam`` of the
    constants (``common-practice``).

    Examples
    --------
    >>> from calc.geometry.ends import RoundTip
    >>> round(pocket(RoundTip(0.0127), 0.0).girth_m.value, 4)
    0.0459
    """
    causes = {"ease": practice("pocket_ease").spread, "seam": practice("pocket_seam").spread}
    if deep_m is None:
        causes["deep"] = practice("pocket_deep").spread

    def of(at: Mapping[str, float]) -> dict[str, float]:
        girth_m = (perimeter(section) + 4.0 * over_m) * (1.0 + at["ease"])
        deep = at.get("deep", deep_m or 0.0)
        return {"girth": girth_m, "wide": girth_m / 2.0 + 2.0 * at["seam"], "long": 2.0 * deep}

    found = combine(of, causes)
    return Pocket(found["girth"], found["wide"], found["long"])
