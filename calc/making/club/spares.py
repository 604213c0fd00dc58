"""The fewest strings that serve many bows: which lengths each bow takes by turns, and how few lengths meet them all."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import DomainError, Problem
from calc.geometry.lay import middle_lay
from calc.making.string import raw_for, turned_to_lay
from calc.making.tuning import free_body, turned
from calc.numerics import find_root

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.mechanics.estimate import BowEstimate, BowState
    from calc.numerics import Spread


@dataclass(frozen=True, slots=True)
class Serves:
    """What a bow takes of a string laid in the middle of its window.

    Attributes
    ----------
    string : Spread
        On the bow at the brace height wanted. [m]
    low_m, high_m : float
        Shortest and longest string that turns bring there. [m]
    sure : bool
        Whether such a string does so nine times in ten, as well as the bow is known.
    """

    string: Spread
    low_m: float
    high_m: float
    sure: bool


def serves(bow: BowEstimate, brace_m: float, band_m: float, tail_m: float) -> Serves:
    """Return which strings a bow takes by turns alone.

    Parameters
    ----------
    bow : BowEstimate
        With all that is known of it.
    brace_m, band_m : float, > 0
        Brace height wanted, and how far it may be off. [m]
    tail_m : float, > 0
        Longest strand end laid into each splice. [m]

    Raises
    ------
    DomainError
        ``max`` for a brace height the bow cannot take; ``pair`` with reason ``tails_long``.

    Notes
    -----
    Source: `turned` on the free body (``derived:window``): from the longest string the bow may ask for, less what the
    band allows, let out, to the shortest turned up. A bow that is so little known that no string does both is given the
    length between, and is not sure.
    """
    middle = bow.middle
    if brace_m + band_m >= middle.highest_m:
        raise DomainError(Problem(field="brace_m", code="max", limit=middle.highest_m - band_m))

    def length(state: BowState) -> dict[str, float]:
        string_m = state.string_m(brace_m)
        return {
            "string": string_m,
            "shorter": string_m - state.string_m(min(brace_m + band_m, state.highest_m)),
            "longer": state.string_m(max(brace_m - band_m, 0.0)) - string_m,
        }

    found = bow.spreads(length)
    string = found["string"]
    ends_m = string.value - free_body(string.value, tail_m, practice("tip_usual").spread.value)
    out, up = turned()
    low_m = (string.high - found["shorter"].value + ends_m * out) / (1.0 + out)
    high_m = (string.low + found["longer"].value + ends_m * up) / (1.0 + up)
    if low_m <= high_m:
        return Serves(string, low_m, high_m, sure=True)
    between_m = (low_m + high_m) / 2.0
    return Serves(string, between_m, between_m, sure=False)


def fewest_lengths(spans: Sequence[tuple[float, float]]) -> tuple[tuple[float, tuple[int, ...]], ...]:
    """Return the fewest lengths of which every span holds one.

    Parameters
    ----------
    spans : sequence of (float, float)
        Shortest and longest that will do for each. [m]

    Returns
    -------
    tuple of (float, tuple of int)
        Each length, in the middle of what all its spans share, and the places of those; longest first. [m], [-]

    Notes
    -----
    Source: own proof by exchange. The span that ends first needs a length of its own; none reaches further than that
    end, so it is taken, with every span that holds it, and the rest is dealt with likewise.

    Examples
    --------
    >>> fewest_lengths([(1.0, 2.0), (1.5, 3.0), (2.5, 4.0)])
    ((3.25, (2,)), (1.75, (0, 1)))
    """
    left = sorted(range(len(spans)), key=lambda k: spans[k][1])
    found = []
    while left:
        end = spans[left[0]][1]
        held = tuple(sorted(k for k in left if spans[k][0] <= end))
        found.append(((max(spans[k][0] for k in held) + end) / 2.0, held))
        left = [k for k in left if k not in held]
    return tuple(reversed(found))


def turns_to(string_m: float, wanted_m: float, tail_m: float, diameter_m: float, bundles: int) -> float:
    """Return the turns to put into a string laid in the middle of its window; negative to let out [turn].

    Parameters
    ----------
    string_m, wanted_m : float, > 0
        Nock to nock as made, and as it is to be. [m]
    tail_m, diameter_m : float, > 0
        As for `serves`; of one bundle. [m]
    bundles : int
        2 or 3.

    Notes
    -----
    Source: `turned_to_lay` on the free body, no further than the window (``derived:window``).
    """
    loosest, tightest = (practice(name).spread.value for name in ("lay_loosest", "lay_tightest"))
    body_m = free_body(string_m, tail_m, practice("tip_usual").spread.value)
    made = raw_for(body_m, diameter_m, bundles, middle_lay(loosest, tightest))

    def over(lay_rad: float) -> float:
        return turned_to_lay(made, diameter_m, bundles, lay_rad).cord_m - body_m - wanted_m + string_m

    lay_rad = loosest if over(loosest) <= 0.0 else tightest
    if over(loosest) > 0.0 > over(tightest):
        lay_rad = find_root(over, loosest, tightest)
    return turned_to_lay(made, diameter_m, bundles, lay_rad).turns - made.turns
