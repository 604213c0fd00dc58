"""A club's afternoon: strings made side by side, then settled, as many at once as there are places; who is where."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from calc.data import practice
from calc.errors import require
from calc.numerics import Spread

_MOST = 1e6
PER_ADULT = 4
"""Makers for whom one adult helps, besides the one who leads; young ones need an adult each."""
TALK_MIN, CLEAR_MIN = 15.0, 15.0
"""Before and after the work: rules and samples; cards, sweeping up, counting the scissors. [min]"""
_EACH_TOGETHER = 3
"""So many rounds of making are told one by one; of more only the first."""


@dataclass(frozen=True, slots=True)
class Stage:
    """A stage of the work on one string.

    Attributes
    ----------
    words : str
        What is done.
    minutes : float
        What it takes beginners. Only its share of them all is used. [min]
    place : str
        Where.
    adults : int
        Who are busy with it and not free to look after makers.
    settled : bool
        Whether the string has settled before it.
    """

    words: str
    minutes: float
    place: str
    adults: int = 0
    settled: bool = False


STAGES = (
    Stage("Mark and wax", 20.0, "bench"),
    Stage("First loop and splice", 40.0, "bench"),
    Stage("Counter-twist and second loop", 30.0, "bench"),
    Stage("Walk the twist, turn in the body, stretch", 15.0, "bench"),
    Stage("Put every string in its place to settle", 20.0, "settling row", adults=2),
    Stage("Read the brace heights, correct them by turns", 20.0, "bracing corner", adults=2, settled=True),
    Stage("Serve the settled strings", 40.0, "bench", settled=True),
)
"""In their order, with the times of an afternoon of beginners (``common-practice``)."""


@dataclass(frozen=True, slots=True)
class Slot:
    """One line of a timetable.

    Attributes
    ----------
    start_s, end_s : float
        From the beginning. [s]
    words, place : str
        What is done, and where.
    adults : int
        Who are busy with it.
    spare : int
        Adults who are free to look after the makers.
    """

    start_s: float
    end_s: float
    words: str
    place: str
    adults: int
    spare: int


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

    >>> [round(afternoon(8, 8, places, 185).whole_s.value / 60) for places in (8, 1)]
    [245, 665]
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


def helpers_needed(makers: int) -> int:
    """Return how many adults must help the one who leads; young makers need one each.

    Parameters
    ----------
    makers : int, >= 1
        Who work at the same time.

    Notes
    -----
    Source: ``common-practice``.

    Examples
    --------
    >>> [helpers_needed(makers) for makers in (1, 8, 9)]
    [1, 2, 3]
    """
    return ceil(makers / PER_ADULT)


def timetable(day: Afternoon, minutes: float, helpers: int) -> tuple[Slot, ...]:
    """Return the timetable of an afternoon.

    Parameters
    ----------
    day : Afternoon
        As `afternoon` has it.
    minutes : float, >= 0
        Work on one string, without the time it settles: as it was asked with. [min]
    helpers : int, >= 0
        Adults besides the one who leads.

    Returns
    -------
    tuple of Slot
        The talk, the work and the settling, the clearing up. Without the talk and the clearing up it is as long as
        ``day`` is.

    Notes
    -----
    Source: `STAGES`, each with its share of ``minutes`` (``common-practice``). While strings settle one adult stays by
    them.

    Examples
    --------
    Eight beginners who make one string each, with a place to settle for each:

    >>> slots = timetable(afternoon(8, 8, 8, 185), 185, 2)
    >>> [round((slot.end_s - slot.start_s) / 60) for slot in slots]
    [15, 20, 40, 30, 15, 20, 60, 20, 40, 15]
    """
    one_s = minutes * 60.0 / sum(each.minutes for each in STAGES)
    before = [each for each in STAGES if not each.settled and not each.adults]
    parts = [(TALK_MIN * 60.0, "Safety, and what we make. Show the samples.", "all together", 0)]
    told = day.made_in if day.made_in <= _EACH_TOGETHER else 1
    for index in range(told):
        lead = f"String {index + 1} of {day.made_in}: " if day.made_in > 1 else ""
        parts += [(each.minutes * one_s, lead + each.words, each.place, each.adults) for each in before]
    if told < day.made_in:
        left_s = (day.made_in - told) * one_s * sum(each.minutes for each in before)
        parts.append((left_s, f"The same for strings 2 to {day.made_in} of each maker", "bench", 0))
    place, *after = [each for each in STAGES if each not in before]
    parts.append((place.minutes * one_s * day.made_in, place.words, place.place, place.adults))
    settling_s = day.settling_s.value / day.settled_in
    for index in range(day.settled_in):
        lead = f"Settling, {index + 1} of {day.settled_in}" if day.settled_in > 1 else "All strings settle at once"
        words = f"{lead}. Makers have their break, then serve on sample cords."
        parts.append((settling_s, words, "settling row; bench", 1))
    parts += [(each.minutes * one_s * day.made_in, each.words, each.place, each.adults) for each in after]
    parts.append((CLEAR_MIN * 60.0, "Cards, sweep up, count the scissors", "all together", 0))
    adults, slots, clock = helpers + 1, [], 0.0
    for takes_s, words, where, busy in parts:
        slots.append(Slot(clock, clock + takes_s, words, where, min(busy, adults), max(0, adults - busy)))
        clock += takes_s
    return tuple(slots)
