"""A bow with one value for each uncertain cause."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt
from typing import TYPE_CHECKING

from calc.errors import DomainError, Problem, require
from calc.mechanics.bow import HIGHEST, Bow, limb_reach
from calc.numerics import find_root_near

if TYPE_CHECKING:
    from calc.mechanics.bow import LimbShape

_NUDGE_M = 5e-4
_CLOSE_M = 1e-12
_NOTHING_M = 1e-9
"""A string shorter than the longest that braces the bow by no more than this does not brace it. [m]"""
_FLOOR_M = 0.0127
"""Where the slope is taken for a string so long that it hardly braces the bow. [m]"""


@dataclass(frozen=True, slots=True)
class BowState:
    """A bow whose two limbs are alike, all of it settled.

    Attributes
    ----------
    nock_to_nock_m, limb_m : float, > 0
        Along the belly; working length of one limb. [m]
    shape : Shape
        How the limbs bend.
    mix : float
        How far they stray from that shape: 0 not at all; from a middle shape -1 leads to `tapered` and +1 to
        `uniform`, from one of these as far as half the way between them. [-]
    proud_m : float
        How far the handle stands out from the line of the limbs' belly. [m]
    follow : float
        Set, negative for reflex. [limb lengths]
    contact_m : float, >= 0
        String that lies against each recurved tip. [m]
    weight_n : float
        Draw weight, where it is told; 1 otherwise. [N]
    """

    nock_to_nock_m: float
    limb_m: float
    shape: LimbShape
    mix: float = 0.0
    proud_m: float = 0.0
    follow: float = 0.0
    contact_m: float = 0.0
    weight_n: float = 1.0

    @property
    def handle_length_m(self) -> float:
        """Whole stiff length [m]."""
        return max(0.0, self.nock_to_nock_m - 2.0 * (self.limb_m + self.contact_m))

    @property
    def highest_m(self) -> float:
        """Highest brace height the limbs are worked out for [m]."""
        return HIGHEST * self.limb_m - self.proud_m

    def string_m(self, brace_m: float) -> float:
        """Return the braced string, nock to nock, within what the limbs are worked out for [m].

        Parameters
        ----------
        brace_m : float
            [m]

        Notes
        -----
        Source: as `string_length` (``derived:limbs``); limbs between two shapes reach as far as lies between them.
        """
        require("brace_m", brace_m)
        return self._string(brace_m + self.proud_m)

    def brace_m(self, string_m: float) -> float:
        """Return the brace height a string gives [m].

        Parameters
        ----------
        string_m : float
            On the braced bow. [m]

        Returns
        -------
        float
            0 for a string too long to brace the bow, `highest_m` for one too short for it. [m]

        Notes
        -----
        Source: search over the square of what the tips stand off, in which string length is nearly straight
        (``derived:limbs``).
        """
        require("string_m", string_m)
        low_m, top_m = abs(self.follow) * self.limb_m, HIGHEST * self.limb_m
        longest_m = self._string(low_m)
        wanted_m = longest_m - string_m
        if wanted_m <= _NOTHING_M:
            return 0.0
        least, most = low_m * low_m, top_m * top_m
        guess = least + 0.75 * self.limb_m * wanted_m * (1.0 - 0.35 * wanted_m / self.limb_m)

        def shorter_m(square: float) -> float:
            return longest_m - self._string(sqrt(square)) - wanted_m

        square = find_root_near(shorter_m, (least, -wanted_m), guess, least, most, close=_CLOSE_M)
        return max(0.0, sqrt(square) - self.proud_m)

    def slope(self, brace_m: float) -> float:
        """Return the change of brace height for a change of string length, negative [-].

        Parameters
        ----------
        brace_m : float
            [m]

        Raises
        ------
        DomainError
            ``model`` for a bow so small that a millimetre is nothing to it.

        Notes
        -----
        Source: central difference of the string's length, over 1 mm; below half an inch, or where the limbs' own set
        holds the tips further off, the slope there.
        """
        unbent_m = abs(self.follow) * self.limb_m - self.proud_m + _NUDGE_M
        high_m = min(max(brace_m, _FLOOR_M, unbent_m) + _NUDGE_M, self.highest_m)
        low_m = high_m - 2.0 * _NUDGE_M
        longer_m = self.string_m(high_m) - self.string_m(low_m)
        if longer_m == 0.0:
            raise DomainError(Problem(field="nock_to_nock_m", code="model"))
        return (high_m - low_m) / longer_m

    def bow(self) -> Bow:
        """Return it as a bow of its shape alone."""
        return self.ends()[0][0]

    def ends(self) -> tuple[tuple[Bow, float], ...]:
        """Return bows of the shapes these limbs lie between, each with its share; the shares add up to 1."""
        shares = {self.shape: 1.0}
        for shape, weight in leanings(self.shape, self.mix):
            shares[shape] = shares.get(shape, 0.0) + weight
            shares[self.shape] -= weight
        handle_length_m = self.handle_length_m
        whole_m = handle_length_m + 2.0 * (self.limb_m + self.contact_m)
        return tuple(
            (Bow(whole_m, handle_length_m, shape, self.proud_m, self.follow * self.limb_m, self.contact_m), share)
            for shape, share in shares.items()
            if share or shape == self.shape
        )

    def _string(self, rise_m: float) -> float:
        across = min(max(rise_m / self.limb_m, abs(self.follow)), HIGHEST)
        told = reach = limb_reach(self.shape, across, self.follow)
        if self.mix != 0.0:
            for other, weight in leanings(self.shape, self.mix):
                reach += weight * (limb_reach(other, across, self.follow) - told)
        return self.nock_to_nock_m - 2.0 * self.limb_m * (1.0 - reach)


def leanings(shape: LimbShape, mix: float) -> tuple[tuple[LimbShape, float], ...]:
    """Return towards which shapes limbs that stray lean, and how far: weights of their difference from the told one.

    Parameters
    ----------
    shape : LimbShape
        As told.
    mix : float
        As of `BowState`. [-]

    Notes
    -----
    Source: limbs between two shapes reach as far as lies between them (``derived:limbs``).
    """
    if mix == 0.0:
        return ()
    if shape in {"tapered", "uniform"}:
        return ("uniform", mix / 2.0), ("tapered", -mix / 2.0)
    return (("uniform", mix),) if mix > 0.0 else (("tapered", -mix),)
