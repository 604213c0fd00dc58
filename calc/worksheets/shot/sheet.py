"""A shot: draw force, stored energy, arrow speed, and the string's pull before and after the arrow has gone."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Literal

from calc.errors import DomainError, Problem
from calc.making.shot import ShotRequest, work_out_shot
from calc.mechanics.bow import read_force_table
from calc.units import GRAIN, INCH, POUND_FORCE
from calc.worksheets.core import (
    Answer,
    Guide,
    Lines,
    Number,
    SheetText,
    Worksheet,
    cords,
    fields,
    read,
    rows,
    tips,
)
from calc.worksheets.core import next_steps as onward
from calc.worksheets.shot import drawings as shot_drawings
from calc.worksheets.shot import on_string
from calc.worksheets.shot import words as shot_words

if TYPE_CHECKING:
    from calc.geometry.ends import Section
    from calc.making.shot import ShotResult
    from calc.mechanics.bow import ForceTable
    from calc.numerics import Spread

TEXT = SheetText(__spec__)

_ARROW, _STRING, _OWN = "The arrow and the limbs", "The string", "The bow's own draw force"
_STRANDS = "from the strands"
_RESULTS = (
    "stored_energy", "arrow_speed", "efficiency", "tension_brace", "tension_draw", "tension_peak_before",
    "tension_peak_after", "peak_multiple", "tension_peak",
)  # fmt: skip
_ARROW_MASS = Number(
    key="arrow_mass",
    label="Arrow",
    hint="The whole arrow with point, feathers and nock, on a kitchen or letter scale.",
    group=_ARROW,
    example="400 gr",
    quantity="mass",
    low=50 * GRAIN,
    high=2000 * GRAIN,
)
_LIMB_MASS = replace(fields.LIMB_MASS, group=_ARROW)
_STRING_MASS = Number(
    key="string_mass",
    label="String, weighed",
    hint="The whole string with loops and serving. Leave empty to have it worked out from the strands.",
    group=_STRING,
    example=_STRANDS,
    absent=_STRANDS,
    quantity="mass",
    low=10 * GRAIN,
    high=800 * GRAIN,
)
_STRING_STIFFNESS = Number(
    key="string_stiffness",
    label="String stiffness",
    hint="Pull that would stretch it to twice its length, if it could. Leave empty to have it worked out.",
    group=_STRING,
    example=_STRANDS,
    absent=_STRANDS,
    quantity="stiffness",
    low=2e3,
    high=4e5,
)
_TABLE = Lines(
    key="force_table",
    label="Draw and force, if you measured them",
    hint="A line for each reading, with its units: 10 in 8 lb, or 250 mm 3.6 kg. Or a CSV that has them in its first "
    "line. Draw from where brace height is measured.",
    group=_OWN,
    example="not measured",
    absent="not measured",
    most=200,
)
_BLAMES = {
    **on_string.BLAMES,
    "at_m": "weighed_draw",
    "readings": "weighed_force",
    "brace_m": "brace_height",
    "draw_m": "draw_length",
    "draw_force_n": "draw_weight",
    "handle_length_m": "handle_length",
    "nock_to_nock_m": "nock_to_nock",
    "stiffness_n": "string_stiffness",
    "force_n": "force_table",
    "force_table": "force_table",
}
_LEAST_WAY_M = 4 * INCH
_OWN_TABLE = "8 in 5 lb\n10 in 9.5 lb\n14 in 18 lb\n18 in 25.5 lb\n22 in 32.5 lb\n26 in 41 lb"


class ShotInputs(read.BowInputs, cords.StrandInputs):
    """What was read, in SI, by field key."""

    draw_weight: float
    draw_length: float
    brace_height: float
    arrow_mass: float
    limb_mass: float | None
    yarn: float
    strands: float | None
    string_mass: float | None
    string_stiffness: float | None
    force_table: str | None
    tip_upper: Section | None
    pipe_wall: Literal["unknown", "40", "80"]
    silencer_mass: float | None
    silencer_place: float | None
    middle_mass: float | None


def _table(text: str | None, brace_m: float) -> ForceTable | None:
    """Return the bow's own table; bare numbers would be taken for inches here and centimetres there."""
    if text is None:
        return None
    if not any(each.isalpha() or each in "\"'#″′" for each in text):
        raise DomainError(Problem(field="force_table", code="unit", reason="table_units"))
    return read_force_table(text, brace_m)


def _asked(values: ShotInputs) -> ShotRequest:
    brace_m = values.brace_height
    bow, forces = read.bow_of(values, braced_m=brace_m), read.forces_of(values)
    table = _table(values.force_table, brace_m)
    assert bow.draw_m is not None
    if bow.draw_m < brace_m + _LEAST_WAY_M:
        raise DomainError(Problem(field="draw_length", code="pair", other="brace_height", reason="draw_short"))
    if any(each.draw_m < brace_m + _LEAST_WAY_M for each in forces):
        raise DomainError(Problem(field="weighed_draw", code="pair", other="brace_height", reason="weighed_short"))
    strand = cords.strand_of(values)
    asked = ShotRequest(
        bow=bow.given(*forces) if table is None else bow,
        brace_m=brace_m,
        arrow_kg=values.arrow_mass,
        limb_kg=values.limb_mass,
        string_kg=values.string_mass,
        stiffness_n=values.string_stiffness,
        fibre=strand.fibre,
        fits=strand.fits,
        yarn_kg_m=values.yarn,
        strands=None if values.strands is None else int(values.strands),
        table=table,
        left_aside=table is not None and bool(forces),
        tip=values.tip_upper,
        schedule=tips.schedule_of(values.pipe_wall),
    )
    if asked.force_n < POUND_FORCE:
        raise DomainError(Problem(field="force_table", code="min", limit=POUND_FORCE, reason="table_nothing"))
    return asked


def _numbers(done: ShotResult, told_n: float) -> dict[str, Spread | float]:
    """Return every number the working shows, by row key."""
    asked, causes = done.asked, done.causes
    return {
        **done.figures,
        **shot_words.compared(done),
        **shot_words.learnt(done),
        "draw_weight": asked.force_n if asked.table is not None else told_n,
        "way_drawn": asked.draw_m - asked.brace_m,
        "nock_to_nock": asked.bow.nock_to_nock_m,
        "handle": causes["handle"],
        "arrow_mass": asked.arrow_kg,
        "limb_mass": causes["limb_mass"],
        "string_mass": causes["string_mass"],
        "string_stiffness": causes["string_stiffness"],
        "kept": causes["kept"],
        "leaves_after": done.middle.leaves_s,
    }


def plan(values: ShotInputs) -> Answer:
    """Return an answer with what a shot does.

    Parameters
    ----------
    values : ShotInputs
        As read.

    Raises
    ------
    DomainError
        With the field at fault, or a name from below that `_BLAMES` knows.
    """
    done = work_out_shot(_asked(values))
    laden = on_string.laden(done, on_string.weights(values.silencer_mass, values.silencer_place, values.middle_mass))
    return Answer(
        rows=rows(
            _RESULTS,
            _numbers(done, values.draw_weight) | on_string.numbers(done, laden),
            shot_words.row_texts(WORKSHEET.row_texts, done),
        ),
        headlines=(*shot_words.headlines(laden=laden is not None), *on_string.headlines(laden)),
        cautions=(
            *cords.unsure(cords.strand_of(values)),
            *shot_words.cautions(done),
            *on_string.cautions(laden),
        ),
        leaves_out=TEXT.leaves_out,
        figures=lambda system: (*shot_drawings.drawings(done, system), *on_string.drawings(done, laden, system)),
        tables=lambda system: (shot_drawings.compared(done, system), *on_string.table(laden, system)),
    )


WORKSHEET = Worksheet(
    id="shot",
    place=80,
    title="Work out a shot",
    purpose="What the bow stores, what the arrow gets, and how hard the string is pulled at every moment.",
    groups=(fields.BOW, _ARROW, _STRING, _OWN, on_string.GROUP),
    fields=(
        fields.NOCK_TO_NOCK, fields.HANDLE_LENGTH, fields.LIMB_SHAPE, fields.DRAW_WEIGHT, fields.DRAW_LENGTH,
        fields.DRAW_FROM, replace(fields.BRACE_HEIGHT, label="Brace height"), _ARROW_MASS, _LIMB_MASS,
        replace(fields.FIBRE, group=_STRING), replace(fields.YARN, group=_STRING),
        replace(fields.STRANDS, group=_STRING, low=1.0), _STRING_MASS, _STRING_STIFFNESS,
        replace(fields.WEIGHED_FORCE, group=_OWN), replace(fields.WEIGHED_DRAW, group=_OWN), _TABLE,
        replace(tips.PIPE_TIP, group=_ARROW, label=fields.TIP_UPPER.label, example=fields.TIP_UPPER.example),
        replace(tips.PIPE_WALL, group=_ARROW), *on_string.FIELDS,
    ),
    results=_RESULTS,
    plan=plan,
    inputs=ShotInputs,
    text=TEXT,
    blames=_BLAMES,
    folded=(on_string.GROUP,),
    next=(onward.PLAN,),
    guides=(
        Guide(page="measure", step="draw", words="Weigh the draw"),
        Guide(page="brace", step="stages", words="Draw it in steps"),
    ),
)  # fmt: skip
