"""Strings to tiller a bow on: one that is long, one for its first bracing, the one it will be shot with."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from calc.errors import DomainError, Problem, require
from calc.mechanics.bow import drawn_on_long, limb_state_near, string_length
from calc.mechanics.estimate import full_force
from calc.numerics import find_root

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.mechanics.bow import Bow
    from calc.mechanics.estimate import BowEstimate, BowState
    from calc.numerics import Spread

_NEAR_M = 1e-3
"""Marks are looked for as closely as this. [m]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tillering:
    """A bow in the making, as it will be when it is done.

    Parameters
    ----------
    bow : BowEstimate
        With its full draw; nothing is known of its strength.
    weight_n : float, > 0
        Draw weight wanted. [N]
    brace_m, first_m : float, > 0
        Brace height wanted; that of the first bracing, lower. [m]
    longer_m : float, >= 0
        By how much the long string is longer than the bow, nock to nock. [m]

    Raises
    ------
    DomainError
        As `string_length`, with field ``first_m``; ``min`` or ``number``; ``pair`` with reason ``first_high`` and field
        ``first_m`` for a first bracing that is not below the brace height wanted.
    """

    bow: BowEstimate
    weight_n: float
    brace_m: float
    first_m: float
    longer_m: float

    def __post_init__(self) -> None:
        require("weight_n", self.weight_n, low=0.0, open_=True)
        require("longer_m", self.longer_m, low=0.0)
        if self.first_m >= self.brace_m:
            raise DomainError(Problem(field="first_m", code="pair", other="brace_m", reason="first_high"))
        try:
            string_length(self.bow.bow, self.first_m)
        except DomainError as error:
            raise DomainError(replace(error.problem, field="first_m")) from None

    @property
    def full_m(self) -> float:
        """Full draw [m]."""
        assert self.bow.draw_m is not None
        return self.bow.draw_m

    def found(self) -> dict[str, Spread]:
        """Return the three strings and what the scale reads on them.

        Returns
        -------
        dict of str to Spread
            ``long``, ``first``, ``string``: their lengths [m]; ``long_reads``, ``first_reads``: on the scale at the
            mark of full draw, of a bow of the weight wanted [N]; ``long_bend``: how far the tips have come there / how
            far they come on the last string [-]; ``long_hides``: weight of the bow that would read the weight wanted on
            the long string [N]; ``change``, ``change_reads``: the mark at which the long string has brought the tips as
            far as the first bracing will [m], and the scale there [N].

        Raises
        ------
        DomainError
            As `static_tension` and `drawn_on_long`; ``pair`` with reason ``long_slack`` and field ``longer_m`` for a
            string so long that full draw does not bend the limbs as far as the first bracing will.

        Notes
        -----
        Source: the same limbs on each string (`drawn_on_long`, `limb_state_near`; ``derived:statics``).
        """
        return self.bow.states.spreads(self._of)

    def reads(self, draws_m: Sequence[float]) -> tuple[tuple[float, float, float], ...]:
        """Return the scale on the long, the first and the last string at every mark, as is likeliest [N].

        Parameters
        ----------
        draws_m : sequence of float
            Rising, above brace height. [m]
        """
        state = self.bow.middle
        sums = [[0.0, 0.0, 0.0] for _ in draws_m]
        for bow, share in state.ends():
            start, full, *last = limb_state_near(bow, self.brace_m, (self.full_m, *draws_m))
            each_n = share * self.weight_n / full_force(full)
            first = limb_state_near(bow, self.first_m, tuple(draws_m))[1:]
            long = drawn_on_long(bow, state.nock_to_nock_m + self.longer_m, draws_m, start.angles[-1])
            for total, *three in zip(sums, long, first, last, strict=True):
                for k, held in enumerate(three):
                    total[k] += each_n * full_force(held)
        return tuple((one, two, three) for one, two, three in sums)

    def _of(self, state: BowState) -> dict[str, float]:
        """Return every figure of one settled bow; limbs between two shapes do what lies between them."""
        long_m = state.nock_to_nock_m + self.longer_m
        mixed = dict.fromkeys(("long_reads", "first_reads", "long_bend", "change", "change_reads"), 0.0)
        for bow, share in state.ends():
            for key, value in self._shaped(bow, long_m).items():
                mixed[key] += share * value
        return {
            "long": long_m,
            "first": state.string_m(self.first_m),
            "string": state.string_m(self.brace_m),
            "long_hides": self.weight_n / mixed["long_reads"],
            **{key: value * (self.weight_n if key.endswith("reads") else 1.0) for key, value in mixed.items()},
        }

    def _shaped(self, bow: Bow, long_m: float) -> dict[str, float]:
        """Return what a bow of one shape does, forces / draw weight."""
        start, full = limb_state_near(bow, self.brace_m, (self.full_m,))
        slack_m = abs(bow.string_follow_m) - bow.handle_proud_m + _NEAR_M
        low, first = limb_state_near(bow, max(self.first_m, slack_m), (self.full_m,))
        at_full = drawn_on_long(bow, long_m, (self.full_m,), start.angles[-1])[0]
        free = drawn_on_long(bow, long_m, (0.0,), start.angles[-1])[0].across

        def short_of(draw_m: float) -> float:
            return drawn_on_long(bow, long_m, (draw_m,), start.angles[-1])[0].across - low.across

        if at_full.across <= low.across:
            raise DomainError(Problem(field="longer_m", code="pair", other="nock_to_nock_m", reason="long_slack"))
        change_m = find_root(short_of, 0.0, self.full_m, within=_NEAR_M)
        change = drawn_on_long(bow, long_m, (change_m,), start.angles[-1])[0]
        each = 1.0 / full_force(full)
        return {
            "long_reads": each * full_force(at_full),
            "first_reads": each * full_force(first),
            "long_bend": (at_full.across - free) / (full.across - free),
            "change": change_m,
            "change_reads": each * full_force(change),
        }
