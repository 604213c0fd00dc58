"""A bow at one set of all that is not sure about it: what its strings and forces hang on."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from calc.mechanics.bow import HIGHEST, limb_reach
from calc.mechanics.estimate.known import LONGEST_HANDLE, leanings
from calc.numerics import find_root

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.mechanics.bow import Bow, LimbShape
    from calc.mechanics.estimate.known import Known
    from calc.numerics import Spread

_LOWEST = 1e-9


@dataclass(frozen=True, slots=True)
class Form:
    """A bow at one set of what is not sure: what stays, then working limb and how far its handle stands proud [m]."""

    bow: Bow
    mix: float
    nock_to_nock_m: float
    limb_m: float
    proud_m: float

    def string_m(self, brace_m: float) -> float:
        """Return the string for a brace height, for the highest the limbs are worked out for where it is more [m]."""
        return self._at(min((brace_m + self.proud_m) / self.limb_m, HIGHEST))

    def brace_m(self, string_m: float) -> float:
        """Return the brace height a string gives, within what the limbs are worked out for [m]."""
        lowest = max(abs(self.bow.follow), _LOWEST)
        if self._at(lowest) <= string_m:
            return lowest * self.limb_m - self.proud_m
        if self._at(HIGHEST) >= string_m:
            return HIGHEST * self.limb_m - self.proud_m
        across = find_root(lambda at: self._at(at) - string_m, lowest, HIGHEST, within=1e-13)
        return across * self.limb_m - self.proud_m

    def ends(self) -> tuple[tuple[Bow, float], ...]:
        """Return bows of the shapes these limbs lie between, each with its share; the shares add up to 1.

        The working limb is kept; what a limb fitted longer than half the bow leaves of the handle is nothing.
        """
        handle_length_m = max(0.0, self.nock_to_nock_m - 2.0 * (self.limb_m + self.bow.contact_m))
        bow = replace(
            self.bow,
            nock_to_nock_m=handle_length_m + 2.0 * (self.limb_m + self.bow.contact_m),
            handle_length_m=handle_length_m,
            handle_proud_m=self.proud_m,
            string_follow_m=self.bow.follow * self.limb_m,
        )
        if self.mix == 0.0:
            return ((bow, 1.0),)
        shares = {bow.shape: 1.0}
        for shape, weight in leanings(bow.shape, self.mix):
            shares[shape] = shares.get(shape, 0.0) + weight
            shares[bow.shape] -= weight
        return tuple((replace(bow, shape=shape), share) for shape, share in shares.items() if share)

    def _at(self, across: float) -> float:
        reach = strayed_reach(self.bow.shape, self.bow.follow, self.mix, across)
        return self.nock_to_nock_m - 2.0 * self.limb_m * (1.0 - reach)


@dataclass(frozen=True, slots=True)
class Guessed:
    """What a bow may be before anything was read off it in use."""

    known: Known

    @property
    def causes(self) -> Mapping[str, Spread]:
        """Everything that is not sure of it, as `Known.causes`."""
        return self.known.causes

    def form_at(self, causes: Mapping[str, float]) -> Form:
        """Return the bow at one set of it."""
        bow = self.known.bow
        long_m = bow.nock_to_nock_m + causes["tape"]
        handle_length_m = min(max(0.0, bow.handle_length_m + causes["handle"]), LONGEST_HANDLE * long_m)
        return Form(bow, causes["limb"], long_m, (long_m - handle_length_m) / 2.0 - bow.contact_m, bow.handle_proud_m)


def strayed_reach(shape: LimbShape, follow: float, mix: float, across: float) -> float:
    """Return how far along a limb of unit length reaches that strays from its shape.

    Parameters
    ----------
    shape, across, follow
        As for `limb_reach`.
    mix : float
        As `strayed` takes it.
    """
    told = reach = limb_reach(shape, across, follow)
    if mix != 0.0:
        for other, weight in leanings(shape, mix):
            reach += weight * (limb_reach(other, across, follow) - told)
    return reach
