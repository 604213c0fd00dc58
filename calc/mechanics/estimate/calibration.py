"""A bow calibrated by strings that were on it, so that the next string comes out right."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache, partial
from math import hypot
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import DomainError, Problem, require
from calc.mechanics.bow import HIGHEST, brace_height, brace_per_length, string_length
from calc.mechanics.estimate.fitting import Read, best_limb
from calc.mechanics.estimate.forms import Form, strayed_reach
from calc.numerics import Spread, combine

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from calc.mechanics.bow import Bow
    from calc.mechanics.estimate.known import Known

_ALMOST = 1.0 - 1e-9
"""A limb at its shortest, but for the last digits."""


@dataclass(frozen=True, slots=True)
class Pair:
    """A string that was on the bow, as long as it was there, and the brace height it gave [m]."""

    string_m: float
    brace_m: float


@dataclass(frozen=True, slots=True)
class Calibration:
    """A bow as its strings have shown it to be.

    Attributes
    ----------
    bow : Bow
        With the working limb, and with two pairs or more the depth of the handle, that fit best; its set keeps its
        share of the limb.
    known : Known
        The first guess; its limbs uniform where those that were told cannot do what was measured.
    pairs : tuple of Pair
        What was measured.
    first, now : Spread
        Brace height for the first of these strings: guessed, and calibrated. [m]
    form : Form
        The fit itself.
    """

    bow: Bow
    known: Known
    pairs: tuple[Pair, ...]
    first: Spread
    now: Spread
    form: Form

    @property
    def shrink(self) -> float:
        """Width of what is left of the first guess' spread / its width [-]."""
        return (self.now.high - self.now.low) / (self.first.high - self.first.low)

    @property
    def causes(self) -> dict[str, Spread]:
        """Everything the fit hangs on: limb shape [-], tape, handle's depth, and every reading [m]."""
        return _causes(self.known, len(self.pairs))

    def form_at(self, causes: Mapping[str, float]) -> Form:
        """Return the fit done again with its causes moved."""
        return _fitted(self.known, self.pairs, tuple(causes.items()))

    def brace_height(self, string_m: float) -> Spread:
        """Return the brace height another string will give.

        Parameters
        ----------
        string_m : float
            As long as it is on the braced bow. [m]

        Raises
        ------
        DomainError
            As `brace_height` for the calibrated bow.
        """
        brace_height(self.bow, string_m)
        return _spread(self.known, self.pairs, lambda form: form.brace_m(string_m))

    def spreads(self, answer: Callable[[Form], Mapping[str, float]]) -> dict[str, Spread]:
        """Return any figures of the calibrated bow, with everything moved that the fit hangs on.

        Parameters
        ----------
        answer : callable
            Takes a fitted form, gives one number a figure.
        """
        return _spreads(self.known, self.pairs, answer)

    def string_length(self, brace_m: float) -> Spread:
        """Return the string for a brace height.

        Parameters
        ----------
        brace_m : float
            [m]

        Raises
        ------
        DomainError
            As `string_length` for the calibrated bow.
        """
        string_length(self.bow, brace_m)
        return _spread(self.known, self.pairs, lambda form: form.string_m(brace_m))


def calibrate(known: Known, pairs: Sequence[Pair]) -> Calibration:
    """Fit a bow to strings that were on it.

    Parameters
    ----------
    known : Known
        The bow as measured; its nock-to-nock length is kept, the length of its working limb is fitted. Where no limb
        of its shape is long enough the limbs are taken for `uniform`.
    pairs : sequence of Pair
        One or more; from two on the depth of the handle is fitted too, as far as the pairs can tell.

    Raises
    ------
    DomainError
        ``missing`` without pairs; ``pair`` with reason ``string_long`` for a string no shorter than the bow,
        ``string_stiff`` for one so long that even uniform limbs without a stiff middle would be braced lower,
        ``string_short`` for one so short that what is left of the limb could not bend so far.

    Notes
    -----
    Source: own derivation (``derived:calibrate``). Between strings of one bow the geometry leaves little to guess:
    bow less string grows as brace height squared / working limb, whatever the shape, so that one pair settles the
    limb. Fit by Gauss and Newton, each reading weighed by `tape_reading`, the depth of the handle held to what was
    told by `proud_reading` of the constants. Spread: the fit done again with every reading, the shape and the depth
    moved alone, in quadrature. Leaves out that a string stretches more on a bow it braces higher.

    Examples
    --------
    A tapered bow that was taken for an arc, and its first string:

    >>> from calc.mechanics.bow.bow import CENTRAL, Bow
    >>> from calc.mechanics.estimate.known import Known
    >>> real = Bow(1.70, 0.25, "tapered")
    >>> found = calibrate(Known(Bow(1.70, 0.15, CENTRAL)), [Pair(string_length(real, 0.15), 0.15)])
    >>> round(found.brace_height(string_length(real, 0.18)).value, 3), round(found.shrink, 1)
    (0.18, 0.4)
    """
    if not pairs:
        raise DomainError(Problem(field="pairs", code="missing"))
    for each in pairs:
        require("string_m", each.string_m, low=0.0, open_=True)
        require("brace_m", each.brace_m, low=0.0, open_=True)
        _refuse("string_long", each.string_m, known.bow.nock_to_nock_m, high=True)
    known, form = _fitting(known, pairs)
    room_m, first = _room_m(known.bow), pairs[0].string_m
    if form.limb_m > room_m:
        _refuse("string_stiff", first, replace(form, limb_m=room_m).string_m(pairs[0].brace_m), high=True)
    if max(each.brace_m for each in pairs) + form.proud_m >= _ALMOST * HIGHEST * form.limb_m:
        _refuse("string_short", first, first, high=False)
    bow = replace(
        known.bow,
        handle_length_m=2.0 * (room_m - form.limb_m),
        handle_proud_m=form.proud_m,
        string_follow_m=known.bow.follow * form.limb_m,
    )
    guess = known.spread(lambda each: _guess(each, first))
    now = _spread(known, pairs, lambda each: each.brace_m(first))
    return Calibration(bow, known, tuple(pairs), guess, now, form)


def _room_m(bow: Bow) -> float:
    return bow.nock_to_nock_m / 2.0 - bow.contact_m


def _fitting(known: Known, pairs: Sequence[Pair]) -> tuple[Known, Form]:
    """Return the bow as told, or with uniform limbs where none of its own shape is long enough, and its fit."""
    form = _fitted(known, tuple(pairs), ())
    if form.limb_m <= _room_m(known.bow):
        return known, form
    even = replace(known, bow=replace(known.bow, shape="uniform"))
    return even, _fitted(even, tuple(pairs), ())


def _refuse(reason: str, string_m: float, limit_m: float, *, high: bool) -> None:
    if (string_m >= limit_m) if high else (string_m <= limit_m):
        raise DomainError(Problem(field="string_m", code="pair", limit=limit_m, other="nock_to_nock_m", reason=reason))


def _guess(bow: Bow, string_m: float) -> float:
    return Form(bow, 0.0, bow.nock_to_nock_m, bow.limb_m, bow.handle_proud_m).brace_m(string_m)


def _spread(known: Known, pairs: Sequence[Pair], answer: Callable[[Form], float]) -> Spread:
    return _spreads(known, pairs, lambda form: {"answer": answer(form)})["answer"]


def _spreads(known: Known, pairs: Sequence[Pair], answer: Callable[[Form], Mapping[str, float]]) -> dict[str, Spread]:
    """Return answers with everything moved that the fit hangs on."""
    strings = tuple(pairs)
    causes = _causes(known, len(strings))
    return combine(lambda moved: answer(_fitted(known, strings, tuple(moved.items()))), causes)


def _causes(known: Known, count: int) -> dict[str, Spread]:
    tape = practice("tape_reading").spread
    causes = {"limb": known.limb, "tape": tape, "proud": practice("proud_reading").spread}
    for at in range(count):
        causes |= {f"string {at}": tape, f"brace {at}": tape}
    return causes


@lru_cache(maxsize=128)
def _fitted(known: Known, pairs: tuple[Pair, ...], moved: tuple[tuple[str, float], ...]) -> Form:
    """Return `_fit`, kept: every figure of a calibrated bow asks for the same ones."""
    if not moved:
        return _fit(known, pairs, {})
    middle = _fitted(known, pairs, ())
    return _fit(known, pairs, dict(moved), middle) if any(by for _, by in moved) else middle


def _fit(known: Known, pairs: Sequence[Pair], moved: Mapping[str, float], near: Form | None = None) -> Form:
    """Return the form that fits best when the causes are moved, looked for from one that is near."""
    bow = known.bow
    told_m = bow.handle_proud_m + moved.get("proud", 0.0)
    mix, nock_m = moved.get("limb", 0.0), bow.nock_to_nock_m + moved.get("tape", 0.0)
    tape_m, proud_m = (practice(name).spread.high for name in ("tape_reading", "proud_reading"))
    reads = []
    for at, each in enumerate(pairs):
        brace_m = each.brace_m + moved.get(f"brace {at}", 0.0)
        over_m = nock_m - each.string_m - moved.get(f"string {at}", 0.0)
        reads.append(Read(over_m, brace_m, 1.0 / (tape_m * hypot(1.0, 1.0 / _slope(bow, brace_m)))))
    start = (bow.limb_m, told_m) if near is None else (near.limb_m, near.proud_m)
    reach = partial(strayed_reach, bow.shape, bow.follow, mix)
    return Form(bow, mix, nock_m, *best_limb(reach, reads, start, (told_m, proud_m), HIGHEST))


def _slope(bow: Bow, brace_m: float) -> float:
    """Return how steeply brace height answers to string, roughly; for weighing readings only."""
    return -brace_per_length(replace(bow, shape="hinged", string_follow_m=0.0), min(brace_m, 0.5 * bow.limb_m))
