"""Brace height and string length of a measured bow, one from the other, and what turns can still change."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache
from math import cos
from typing import TYPE_CHECKING, Literal, cast

from calc.data import practice, rule
from calc.errors import DomainError, Problem, require
from calc.geometry.ends import RoundTip, loop_nocked
from calc.geometry.lay import middle_lay
from calc.making.string import plied, turned_to_lay
from calc.mechanics.estimate import ForceRead, StringRead
from calc.numerics import beside

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from calc.mechanics.estimate import BowEstimate, BowState
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
    bow : BowEstimate
        With all that was read off it.
    before : BowEstimate
        The bow by its measures alone, with its draw weight as it was told.
    figures : mapping of str to Spread
        What comes of it all, by row key.
    asked : {"brace_height", "string_length"}
        Which of the two was worked out.
    """

    bow: BowEstimate
    before: BowEstimate
    figures: Mapping[str, Spread]
    asked: Literal["brace_height", "string_length"]

    def heights(self, strings: Sequence[float]) -> tuple[Spread, ...]:
        """Return the brace height of each string [m]."""
        found = self.bow.spreads(lambda each: {f"{k}": each.brace_m(string_m) for k, string_m in enumerate(strings)})
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
        middle = self.bow.middle
        if middle.nock_to_nock_m - shorter.high < middle.string_m(middle.highest_m):
            return {}

        def answer(each: BowState) -> dict[str, float]:
            bow_m = each.nock_to_nock_m
            return {"rule_low": each.brace_m(bow_m - shorter.low), "rule_high": each.brace_m(bow_m - shorter.high)}

        return self.bow.spreads(answer)

    def read(self) -> dict[str, Spread | float]:
        """Return what strings that were on the bow made of the brace height of the first, by row key."""
        if not self.bow.strings:
            return {}
        string_m = self.bow.strings[0].string_m
        first, now = (each.spread(lambda state: state.brace_m(string_m)) for each in (self.before, self.bow))
        return {"first_guess": first, "calibrated": now, "shrink": _left(now, first)}

    def weighed(self) -> dict[str, Spread | float]:
        """Return what forces made of the bow, by row key; nothing where none is known."""
        if "strength" not in self.bow.causes:
            return {}
        now, first = self._drawn(self.bow), self._drawn(self.before) if "strength" in self.before.causes else {}
        found: dict[str, Spread | float] = {
            "weight_found": now["weight"],
            "tension_brace": now["pull"],
            "tension_draw": now["drawn"],
            "stored_energy": now["energy"],
            "length_first": (first or now)["length"],
        }
        if not first:
            found["length_first"] = self.before.spread(self._answer)
        found["length_left"] = _left(now["length"], cast("Spread", found["length_first"]))
        for key in ("weight", "pull", "energy") if first else ():
            found |= {f"{key}_first": first[key], f"{key}_left": _left(now[key], first[key])}
        return found

    def _drawn(self, bow: BowEstimate) -> dict[str, Spread]:
        """Return draw weight, pulls, energy and the answer a reader waits for."""
        if self.asked == "string_length":
            drawn = bow.drawn(brace_m=self.figures["brace_height"].value)
        else:
            drawn = bow.drawn(string_m=self.figures["string_length"].value)
        return drawn.spreads(
            lambda each: {
                "weight": each.weight_n,
                "pull": each.brace_n,
                "drawn": each.draw_n,
                "energy": each.energy_j,
                "length": self._answer(each.state),
            }
        )

    def _answer(self, state: BowState) -> float:
        if self.asked == "string_length":
            return state.string_m(self.figures["brace_height"].value)
        return state.brace_m(self.figures["string_length"].value)

    def worst(self) -> str:
        """Return the cause that alone moves the answer most, before anything was read."""
        bow, left_out = self.before, {"strength"}
        if bow.thread_gap_m is not None:
            bow = replace(bow, thread_gap_m=None, handle_proud_m=bow.bow.handle_proud_m)
            left_out.add("proud")
        middle = self._answer(bow.middle)
        ends = [each for each in bow.states.ends if each[0] not in left_out]
        return max(ends, key=lambda each: max(abs(self._answer(end) - middle) for end in each[1:]))[0]


def _left(now: Spread, first: Spread) -> float:
    """Return the share of a spread's width that is left [-]."""
    return (now.high - now.low) / (first.high - first.low)


def string_for(bow: BowEstimate, brace_m: float, tail_m: float, *readings: StringRead | ForceRead) -> Braced:
    """Return the string that gives a brace height.

    Parameters
    ----------
    bow : BowEstimate
        By its measures.
    brace_m : float, > 0
        Wanted. [m]
    tail_m : float, > 0
        Longest strand end that is laid into each splice: what is not free to be turned. [m]
    readings : StringRead or ForceRead
        Off this bow.

    Raises
    ------
    DomainError
        ``max`` for a brace height the bow cannot take; ``pair`` with reason ``tails_long`` when splices leave no
        free body; as `BowEstimate.given`.

    Notes
    -----
    Source: `BowState.string_m` (``derived:limbs``), spread over tape, handle and limb shape, and what readings
    leave of them (``derived:estimate``).
    """
    strings, forces = _sorted(readings)
    require("brace_m", brace_m, low=0.0, high=_by_strings(bow, strings).highest_m)
    before = _braced_at(bow, strings, brace_m)
    found = before.given(*strings, *forces)

    def answer(state: BowState, tip_m: float) -> dict[str, float]:
        string_m = state.string_m(brace_m)
        return {"brace_height": brace_m, **_around(state, string_m, brace_m, tail_m, tip_m)}

    return Braced(bow=found, before=before, figures=_figures(found, answer), asked="string_length")


def brace_for(bow: BowEstimate, string_m: float, tail_m: float, *readings: StringRead | ForceRead) -> Braced:
    """Return the brace height that a string gives.

    Parameters
    ----------
    bow : BowEstimate
        As for `string_for`.
    string_m : float, > 0
        On the braced bow, nock to nock. [m]
    tail_m, readings
        As for `string_for`.

    Raises
    ------
    DomainError
        ``max`` with reason ``string_long`` for a string that does not brace the bow by 2 in, ``min`` with reason
        ``string_short`` for one that would bend the limbs past what they are worked out for; else as `string_for`.
    """
    strings, forces = _sorted(readings)
    middle = _by_strings(bow, strings)
    longest_m = middle.string_m(min(_LEAST_BRACE_M, middle.highest_m / 2.0))
    shortest_m = middle.string_m(middle.highest_m)
    if string_m > longest_m:
        raise DomainError(Problem(field="string_m", code="max", limit=longest_m, reason="string_long"))
    if string_m < shortest_m:
        raise DomainError(Problem(field="string_m", code="min", limit=shortest_m, reason="string_short"))
    before = _braced_at(bow, strings, middle.brace_m(string_m))
    found = before.given(*strings, *forces)

    def answer(state: BowState, tip_m: float) -> dict[str, float]:
        brace_m = state.brace_m(string_m)
        return {"brace_height": brace_m, **_around(state, string_m, brace_m, tail_m, tip_m)}

    return Braced(bow=found, before=before, figures=_figures(found, answer), asked="brace_height")


def _sorted(readings: Sequence[StringRead | ForceRead]) -> tuple[tuple[StringRead, ...], tuple[ForceRead, ...]]:
    return (
        tuple(each for each in readings if isinstance(each, StringRead)),
        tuple(each for each in readings if isinstance(each, ForceRead)),
    )


def _by_strings(bow: BowEstimate, strings: Sequence[StringRead]) -> BowState:
    """Return the bow that strings show, whatever its strength."""
    return replace(bow, draw_m=None, draw_weight_n=None).given(*strings).middle


def _braced_at(bow: BowEstimate, strings: Sequence[StringRead], brace_m: float) -> BowEstimate:
    """Return a bow whose forces were read as the first of its strings had it, or else as it is asked about."""
    return replace(bow, braced_m=strings[0].brace_m if strings else brace_m)


def _figures(bow: BowEstimate, answer: Callable[[BowState, float], dict[str, float]]) -> dict[str, Spread]:
    """Return figures with everything moved that is not sure; where nothing was read, the size of a tip too [m]."""
    tip = practice("tip_usual").spread
    if bow.strings or bow.forces:
        return bow.spreads(lambda state: answer(state, tip.value))
    moves = beside(bow.moves, {"tip": tip})
    return moves.spreads(lambda at: answer(bow.state(at), at["tip"]))


def _around(state: BowState, string_m: float, brace_m: float, tail_m: float, tip_m: float) -> dict[str, float]:
    """Return everything about a string of known length and brace height."""
    body_m = free_body(string_m, tail_m, tip_m)
    longer, shorter = turned()
    return {
        "string_length": string_m,
        "brace_per_length": state.slope(brace_m),
        "brace_step": state.brace_m(string_m - STEP_M) - brace_m,
        "deficit": state.nock_to_nock_m - string_m,
        "deficit_quick": 4.0 * brace_m**2 / (3.0 * state.limb_m),
        "limb": state.limb_m,
        "free_body": body_m,
        "string_longest": string_m + body_m * longer,
        "string_shortest": string_m + body_m * shorter,
        "brace_low": state.brace_m(string_m + body_m * longer),
        "brace_high": state.brace_m(string_m + body_m * shorter),
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
