"""Settling a new string: how short to make it, what to hang on it and how long, what still comes after."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from calc.data import fibre
from calc.making import Fresh, Strand, braced_pull, choose, settled
from calc.units import POUND_FORCE
from calc.worksheets import cautions, fields, onward, settle_drawings, settle_rows
from calc.worksheets.rows import rows
from calc.worksheets.schema import Answer, Example, Guide, Number, Sentence, Worksheet

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.making import Settled
    from calc.worksheets.schema import Value

_RESULTS = (
    "make_length", "shorter_by", "hanging_weight", "hang_time", "elastic_length", "taken_length", "left_length",
    "night_taken", "night_left",
)  # fmt: skip
_SETTLING = "The settling"
_HEAVY_SHARE = 1.0 / 3.0
_WARM_K = 308.15
_SENTENCES = {
    "too_many": "It would take thousands of these strands. Check the size of one, or choose a stronger cord",
    "string_breaks": "The braced bow alone would break so few strands. Use more, or a stronger cord",
    "melts": "This fibre softens or chars from {limit}. Keep it cooler, or choose another fibre",
}
_BLAMES = {
    "string_m": "string_length",
    "yarn_kg_m": "yarn",
    "brace_n": "brace_pull",
    "hang_n": "hanging_weight",
    "hang_s": "hang_time",
    "work_s": "work_time",
    "temperature_k": "temperature",
    "tension_n": "strands",
}
_LEAVES_OUT = (
    "A slack string shrinks back a little: measure it right after settling, or after an hour on the bow.",
    "Damp, which moves natural fibres more than load does.",
    "Shooting, which shakes a lay closer than a steady weight: read the brace height after 10, 50 and 200 shots.",
    "Fibres whose creep is high run on steadily after some days instead of slowing.",
    "Splices and knots that slip: a pen mark across the throat shows it.",
)
_FALLS = (
    "Hanging weights fall. Hang it low over soft ground with a second line on the weight, keep feet and children away, "
    "and never stand under it. A bowstring is not a lifting line."
)
_HANGING = Number(
    key="hanging_weight",
    label="Weight hung on it",
    hint="The trade hangs about 50 lbf (220 N). Leave empty to be advised.",
    group=_SETTLING,
    example="advise",
    absent="advise",
    quantity="force",
    low=1 * POUND_FORCE,
    high=500 * POUND_FORCE,
)
_TIME = Number(
    key="hang_time",
    label="Hanging time",
    hint="In min, h or d. Leave empty to be advised.",
    group=_SETTLING,
    example="advise",
    absent="advise",
    quantity="duration",
    low=60.0,
    high=7 * 86400.0,
)
_WORK = Number(
    key="work_time",
    label="Time braced after that",
    hint="Hours on the braced bow until you measure again: thirty evenings are about 100 h.",
    group=_SETTLING,
    example="100 h",
    quantity="duration",
    low=3600.0,
    high=10_000 * 3600.0,
)
_WARMTH = Number(
    key="temperature",
    label="Warmth of the string",
    hint="Where it hangs and where it is used.",
    group=_SETTLING,
    example="20 °C",
    quantity="temperature",
    low=243.15,
    high=473.15,
)
_EXAMPLES = (
    Example(name="usual", words="A polyester string for a 40 lbf bow, weight and time advised"),
    Example(name="trade", words="The trade's 50 lbf for an hour",
            inputs={"hanging_weight": "50 lbf", "hang_time": "1 h"}),
    Example(
        name="polypropylene", words="Polypropylene on a pipe bow, on a warm day",
        inputs={"fibre": "polypropylene", "yarn": "1000 tex", "draw_weight": "30 lbf", "string_length": "43 1/2 in",
                "temperature": "36 °C", "hang_time": "8 h"},
    ),
    Example(name="hmpe", words="HMPE, pull known, in metric",
            inputs={"fibre": "hmpe", "yarn": "180 tex", "strands": "16", "brace_pull": "270 N",
                    "string_length": "1,62 m"}),
    Example(name="heavy", words="More weight than is wise", inputs={"hanging_weight": "120 lbf"}),
    Example(name="light", words="A bag of sand of 5 lbf for ten minutes",
            inputs={"hanging_weight": "5 lbf", "hang_time": "10 min"}),
    Example(name="breaks", words="Two strands on a strong bow", inputs={"strands": "2", "draw_weight": "60 lbf"},
            refused=("strands",)),
    Example(name="too-heavy", words="A weight that breaks it", inputs={"hanging_weight": "400 lbf"},
            refused=("hanging_weight",)),
    Example(name="melts", words="HMPE in boiling water", inputs={"fibre": "hmpe", "temperature": "100 °C"},
            refused=("temperature",)),
    Example(name="no-time", words="No time at all", inputs={"hang_time": "0"}, refused=("hang_time",)),
    Example(name="wrong-unit", words="A length for a time", inputs={"work_time": "3 in"}, refused=("work_time",)),
    Example(name="hair", words="Finer than any hand can count", inputs={"fibre": "sinew", "yarn": "5 tex",
            "draw_weight": "200 lbf"}, refused=("yarn",)),
    Example(name="empty", words="Nothing typed", inputs={"string_length": ""}, refused=("string_length",)),
)  # fmt: skip


def _fresh(values: Mapping[str, Value]) -> Fresh:
    """Turn what was read into a new string; a count that is left open is the one the draw weight needs."""
    draw_weight_n = cast("float", values["draw_weight"])
    kind, yarn_kg_m = fibre(cast("str", values["fibre"])), cast("float", values["yarn"])
    asked = cast("float | None", values["strands"])
    if asked is None:
        asked = choose(Strand(fibre=kind, laid=False, yarn_kg_m=yarn_kg_m), None, 2, draw_weight_n).strands
    return Fresh(
        string_m=cast("float", values["string_length"]),
        fibre=kind,
        yarn_kg_m=yarn_kg_m,
        strands=int(asked),
        brace_n=braced_pull(draw_weight_n, cast("float | None", values["brace_pull"])),
        hang_n=cast("float | None", values["hanging_weight"]),
        hang_s=cast("float | None", values["hang_time"]),
        work_s=cast("float", values["work_time"]),
        temperature_k=cast("float", values["temperature"]),
    )


def _headlines(made: Settled) -> tuple[Sentence, ...]:
    verdict = "a turn or two takes that up" if made.enough else "more than a turn or two: settle it longer"
    return (
        Sentence(level="answer", lead="Make it", text="{make_length} long, fresh and slack: {shorter_by} shorter than "
                 "it will be on the bow", span="{make_length.low} to {make_length.high}"),
        Sentence(level="answer", lead="Hang", text="{hanging_weight} on it for {hang_time}: it grows by {taken_length}",
                 span="by {taken_length.low} to {taken_length.high}"),
        Sentence(level="answer", lead="Still to come", text=f"{{left_length}} in {{work_time}} braced: {verdict}",
                 span="{left_length.low} to {left_length.high}"),
        Sentence(level="answer", lead="A braced night", text="takes out {night_taken} instead, and leaves {night_left}",
                 span="takes {night_taken.low} to {night_taken.high}, leaves {night_left.low} to {night_left.high}"),
    )  # fmt: skip


def _cautions(made: Settled) -> tuple[Sentence, ...]:
    fresh = made.fresh
    said = [_FALLS]
    if made.hang_n > _HEAVY_SHARE * made.figures["breaking_force"].low:
        said.append(
            "That weight is {weight_share.high} of what this string holds if all goes the wrong way. Hang half of it "
            "for longer, or let the braced bow settle the string."
        )
    if fresh.temperature_k > _WARM_K:
        said.append(
            "Warmth speeds creep, and creep in warmth goes on. Never heat a string to settle it, and keep flames and "
            "hot-air tools away from wax and fibre."
        )
    night = Sentence(
        text="A wooden bow left braced for a night takes a bend of its own. Where you can, hang a weight instead."
    )
    warned = (Sentence(level="caution", text=each) for each in said)
    return (*warned, night, cautions.FIRST_BRACING, *cautions.of_fibre(fresh.fibre), cautions.DOUBT)


def plan(values: Mapping[str, Value]) -> Answer:
    """Answer how a new string settles.

    Raises
    ------
    DomainError
        With the field at fault, or a name from below that `_BLAMES` knows.
    """
    made = settled(_fresh(values))
    return Answer(
        rows=rows(_RESULTS, settle_rows.numbers(made, cast("float", values["draw_weight"])), settle_rows.TOLD),
        headlines=_headlines(made),
        cautions=_cautions(made),
        leaves_out=_LEAVES_OUT,
        figures=lambda system: (settle_drawings.chart(made, system),),
        tables=lambda system: (settle_drawings.times(made, system),),
    )


WORKSHEET = Worksheet(
    id="settle",
    place=65,
    title="Settle the stretch",
    purpose="From a new string to how short to make it, what to hang on it and how long, and what still comes after.",
    groups=(fields.BOW, fields.CORD, _SETTLING),
    fields=(
        fields.STRING_LENGTH, fields.DRAW_WEIGHT, fields.BRACE_PULL, fields.FIBRE, fields.YARN, fields.STRANDS,
        _HANGING, _TIME, _WORK, _WARMTH,
    ),
    results=_RESULTS,
    examples=_EXAMPLES,
    plan=plan,
    sentences=_SENTENCES,
    blames=_BLAMES,
    told=settle_rows.TOLD,
    next=(onward.HANG, onward.BRACE),
    guides=(
        Guide(page="settle", step="hang", words="Hang the weight low"),
        Guide(page="settle", step="night", words="Or brace it overnight"),
    ),
)  # fmt: skip
