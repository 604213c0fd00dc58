"""Brace height from string length, or string length from brace height, on a measured bow."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from calc.data import practice
from calc.errors import DomainError, Problem
from calc.making.tuning import STEP_M, brace_for, string_for
from calc.worksheets.brace import drawings as brace_drawings
from calc.worksheets.brace import fields as asked
from calc.worksheets.brace import learnt as brace_learnt
from calc.worksheets.brace import words as brace_words
from calc.worksheets.core import Answer, Example, Guide, Worksheet, read, rows
from calc.worksheets.core import next_steps as onward

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.making.tuning import Braced
    from calc.numerics import Spread
    from calc.worksheets.core import Sentence, Value

_RESULTS = ("string_length", "brace_height", "brace_per_length", "brace_low", "brace_high")
_BLAMES = {
    "at_m": "weighed_draw",
    "readings": "weighed_force",
    "draw_m": "draw_length",
    "brace_m": "brace_height",
    "handle_length_m": "handle_length",
    "nock_to_nock_m": "nock_to_nock",
    "string_m": "string_length",
    "pairs": "measured_string",
    "tail_m": "tail_length",
}
_EXAMPLES = (
    Example(name="usual", words="The string for a brace height of 6 1/2 in on a 66 in bow"),
    Example(name="from-string", words="The brace height of a 64 in string",
            inputs={"brace_height": "", "string_length": "64 in"}),
    Example(name="pipe", words="A 50 in bow, limbs not measured further",
            inputs={"nock_to_nock": "50 in", "handle_length": "not known", "limb_shape": "unknown",
                    "brace_height": "6 in"}),
    Example(name="metric", words="Tapered limbs, in metric",
            inputs={"nock_to_nock": "1,73 m", "handle_length": "20 cm", "limb_shape": "tapered",
                    "brace_height": "165 mm", "tail_length": "150 mm"}),
    Example(name="long-string", words="Hardly braced, let out it is too long",
            inputs={"brace_height": "", "string_length": "65 11/16 in"}),
    Example(name="toy", words="A bow too short for the trade's rule",
            inputs={"nock_to_nock": "20 in", "handle_length": "8 in", "brace_height": "3 in", "tail_length": "2 in"}),
    Example(name="measured", words="A string was measured on the bow",
            inputs={"limb_shape": "unknown", "handle_length": "?", "measured_string": "63 1/2 in",
                    "measured_brace": "7 in"}),
    Example(name="measured-twice", words="Two strings were measured on the bow",
            inputs={"brace_height": "", "string_length": "63 3/4 in", "measured_string": "64 3/8 in",
                    "measured_brace": "5 in", "measured_string_2": "63 in", "measured_brace_2": "7 1/4 in"}),
    Example(name="weighed", words="A pipe bow, a force weighed half-way, draw weight told",
            inputs={"nock_to_nock": "50 in", "handle_length": "?", "limb_shape": "unknown", "brace_height": "6 in",
                    "weighed_force": "13 lbf", "weighed_draw": "12 in", "draw_weight": "25 lbf",
                    "draw_length": "20 in"}),
    Example(name="weighed-once", words="A force was weighed and a string measured, draw weight not known",
            inputs={"measured_string": "63 1/2 in", "measured_brace": "7 in", "weighed_force": "22 lbf",
                    "weighed_draw": "16 in", "draw_length": "27 3/4 in", "draw_from": "dealer"}),
    Example(name="weighed-alone", words="A force was weighed, nothing else is known of the bow's strength",
            inputs={"weighed_force": "22 lbf", "weighed_draw": "16 in"}),
    Example(name="weighed-apart", words="A force and a draw weight that do not go together",
            inputs={"weighed_force": "32 lbf", "weighed_draw": "14 in", "draw_weight": "40 lbf",
                    "draw_length": "26 in"}),
    Example(name="weighed-wrong", words="Forces that no bow of this length would have",
            inputs={"measured_string": "63 1/2 in", "measured_brace": "7 in", "weighed_force": "22 lbf",
                    "weighed_draw": "16 in", "draw_weight": "198 lbf", "draw_length": "27 3/4 in",
                    "draw_from": "dealer"}, refused=("weighed_force",)),
    Example(name="weight-told", words="A draw weight was told, no force weighed",
            inputs={"brace_height": "", "string_length": "64 in", "draw_weight": "40 lbf", "draw_length": "26 in"}),
    Example(name="half-weighed", words="A force without its draw", inputs={"weighed_force": "20 lbf"},
            refused=("weighed_draw",)),
    Example(name="half-weighed-2", words="A draw without its force", inputs={"weighed_draw": "20 in"},
            refused=("weighed_force",)),
    Example(name="weighed-short", words="A force weighed close to brace",
            inputs={"weighed_force": "5 lbf", "weighed_draw": "8 in"}, refused=("weighed_draw",)),
    Example(name="draw-short", words="Drawn less than braced",
            inputs={"draw_weight": "40 lbf", "draw_length": "8 in"}, refused=("draw_length",)),
    Example(name="weighed-far", words="Weighed further than the limbs can follow",
            inputs={"nock_to_nock": "36 in", "brace_height": "5 in", "weighed_force": "50 lbf",
                    "weighed_draw": "30 in"}, refused=("weighed_draw",)),
    Example(name="half-measured", words="A measured string without its brace height",
            inputs={"measured_string": "64 in"}, refused=("measured_brace",)),
    Example(name="half-measured-2", words="A second brace height without its string",
            inputs={"measured_string": "64 in", "measured_brace": "6 in", "measured_brace_2": "6 1/2 in"},
            refused=("measured_string_2",)),
    Example(name="second-only", words="A second pair without a first",
            inputs={"measured_string_2": "64 in", "measured_brace_2": "6 in"}, refused=("measured_string",)),
    Example(name="measured-long", words="A measured string longer than the bow",
            inputs={"measured_string": "67 in", "measured_brace": "6 in"}, refused=("measured_string",)),
    Example(name="measured-stiff", words="More string than any limb gives at that brace height",
            inputs={"measured_string": "65 7/8 in", "measured_brace": "9 in"}, refused=("measured_string",)),
    Example(name="measured-short", words="Less string than any limb can bend to",
            inputs={"measured_string": "40 in", "measured_brace": "3 in"}, refused=("measured_string",)),
    Example(name="both-open", words="Neither is known", inputs={"brace_height": ""}, refused=("brace_height",)),
    Example(name="both-given", words="Both are given", inputs={"string_length": "64 in"}, refused=("string_length",)),
    Example(name="too-long", words="A string that does not brace the bow",
            inputs={"brace_height": "", "string_length": "66 in"}, refused=("string_length",)),
    Example(name="too-short", words="A string that would break the bow",
            inputs={"brace_height": "", "string_length": "48 in"}, refused=("string_length",)),
    Example(name="over-braced", words="Higher than the bow allows",
            inputs={"nock_to_nock": "50 in", "brace_height": "14 in"}, refused=("brace_height",)),
    Example(name="long-handle", words="A handle as long as the bow",
            inputs={"nock_to_nock": "30 in", "handle_length": "30 in"}, refused=("handle_length",)),
    Example(name="long-tails", words="No body left", inputs={"nock_to_nock": "30 in", "brace_height": "4 in",
            "tail_length": "16 in"}, refused=("tail_length",)),
    Example(name="empty", words="Nothing typed", inputs={"nock_to_nock": ""}, refused=("nock_to_nock",)),
    Example(name="unit", words="A weight for a length", inputs={"brace_height": "45 lb"}, refused=("brace_height",)),
)  # fmt: skip


def _braced(values: Mapping[str, Value]) -> Braced:
    brace_m = cast("float | None", values["brace_height"])
    string_m = cast("float | None", values["string_length"])
    tail_m = cast("float", values["tail_length"])
    bow, strings, forces = asked.bow(values), asked.pairs(values), read.forces_of(values)
    if brace_m is None and string_m is None:
        raise DomainError(Problem(field="brace_height", code="missing", other="string_length", reason="both_open"))
    if brace_m is None:
        found = brace_for(bow, cast("float", string_m), tail_m, *strings, *forces)
        asked.far_enough(bow, forces, found.figures["brace_height"].value)
        return found
    if string_m is None:
        asked.far_enough(bow, forces, max(brace_m, *(each.brace_m for each in strings[:1]), 0.0))
        return string_for(bow, brace_m, tail_m, *strings, *forces)
    raise DomainError(Problem(field="string_length", code="pair", other="brace_height", reason="both_given"))


def _numbers(found: Braced, values: Mapping[str, Value]) -> dict[str, Spread | float]:
    """Return every number the working shows, by row key."""
    bow, taught = found.bow, found.read() | found.weighed()
    if "strength" in bow.causes:
        taught["full_draw"] = cast("float", bow.draw_m)
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
        "tail": cast("float", values["tail_length"]),
        "lay_loosest": practice("lay_loosest").spread,
        "lay_tightest": practice("lay_tightest").spread,
    }


def _alone(values: Mapping[str, Value]) -> tuple[Sentence, ...]:
    """Say that a draw weight without its draw length was left aside."""
    alone = values["draw_weight"] is not None and values["draw_length"] is None
    return (brace_learnt.WEIGHT_ALONE,) if alone else ()


def plan(values: Mapping[str, Value]) -> Answer:
    """Answer with string length, brace height and what changes them.

    Raises
    ------
    DomainError
        With the field at fault, or a name from below that `_BLAMES` knows.
    """
    found = _braced(values)
    from_brace = values["string_length"] is None
    numbers = _numbers(found, values)
    return Answer(
        rows=rows(_RESULTS, numbers, brace_words.row_texts("brace_height" if from_brace else "string_length", numbers)),
        headlines=brace_words.headlines(from_brace=from_brace, weighed="strength" in found.bow.causes),
        cautions=(*_alone(values), *brace_words.cautions(found, numbers)),
        leaves_out=brace_words.LEAVES_OUT,
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
    examples=_EXAMPLES,
    plan=plan,
    sentences=brace_words.SENTENCES,
    blames=_BLAMES,
    told=brace_words.TOLD,
    next=(onward.PLAN, onward.TUNE),
    guides=(
        Guide(page="measure", step="length", words="Measure nock to nock along the belly"),
        Guide(page="brace", step="measure", words="Read the brace height"),
    ),
)
