"""The figures of one string, worked back from the brace height wanted, and what is uncertain about them."""

from __future__ import annotations

from dataclasses import replace
from math import hypot, sqrt
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import DomainError, Problem
from calc.making.strands import rolled
from calc.making.string.cutting import Cuts, cuts
from calc.making.string.raw_lengths import lengths
from calc.making.string.tension import body_lay, growth, pull_share
from calc.making.string.turns import plied
from calc.making.string.window import strings_made
from calc.mechanics.fibre import elastic_stretch
from calc.numerics import Moves, Spread, beside, conditioned

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from calc.making.string.order import MadeBefore, Order, Trial
    from calc.making.string.raw_lengths import Lengths

    Off = Callable[[Mapping[str, float]], float]

_FARTHEST = 4.0
"""Readings so far from what fits best, in units of how unsure they are, were not of this cord and this bow."""
MARKS = ("mark_tail_upper", "mark_loop_upper", "mark_body", "mark_loop_lower", "mark_tail_lower")
"""Where each zone of the flat bundle ends, from the first strand end."""


def causes_of(order: Order, strands: int) -> dict[str, Spread]:
    """Return everything that is uncertain about a string before it is made, beside the bow, each with its own spread.

    Parameters
    ----------
    order : Order
        What is told narrows, what is not known widens.
    strands : int
        In the whole string.
    """
    each = strands // order.bundles
    tip = practice("tip_usual").spread
    if order.upper.section is not None and order.lower.section is not None:
        tip = Spread.exactly(tip.value)  # asked by neither end
    return {
        "tip": tip,
        "seat": Spread(-1.0, 0.0, 1.0),
        "packing": order.cord.fill,
        "roll": rolled(order.cord, each).scaled(1.0 / sqrt(each)),
        **order.hand.causes_on(_bundle_m(order, each), order.bundles),
        "body_lay": Spread.exactly(body_lay()),
        "tails_take": practice("tails_take").spread,
        **growth(order, strands),
        "bedding": practice("bedding").spread,
        "alike": alike(order),
    }


def _bundle_m(order: Order, each: int) -> float:
    """Return the likely thickness of one bundle [m]."""
    one_m = order.cord.size({"fill": order.cord.fill.value})["thickness"]
    return one_m * rolled(order.cord, each).value


def moves_at(order: Order, strands: int) -> Moves[Mapping[str, float]]:
    """Return all that a string and its bow may be; a bow that pulls harder stretches the string more.

    Parameters
    ----------
    order : Order
    strands : int
        In the whole string.

    Raises
    ------
    DomainError
        ``model`` with reason ``readings_apart`` for readings that no string of these measures goes with.

    Notes
    -----
    Source: `conditioned` where cord or earlier strings were measured (``derived:estimate``); bow, cord and hand are
    then told together.
    """
    causes = causes_of(order, strands)
    found = beside(order.bow.moves, causes)
    if order.trial is not None or order.earlier:
        every = {**order.bow.causes, **causes}
        offs = readings(order, strands, found.centre)
        found = conditioned(every, lambda at: [*order.bow.off(at), *(off(at) for off in offs)])
        if found.misfit > _FARTHEST:
            field = "earlier_brace_m" if order.earlier else "trial_after_m"
            raise DomainError(Problem(field=field, code="model", reason="readings_apart"))
    return found.mapped(lambda at: stretched(order, at))


def stretched(order: Order, at: Mapping[str, float]) -> dict[str, float]:
    """Return causes with the stretch that the bow's own pull brings.

    Parameters
    ----------
    order : Order
    at : mapping of str to float
        One number for each cause, ``strain`` as the likely bow stretches the string.
    """
    return {**at, "strain": at["strain"] * pull_share(order, at)}


def cut(order: Order, strands: int, made: Lengths) -> Cuts:
    """Return how the strands of a string are cut and marked.

    Parameters
    ----------
    order : Order
        What was planned.
    strands : int
        In the whole string.
    made : Lengths
        Its raw lengths.
    """
    return cuts(
        tail_m=order.tail_m,
        loop_upper_m=made.upper.raw.raw_m,
        body_m=made.body_raw_m,
        loop_lower_m=made.lower.raw.raw_m,
        strands=strands,
        bundles=order.bundles,
        least_tail_m=practice("tail_least").spread.value,
        wanted_step_m=practice("strand_step").spread.value,
    )


def measured(order: Order, strands: int, at: Mapping[str, float]) -> dict[str, float]:
    """Return every figure that is worked back from the brace height wanted.

    Parameters
    ----------
    order, strands
        As for `cut`.
    at : mapping of str to float
        One number for each cause, as for `lengths`.
    """
    made = lengths(order, strands, at)
    cuts_made = cut(order, strands, made)
    return {
        "string_length": made.string_m,
        "string_length_slack": made.slack_m,
        "bundle_diameter": made.lays.bundle_m,
        "cord_diameter": made.lays.body.cord_diameter_m,
        "splice_diameter": made.lays.splice.cord_diameter_m,
        "loop_closed_upper": made.upper.loop.length_m,
        "loop_closed_lower": made.lower.loop.length_m,
        "reach_upper": made.upper.reach_m,
        "reach_lower": made.lower.reach_m,
        "loop_upper": made.upper.raw.raw_m,
        "loop_lower": made.lower.raw.raw_m,
        "body_raw": made.body_raw_m,
        "cut_length": cuts_made.cut_m,
        "cord_total": cuts_made.cord_m,
        "turns_body": made.middle.turns,
        "turns_loop": made.upper.raw.turns,
        "turns_loop_lower": made.lower.raw.turns,
        "turns_splice": made.splice.turns,
        "counter_twist_body": made.middle.counter,
        "take_up_body": made.middle.take_up,
        "take_up_loop": made.upper.raw.take_up,
        "take_up_splice": made.splice.take_up,
        "string_mass": cuts_made.cord_m * order.yarn_kg_m,
        **dict(zip(MARKS, cuts_made.marks_m, strict=True)),
    }


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
        With a trial piece, earlier strings, both or neither.
    strands : int
        In the whole string.
    centre : mapping of str to float
        Every cause as it is most likely before the readings.

    Notes
    -----
    Source: own composition. Every length is off by a tape reading (``tape_reading``). A trial piece grows by bedding
    and creep, and stretches under its weight as its fibre does (`elastic_stretch`); each earlier string is held against
    the one the limbs ask for at the brace height that it gave.
    """
    trial = () if order.trial is None else _of_trial(order, strands, order.trial)
    return (*trial, *(_of_earlier(order, strands, centre, each) for each in order.earlier))


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
