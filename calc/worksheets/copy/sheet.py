"""Make it like this one: what to cut and turn for another string, from the old one alone."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Literal

from calc.data import practice
from calc.making.strands import tails
from calc.making.tuning import LABEL_N, LABEL_PIN_M, LABEL_SHORTER_M, HungRead, OldLoop, OldString, heaviest_n
from calc.worksheets.core import (
    Answer,
    Choice,
    Guide,
    Option,
    Sentence,
    SheetText,
    Worksheet,
    cautions,
    cords,
    fields,
    rows,
)
from calc.worksheets.core import next_steps as onward
from calc.worksheets.cuts import drawings as cuts_drawings
from calc.worksheets.cuts.sheet import STRAND_STEP
from calc.worksheets.nail.fields import HANGING_WEIGHT, HUNG_LENGTH, PEG_DIAMETER

if TYPE_CHECKING:
    from calc.making.strands import TailCheck, Wax
    from calc.mechanics.estimate import CordEstimate
    from calc.numerics import Spread

TEXT = SheetText(__spec__)

_OLD, _LOOPS = "The old string on two nails", "Its loops, laid flat"
_RESULTS = (
    "cut_length", "cord_total", "loop_upper", "body_raw", "loop_lower", "turns_body", "turns_loop", "turns_loop_lower",
    "fresh_hung",
)  # fmt: skip
_BLAMES = {
    **cords.BLAMES,
    "length_m": "hung_length",
    "weight_n": "hanging_weight",
    "tension_n": "hanging_weight",
    "peg_m": "peg_diameter",
    "inside_m": "loop_inside_upper",
    "cord_m": "cord_diameter",
    "diameter_m": "cord_diameter",
    "turns": "turns_counted",
    "over_m": "turns_over",
    "tail_m": "tail_length",
    "finished_m": "hung_length",
}
_FROM = Choice(
    key="copied_from",
    label="Its length is from",
    hint="A label tells less than the string itself does.",
    group=_OLD,
    example="nails",
    options=(
        Option(value="nails", label="two nails, under a weight"),
        Option(value="bow_label", label="the length marked on the bow"),
        Option(value="string_tag", label="the string's tag"),
    ),
)


class CopyInputs(cords.StrandInputs):
    """What was read, in SI, by field key."""

    copied_from: Literal["nails", "bow_label", "string_tag"]
    hung_length: float
    hanging_weight: float
    peg_diameter: float
    loop_inside_upper: float
    loop_inside_lower: float
    yarn: float
    strands: float
    bundles: Literal["2", "3"]
    cord_diameter: float
    turns_counted: float
    turns_over: float
    tail_length: float
    strand_step: float
    wax: Wax


def _old(values: CopyInputs, strand: CordEstimate) -> OldString:
    on_nails = values.copied_from == "nails"
    length_m = values.hung_length - (LABEL_SHORTER_M if values.copied_from == "bow_label" else 0.0)
    return OldString(
        read=HungRead(values.hanging_weight if on_nails else LABEL_N, length_m),
        peg_m=values.peg_diameter if on_nails else LABEL_PIN_M,
        loops=(OldLoop(values.loop_inside_upper), OldLoop(values.loop_inside_lower)),
        fibres=strand.fits or (strand.fibre,),
        line_kg_m=values.strands * values.yarn,
        bundles=int(values.bundles),
        strands=int(values.strands),
        cord_m=values.cord_diameter,
        turns=values.turns_counted,
        over_m=values.turns_over,
        tail_m=values.tail_length,
        step_m=values.strand_step,
    )


def _numbers(
    values: CopyInputs, old: OldString, found: dict[str, Spread], held: TailCheck
) -> dict[str, Spread | float]:
    """Return every number the working shows, by row key."""
    made = old.plan()
    return {
        "cut_length": found["cut"],
        "cord_total": found["cord"],
        "loop_upper": found["loop_upper"],
        "body_raw": found["body"],
        "loop_lower": found["loop_lower"],
        "turns_body": found["turns"],
        "turns_loop": found["turns_upper"],
        "turns_loop_lower": found["turns_lower"],
        "fresh_hung": found["fresh"],
        "hung_length": old.causes["tape"].shifted(old.read.length_m),
        "label_length": values.hung_length,
        "hung_weight": old.read.weight_n,
        "pegs": old.peg_m,
        "throats": found["throats"],
        "strain": old.causes["strain"],
        "bedding": practice("bedding").spread,
        "middle_cord": found["middle"],
        "take_up_body": found["take_up"],
        "body_lay": old.causes["body_lay"],
        "turns_counted": values.turns_counted,
        "turns_over": values.turns_over,
        "cord_diameter": values.cord_diameter,
        "loop_inside_upper": old.causes["upper"].shifted(values.loop_inside_upper),
        "loop_inside_lower": old.causes["lower"].shifted(values.loop_inside_lower),
        "loop_lay": old.causes["loop_lay"],
        "strands": old.strands,
        "tail": values.tail_length,
        "step": made.step_m,
        "taper": made.step_m * (old.order.each - 1),
        "steps": old.order.each - 1,
        "tail_needed": held.needed,
        "tail_shortest": held.shortest_m,
    }


def plan(values: CopyInputs) -> Answer:
    """Return what to cut and turn for another string.

    Parameters
    ----------
    values : CopyInputs
        As read.

    Raises
    ------
    DomainError
        With the field at fault, or a name from below that `_BLAMES` knows.
    """
    strand = cords.strand_of(values)
    old = _old(values, strand)
    found, made = old.found(), old.plan()
    shortest_m = values.tail_length - (old.order.each - 1) * made.step_m
    held = tails(cords.fibres_of(values.fibre), values.wax, old.bundle_m, old.bundles, shortest_m)
    label = (TEXT.caution("label"),) if values.copied_from != "nails" else ()
    heavy = (TEXT.caution("heavy"),) if old.read.weight_n > heaviest_n() and not label else ()
    return Answer(
        rows=rows(_RESULTS, _numbers(values, old, found, held), WORKSHEET.row_texts),
        headlines=(
            Sentence(
                level="answer",
                lead="Cut",
                text=f"{{cut_length}} × {old.strands} strands, {old.bundles} bundles of {old.order.each}",
                span="between {cut_length.low} and {cut_length.high}",
            ),
            Sentence(
                level="answer",
                lead="Mark off",
                text="{tail} · {loop_upper} · {body_raw} · {loop_lower} · {tail}",
                span="tail, upper loop, body, lower loop, tail, one after the other along the flat bundle",
            ),
            Sentence(
                level="answer",
                lead="Turn",
                text="{turns_body} turns into the free body",
                span="{turns_body.low} to {turns_body.high}; {turns_loop} and {turns_loop_lower} in the loops",
            ),
            Sentence(
                level="answer",
                lead="On the nails",
                text="new it hangs at {fresh_hung}, and grows to {hung_length}",
                span="{fresh_hung.low} to {fresh_hung.high} under {hung_weight}",
            ),
        ),
        cautions=(
            *heavy,
            *label,
            cautions.FALLS,
            TEXT.caution("worn"),
            cords.of_tails(held),
            *cords.counted_on(strand),
            *cords.cautions_of(strand),
            TEXT.caution("holds"),
            cautions.FIRST_BRACING,
            cautions.DOUBT,
        ),
        leaves_out=TEXT.leaves_out,
        figures=lambda system: (cuts_drawings.layout(old.order, made, system),),
        next=(onward.CHOOSE, onward.make(old.bundles), onward.NAIL),
    )


WORKSHEET = Worksheet(
    id="copy",
    place=15,
    title="Make it like this one",
    purpose="Only the old string is there: hang it on two nails, measure it, and know what to cut for another.",
    groups=(_OLD, _LOOPS, fields.CORD, fields.METHOD),
    fields=(
        _FROM, replace(HUNG_LENGTH, group=_OLD, label="Length, peg to peg or on the label"),
        replace(HANGING_WEIGHT, group=_OLD, hint="About what the braced bow pulled. Of no account for a label."),
        replace(PEG_DIAMETER, group=_OLD, hint="Both alike. Of no account for a label."),
        TEXT.number("loop_inside_upper"), TEXT.number("loop_inside_lower"),
        fields.FIBRE, fields.YARN,
        replace(fields.STRANDS, example="14", absent="", hint="Count them at a loop, or at a cut end."),
        replace(fields.BUNDLES, group=fields.CORD),
        replace(fields.CORD_DIAMETER, hint="Of its body. Wind it ten times round a pencil, and divide by ten."),
        TEXT.number("turns_counted"), TEXT.number("turns_over"),
        replace(fields.TAIL_LENGTH, hint="From the old throat to where the string becomes thin."),
        STRAND_STEP, fields.WAX,
    ),
    results=_RESULTS,
    plan=plan,
    inputs=CopyInputs,
    text=TEXT,
    shared=(cords.SENTENCES,),
    blames=_BLAMES,
    guides=(Guide(page="settle", step="like-this", words="Measure the old string"),),
)  # fmt: skip
