"""A bow that has never had a string: its strength by a weight on the nock of each limb."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import DomainError, Problem, require
from calc.mechanics.bow import hung_limb, string_length
from calc.mechanics.estimate.unit_pulls import full_force, pulls
from calc.numerics import Spread, beside

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from calc.mechanics.estimate.bow_estimate import BowEstimate
    from calc.mechanics.estimate.unit_pulls import Seen

_NOTHING_M = 1e-4
"""A drop that a tape cannot tell from none is taken as this much. [m]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class LimbTest:
    """What a weight did to the limbs of a bow.

    Parameters
    ----------
    bow : BowEstimate
        By its measures, with its full draw; nothing is known of its strength.
    brace_m : float, > 0
        As it will be braced. [m]
    hung_n : float, > 0
        The weight. [N]
    drops_m : (float, float), > 0
        How far it pulled the nock of the upper limb down, and of the lower. [m]

    Raises
    ------
    DomainError
        As `string_length`; ``min`` or ``number``; ``max`` with reason ``drop_past_brace`` and field ``drop_0`` or
        ``drop_1`` for a drop further than bracing will bend the limb.
    """

    bow: BowEstimate
    brace_m: float
    hung_n: float
    drops_m: tuple[float, float]

    def __post_init__(self) -> None:
        require("hung_n", self.hung_n, low=0.0, open_=True)
        string_length(self.bow.bow, self.brace_m)
        most_m = self.braced_drop_m
        for k, drop_m in enumerate(self.drops_m):
            require(f"drop_{k}", drop_m, low=0.0, open_=True)
            if drop_m > most_m:
                raise DomainError(Problem(field=f"drop_{k}", code="max", limit=most_m, reason="drop_past_brace"))

    @property
    def braced_drop_m(self) -> float:
        """How far bracing will bend the tips [m]."""
        told = self.bow.bow
        return self.brace_m + told.handle_proud_m - told.string_follow_m

    @property
    def causes(self) -> dict[str, Spread]:
        """What is uncertain beside the bow's measures, by cause."""
        off_m = practice("tape_reading").spread.scaled(sqrt(2.0))
        reads = {f"drop_{k}": off_m.shifted(drop_m) for k, drop_m in enumerate(self.drops_m)}
        return {**reads, "give": practice("clamp_give").spread, "weight": practice("weight_reading").spread}

    def found(self, draws_m: Sequence[float] = ()) -> dict[str, Spread]:
        """Return the bow's strength and its limbs' balance.

        Parameters
        ----------
        draws_m : sequence of float
            Where else to tell the draw weight, above brace height. [m]

        Returns
        -------
        dict of str to Spread
            ``weight``, ``brace``, ``draw`` [N]; ``balance``, by how much the upper limb is stiffer than
            the lower [-]; ``at_0`` and on, the force at each of the draws [N].

        Raises
        ------
        DomainError
            As `static_tension`; ``drop_far`` as `hung_limb`.

        Notes
        -----
        Source: the same limbs under the weight and on the string (`hung_limb`, `pulls`; ``derived:limbs``,
        ``derived:statics``). Of unlike limbs each is half a bow: the draw weight is the mean of what two bows would
        have, each of two such limbs, as the middle of the string goes straight back. Two readings of a tape make a
        drop; clamp and handle give a little (``clamp_give`` in the constants).
        """
        assert self.bow.draw_m is not None
        full_m = self.bow.draw_m
        seen: Seen = {}
        places = tuple((None, each) for each in draws_m)

        def answer(at: Mapping[str, float]) -> dict[str, float]:
            state = self.bow.state(at)
            made = pulls(state, self.brace_m, full_m, places, seen)
            seen.update(made.seen)
            loads, each_n = [0.0, 0.0], 0.0
            for bow, share in state.ends():
                start, full, *_ = made.seen[bow.shape, None]
                for k in (0, 1):
                    drop_m = max(at[f"drop_{k}"] * (1.0 - at["give"]), _NOTHING_M)
                    load = hung_limb(bow, drop_m, start.angles[-1])[-1]
                    loads[k] += share * load
                    each_n += share * full_force(full) / load / 2.0
            weight_n = self.hung_n * (1.0 + at["weight"]) * each_n
            return {
                "weight": weight_n,
                "brace": weight_n * made.brace,
                "draw": weight_n * made.draw,
                "balance": loads[1] / loads[0] - 1.0,
                **{f"at_{k}": weight_n * each for k, each in enumerate(made.forces)},
            }

        return beside(self.bow.moves, self.causes).spreads(answer)
