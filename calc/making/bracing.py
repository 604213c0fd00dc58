"""Brace height and string length of a measured bow, one from the other, and what turns can still change."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from math import cos
from typing import TYPE_CHECKING

from calc.data import practice, rule
from calc.errors import DomainError, Problem
from calc.geometry import RoundTip, loop_nocked
from calc.making.stave import brace_on, slope
from calc.making.turns import plied, turned_to_lay
from calc.making.window import middle_lay
from calc.mechanics import brace_limit
from calc.spread import combine

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.making.limbs import Limbs
    from calc.making.stave import Stave
    from calc.spread import Spread

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
    causes, figures : mapping of str to Spread
        What is uncertain, and what comes of it, by row key.
    """

    stave: Stave
    causes: Mapping[str, Spread]
    figures: Mapping[str, Spread]

    def limbs(self) -> Limbs:
        """Return the limbs in the middle of what is uncertain."""
        return self.stave.at({name: each.value for name, each in self.causes.items()})

    def worst(self, *, from_brace: bool) -> str:
        """Return the cause that alone moves the answer most: the string's length, or the brace height."""
        brace_m, string_m = (self.figures[key].value for key in ("brace_height", "string_length"))
        centre = {name: each.value for name, each in self.causes.items()}

        def moves(name: str) -> float:
            ends = [self.stave.at({**centre, name: end}) for end in (self.causes[name].low, self.causes[name].high)]
            if from_brace:
                return max(abs(each.string_m(brace_m) - string_m) for each in ends)
            return max(abs(brace_on(each, string_m) - brace_m) for each in ends)

        return max(self.stave.causes(), key=moves)


def string_for(stave: Stave, brace_m: float, tail_m: float) -> Braced:
    """Return the string that gives a brace height.

    Parameters
    ----------
    stave : Stave
        The bow.
    brace_m : float, > 0
        Wanted. [m]
    tail_m : float, > 0
        Longest strand end that is laid into each splice: what is not free to be turned. [m]

    Returns
    -------
    Braced

    Raises
    ------
    DomainError
        ``max`` for a brace height the bow cannot take; ``pair`` with reason ``tails_long`` when splices leave no
        free body.

    Notes
    -----
    Source: `calc.mechanics.string_length` (``derived:limbs``), spread over tape, handle and limb shape.
    """
    causes = _causes(stave)

    def answer(at: Mapping[str, float]) -> dict[str, float]:
        limbs = stave.at(at)
        return {"brace_height": brace_m, **_around(limbs, limbs.string_m(brace_m), brace_m, tail_m, at["tip"])}

    return Braced(stave=stave, causes=causes, figures=combine(answer, causes))


def brace_for(stave: Stave, string_m: float, tail_m: float) -> Braced:
    """Return the brace height that a string gives.

    Parameters
    ----------
    stave, tail_m
        As for `string_for`.
    string_m : float, > 0
        On the braced bow, nock to nock. [m]

    Raises
    ------
    DomainError
        ``max`` with reason ``string_long`` for a string that does not brace the bow by 2 in, ``min`` with reason
        ``string_short`` for one that would bend the limbs past what they are worked out for; else as `string_for`.
    """
    causes = _causes(stave)
    middle = stave.at({name: each.value for name, each in causes.items()})
    longest_m = middle.string_m(min(_LEAST_BRACE_M, brace_limit(middle.bow) / 2.0))
    shortest_m = middle.string_m(brace_limit(middle.bow))
    if string_m > longest_m:
        raise DomainError(Problem(field="string_m", code="max", limit=longest_m, reason="string_long"))
    if string_m < shortest_m:
        raise DomainError(Problem(field="string_m", code="min", limit=shortest_m, reason="string_short"))

    def answer(at: Mapping[str, float]) -> dict[str, float]:
        limbs = stave.at(at)
        brace_m = brace_on(limbs, string_m)
        return {"brace_height": brace_m, **_around(limbs, string_m, brace_m, tail_m, at["tip"])}

    return Braced(stave=stave, causes=causes, figures=combine(answer, causes))


def _causes(stave: Stave) -> dict[str, Spread]:
    return {**stave.causes(), "tip": practice("tip_usual").spread}


def _around(limbs: Limbs, string_m: float, brace_m: float, tail_m: float, tip_m: float) -> dict[str, float]:
    """Return everything about a string of known length and brace height."""
    bow_m = limbs.bow.nock_to_nock_m
    body_m = free_body(string_m, tail_m, tip_m)
    longer, shorter = turned()
    return {
        "string_length": string_m,
        "brace_per_length": slope(limbs, brace_m),
        "brace_step": brace_on(limbs, string_m - STEP_M) - brace_m,
        "deficit": bow_m - string_m,
        "deficit_quick": 4.0 * brace_m**2 / (3.0 * limbs.bow.limb_m),
        "free_body": body_m,
        "string_longest": string_m + body_m * longer,
        "string_shortest": string_m + body_m * shorter,
        "brace_low": brace_on(limbs, string_m + body_m * longer),
        "brace_high": brace_on(limbs, string_m + body_m * shorter),
    }


def by_rule(stave: Stave) -> dict[str, Spread]:
    """Return the brace height that a string as short as the trade's rule has it would give.

    Returns
    -------
    dict of str to Spread
        ``rule_low`` and ``rule_high`` for the least and the most the rule takes off [m]; empty for a bow too short.

    Notes
    -----
    Source: ``string_shorter`` of ``calc/data/rules.toml`` on the limbs of `Stave`.
    """
    shorter = rule("string_shorter").figure("shorter by").spread
    causes = stave.causes()

    def answer(at: Mapping[str, float]) -> dict[str, float]:
        limbs = stave.at(at)
        bow_m = limbs.bow.nock_to_nock_m
        return {
            "rule_low": brace_on(limbs, bow_m - shorter.low),
            "rule_high": brace_on(limbs, bow_m - shorter.high),
        }

    middle = stave.at({name: each.value for name, each in causes.items()})
    if middle.bow.nock_to_nock_m - shorter.high < middle.string_m(brace_limit(middle.bow)):
        return {}
    return combine(answer, causes)


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
