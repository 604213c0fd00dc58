"""What to measure next: how much each thing that is not yet known would narrow the brace height."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot, sqrt
from typing import TYPE_CHECKING

from calc.data import practice
from calc.making.string.figures import alike
from calc.mechanics.estimate import HandEstimate

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from calc.making.string.order import Order
    from calc.mechanics.estimate import BowEstimate
    from calc.numerics import Moves

    Told = Callable[[Mapping[str, float]], float]

_LEAST = 0.03
"""What narrows the range by less is not worth the walk to the bench. [-]"""
_TRIAL_M = 0.6
"""A trial piece as people make them, two feet. [m]"""
_LOOKED = 1.0 / sqrt(3.0)
"""Limbs whose bend was seen are half as unsure as limbs nobody looked at, in units of the latter. [-]"""


@dataclass(frozen=True, slots=True)
class NextReading:
    """Something to measure.

    Attributes
    ----------
    key : str
        What: ``handle``, ``limb``, ``tips``, ``thread``, ``lays``, ``trial``, ``string``, ``nail``, ``earlier``.
    narrower : float
        Part of the width of the brace height's range that goes. [-]
    low_m, high_m : float
        The range then, about the same middle. [m]
    """

    key: str
    narrower: float
    low_m: float
    high_m: float


def next_readings(
    order: Order,
    moves: Moves[Mapping[str, float]],
    braced: Told,
    needed: Told,
    made: Told,
) -> tuple[NextReading, ...]:
    """Return what narrows the range of the untuned brace height, in the order of effort.

    Parameters
    ----------
    order : Order
        What was planned; what it has is not asked for again.
    moves : Moves
        All that string and bow may be.
    braced, needed, made : callable
        Of one set of causes: brace height of the string as cut, the string that the bow asks for at the height wanted,
        and the string as cut on the braced bow. [m]

    Notes
    -----
    Source: a reading off by ``s`` of something that moves by ``h`` with each independent cause takes ``(g h)^2 /
    (s^2 + h^2)`` from the square of the spread, where ``g`` is what the same causes do to the brace height (linear
    least squares, ``derived:estimate``). Each is told alone, as if nothing else were measured.
    """
    centre, ends = moves.centre, moves.ends
    tape_m = practice("tape_reading").spread.high

    def across(told: Told) -> list[float]:
        return [(told(high) - told(low)) / 2.0 for _, low, high in ends]

    moved = across(braced)
    whole = hypot(*moved)
    middle = braced(centre)
    slope = abs(order.bow.middle.slope(order.brace_m))
    found = []
    for key, told in _askable(order, tape_m, slope, (needed, made, braced)):
        left = _after(moved, [[each / unsure for each in across(what)] for what, unsure in told])
        narrower = 1.0 - left / whole if whole else 0.0
        if narrower >= _LEAST:
            below, above = _sides(moves, braced, middle)
            share = 1.0 - narrower
            found.append(NextReading(key, narrower, middle - below * share, middle + above * share))
    return tuple(found)


def _sides(moves: Moves[Mapping[str, float]], told: Told, middle: float) -> tuple[float, float]:
    spread = moves.spread(told)
    return middle - spread.low, spread.high - middle


def _after(moved: Sequence[float], read: list[list[float]]) -> float:
    """Return the spread that readings leave, each told by what every cause does to it in units of how unsure it is."""
    left, rest = list(moved), [list(row) for row in read]
    while rest:
        row = rest.pop(0)
        size = 1.0 + sum(each * each for each in row)
        share = (1.0 - 1.0 / sqrt(size)) / (size - 1.0) if size > 1.0 else 0.0
        for other in (left, *rest):
            along = share * sum(a * b for a, b in zip(other, row, strict=True))
            other[:] = [a - along * b for a, b in zip(other, row, strict=True)]
    return hypot(*left)


def _left_m(order: Order) -> float:
    """Return how much a string that hung for an hour may still bed in on the bow [m]."""
    bedding, share = practice("bedding").spread, practice("bedding_share").spread
    return order.bow.nock_to_nock_m * bedding.high * (1.0 - share.value)


def _of(name: str) -> Told:
    return lambda at: at[name]


def _askable(
    order: Order, tape_m: float, slope: float, of: tuple[Told, Told, Told]
) -> list[tuple[str, list[tuple[Told, float]]]]:
    """Return what can still be measured, least effort first: each reading with how unsure it is."""
    needed, made, braced = of
    bow, causes = order.bow, order.bow.causes
    found: list[tuple[str, list[tuple[Told, float]]]] = []
    if bow.shape is None:
        unknown = causes["limb"]
        found.append(("limb", [(_of("limb"), _LOOKED * (unknown.high - unknown.low) / 2.0)]))
    if bow.handle_length_m is None:
        found.append(("handle", [(_of("handle"), tape_m)]))
    if order.upper.section is None or order.lower.section is None:
        found.append(("tips", [(_of("tip"), practice("tip_reading").spread.high)]))
    if thread := _thread(bow, tape_m):
        found.append(("thread", thread))
    if order.hand == HandEstimate():
        lays = [(_of(name), practice("lay_reading").spread.high) for name in ("loop_lay", "splice_lay")]
        found.append(("lays", lays))
    if order.trial is None:
        unsure = tape_m * sqrt(2.0) / _TRIAL_M
        grown: list[tuple[Told, float]] = [(lambda at: at["bedding"] + at["creep"], unsure), (_of("strain"), unsure)]
        found.append(("trial", grown))
    if not bow.strings:
        found.append(("string", [(needed, tape_m * hypot(1.0, 1.0 / slope))]))
    found.append(("nail", [(made, hypot(tape_m * sqrt(2.0), _left_m(order)))]))
    if not order.earlier:
        found.append(("earlier", [(lambda at: braced({**at, "alike": 0.0}), hypot(tape_m, slope * alike(order).high))]))
    return found


def _thread(bow: BowEstimate, tape_m: float) -> list[tuple[Told, float]]:
    """Return the gaps to a thread over the unbraced bow that were not measured: beside the handle, and to it."""
    found: list[tuple[Told, float]] = []
    if bow.string_follow_m is None:
        found.append((_of("follow"), practice("follow_reading").spread.high))
    if bow.thread_gap_m is None:
        found.append((lambda at: at["follow"] - at["proud"], tape_m))
    return found
