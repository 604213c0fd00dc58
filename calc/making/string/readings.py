"""What was measured on cord and strings before this one, and how far it would be off at one set of causes."""

from __future__ import annotations

from dataclasses import replace
from math import hypot, sqrt
from typing import TYPE_CHECKING

from calc.data import practice
from calc.making.string.raw_lengths import lengths
from calc.making.string.tension import body_lay, pull_share
from calc.making.string.turns import plied
from calc.making.string.window import strings_made
from calc.mechanics.fibre import elastic_stretch
from calc.numerics import Spread

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from calc.making.string.order import MadeBefore, Order, Trial

    Off = Callable[[Mapping[str, float]], float]


_MARKS = 3
"""Marks that a string hangs on: both loops and the body."""


def alike(order: Order) -> Spread:
    """Return how far one string comes out from another that was made alike [m].

    Parameters
    ----------
    order : Order
        What was planned.

    Notes
    -----
    Source: a tape reading for each loop and the body, and ``string_to_string`` of the constants.
    """
    marks_m = practice("tape_reading").spread.high * sqrt(_MARKS)
    off_m = hypot(marks_m, practice("string_to_string").spread.high * order.bow.nock_to_nock_m)
    return Spread(-off_m, 0.0, off_m)


def readings(order: Order, strands: int, centre: Mapping[str, float]) -> tuple[Off, ...]:
    """Return how far each reading of cord and strings is off, in units of how unsure it is.

    Parameters
    ----------
    order : Order
        With a trial piece, an earlier string, or neither.
    strands : int
        In the whole string.
    centre : mapping of str to float
        Every cause as it is most likely before the readings.

    Notes
    -----
    Source: own composition. Every length is off by a tape reading (``tape_reading``). A trial piece grows by bedding
    and creep, and stretches under its weight as its fibre does (`elastic_stretch`); an earlier string is held against
    the one the limbs ask for at the brace height that it gave.
    """
    found = [] if order.trial is None else [*_of_trial(order, strands, order.trial)]
    return (*found,) if order.earlier is None else (*found, _of_earlier(order, strands, centre, order.earlier))


def _of_trial(order: Order, strands: int, trial: Trial) -> tuple[Off, ...]:
    unsure = practice("tape_reading").spread.high * sqrt(2.0) / trial.before_m
    grown = trial.after_m / trial.before_m - 1.0

    def settled(at: Mapping[str, float]) -> float:
        return ((1.0 + at["bedding"]) * (1.0 + at["creep"]) - 1.0 - grown) / unsure

    if trial.load_n is None or trial.loaded_m is None:
        return (settled,)
    line_kg_m, brace_n = strands * order.yarn_kg_m, order.bow.drawn(brace_m=order.brace_m).centre.brace_n
    under, braced = (
        elastic_stretch(order.fibre, line_kg_m, each, body_lay()).value for each in (trial.load_n, brace_n)
    )
    stretched = trial.loaded_m / trial.after_m - 1.0
    return (settled, lambda at: (at["strain"] * under / braced - stretched) / unsure)


def _of_earlier(order: Order, strands: int, centre: Mapping[str, float], earlier: MadeBefore) -> Off:
    planned = lengths(order, strands, centre)
    raw_m = earlier.body_raw_m - 2.0 * order.tail_m
    body = plied(raw_m, planned.lays.bundle_m, order.bundles, body_lay())
    made = replace(planned, middle=body)
    read_m = practice("tape_reading").spread.high / order.bow.middle.slope(earlier.brace_m)
    unsure_m = hypot(alike(order).high, read_m)

    def off(at: Mapping[str, float]) -> float:
        asked_m = order.bow.state(at).string_m(earlier.brace_m)
        there = {**at, "strain": at["strain"] * pull_share(order, at), "alike": 0.0}
        return (strings_made(order, made, strands, there, (earlier.turns,))[0] - asked_m) / unsure_m

    return off
