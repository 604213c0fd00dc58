"""The bow under a string, for limbs that bend between the ideal shapes."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

from calc.mechanics.bow import Bow, brace_height, brace_limit, string_length

if TYPE_CHECKING:
    from calc.mechanics.bow import LimbShape

_ROUNDS = 6


@dataclass(frozen=True, slots=True)
class Limbs:
    """A bow and how far its limbs stray from their ideal shape.

    Attributes
    ----------
    bow : Bow
        With the shape that was told, or a middle one.
    mix : float
        0: just that shape. -1 and +1: the string is shorter, longer, by half the way from `tapered` to
        `uniform` limbs. [-]
    """

    bow: Bow
    mix: float

    def string_m(self, brace_m: float) -> float:
        """Return the braced string's length for a brace height [m]."""
        return string_length(self.bow, brace_m) + self.mix * self._half_m(brace_m)

    def brace_m(self, string_m: float) -> float:
        """Return the brace height a string gives, 0 when it is too long to brace the bow [m]."""
        shortest_m = _shortest(self.bow)
        brace_m = shift_m = 0.0
        for _ in range(_ROUNDS):
            straight_m = max(string_m - shift_m, shortest_m)
            if straight_m >= self.bow.nock_to_nock_m:
                return 0.0
            brace_m = brace_height(self.bow, straight_m)
            if self.mix == 0.0:
                break
            shift_m = self.mix * self._half_m(brace_m)
        return brace_m

    def _half_m(self, brace_m: float) -> float:
        return 0.0 if self.mix == 0.0 else _half_way(self.bow, brace_m)


@lru_cache(maxsize=64)
def _shortest(bow: Bow) -> float:
    return string_length(bow, brace_limit(bow))


@lru_cache(maxsize=64)
def _as(bow: Bow, shape: LimbShape) -> Bow:
    return replace(bow, shape=shape)


@lru_cache(maxsize=256)
def _half_way(bow: Bow, brace_m: float) -> float:
    """Return half the difference of string between uniform and tapered limbs, within what both can answer."""
    ends = [_as(bow, "tapered"), _as(bow, "uniform")]
    low_m = min(brace_m, *(brace_limit(each) for each in ends))
    return (string_length(ends[1], low_m) - string_length(ends[0], low_m)) / 2.0
