"""Brace height and string length of a measured bow, one from the other, and what turns can still change."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from math import cos
from typing import TYPE_CHECKING

from calc.data import practice, rule
from calc.errors import DomainError, Problem, require
from calc.geometry.ends import RoundTip, loop_nocked
from calc.geometry.lay import middle_lay
from calc.making.string import plied, turned_to_lay
from calc.mechanics.estimate import Held, learn
from calc.numerics import combine

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from calc.mechanics.bow import Bow
    from calc.mechanics.estimate import Calibration, Learnt, Stave, Weights
    from calc.numerics import Spread

STEP_M = 0.0127
"""A step of string length a hand can make, half an inch. [m]"""
_LEAST_BRACE_M = 0.0508
"""Below this a string hardly braces a bow. [m]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Braced:
    """A string on a bow.

    Attributes
    ----------
    stave : Stave
    calibration : Calibration or None
        What strings that were on it have shown; None where none were measured.
    learnt : Learnt or None
        What weighed forces have shown; None where none were weighed.
    causes, figures : mapping of str to Spread
        What is uncertain about the bow before any string was on it, and what comes of it all, by row key.
    """

    stave: Stave
    calibration: Calibration | None
    learnt: Learnt | None
    causes: Mapping[str, Spread]
    figures: Mapping[str, Spread]

    def held(self) -> Held:
        """Return the bow in the middle of what is uncertain."""
        return self._shown().middle()

    def bow(self) -> Bow:
        """Return the same as a bow to draw."""
        return self._shown().bow()

    def heights(self, strings: Sequence[float]) -> tuple[Spread, ...]:
        """Return the brace height of each string [m]."""
        found = self._shown().spreads(lambda held, _: {f"{k}": held.brace_m(each) for k, each in enumerate(strings)})
        return tuple(found.values())

    def by_rule(self) -> dict[str, Spread]:
        """Return the brace height that a string as short as the trade's rule has it would give.

        Returns
        -------
        dict of str to Spread
            ``rule_low`` and ``rule_high`` for the least and the most the rule takes off [m]; empty for a bow too short.

        Notes
        -----
        Source: ``string_shorter`` of ``calc/data/rules.toml`` on these limbs.
        """
        shorter = rule("string_shorter").figure("shorter by").spread
        middle = self.held()
        if middle.nock_to_nock_m - shorter.high < middle.string_m(middle.highest_m):
            return {}

        def answer(held: Held, _: float) -> dict[str, float]:
            bow_m = held.nock_to_nock_m
            return {"rule_low": held.brace_m(bow_m - shorter.low), "rule_high": held.brace_m(bow_m - shorter.high)}

        return self._shown().spreads(answer)

    def taught(self) -> dict[str, Spread | float]:
        """Return what weighed forces made of the bow, by row key; nothing where none were weighed."""
        if self.learnt is None:
            return {}
        string_m = self.figures["string_length"].value
        if self.learnt.now.asked.string_m is None:
            return self.learnt.figures(lambda each: each.form.string_m(each.brace_m))
        return self.learnt.figures(lambda each: Held(each.form).brace_m(string_m))

    def _shown(self) -> _Shown:
        return _Shown(self.stave, self.calibration, self.learnt)

    def worst(self, *, from_brace: bool) -> str:
        """Return the cause that alone moves the answer most: the string's length, or the brace height."""
        brace_m, string_m = (self.figures[key].value for key in ("brace_height", "string_length"))
        centre = {name: each.value for name, each in self.causes.items()}

        def moves(name: str) -> float:
            spread = self.causes[name]
            ends = [Held(self.stave.at({**centre, name: end})) for end in (spread.low, spread.high)]
            if from_brace:
                return max(abs(each.string_m(brace_m) - string_m) for each in ends)
            return max(abs(each.brace_m(string_m) - brace_m) for each in ends)

        return max(self.stave.causes(), key=moves)


@dataclass(frozen=True, slots=True)
class _Shown:
    """A bow as it was measured, and as strings and forces have shown it."""

    stave: Stave
    calibration: Calibration | None
    learnt: Learnt | None

    def middle(self) -> Held:
        if self.learnt is not None and self.learnt.tells_bow:
            return Held(self.learnt.now.middle.form)
        if self.calibration is not None:
            return Held(self.calibration.form)
        return Held(self.stave.at({name: each.value for name, each in self.stave.causes().items()}))

    def bow(self) -> Bow:
        if self.learnt is not None and self.learnt.tells_bow:
            return self.learnt.now.middle.form.ends()[0][0]
        if self.calibration is not None:
            return self.calibration.bow
        return self.stave.at({name: each.value for name, each in self.stave.causes().items()}).bow

    def spreads(self, answer: Callable[[Held, float], Mapping[str, float]]) -> dict[str, Spread]:
        """Return figures with everything moved that is not sure; an answer takes the bow and the size of a tip [m]."""
        tip = practice("tip_usual").spread
        if self.learnt is not None and self.learnt.tells_bow:
            return self.learnt.now.spreads(lambda drawn: answer(Held(drawn.form), tip.value))
        if self.calibration is not None:
            return self.calibration.spreads(lambda form: answer(Held(form), tip.value))
        return combine(lambda at: answer(Held(self.stave.at(at)), at["tip"]), {**self.stave.causes(), "tip": tip})

    def braced(self, answer: Callable[[Held, float], Mapping[str, float]]) -> Braced:
        return Braced(
            stave=self.stave,
            calibration=self.calibration,
            learnt=self.learnt,
            causes=self.stave.causes(),
            figures=self.spreads(answer),
        )


def string_for(stave: Stave, brace_m: float, tail_m: float, weights: Weights | None = None) -> Braced:
    """Return the string that gives a brace height.

    Parameters
    ----------
    stave : Stave
        The bow.
    brace_m : float, > 0
        Wanted. [m]
    tail_m : float, > 0
        Longest strand end that is laid into each splice: what is not free to be turned. [m]
    weights : Weights, optional
        Forces that were weighed.

    Returns
    -------
    Braced

    Raises
    ------
    DomainError
        ``max`` for a brace height the bow cannot take; ``pair`` with reason ``tails_long`` when splices leave no
        free body; as `Stave.calibrated` and `learn`.

    Notes
    -----
    Source: `string_length` (``derived:limbs``), spread over tape, handle and limb shape; where strings
    were measured, `calibrate` (``derived:calibrate``); where two forces were weighed,
    `weigh` (``derived:weigh``).
    """
    calibration = stave.calibrated()
    require("brace_m", brace_m, low=0.0, high=_Shown(stave, calibration, None).middle().highest_m)
    learnt = None if weights is None else learn(stave, calibration, weights, brace_m=brace_m)

    def answer(held: Held, tip_m: float) -> dict[str, float]:
        string_m = held.string_m(min(brace_m, held.highest_m))
        return {"brace_height": brace_m, **_around(held, string_m, brace_m, tail_m, tip_m)}

    return _Shown(stave, calibration, learnt).braced(answer)


def brace_for(stave: Stave, string_m: float, tail_m: float, weights: Weights | None = None) -> Braced:
    """Return the brace height that a string gives.

    Parameters
    ----------
    stave : Stave
        As for `string_for`.
    string_m : float, > 0
        On the braced bow, nock to nock. [m]
    tail_m, weights
        As for `string_for`.

    Raises
    ------
    DomainError
        ``max`` with reason ``string_long`` for a string that does not brace the bow by 2 in, ``min`` with reason
        ``string_short`` for one that would bend the limbs past what they are worked out for; else as `string_for`.
    """
    calibration = stave.calibrated()
    middle = _Shown(stave, calibration, None).middle()
    longest_m = middle.string_m(min(_LEAST_BRACE_M, middle.highest_m / 2.0))
    shortest_m = middle.string_m(middle.highest_m)
    if string_m > longest_m:
        raise DomainError(Problem(field="string_m", code="max", limit=longest_m, reason="string_long"))
    if string_m < shortest_m:
        raise DomainError(Problem(field="string_m", code="min", limit=shortest_m, reason="string_short"))
    learnt = None if weights is None else learn(stave, calibration, weights, string_m=string_m)

    def answer(held: Held, tip_m: float) -> dict[str, float]:
        brace_m = held.brace_m(string_m)
        return {"brace_height": brace_m, **_around(held, string_m, brace_m, tail_m, tip_m)}

    return _Shown(stave, calibration, learnt).braced(answer)


def _around(held: Held, string_m: float, brace_m: float, tail_m: float, tip_m: float) -> dict[str, float]:
    """Return everything about a string of known length and brace height."""
    body_m = free_body(string_m, tail_m, tip_m)
    longer, shorter = turned()
    return {
        "string_length": string_m,
        "brace_per_length": held.slope(brace_m),
        "brace_step": held.brace_m(string_m - STEP_M) - brace_m,
        "deficit": held.nock_to_nock_m - string_m,
        "deficit_quick": 4.0 * brace_m**2 / (3.0 * held.limb_m),
        "limb": held.limb_m,
        "free_body": body_m,
        "string_longest": string_m + body_m * longer,
        "string_shortest": string_m + body_m * shorter,
        "brace_low": held.brace_m(string_m + body_m * longer),
        "brace_high": held.brace_m(string_m + body_m * shorter),
    }


def free_body(string_m: float, tail_m: float, tip_m: float) -> float:
    """Return what lies between the splices of a braced string [m].

    Parameters
    ----------
    string_m, tail_m, tip_m : float, > 0
        Nock to nock; tails laid in; round limb tip. [m]

    Raises
    ------
    DomainError
        ``pair`` with reason ``tails_long`` when there is none.

    Notes
    -----
    Source: own composition (``derived:body``): string less two throats and two splices at their usual lay.
    """
    loop = loop_nocked(RoundTip(tip_m), practice("cord_thinnest").spread.value, practice("throat_opening").spread.value)
    ends_m = loop.throat_m - tip_m / 2.0 + tail_m * cos(practice("lay_splice").spread.value)
    left_m = string_m - 2.0 * ends_m
    if left_m <= 0.0:
        raise DomainError(Problem(field="tail_m", code="pair", other="nock_to_nock_m", reason="tails_long"))
    return left_m


@cache
def turned() -> tuple[float, float]:
    """Return how much longer and shorter turns make a free body that was laid in the middle of its window [-].

    Notes
    -----
    Source: `turned_to_lay` for two bundles from `middle_lay` to the loosest and the tightest lay (``derived:window``);
    the thickness of the cord drops out.

    Examples
    --------
    >>> [round(100 * each, 1) for each in turned()]
    [1.3, -1.9]
    """
    loosest, tightest = (practice(name).spread.value for name in ("lay_loosest", "lay_tightest"))
    made = plied(1.0, 0.002, 2, middle_lay(loosest, tightest))
    longer, shorter = (turned_to_lay(made, 0.002, 2, each).cord_m for each in (loosest, tightest))
    return longer / made.cord_m - 1.0, shorter / made.cord_m - 1.0
