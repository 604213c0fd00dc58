"""A string that grows on the bow: the brace height it loses, and the turns that bring it back."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from calc.errors import DomainError, Problem
from calc.making.tuning.tuning import tune
from calc.mechanics.bow import HIGHEST, Bow, brace_limit, string_length
from calc.mechanics.estimate import widened
from calc.numerics import Spread, find_root

if TYPE_CHECKING:
    from calc.making.tuning.tuning import Tuned
    from calc.mechanics.bow import LimbShape

_LONGEST_M = 5.0
_LOWEST_M = 0.0127
"""A growth that lets the bow down further than to this height takes turns in step with it. [m]"""
_NONE = Spread.exactly(0.0)


@dataclass(frozen=True, slots=True)
class Undone:
    """What a growth does to a braced bow.

    Attributes
    ----------
    brace_lost : Spread
        Brace height it loses. [m]
    turns : Spread
        Turns that bring it back. [turn]
    per_turn_m : float
        Growth that one turn takes up. [m]
    """

    brace_lost: Spread
    turns: Spread
    per_turn_m: float


def bow_for(string_m: float, brace_m: float, handle_length_m: float, shape: LimbShape) -> float:
    """Return how long a bow is, nock to nock, that a string braces to a height [m].

    Parameters
    ----------
    string_m, brace_m : float, > 0
        On the braced bow, nock to nock along the string; brace height. [m]
    handle_length_m : float, >= 0
        Whole stiff length. [m]
    shape : LimbShape

    Raises
    ------
    DomainError
        ``pair`` with reason ``brace_string`` for a string too short to brace any bow so high.

    Notes
    -----
    Source: `string_length`, the other way about (``derived:limbs``).
    """

    def too_long(nock_to_nock_m: float) -> float:
        return string_length(Bow(nock_to_nock_m, handle_length_m, shape), brace_m) - string_m

    shortest_m = (handle_length_m + 2.0 * brace_m / HIGHEST) * (1.0 + 1e-9)
    while brace_limit(Bow(shortest_m, handle_length_m, shape)) < brace_m:
        shortest_m *= 1.02
    if too_long(shortest_m) > 0.0:
        raise DomainError(Problem(field="brace_m", code="pair", other="string_m", reason="brace_string"))
    return find_root(too_long, shortest_m, _LONGEST_M, within=1e-9)


def undone(string: Tuned, growth: Spread) -> Undone:
    """Return what a growth costs in brace height, and the turns that undo it: those `tune` tells.

    Parameters
    ----------
    string : Tuned
        Before it grew, at the brace height wanted; `brace_m` is not used.
    growth : Spread, >= 0
        [m]

    Raises
    ------
    DomainError
        As `tune`.

    Notes
    -----
    Source: the longer string on the limbs (``derived:limbs``), then `tune` from the height that gives to the one
    wanted; what is unsure of the growth is put to what is unsure of a turn in quadrature (``jcgm100``).
    """
    limbs = string.bow.middle
    string_m = limbs.string_m(string.wanted_m)

    def fallen(grown_m: float) -> float:
        return max(0.0, string.wanted_m - limbs.brace_m(string_m + grown_m))

    most_m = limbs.string_m(min(_LOWEST_M, string.wanted_m / 2.0)) - string_m

    def turns(grown_m: float) -> Spread:
        if grown_m > most_m:
            return turns(most_m).scaled(grown_m / most_m)
        whole_m = None if string.string_m is None else string.string_m + grown_m
        now = replace(string, brace_m=string.wanted_m - fallen(grown_m), string_m=whole_m)
        return tune(now).figures["turns_change"]

    lost = Spread(*(fallen(each) if each > 0.0 else 0.0 for each in (growth.low, growth.value, growth.high)))
    if growth.value <= 0.0:
        return Undone(lost, _NONE, 0.0)
    centre = turns(growth.value)
    wide = widened(centre, (turns(each).value if each > 0.0 else 0.0 for each in (growth.low, growth.high)))
    if centre.value <= 0.0:  # so little that the brace height does not show it
        return Undone(lost, Spread(0.0, 0.0, max(0.0, wide.high)), 0.0)
    return Undone(lost, Spread(max(0.0, wide.low), wide.value, wide.high), growth.value / centre.value)
