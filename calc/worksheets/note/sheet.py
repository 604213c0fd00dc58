"""Hear the pull: what the note of a plucked bowstring tells of string and limbs."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Literal

from calc.data import practice
from calc.errors import DomainError, Problem
from calc.making.strands import choose
from calc.making.tuning import HeardBefore, Sounding, note_name, serving_line
from calc.numerics import Spread
from calc.worksheets.core import Answer, Guide, Sentence, SheetText, Worksheet, cautions, cords, fields, read, rows
from calc.worksheets.core import next_steps as onward
from calc.worksheets.note import drawings as note_drawings
from calc.worksheets.string.more import TIP_CONTACT, UNBRACED

if TYPE_CHECKING:
    from calc.making.strands import Chosen

TEXT = SheetText(__spec__)

_NOTE, _MORE, _BEFORE = "The note", "More measures, for a surer answer", "An earlier note"
_RESULTS = ("tension_note", "weight_note", "note_wanted", "tension_brace", "pluck_most")
_BLAMES = {**read.BOW_BLAMES, **cords.BLAMES, "thread_m": "thread_diameter", "string_m": "string_length",
           "core_m": "served_length", "length_m": "served_length", "then_hz": "note_before"}  # fmt: skip
_BRACE_NOW = replace(
    fields.BRACE_HEIGHT, label="Brace height now", hint="From the string square to the deepest point of the grip."
)
_STRING = replace(
    fields.STRING_LENGTH,
    label="String, nock to nock",
    hint="Along the braced string. Leave empty to have it worked out from the brace height.",
    group=_MORE,
    example="not measured",
    absent="not measured",
)
_APART = 1.6
"""A draw weight by the note so many times that told, or less, and another note of the string was heard. [-]"""


class NoteInputs(read.BowInputs, cords.StrandInputs):
    """What was read, in SI, by field key."""

    note_heard: float
    brace_height: float
    draw_weight: float
    draw_length: float
    string_length: float | None
    yarn: float
    strands: float | None
    bundles: Literal["2", "3"]
    weighed_string: float | None
    cut_length: float | None
    served_length: float
    thread_diameter: float
    note_before: float | None
    brace_before: float | None


def _flat(values: NoteInputs, made: Chosen, cord_m: float) -> Spread:
    """Return what all strands weigh for each metre, with their wax [kg/m]."""
    if values.weighed_string is None:
        wax = practice("wax_taken").spread
        each = made.found["linear"]
        return Spread(*(
            made.strands * one * (1.0 + share)
            for one, share in ((each.low, wax.low), (each.value, wax.value), (each.high, wax.high))
        ))  # fmt: skip
    if values.cut_length is None:
        raise DomainError(Problem(field="cut_length", code="missing", reason="no_cut"))
    serving_kg = values.served_length * serving_line(cord_m, values.thread_diameter, values.served_length)
    if serving_kg >= values.weighed_string:
        raise DomainError(Problem(field="weighed_string", code="pair", other="served_length", reason="serving_heavy"))
    off = practice("weight_reading").spread
    return Spread(*((values.weighed_string * (1.0 + each) - serving_kg) / values.cut_length for each in
                    (off.low, off.value, off.high)))  # fmt: skip


def _before(values: NoteInputs) -> HeardBefore | None:
    note_hz, brace_m = values.note_before, values.brace_before
    if (note_hz is None) != (brace_m is None):
        lacking = "note_before" if note_hz is None else "brace_before"
        raise DomainError(Problem(field=lacking, code="missing", reason="half_before"))
    return None if note_hz is None or brace_m is None else HeardBefore(note_hz, brace_m)


def _sounding(values: NoteInputs, made: Chosen) -> Sounding:
    cord_m = made.thick.cord_m.value
    return Sounding(
        bow=read.bow_of(values, braced_m=values.brace_height),
        brace_m=values.brace_height,
        note_hz=values.note_heard,
        string_m=values.string_length,
        fibre=made.strand.fibre,
        flat_kg_m=_flat(values, made, cord_m),
        bundles=int(values.bundles),
        cord_m=cord_m,
        thread_m=values.thread_diameter,
        served_m=values.served_length,
        before=_before(values),
    )


def _numbers(
    values: NoteInputs, sounding: Sounding, found: dict[str, Spread], made: Chosen
) -> dict[str, Spread | float]:
    """Return every number the working shows, by row key."""
    shown: dict[str, Spread | float] = {
        "tension_note": found["tension"],
        "weight_note": found["weight"],
        "note_wanted": found["wanted"],
        "tension_brace": found["model"],
        "pluck_most": sounding.pluck_m,
        "note_heard": sounding.causes["read"].scaled(values.note_heard).shifted(values.note_heard),
        "sounding_length": found["length"],
        "mean_line": found["line"],
        "flat_line": sounding.flat_kg_m,
        "serving_line": sounding.serving_kg_m,
        "served_length": values.served_length,
        "thread_diameter": values.thread_diameter,
        "note_give": sounding.causes["give"],
        "strain": sounding.strain,
        "strands": made.strands,
        "yarn": made.found["linear"],
        "draw_weight": values.draw_weight,
        "brace_now": values.brace_height,
    }
    if values.weighed_string is None:
        shown["wax_taken"] = practice("wax_taken").spread
    else:
        shown |= {"weighed_string": values.weighed_string, "cut_length": values.cut_length or 0.0}
    if sounding.before is not None:
        since = sounding.since()
        limbs = since["limbs"]
        shown |= {
            "string_grown": since["grown"],
            "limbs_since": limbs,
            "limbs_weaker": Spread(-limbs.high, -limbs.value, -limbs.low),
            "string_shrunk": Spread(-since["grown"].high, -since["grown"].value, -since["grown"].low),
            "note_before": sounding.before.note_hz,
            "brace_before": sounding.before.brace_m,
        }
    return shown


def _agrees(told_n: float, found: Spread) -> str:
    if found.low <= told_n <= found.high:
        return "the {draw_weight} told agrees with it"
    return f"{'less' if found.value < told_n else 'more'} than the {{draw_weight}} told"


def _since(numbers: dict[str, Spread | float]) -> tuple[Sentence, ...]:
    """Return what has changed since the earlier note, in words."""
    limbs, grown = numbers.get("limbs_since"), numbers.get("string_grown")
    if not isinstance(limbs, Spread) or not isinstance(grown, Spread):
        return ()
    strength, span = (
        "as strong as they were, as far as a note tells",
        "{limbs_since.low} to {limbs_since.high} stronger",
    )
    if limbs.high < 0.0:
        strength = "weaker by {limbs_weaker}: they have taken a set, or are damp or warm"
        span = "{limbs_weaker.low} to {limbs_weaker.high}"
    elif limbs.low > 0.0:
        strength = "stronger by {limbs_since}: they are drier or colder, or one of the notes is wrong"
        span = "{limbs_since.low} to {limbs_since.high}"
    length = "as long as it was: it has settled"
    if grown.low > 0.0:
        length = "longer by {string_grown}: it has not settled, or it creeps"
    elif grown.high < 0.0:
        length = "shorter by {string_shrunk}: it was turned up, or has dried"
    return (
        Sentence(level="answer", lead="The limbs since then", text=strength, span=span),
        Sentence(level="answer", lead="The string since then", text=length,
                 span="{string_grown.low} to {string_grown.high} longer"),
    )  # fmt: skip


def plan(values: NoteInputs) -> Answer:
    """Return what the note tells.

    Parameters
    ----------
    values : NoteInputs
        As read.

    Raises
    ------
    DomainError
        With the field at fault, or a name from below that `_BLAMES` knows.
    """
    made = choose(
        cords.strand_of(values),
        None if values.strands is None else int(values.strands),
        int(values.bundles),
        values.draw_weight,
        shape=read.shape_of(values.limb_shape),
    )
    sounding = _sounding(values, made)
    found = sounding.found()
    numbers = _numbers(values, sounding, found, made)
    weight, wanted = found["weight"], found["wanted"]
    far = not 1.0 / _APART < weight.value / values.draw_weight < _APART
    return Answer(
        rows=rows(_RESULTS, numbers, WORKSHEET.row_texts),
        headlines=(
            Sentence(
                level="answer",
                lead="The string pulls",
                text="{tension_note} by its note",
                span="{tension_note.low} to {tension_note.high}",
            ),
            Sentence(
                level="answer",
                lead="Draw weight",
                text=f"{{weight_note}} by the note; {_agrees(values.draw_weight, weight)}",
                span="{weight_note.low} to {weight_note.high}",
            ),
            Sentence(
                level="answer",
                lead="Note to expect",
                text=f"{{note_wanted}}, near {note_name(wanted.value)}, from a bow of {{draw_weight}}",
                span="{note_wanted.low} to {note_wanted.high}",
            ),
            *_since(numbers),
        ),
        cautions=(
            *((TEXT.caution("octave"),) if far else ()),
            TEXT.caution("pluck"),
            TEXT.caution("across"),
            Sentence(
                text="Pull the middle aside by no more than {pluck_most}: a wider pluck raises the note by itself."
            ),
            *cautions.of_brace_height(values.nock_to_nock, values.brace_height),
            *cords.counted_on(made.strand),
            *cords.cautions_of(made.strand),
            cautions.DOUBT,
        ),
        leaves_out=TEXT.leaves_out,
        figures=lambda system: (note_drawings.chart(values.note_heard, weight, values.draw_weight, system),),
        tables=lambda system: (note_drawings.table(values.note_heard, weight, values.draw_weight, system),),
    )


WORKSHEET = Worksheet(
    id="note",
    place=72,
    title="Hear the pull",
    purpose="Pluck the braced string: its note tells its pull, the draw weight, and what has changed.",
    groups=(_NOTE, fields.BOW, fields.CORD, _BEFORE, _MORE),
    folded=(_BEFORE, _MORE),
    fields=(
        TEXT.number("note_heard"),
        fields.NOCK_TO_NOCK, fields.HANDLE_LENGTH, fields.LIMB_SHAPE,
        fields.DRAW_WEIGHT, fields.DRAW_LENGTH, fields.DRAW_FROM, _BRACE_NOW, fields.FIBRE, fields.YARN,
        replace(fields.STRANDS, hint="Count them at a loop. Left empty, as many as would be advised."),
        replace(fields.BUNDLES, group=fields.CORD), TEXT.number("served_length"), fields.THREAD_DIAMETER,
        TEXT.number("note_before"), TEXT.number("brace_before"),
        _STRING,
        *(replace(each, group=_MORE) for each in (*UNBRACED, TIP_CONTACT)),
        TEXT.number("weighed_string"), TEXT.number("cut_length"),
    ),
    results=_RESULTS,
    plan=plan,
    inputs=NoteInputs,
    text=TEXT,
    shared=(cords.SENTENCES,),
    blames=_BLAMES,
    guides=(Guide(page="brace", step="hear", words="Pluck it and listen"),),
    next=(onward.TUNE, onward.LOOK_AFTER),
)  # fmt: skip
