"""How long a club's afternoon is: strings made side by side, then settled, as many at once as there are places."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from calc.data import practice
from calc.errors import require
from calc.numerics import Spread

_MOST = 1e6


@dataclass(frozen=True, slots=True)
class Afternoon:
    """How long an afternoon is.

    Attributes
    ----------
    made_in, settled_in : int
        Rounds of making; rounds of settling.
    settling_s, whole_s : Spread
        Settling in all; the whole of it. [s]
    """

    made_in: int
    settled_in: int
    settling_s: Spread
    whole_s: Spread


def afternoon(strings: int, makers: int, places: int, minutes: float) -> Afternoon:
    """Return how long makers and strings take who work side by side.

    Parameters
    ----------
    strings : int, >= 0
        To make.
    makers : int, >= 1
        Who work at the same time, one string each.
    places : int, >= 1
        Strings that settle at once: weights, and sound bows braced with somebody by them.
    minutes : float, >= 0
        Work on one string, without the time it settles. [min]

    Returns
    -------
    Afternoon

    Raises
    ------
    DomainError
        ``min``, ``max`` or ``number`` for what is out of bounds.

    Notes
    -----
    Source: sums, with ``settle_time`` of the constants (``common-practice``). Every string settles before it is
    served, so the rounds of settling come on top of the work. Leaves out breaks, and what makers can do while strings
    settle.

    Examples
    --------
    Eight makers with a place each, and the same eight strings one after the other under one weight:

    >>> [round(afternoon(8, 8, places, 215).whole_s.value / 60) for places in (8, 1)]
    [275, 695]
    """
    require("strings", strings, low=0.0, high=_MOST)
    require("makers", makers, low=1.0, high=_MOST)
    require("settle_places", places, low=1.0, high=_MOST)
    require("minutes", minutes, low=0.0, high=_MOST)
    made_in, settled_in = ceil(strings / makers), ceil(strings / places)
    work_s = made_in * minutes * 60.0
    settling = practice("settle_time").spread.scaled(settled_in)
    whole = Spread(*(work_s + each for each in (settling.low, settling.value, settling.high)))
    return Afternoon(made_in, settled_in, settling, whole)
