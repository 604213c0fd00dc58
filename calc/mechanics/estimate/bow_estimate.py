"""A bow of which not everything is known: what was entered and measured, and what stays uncertain."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from math import exp, hypot, log
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import DomainError, Problem, require
from calc.mechanics.bow import CENTRAL, MOST_FOLLOW, Bow
from calc.mechanics.estimate.impossible_readings import check_forces, check_strings, too_far
from calc.mechanics.estimate.readings import Drawn, ForceRead, StringRead
from calc.mechanics.estimate.state import BowState
from calc.mechanics.estimate.unit_pulls import pulls
from calc.numerics import Moves, Spread, conditioned, moves_of

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from calc.mechanics.bow import LimbShape
    from calc.mechanics.estimate.unit_pulls import Seen

_LONGEST_HANDLE = 0.9
"""A handle that nobody measured is no longer than this share of a short bow."""
_MOST_SET = 0.99 * MOST_FOLLOW
"""Nor is its set, while readings are fitted, more than this share of a limb, just below what `Bow` takes. [-]"""
_USUAL_BRACE = 0.1
"""Brace height / nock to nock, as the trade has it. [-]"""
_ANY_STRENGTH = 50.0
"""How far a draw weight that nobody told may be from a first guess, as a logarithm: as far as you like. [-]"""
APART = 3.0
"""Readings further off from what fits best, in units of how unsure they are, do not go together."""
_FARTHEST = 5.0
"""Readings so far off are refused: further a straight line tells nothing."""
_WORST = 10.0
"""Strings so far from what fits best are refused too, whatever the causes did to come near. [-]"""
_SLIP = 1.0
"""A draw weight told and forces weighed that are nearly three times apart have a unit or a decimal wrong. [-]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class BowEstimate:
    """A bow as it is known.

    Parameters
    ----------
    nock_to_nock_m : float, > 0
        Along the belly. [m]
    handle_length_m : float or None, >= 0
        Whole stiff length; None: not known. [m]
    shape : Shape or None
        How the limbs bend; None: not known.
    bend : Spread or None
        How they bend as a picture showed it: 0 even, -1 `tapered`, 1 `uniform`; goes before `shape`. [-]
    handle_proud_m, string_follow_m : float or None
        As for `Bow`; None: not measured. [m]
    thread_gap_m : float or None
        From a thread that is stretched straight from nock to nock over the belly of the unbraced bow to where brace
        height is measured: set less what the handle stands proud, negative where the handle stands above the
        thread; None: not measured. [m]
    contact_m : float
        As for `Bow`. [m]
    draw_m : float or None, > 0
        Full draw, from the point where brace height is measured. [m]
    draw_weight_n : float or None, > 0
        Force there, as told. [N]
    braced_m : float or None, > 0
        As braced where forces were told or weighed; None: as the first of the strings had it, or as usual. [m]
    strings : tuple of StringRead
        Strings that were on it, with the brace height each gave.
    forces : tuple of ForceRead
        Forces that were weighed on it.

    Raises
    ------
    DomainError
        As `Bow`; ``pair`` with reason ``thread_apart`` for a thread that the handle and the set told do not allow.
    """

    nock_to_nock_m: float
    handle_length_m: float | None = None
    shape: LimbShape | None = None
    bend: Spread | None = None
    handle_proud_m: float | None = None
    string_follow_m: float | None = None
    thread_gap_m: float | None = None
    contact_m: float = 0.0
    draw_m: float | None = None
    draw_weight_n: float | None = None
    braced_m: float | None = None
    strings: tuple[StringRead, ...] = ()
    forces: tuple[ForceRead, ...] = ()

    def __post_init__(self) -> None:
        require("nock_to_nock_m", self.nock_to_nock_m, low=0.0, open_=True)
        for name in ("draw_m", "draw_weight_n", "braced_m"):
            if (value := getattr(self, name)) is not None:
                require(name, value, low=0.0, open_=True)
        self._check_thread()
        assert self.bow.limb_m > 0.0

    def _check_thread(self) -> None:
        if self.thread_gap_m is None or self.handle_proud_m is None or self.string_follow_m is None:
            return
        off_m = self.string_follow_m - self.handle_proud_m - self.thread_gap_m
        unsure_m = hypot(*(practice(name).spread.high for name in ("proud_reading", "follow_reading", "tape_reading")))
        if abs(off_m) > _FARTHEST * unsure_m:
            raise DomainError(
                Problem(field="thread_gap_m", code="pair", other="string_follow_m", reason="thread_apart")
            )

    @property
    def taken_shape(self) -> LimbShape:
        """The shape that the limbs stray from, as ``limb`` of `causes` tells."""
        return CENTRAL if self.bend is not None else self.shape or CENTRAL

    @property
    def bow(self) -> Bow:
        """The bow as it was told, with a usual handle and even limbs where nothing was."""
        usual_m = min(practice("handle_usual").spread.value, _LONGEST_HANDLE * self.nock_to_nock_m)
        return Bow(
            self.nock_to_nock_m,
            usual_m if self.handle_length_m is None else self.handle_length_m,
            self.taken_shape,
            *self._proud_and_follow(),
            self.contact_m,
        )

    def _proud_and_follow(self) -> tuple[float, float]:
        """Return how far the handle stands proud, and the set; what was not told, as little as a thread allows [m]."""
        proud_m, follow_m, gap_m = self.handle_proud_m, self.string_follow_m, self.thread_gap_m
        if gap_m is None:
            return proud_m or 0.0, follow_m or 0.0
        if follow_m is not None:
            return follow_m - gap_m if proud_m is None else proud_m, follow_m
        return (max(0.0, -gap_m), max(0.0, gap_m)) if proud_m is None else (proud_m, gap_m + proud_m)

    @property
    def causes(self) -> dict[str, Spread]:
        """What is uncertain before any reading: ``tape``, ``handle``, ``proud``, ``follow`` [m], ``limb`` [-].

        With a draw weight or forces ``strength`` too, the logarithm of draw weight / what it is taken for. [-]
        """
        found = {
            "tape": practice("tape_reading").spread,
            "handle": practice("handle_usual").spread
            if self.handle_length_m is None
            else Spread.exactly(self.handle_length_m),
            "limb": self.bend or practice("limb_unknown" if self.shape is None else "limb_told").spread,
            "proud": self._given_or_usual(self.handle_proud_m, "proud_reading", "proud_unknown"),
            "follow": self._given_or_usual(self.string_follow_m, "follow_reading", "follow_unknown"),
        }
        if self.draw_m is not None and (self.draw_weight_n is not None or self.forces):
            off = _ANY_STRENGTH
            if self.draw_weight_n is not None:
                off = self._off(ForceRead(self.draw_m, self.draw_weight_n, practice("weight_told").spread.high))
            found["strength"] = Spread(-off, 0.0, off)
        return found

    def _given_or_usual(self, told_m: float | None, reading: str, unknown: str) -> Spread:
        """Return a measure of the unstrung bow: told, and off by a reading, or as bows of its size are [m]."""
        if told_m is None:
            return practice(unknown).spread.scaled(self.bow.limb_m)
        return practice(reading).spread.shifted(told_m)

    def state(self, causes: Mapping[str, float]) -> BowState:
        """Return the bow at one set of causes; others than its own are of no account."""
        long_m = self.nock_to_nock_m + causes["tape"]
        handle_length_m = min(max(0.0, causes["handle"]), _LONGEST_HANDLE * long_m)
        limb_m = (long_m - handle_length_m) / 2.0 - self.contact_m
        return BowState(
            nock_to_nock_m=long_m,
            limb_m=limb_m,
            shape=self.taken_shape,
            mix=causes["limb"],
            proud_m=causes["proud"],
            follow=min(max(-_MOST_SET, causes["follow"] / limb_m), _MOST_SET),
            contact_m=self.contact_m,
            weight_n=self._taken_for() * exp(causes.get("strength", 0.0)),
        )

    @property
    def moves(self) -> Moves[Mapping[str, float]]:
        """All that it may be, by causes."""
        return _moves(self)

    @property
    def states(self) -> Moves[BowState]:
        """All that it may be."""
        return _all_states(self)

    @property
    def middle(self) -> BowState:
        """The bow as it is most likely."""
        return self.states.centre

    @property
    def misfit(self) -> float:
        """How far readings and bow are from what fits best, in units of how unsure they are [-]."""
        return self.moves.misfit

    @property
    def strayed(self) -> float:
        """How far tape, handle and limbs are from what was told of them, in units of how unsure they are [-]."""
        return hypot(*(by for name, by in self.moves.strayed.items() if name != "strength"))

    @property
    def apart(self) -> bool:
        """Whether the readings do not go together on a bow like this."""
        return self.misfit > APART

    def spreads(self, answer: Callable[[BowState], Mapping[str, float]]) -> dict[str, Spread]:
        """Return any figures of the bow with the spread of all that is not sure.

        Parameters
        ----------
        answer : callable
            Takes a settled bow, gives one number a figure.

        Examples
        --------
        >>> bow = BowEstimate(nock_to_nock_m=1.6, handle_length_m=0.2)
        >>> found = bow.spreads(lambda each: {"string": each.string_m(0.16)})["string"]
        >>> [round(each, 3) for each in (found.low, found.value, found.high)]
        [1.532, 1.55, 1.555]
        """
        return self.states.spreads(answer)

    def spread(self, answer: Callable[[BowState], float]) -> Spread:
        """Return one figure as `spreads` would."""
        return self.states.spread(answer)

    def given(self, *readings: StringRead | ForceRead) -> BowEstimate:
        """Return the bow with more that was read off it.

        Parameters
        ----------
        readings : StringRead or ForceRead
            Beside those that it has.

        Raises
        ------
        DomainError
            For strings, field ``pairs`` with reason ``pair_string_long`` for one no shorter than the bow,
            ``pair_string_stiff`` for one so long that even uniform limbs without a stiff middle would be braced lower,
            ``pair_string_short`` for one so short that no limb could bend so far, ``pair_far`` for readings that no
            bow of these measures goes with. For forces, ``pair`` with reason ``draw_short`` or ``draw_long``, field
            ``at_m`` or ``draw_m``; ``model`` with field ``readings`` and reason ``forces_apart``.

        Notes
        -----
        Source: `conditioned` (``derived:estimate``). A string is held against the one the limbs ask for at the
        brace height it gave, off by a tape reading of each; a force against the same limbs at its draw, off by its
        share and by a tape reading. A draw weight that was told is what the bow's strength is taken for, within
        ``weight_told`` of the constants. Leaves out that a string stretches more on a bow it braces higher, and that
        two readings with one scale are off together.

        Examples
        --------
        A tapered bow that was taken for an arc, and its first string:

        >>> from calc.mechanics.bow.brace import string_length
        >>> real = Bow(1.70, 0.25, "tapered")
        >>> found = BowEstimate(nock_to_nock_m=1.70).given(StringRead(string_length(real, 0.15), 0.15))
        >>> again = found.spread(lambda each: each.brace_m(string_length(real, 0.18)))
        >>> round(again.low, 3), round(again.value, 3), round(again.high, 3)
        (0.178, 0.182, 0.186)
        """
        strings = tuple(each for each in readings if isinstance(each, StringRead))
        forces = tuple(each for each in readings if isinstance(each, ForceRead))
        found = replace(self, strings=(*self.strings, *strings), forces=(*self.forces, *forces))
        check_strings(found.bow, strings)
        check_forces(found)
        try:
            moves = found.moves
        except DomainError as error:
            raise too_far(found, error.problem, farthest=_FARTHEST) from None
        slip = 0.0 if found.draw_weight_n is None else moves.centre.get("strength", 0.0)
        if found.strayed > _FARTHEST or abs(slip) > _SLIP or (not found.forces and found.misfit > _WORST):
            raise too_far(found, None, farthest=_FARTHEST)
        return found

    def drawn(self, *, brace_m: float | None = None, string_m: float | None = None) -> Moves[Drawn]:
        """Return the bow braced and fully drawn, all that it may be.

        Parameters
        ----------
        brace_m, string_m : float, optional
            One of them: brace height, or the string that braces it. [m]

        Raises
        ------
        DomainError
            ``missing`` where neither is told, or no draw; as `static_tension` otherwise.
        """
        if self.draw_m is None:
            raise DomainError(Problem(field="draw_m", code="missing"))
        if brace_m is None and string_m is None:
            raise DomainError(Problem(field="brace_m", code="missing", other="string_m"))
        return _drawn(self, brace_m, string_m)

    @property
    def reference_m(self) -> float:
        """Brace height at which the draw weight is told; a tenth of nock to nock where nothing says it [m]."""
        if self.braced_m is not None:
            return self.braced_m
        return self.strings[0].brace_m if self.strings else _USUAL_BRACE * self.nock_to_nock_m

    def off(self, causes: Mapping[str, float], seen: Seen | None = None) -> list[float]:
        """Return how far each reading would be off at one set of causes, in units of how unsure it is.

        Parameters
        ----------
        causes : mapping of str to float
        seen : dict, optional
            States of the limbs, to look for others near them; filled.

        Raises
        ------
        DomainError
            As `pulls`; ``model`` with reason ``forces_apart`` for a bow that would have to push.
        """
        state = self.state(causes)
        tape_m = practice("tape_reading").spread.high
        found = []
        if self.thread_gap_m is not None:
            found.append((causes["follow"] - causes["proud"] - self.thread_gap_m) / tape_m)
        for each in self.strings:
            unsure_m = tape_m * hypot(1.0, 1.0 / state.slope(each.brace_m))
            found.append((state.string_m(each.brace_m) - each.string_m) / unsure_m)
        if not self.forces:
            return found
        assert self.draw_m is not None
        places = tuple((each.brace_m, each.draw_m) for each in self.forces)
        made = pulls(state, self.reference_m, self.draw_m, places, seen or {})
        if seen is not None:
            seen |= made.seen
        if min(made.forces) <= 0.0:
            raise DomainError(Problem(field="readings", code="model", reason="forces_apart"))
        logs = (log(state.weight_n * said / each.force_n) for each, said in zip(self.forces, made.forces, strict=True))
        return [*found, *(by / self._off(each) for by, each in zip(logs, self.forces, strict=True))]

    def _off(self, reading: ForceRead) -> float:
        """Return how far off the logarithm of a force may be [-]."""
        way_m = reading.draw_m - (self.reference_m if reading.brace_m is None else reading.brace_m)
        return hypot(reading.off, practice("tape_reading").spread.high / way_m) if way_m > 0.0 else reading.off

    def _taken_for(self) -> float:
        """Return the draw weight that ``strength`` is told against [N]."""
        if self.draw_weight_n is not None:
            return self.draw_weight_n
        if not self.forces or self.draw_m is None:
            return 1.0
        first = self.forces[0]
        at_m = self.reference_m if first.brace_m is None else first.brace_m
        return first.force_n * (self.draw_m - self.reference_m) / (first.draw_m - at_m)


@lru_cache(maxsize=64)
def _moves(bow: BowEstimate) -> Moves[Mapping[str, float]]:
    if not bow.strings and not bow.forces and bow.thread_gap_m is None:
        return moves_of(bow.causes)
    seen: Seen = {}
    return conditioned(bow.causes, lambda at: bow.off(at, seen))


@lru_cache(maxsize=64)
def _all_states(bow: BowEstimate) -> Moves[BowState]:
    return bow.moves.mapped(bow.state)


@lru_cache(maxsize=32)
def _drawn(bow: BowEstimate, brace_m: float | None, string_m: float | None) -> Moves[Drawn]:
    assert bow.draw_m is not None
    draw_m, told_m = bow.draw_m, bow.reference_m
    seen: Seen = {}

    def of(state: BowState) -> Drawn:
        at_m = state.brace_m(string_m or 0.0) if brace_m is None else brace_m
        found = pulls(state, at_m, draw_m, () if at_m == told_m else ((told_m, draw_m),), seen)
        seen.update(found.seen)
        weight_n = state.weight_n / (found.forces[0] if found.forces else 1.0)
        return Drawn(
            state=state,
            brace_m=at_m,
            weight_n=weight_n,
            brace_n=weight_n * found.brace,
            draw_n=weight_n * found.draw,
            energy_j=weight_n * found.energy_m,
        )

    return bow.states.mapped(of)
