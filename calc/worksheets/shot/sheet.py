"""A shot: draw force, stored energy, arrow speed, and the string's pull before and after the arrow has gone."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, cast

from calc.errors import DomainError, Problem
from calc.making.shot import ShotRequest, work_out_shot
from calc.mechanics.bow import read_force_table
from calc.units import GRAIN, INCH, POUND_FORCE
from calc.worksheets.core import (
    Answer,
    Choice,
    Example,
    Guide,
    Lines,
    Number,
    Option,
    Worksheet,
    cords,
    fields,
    read,
    rows,
)
from calc.worksheets.core import next_steps as onward
from calc.worksheets.shot import drawings as shot_drawings
from calc.worksheets.shot import words as shot_words

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.geometry.ends import Section
    from calc.making.shot import ShotResult
    from calc.mechanics.bow import ForceTable
    from calc.numerics import Spread
    from calc.worksheets.core import Value

_ARROW, _STRING, _OWN = "The arrow and the limbs", "The string", "The bow's own draw force"
_STRANDS = "from the strands"
_NOT_WEIGHED = "not weighed"
_RESULTS = (
    "stored_energy", "arrow_speed", "efficiency", "tension_brace", "tension_draw", "tension_peak_before",
    "tension_peak_after", "peak_multiple",
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
_LIMB_MASS = Number(
    key="limb_mass",
    label="One limb",
    hint="What bends, from the stiff handle to the tip. Leave empty if not weighed: the answer widens.",
    group=_ARROW,
    example=_NOT_WEIGHED,
    absent=_NOT_WEIGHED,
    quantity="mass",
    low=0.02,
    high=2.0,
)
_TIP = replace(
    fields.TIP_UPPER,
    group=_ARROW,
    hint="Of a bow of plastic pipe its size, like pipe 3/4: its limbs weigh as pipe does. Else of no account here.",
)
_WALL = Choice(
    key="pipe_wall",
    label="Wall of the pipe",
    hint="The schedule is printed on the pipe. Only for a bow of pipe.",
    group=_ARROW,
    example="unknown",
    options=(
        Option(value="unknown", label="not known"),
        Option(value="40", label="schedule 40"),
        Option(value="80", label="schedule 80"),
    ),
)
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
    hint="A line for each reading, with its units: 10 in 8 lb, or 250 mm 36 N. Or a CSV that has them in its first "
    "line. Draw from where brace height is measured.",
    group=_OWN,
    example="not measured",
    absent="not measured",
    most=200,
)
_BLAMES = {
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
_EXAMPLES = (
    Example(name="usual", words="A 66 in longbow of 40 lbf and an arrow of 400 gr"),
    Example(name="weighed", words="Limbs and string weighed, in metric",
            inputs={"nock_to_nock": "1,83 m", "handle_length": "20 cm", "limb_shape": "tapered",
                    "draw_weight": "152 N", "draw_length": "71 cm", "brace_height": "15 cm", "arrow_mass": "25 g",
                    "limb_mass": "163 g", "string_mass": "6,8 g", "string_stiffness": "20 kN"}),
    Example(name="own-table", words="Draw force read off a scale", inputs={"force_table": _OWN_TABLE}),
    Example(name="weighed-force", words="A force weighed half-way, beside the draw weight",
            inputs={"weighed_force": "21 lbf", "weighed_draw": "15 in"}),
    Example(name="weighed-pipe", words="The same on a short bow nobody looked at",
            inputs={"nock_to_nock": "50 in", "handle_length": "?", "limb_shape": "unknown", "draw_weight": "25 lbf",
                    "draw_length": "20 in", "brace_height": "6 in", "weighed_force": "13 lbf",
                    "weighed_draw": "12 in"}),
    Example(name="weighed-table", words="A single force beside a table", inputs={"force_table": _OWN_TABLE,
            "weighed_force": "21 lbf", "weighed_draw": "15 in"}),
    Example(name="half-weighed", words="A force without its draw", inputs={"weighed_force": "20 lbf"},
            refused=("weighed_draw",)),
    Example(name="weighed-short", words="A force weighed close to brace",
            inputs={"weighed_force": "5 lbf", "weighed_draw": "8 in"}, refused=("weighed_draw",)),
    Example(name="light", words="A light arrow", inputs={"arrow_mass": "250 gr"}),
    Example(name="dry", words="An arrow so light that it is close to none", inputs={"arrow_mass": "150 gr"}),
    Example(name="pipe", words="A 50 in pipe bow, nothing measured further",
            inputs={"nock_to_nock": "50 in", "handle_length": "?", "limb_shape": "unknown", "draw_weight": "25 lbf",
                    "draw_length": "20 in", "brace_height": "6 in", "fibre": "polypropylene", "yarn": "1000 tex",
                    "tip_upper": "pipe 3/4"}),
    Example(name="pipe-wall", words="A pipe bow of schedule 80",
            inputs={"nock_to_nock": "50 in", "draw_weight": "30 lbf", "draw_length": "22 in", "brace_height": "6 in",
                    "tip_upper": "pipe 1/2", "pipe_wall": "80"}),
    Example(name="low-stretch", words="A string that hardly stretches", inputs={"fibre": "hmpe", "strands": "16"}),
    Example(name="stiff", words="A stiff string, weighed and measured", inputs={"string_stiffness": "100 kN",
            "string_mass": "5 g", "limb_shape": "uniform"}),
    Example(name="draw-short", words="Drawn less than braced", inputs={"draw_length": "8 in", "brace_height": "9 in"},
            refused=("draw_length",)),
    Example(name="draw-long", words="Drawn further than the limbs can follow",
            inputs={"nock_to_nock": "36 in", "brace_height": "5 in", "draw_length": "30 in"}, refused=("draw_length",)),
    Example(name="over-braced", words="Higher than the bow allows",
            inputs={"nock_to_nock": "50 in", "brace_height": "14 in", "draw_length": "20 in"},
            refused=("brace_height",)),
    Example(name="long-handle", words="A handle as long as the bow",
            inputs={"nock_to_nock": "30 in", "handle_length": "30 in", "draw_length": "14 in"},
            refused=("handle_length",)),
    Example(name="soft-string", words="A string like rubber",
            inputs={"string_stiffness": "2 kN", "draw_weight": "100 lbf"}, refused=("string_stiffness",)),
    Example(name="table-words", words="A table that holds no numbers", inputs={"force_table": "light in, heavy lb"},
            refused=("force_table",)),
    Example(name="table-units", words="A table without units", inputs={"force_table": "10 8\n20 25\n26 40"},
            refused=("force_table",)),
    Example(name="table-row", words="A line that is no reading", inputs={"force_table": "10 in 8 lb\n20 in soft"},
            refused=("force_table",)),
    Example(name="table-short", words="A table that ends before full draw",
            inputs={"force_table": "10 in 9 lb\n20 in 25 lb"}, refused=("force_table",)),
    Example(name="table-slack", words="A force where the string is at rest",
            inputs={"force_table": "6 in 3 lb\n10 in 9 lb\n26 in 40 lb"}, refused=("force_table",)),
    Example(name="table-twice", words="Two readings at one draw",
            inputs={"force_table": "10 in 9 lb\n10 in 8 lb\n26 in 40 lb"}, refused=("force_table",)),
    Example(name="table-nothing", words="No force at full draw",
            inputs={"force_table": "10 in 0 lb\n26 in 0 lb"}, refused=("force_table",)),
    Example(name="unit", words="A length for a weight", inputs={"arrow_mass": "28 in"}, refused=("arrow_mass",)),
    Example(name="empty", words="Nothing typed", inputs={"arrow_mass": ""}, refused=("arrow_mass",)),
)  # fmt: skip


def _table(text: str | None, brace_m: float) -> ForceTable | None:
    """Return the bow's own table; bare numbers would be taken for inches here and centimetres there."""
    if text is None:
        return None
    if not any(each.isalpha() or each in "\"'#″′" for each in text):
        raise DomainError(Problem(field="force_table", code="unit", reason="table_units"))
    return read_force_table(text, brace_m)


def _asked(values: Mapping[str, Value]) -> ShotRequest:
    brace_m = cast("float", values["brace_height"])
    bow, forces, table = (
        read.bow_of(values, braced_m=brace_m),
        read.forces_of(values),
        _table(cast("str | None", values["force_table"]), brace_m),
    )
    assert bow.draw_m is not None
    if bow.draw_m < brace_m + _LEAST_WAY_M:
        raise DomainError(Problem(field="draw_length", code="pair", other="brace_height", reason="draw_short"))
    if any(each.draw_m < brace_m + _LEAST_WAY_M for each in forces):
        raise DomainError(Problem(field="weighed_draw", code="pair", other="brace_height", reason="weighed_short"))
    strands = cast("float | None", values["strands"])
    asked = ShotRequest(
        bow=bow.given(*forces) if table is None else bow,
        brace_m=brace_m,
        arrow_kg=cast("float", values["arrow_mass"]),
        limb_kg=cast("float | None", values["limb_mass"]),
        string_kg=cast("float | None", values["string_mass"]),
        stiffness_n=cast("float | None", values["string_stiffness"]),
        fibre=cords.strand_of(values).fibre,
        yarn_kg_m=cast("float", values["yarn"]),
        strands=None if strands is None else int(strands),
        table=table,
        left_aside=table is not None and bool(forces),
        tip=cast("Section | None", values["tip_upper"]),
        schedule=None if values["pipe_wall"] == "unknown" else cast("str", values["pipe_wall"]),
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


def plan(values: Mapping[str, Value]) -> Answer:
    """Answer with what a shot does.

    Raises
    ------
    DomainError
        With the field at fault, or a name from below that `_BLAMES` knows.
    """
    done = work_out_shot(_asked(values))
    return Answer(
        rows=rows(_RESULTS, _numbers(done, cast("float", values["draw_weight"])), shot_words.row_texts(done)),
        headlines=shot_words.headlines(),
        cautions=(*cords.unsure(cords.strand_of(values)), *shot_words.cautions(done)),
        leaves_out=shot_words.LEAVES_OUT,
        figures=lambda system: shot_drawings.drawings(done, system),
        tables=lambda system: (shot_drawings.compared(done, system),),
    )


WORKSHEET = Worksheet(
    id="shot",
    place=80,
    title="Work out a shot",
    purpose="What the bow stores, what the arrow gets, and how hard the string is pulled at every moment.",
    groups=(fields.BOW, _ARROW, _STRING, _OWN),
    fields=(
        fields.NOCK_TO_NOCK, fields.HANDLE_LENGTH, fields.LIMB_SHAPE, fields.DRAW_WEIGHT, fields.DRAW_LENGTH,
        fields.DRAW_FROM, replace(fields.BRACE_HEIGHT, label="Brace height"), _ARROW_MASS, _LIMB_MASS,
        replace(fields.FIBRE, group=_STRING), replace(fields.YARN, group=_STRING),
        replace(fields.STRANDS, group=_STRING, low=1.0), _STRING_MASS, _STRING_STIFFNESS,
        replace(fields.WEIGHED_FORCE, group=_OWN), replace(fields.WEIGHED_DRAW, group=_OWN), _TABLE,
        _TIP, _WALL,
    ),
    results=_RESULTS,
    examples=_EXAMPLES,
    plan=plan,
    sentences=shot_words.SENTENCES,
    blames=_BLAMES,
    told=shot_words.TOLD,
    next=(onward.PLAN,),
    guides=(
        Guide(page="measure", step="draw", words="Weigh the draw"),
        Guide(page="brace", step="stages", words="Draw it in steps"),
    ),
)  # fmt: skip
