"""Tillering strings: how long each is, how far it may be drawn, and what a scale reads on it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from calc.errors import DomainError, Problem
from calc.making.tuning import Tillering
from calc.units import INCH
from calc.worksheets.core import Answer, Guide, Sentence, SheetText, Worksheet, cautions, fields, read, rows
from calc.worksheets.core import next_steps as onward
from calc.worksheets.string.more import TIP_CONTACT, UNBRACED
from calc.worksheets.tiller import drawings as tiller_drawings

if TYPE_CHECKING:
    from calc.numerics import Spread

TEXT = SheetText(__spec__)

_STRINGS = "The strings"
_RESULTS = (
    "long_string", "first_string", "string_length", "change_draw", "change_reads", "long_reads", "long_hides",
    "long_bend", "first_reads",
)  # fmt: skip
_LEAST_WAY_M = 4 * INCH
_BLAMES = {
    **read.BOW_BLAMES,
    "first_m": "first_brace",
    "longer_m": "long_extra",
}


class TillerInputs(read.BowInputs):
    """What was read, in SI, by field key."""

    draw_weight: float
    draw_length: float
    brace_height: float
    first_brace: float
    long_extra: float


def _asked(values: TillerInputs) -> Tillering:
    bow = replace(read.bow_of(values, braced_m=values.brace_height), draw_weight_n=None)
    assert bow.draw_m is not None
    if bow.draw_m < values.brace_height + _LEAST_WAY_M:
        raise DomainError(Problem(field="draw_length", code="pair", other="brace_height", reason="draw_short"))
    return Tillering(
        bow=bow,
        weight_n=values.draw_weight,
        brace_m=values.brace_height,
        first_m=values.first_brace,
        longer_m=values.long_extra,
    )


def _numbers(asked: Tillering, found: dict[str, Spread]) -> dict[str, Spread | float]:
    """Return every number the working shows, by row key."""
    measures = asked.bow.causes
    return {
        "long_string": found["long"],
        "first_string": found["first"],
        "string_length": found["string"],
        "change_draw": found["change"],
        **{key: found[key] for key in ("change_reads", "long_reads", "long_hides", "long_bend", "first_reads")},
        "nock_to_nock": measures["tape"].shifted(asked.bow.nock_to_nock_m),
        "handle": measures["handle"],
        "brace_wanted": asked.brace_m,
        "first_brace": asked.first_m,
        "long_extra": asked.longer_m,
        "weight_wanted": asked.weight_n,
        "full_draw": asked.full_m,
    }


def plan(values: TillerInputs) -> Answer:
    """Return the answer of the tiller sheet.

    Parameters
    ----------
    values : TillerInputs
        As read.

    Raises
    ------
    DomainError
        With the field at fault, or a name from below that `_BLAMES` knows.
    """
    asked = _asked(values)
    found = asked.found()
    change_m = found["change"].value
    return Answer(
        rows=rows(_RESULTS, _numbers(asked, found), WORKSHEET.row_texts),
        headlines=(
            Sentence(
                level="answer",
                lead="Long string",
                text="{long_string}; draw it to {change_draw}",
                span="the scale shows {change_reads.low} to {change_reads.high} there",
            ),
            Sentence(
                level="answer",
                lead="First bracing",
                text="{first_string}, braced at {first_brace}",
                span="{first_string.low} to {first_string.high}; {first_reads} at {full_draw}",
            ),
            Sentence(
                level="answer",
                lead="Last string",
                text="{string_length}, braced at {brace_wanted}",
                span="{string_length.low} to {string_length.high}; {weight_wanted} at {full_draw}",
            ),
            Sentence(
                level="answer",
                lead="Do not trust",
                text="the long string: there {long_reads} at {full_draw} is {weight_wanted} on the last one, with "
                "{long_bend} of the bend",
                span="{long_reads.low} to {long_reads.high}",
            ),
        ),
        cautions=(
            TEXT.caution("breaks"),
            TEXT.caution("never"),
            Sentence(
                text="Change to the first bracing when both limbs bend evenly at that mark. A bow that shows "
                "{weight_wanted} at {full_draw} on the long string is one of {long_hides}."
            ),
            *cautions.of_brace_height(values.nock_to_nock, values.brace_height),
            cautions.DOUBT,
        ),
        leaves_out=TEXT.leaves_out,
        figures=lambda system: (tiller_drawings.chart(asked, change_m, system),),
        tables=lambda system: (tiller_drawings.table(asked, system),),
    )


WORKSHEET = Worksheet(
    id="tiller",
    place=24,
    title="Strings to tiller on",
    purpose="A long string, a first bracing, the last string: how long, how far to draw, what the scale then means.",
    groups=(fields.BOW, _STRINGS),
    fields=(
        fields.NOCK_TO_NOCK, fields.HANDLE_LENGTH, fields.LIMB_SHAPE,
        *(replace(each, group=fields.BOW) for each in (*UNBRACED, TIP_CONTACT)),
        replace(fields.DRAW_WEIGHT, label="Draw weight wanted", hint="Of the finished bow, at the draw length below."),
        fields.DRAW_LENGTH, fields.DRAW_FROM, fields.BRACE_HEIGHT,
        TEXT.number("first_brace"), TEXT.number("long_extra"),
    ),
    results=_RESULTS,
    plan=plan,
    inputs=TillerInputs,
    text=TEXT,
    blames=_BLAMES,
    guides=(Guide(page="tillering-string", step="body", words="Make a tillering string, once, for all bows"),),
    next=(onward.CHOOSE, onward.PLAN),
)  # fmt: skip
