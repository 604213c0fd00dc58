"""A bow as it was measured, and what it does with a string, at one set of causes."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import DomainError, Problem, require
from calc.making.limbs import Limbs
from calc.mechanics import Bow, brace_limit
from calc.spread import Spread

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.mechanics import Shape

_NUDGE_M = 5e-4
_CLOSE_M = 1e-12
_ROUNDS = 40
_FLOOR_M = 0.0127
"""Where the slope is taken for a string so long that it hardly braces the bow. [m]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stave:
    """A bow as it was measured.

    Attributes
    ----------
    nock_to_nock_m : float, > 0
        Along the belly. [m]
    handle_m : float or None
        Whole stiff length; None: not known. [m]
    shape : Shape or None
        How the limbs bend; None: not known.
    """

    nock_to_nock_m: float
    handle_m: float | None
    shape: Shape | None

    def __post_init__(self) -> None:
        require("nock_to_nock_m", self.nock_to_nock_m, low=0.0, open_=True)
        if self.handle_m is not None and self.handle_m >= self.nock_to_nock_m:
            raise DomainError(Problem(field="handle_m", code="pair", other="nock_to_nock_m", reason="handle_long"))

    def causes(self) -> dict[str, Spread]:
        """Return what is uncertain about it: ``tape`` [m], ``handle`` [m], ``limb`` [-]."""
        handle = practice("handle_usual").spread if self.handle_m is None else Spread.exactly(self.handle_m)
        return {
            "tape": practice("tape_reading").spread,
            "handle": handle,
            "limb": practice("limb_unknown" if self.shape is None else "limb_told").spread,
        }

    def at(self, causes: Mapping[str, float]) -> Limbs:
        """Return its limbs at one set of causes; a shape that is not known stands on the arc."""
        bow = Bow(self.nock_to_nock_m + causes["tape"], causes["handle"], self.shape or "arc")
        return Limbs(bow, causes["limb"])


def brace_on(limbs: Limbs, string_m: float) -> float:
    """Return the brace height a string gives: `Limbs.brace_m` in fewer steps.

    Parameters
    ----------
    limbs : Limbs
    string_m : float
        On the braced bow. [m]

    Returns
    -------
    float
        0 for a string too long to brace the bow, `brace_limit` for one too short for it. [m]

    Notes
    -----
    Source: secant over the square of the brace height, in which string length is nearly straight (``derived:limbs``).
    """
    bow = limbs.bow
    top_m = brace_limit(bow)
    wanted_m = bow.nock_to_nock_m - string_m
    if wanted_m <= 0.0:
        return 0.0
    square, gone_m = 0.0, 0.0
    guess = 0.75 * bow.limb_m * wanted_m
    for _ in range(_ROUNDS):
        guess = min(max(guess, square / 4.0, 1e-12), top_m * top_m)
        taken_m = bow.nock_to_nock_m - limbs.string_m(sqrt(guess))
        if abs(taken_m - wanted_m) < _CLOSE_M or (guess == top_m * top_m and taken_m <= wanted_m):
            break
        square, gone_m, guess = guess, taken_m, guess + (wanted_m - taken_m) * (guess - square) / (taken_m - gone_m)
    return sqrt(min(guess, top_m * top_m))


def slope(limbs: Limbs, brace_m: float) -> float:
    """Return the change of brace height for a change of string length, negative [-].

    Notes
    -----
    Source: central difference of `Limbs.string_m`, over 1 mm.
    """
    top_m = brace_limit(limbs.bow)
    high_m = min(max(brace_m, _FLOOR_M) + _NUDGE_M, top_m)
    low_m = high_m - 2.0 * _NUDGE_M
    return (high_m - low_m) / (limbs.string_m(high_m) - limbs.string_m(low_m))
