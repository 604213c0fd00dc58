"""Brace height from string length, or string length from brace height, on a measured bow."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import DomainError, Problem
from calc.making.tuning import STEP_M, brace_for, string_for
from calc.worksheets.brace import drawings as brace_drawings
from calc.worksheets.brace import fields as asked
from calc.worksheets.brace import learnt as brace_learnt
from calc.worksheets.brace import words as brace_words
from calc.worksheets.core import Answer, Guide, SheetText, Worksheet, read, rows
from calc.worksheets.core import next_steps as onward

if TYPE_CHECKING:
    from calc.making.tuning import Braced
    from calc.numerics import Spread
    from calc.worksheets.core import Sentence

TEXT = SheetText(__spec__)

_RESULTS = ("string_length", "brace_height", "brace_per_length", "brace_low", "brace_high")
_BLAMES = {
    **read.BOW_BLAMES,
    "at_m": "weighed_draw",
    "readings": "weighed_force",
    "string_m": "string_length",
    "pairs": "measured_string",
    "tail_m": "tail_length",
}


def _braced(values: asked.BraceInputs) -> Braced:
    brace_m = values.brace_height
    string_m = values.string_length
    tail_m = values.tail_length
    bow, strings, forces = asked.bow(values), read.strings_of(values), read.forces_of(values)
    if brace_m is not None and string_m is not None:
        raise DomainError(Problem(field="string_length", code="pair", other="brace_height", reason="both_given"))
    if brace_m is not None:
        asked.far_enough(bow, forces, max(brace_m, *(each.brace_m for each in strings[:1]), 0.0))
        return string_for(bow, brace_m, tail_m, *strings, *forces)
    if string_m is None:
        raise DomainError(Problem(field="brace_height", code="missing", other="string_length", reason="both_open"))
    found = brace_for(bow, string_m, tail_m, *strings, *forces)
    asked.far_enough(bow, forces, found.figures["brace_height"].value)
    return found


def _numbers(found: Braced, values: asked.BraceInputs) -> dict[str, Spread | float]:
    """Return every number the working shows, by row key."""
    bow, taught = found.bow, found.read() | found.weighed()
    if "strength" in bow.causes and bow.draw_m is not None:
        taught["full_draw"] = bow.draw_m
        if bow.draw_weight_n is not None:
            taught["draw_weight"] = bow.draw_weight_n
    for each in bow.forces:
        taught |= {"weighed_force": each.force_n, "weighed_draw": each.draw_m}
    return {
        **found.figures,
        **found.by_rule(),
        **taught,
        "string_step": STEP_M,
        "nock_to_nock": bow.causes["tape"].shifted(bow.nock_to_nock_m),
        "handle": bow.causes["handle"],
        "tail": values.tail_length,
        "lay_loosest": practice("lay_loosest").spread,
        "lay_tightest": practice("lay_tightest").spread,
    }


def _alone(values: asked.BraceInputs) -> tuple[Sentence, ...]:
    """Say that a draw weight without its draw length was left aside."""
    alone = values.draw_weight is not None and values.draw_length is None
    return (brace_learnt.WEIGHT_ALONE,) if alone else ()


def plan(values: asked.BraceInputs) -> Answer:
    """Return an answer with string length, brace height and what changes them.

    Parameters
    ----------
    values : asked.BraceInputs
        As read.

    Raises
    ------
    DomainError
        With the field at fault, or a name from below that `_BLAMES` knows.
    """
    found = _braced(values)
    from_brace = values.string_length is None
    given = "brace_height" if from_brace else "string_length"
    bridges = asked.bridges(values, found.figures["string_length"])
    numbers = _numbers(found, values) | bridges
    return Answer(
        rows=rows(_RESULTS, numbers, brace_words.row_texts(WORKSHEET.row_texts, given, numbers)),
        headlines=(
            *brace_words.headlines(from_brace=from_brace, weighed="strength" in found.bow.causes),
            *(brace_words.BRIDGES if bridges else ()),
        ),
        cautions=(
            *_alone(values),
            *(brace_words.AT_BRIDGES if bridges else ()),
            *brace_words.cautions(found, numbers),
        ),
        leaves_out=TEXT.leaves_out,
        figures=lambda system: brace_drawings.drawings(found, system),
        tables=lambda system: (*brace_learnt.table(found), brace_drawings.ladder(found, system)),
    )


WORKSHEET = Worksheet(
    id="brace",
    place=20,
    title="Brace height and string length",
    purpose="From brace height to string length, or back, and what a little more or less string does.",
    groups=asked.GROUPS,
    fields=asked.FIELDS,
    results=_RESULTS,
    plan=plan,
    inputs=asked.BraceInputs,
    text=TEXT,
    blames=_BLAMES,
    next=(onward.PLAN, onward.TUNE),
    guides=(
        Guide(page="measure", step="length", words="Measure nock to nock along the belly"),
        Guide(page="brace", step="measure", words="Read the brace height"),
    ),
)
