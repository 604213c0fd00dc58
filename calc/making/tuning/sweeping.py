"""A sweep of brace heights: which to try, and how many turns each takes, to find the one at which a bow is quietest."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor
from typing import TYPE_CHECKING

from calc.data import practice, rule

if TYPE_CHECKING:
    from calc.making.tuning.tuning import Tuning

_MOST = 9
"""So many brace heights are tried at the most: ninety arrows are a day's work."""


@dataclass(frozen=True, slots=True)
class Try:
    """One brace height to try.

    Attributes
    ----------
    turns : int
        To put in from how the string is now; below 0 they come out. [turn]
    more : int
        To put in from the try before. [turn]
    brace_m : float
        Brace height that it should give. [m]
    """

    turns: int
    more: int
    brace_m: float


def sweep(done: Tuning) -> tuple[Try, ...]:
    """Return the brace heights to try, the lowest first; nothing where turns cannot reach two of them.

    Parameters
    ----------
    done : Tuning
        The string as it is on the bow.

    Notes
    -----
    Source: heights by turns (``derived:tuning``) in whole turns, each step about ``sweep_step`` of the constants
    (``common-practice``). No lay is looser or tighter than is of use at the unsure end of what is known, and no height
    is above what is usual for the bow's length (``brace_by_length``), wherever the wanted one is. The first try takes
    turns out, so that all others put them in: the string grows no tighter than it must.
    """
    figures = done.figures
    now = figures["turns_now"].value
    usual = rule("brace_by_length").figure("share of nock to nock").spread
    highest_m = usual.high * done.asked.bow.nock_to_nock_m
    lowest_m = usual.low * done.asked.bow.nock_to_nock_m
    loosest = figures["turns_loose"].high - figures["turns_now"].low
    tightest = figures["turns_tight"].low - figures["turns_now"].high
    heights = {turns: done.brace_at(now + turns) for turns in range(ceil(loosest), floor(tightest) + 1)}
    usable = [turns for turns, height_m in heights.items() if lowest_m <= height_m <= highest_m]
    if len(usable) < 2:
        return ()
    rise_m = heights[usable[-1]] - heights[usable[0]]
    steps = max(1, min(_MOST - 1, floor(rise_m / practice("sweep_step").spread.value), usable[-1] - usable[0]))
    found, before = list[Try](), 0
    for k in range(steps + 1):
        aim_m = heights[usable[0]] + rise_m * k / steps
        turns = min(usable, key=lambda each: abs(heights[each] - aim_m))
        if found and turns == before:
            continue
        found.append(Try(turns, turns - before, heights[turns]))
        before = turns
    return tuple(found)
