"""A bow as it was measured, and what it does with a string, at one set of causes."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import sqrt
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import DomainError, Problem, require
from calc.mechanics.bow import HIGHEST, Bow, brace_limit
from calc.mechanics.estimate.calibration import Pair, calibrate
from calc.mechanics.estimate.known import Known
from calc.mechanics.estimate.limbs import Limbs
from calc.numerics import Spread, find_root

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from calc.mechanics.bow import LimbShape
    from calc.mechanics.estimate.calibration import Calibration
    from calc.mechanics.estimate.forms import Form

_NUDGE_M = 5e-4
_CLOSE_M = 1e-12
_NOTHING_M = 1e-9
"""A string shorter than the bow by no more than this does not brace it. [m]"""
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
    handle_length_m : float or None
        Whole stiff length; None: not known. [m]
    shape : LimbShape or None
        How the limbs bend; None: not known.
    pairs : tuple of Pair
        Strings that were on it, with the brace height each gave.
    """

    nock_to_nock_m: float
    handle_length_m: float | None
    shape: LimbShape | None
    pairs: tuple[Pair, ...] = ()

    def __post_init__(self) -> None:
        require("nock_to_nock_m", self.nock_to_nock_m, low=0.0, open_=True)
        if self.handle_length_m is not None and self.handle_length_m >= self.nock_to_nock_m:
            raise DomainError(
                Problem(field="handle_length_m", code="pair", other="nock_to_nock_m", reason="handle_long")
            )

    def causes(self) -> dict[str, Spread]:
        """Return what is uncertain about it: ``tape`` [m], ``handle`` [m], ``limb`` [-]."""
        handle = (
            practice("handle_usual").spread if self.handle_length_m is None else Spread.exactly(self.handle_length_m)
        )
        return {
            "tape": practice("tape_reading").spread,
            "handle": handle,
            "limb": practice("limb_unknown" if self.shape is None else "limb_told").spread,
        }

    def known(self) -> Known:
        """Return it with what is sure about it."""
        usual = practice("handle_usual").spread.value
        bow = Bow(
            self.nock_to_nock_m, usual if self.handle_length_m is None else self.handle_length_m, self.shape or "arc"
        )
        return Known(bow, shape_told=self.shape is not None, handle_told=self.handle_length_m is not None)

    def calibrated(self) -> Calibration | None:
        """Return the bow as its strings have shown it to be, None without any.

        Raises
        ------
        DomainError
            As `calibrate`, with field ``pairs``.
        """
        if not self.pairs:
            return None
        try:
            return calibrate(self.known(), self.pairs)
        except DomainError as error:
            problem = replace(error.problem, field="pairs", code="pair", reason=f"pair_{error.problem.reason or 'far'}")
            raise DomainError(problem) from None

    def at(self, causes: Mapping[str, float]) -> Limbs:
        """Return its limbs at one set of causes; a shape that is not known stands on the arc."""
        bow = Bow(self.nock_to_nock_m + causes["tape"], causes["handle"], self.shape or "arc")
        return Limbs(bow, causes["limb"])


@dataclass(frozen=True, slots=True)
class Held:
    """A bow that holds strings, at one set of causes: as measured, or as its strings have shown it.

    Attributes
    ----------
    form : Limbs or Form
    """

    form: Limbs | Form

    @property
    def nock_to_nock_m(self) -> float:
        """Along the belly [m]."""
        return self.form.bow.nock_to_nock_m if isinstance(self.form, Limbs) else self.form.nock_to_nock_m

    @property
    def limb_m(self) -> float:
        """Working limb [m]."""
        return self.form.bow.limb_m if isinstance(self.form, Limbs) else self.form.limb_m

    @property
    def highest_m(self) -> float:
        """Highest brace height the limbs are worked out for [m]."""
        if isinstance(self.form, Limbs):
            return brace_limit(self.form.bow)
        return HIGHEST * self.form.limb_m - self.form.proud_m

    def string_m(self, brace_m: float) -> float:
        """Return the string for a brace height [m]."""
        return self.form.string_m(brace_m)

    def brace_m(self, string_m: float) -> float:
        """Return the brace height a string gives, 0 for one too long to brace the bow [m]."""
        if isinstance(self.form, Limbs):
            return brace_on(self.form, string_m)
        form, proud_m = self.form, self.form.proud_m
        rise_m = _rise(
            lambda up_m: form.string_m(up_m - proud_m),
            string_m,
            bow_m=form.nock_to_nock_m,
            limb_m=form.limb_m,
            top_m=self.highest_m + proud_m,
        )
        return max(0.0, rise_m - proud_m)

    def slope(self, brace_m: float) -> float:
        """Return the change of brace height for a change of string length, negative [-].

        Notes
        -----
        Source: central difference of the string's length, over 1 mm.
        """
        high_m = min(max(brace_m, _FLOOR_M) + _NUDGE_M, self.highest_m)
        low_m = high_m - 2.0 * _NUDGE_M
        return (high_m - low_m) / (self.string_m(high_m) - self.string_m(low_m))


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
    return _rise(limbs.string_m, string_m, bow_m=bow.nock_to_nock_m, limb_m=bow.limb_m, top_m=brace_limit(bow))


def _rise(string_of: Callable[[float], float], string_m: float, *, bow_m: float, limb_m: float, top_m: float) -> float:
    """Return how far tips stand off the line of the limbs' belly with a string, at most `top_m` [m]."""
    wanted_m = bow_m - string_m
    if wanted_m <= _NOTHING_M:
        return 0.0
    most = top_m * top_m
    square, gone_m = 0.0, 0.0
    guess = 0.75 * limb_m * wanted_m * (1.0 - 0.35 * wanted_m / limb_m)
    for _ in range(_ROUNDS):
        guess = min(max(guess, square / 4.0, 1e-12), most)
        taken_m = bow_m - string_of(sqrt(guess))
        if abs(taken_m - wanted_m) < _CLOSE_M or taken_m == gone_m or (guess == most and taken_m <= wanted_m):
            break
        square, gone_m, guess = guess, taken_m, guess + (wanted_m - taken_m) * (guess - square) / (taken_m - gone_m)
    else:
        return _searched(lambda up_m: bow_m - string_of(up_m) - wanted_m, top_m)
    return sqrt(guess)


def _searched(off: Callable[[float], float], top_m: float) -> float:
    """Return the rise at which a string is as long as it is, between none and the most, where secants wander."""
    if off(0.0) >= 0.0:
        return 0.0
    return find_root(off, 0.0, top_m, within=1e-12) if off(top_m) > 0.0 else top_m
