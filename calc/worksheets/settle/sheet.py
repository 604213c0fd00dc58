"""Settling a new string: how short to make it, what to hang on it and how long, what still comes after."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Literal

from calc.making.strands import choose
from calc.making.tuning import HEAVY_SHARE, NewString, OnBow, heaviest_n, pull_on_bow, settle_new_string
from calc.mechanics.estimate import braced_pull
from calc.units import POUND_FORCE
from calc.worksheets.core import (
    Answer,
    Guide,
    Number,
    Sentence,
    SheetText,
    Worksheet,
    cautions,
    cords,
    fields,
    read,
    rows,
)
from calc.worksheets.core import next_steps as onward
from calc.worksheets.settle import damp
from calc.worksheets.settle import drawings as settle_drawings
from calc.worksheets.settle import rows as settle_rows

if TYPE_CHECKING:
    from calc.making.tuning import Settled
    from calc.numerics import Spread

TEXT = SheetText(__spec__)

_RESULTS = (
    "make_length", "shorter_by", "hanging_weight", "hang_time", "elastic_length", "taken_length", "settled_share",
    "left_length", "left_turns", "left_brace", "hour_taken", "night_taken", "night_left",
)  # fmt: skip
_SETTLING = "The settling"
_WARM_K = 308.15
_BLAMES = {
    "string_m": "string_length",
    "yarn_kg_m": "yarn",
    "brace_n": "brace_pull",
    "hang_n": "hanging_weight",
    "hang_s": "hang_time",
    "work_s": "work_time",
    "temperature_k": "temperature",
    "tension_n": "strands",
    "brace_m": "brace_height",
    "now_m": "brace_height",
    "handle_length_m": "handle_length",
    "tail_m": "tail_length",
    "draw_m": "draw_length",
    "draw_force_n": "draw_weight",
    "nock_to_nock_m": "string_length",
}
_HANGING = Number(
    key="hanging_weight",
    label="Weight hung on it",
    hint="About what the braced bow pulls, 50 lb (23 kg) at most. Leave empty to be advised.",
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
    hint="In min, h or d, with somebody by. Leave empty for an hour.",
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
_PULL = replace(
    fields.BRACE_PULL,
    hint="Leave empty if not known: it is worked out from the draw length, or taken as one to two times the draw "
    "weight.",
)
_TURNS = replace(fields.BODY_TURNS, group=fields.METHOD, example="not counted", absent="not counted")


class SettleInputs(read.LimbInputs, cords.StrandInputs):
    """What was read, in SI, by field key."""

    string_length: float
    draw_weight: float
    brace_pull: float | None
    yarn: float
    strands: float | None
    hanging_weight: float | None
    hang_time: float | None
    work_time: float
    temperature: float
    brace_height: float
    bundles: Literal["2", "3"]
    turns: float | None
    tail_length: float


def _fresh(values: SettleInputs) -> NewString:
    """Turn what was read into a new string; a count that is left open is the one the draw weight needs."""
    strand, shape, bundles = cords.strand_of(values), read.shape_of(values.limb_shape), int(values.bundles)
    asked = values.strands
    if asked is None:
        asked = choose(strand, None, bundles, values.draw_weight, shape=shape).strands
    on_bow = OnBow(
        brace_m=values.brace_height,
        handle_length_m=values.handle_length,
        shape=shape,
        bend=read.bend_of(values.limb_shape),
        bundles=bundles,
        tail_m=values.tail_length,
        turns=values.turns,
    )
    return NewString(
        string_m=values.string_length,
        fibre=strand.fibre,
        yarn_kg_m=values.yarn,
        strands=int(asked),
        brace_n=_braced(values, on_bow),
        hang_n=values.hanging_weight,
        hang_s=values.hang_time,
        work_s=values.work_time,
        temperature_k=values.temperature,
        on_bow=on_bow,
    )


def _braced(values: SettleInputs, on_bow: OnBow) -> Spread:
    """Return the pull of the braced string: as told, by the bow's draw, or as a usual share of its draw weight."""
    draw_m = read.full_draw(values)
    if values.brace_pull is not None or draw_m is None:
        return braced_pull(values.draw_weight, values.brace_pull)
    return pull_on_bow(values.string_length, on_bow, draw_m, values.draw_weight)


def _too_much(made: Settled) -> bool:
    """Return whether a weight that was asked for is more than anybody should hang, or than the string bears well."""
    return made.hang_n > heaviest_n() or made.hang_n > HEAVY_SHARE * made.figures["breaking_force"].low


def _headlines(made: Settled) -> tuple[Sentence, ...]:
    hang = Sentence(level="answer", lead="Hang", text="{hanging_weight} on it for {hang_time}, somebody by: it grows "
                    "by {taken_length}, {settled_share} of all it will grow",
                    span="by {taken_length.low} to {taken_length.high}")  # fmt: skip
    if _too_much(made):
        hang = Sentence(level="answer", lead="Do not hang", text="{hanging_weight}: hang {weight_advised} instead, for "
                        "an hour and once more if need be, or let the braced bow settle it",
                        span="the lengths here stand for {hanging_weight}")  # fmt: skip
    return (
        Sentence(level="answer", lead="Make it", text="{make_length} long, fresh and slack: {shorter_by} shorter than "
                 "it will be on the bow", span="{make_length.low} to {make_length.high}"),
        hang,
        Sentence(level="answer", lead="Still to come", text="{left_length} in {work_time} braced: {left_turns} turns "
                 "bring it back, or brace height falls by {left_brace}",
                 span="{left_length.low} to {left_length.high}, {left_turns.low} to {left_turns.high} turns"),
        Sentence(level="answer", lead="Braced instead", text="an hour, somebody by, takes out {hour_taken}; a night "
                 "takes {night_taken} and leaves {night_left}",
                 span="a night is not for a new wooden bow, a self bow or plastic pipe"),
    )  # fmt: skip


def _cautions(made: Settled) -> tuple[Sentence, ...]:
    fresh = made.fresh
    said: list[str] = []
    if _too_much(made):
        said.append(
            "That weight is up to {weight_share.high} of what this string holds if all goes the wrong way. More "
            "than {weight_most} is not for hands, hooks and floors. Hang {weight_advised}, and longer."
        )
    elif fresh.brace_n.value > made.hang_n and fresh.hang_n is None:
        said.append(
            "The braced bow pulls {tension_brace}, more than is hung here. Hang the string for another hour, or let "
            "it finish on the bow. Brace it an hour at a time with somebody by, and put turns in as it grows."
        )
    if fresh.temperature_k > _WARM_K:
        said.append(
            "Warmth speeds creep, and creep in warmth goes on. Never heat a string to settle it, and keep flames and "
            "hot-air tools away from wax and fibre."
        )
    night = Sentence(
        level="caution",
        text="Do not leave a new wooden bow, a self bow or one of plastic pipe braced overnight. Wood takes a bend of "
        "its own, pipe creeps and cracks. An hour with somebody by does most of it.",
    )
    warned = (Sentence(level="caution", text=each) for each in said)
    return (cautions.FALLS, *warned, night, cautions.FIRST_BRACING, *cautions.of_fibre(fresh.fibre), cautions.DOUBT)


def plan(values: SettleInputs) -> Answer:
    """Return an answer with how a new string settles.

    Parameters
    ----------
    values : SettleInputs
        As read.

    Raises
    ------
    DomainError
        With the field at fault, or a name from below that `_BLAMES` knows.
    """
    fresh = _fresh(values)
    made = settle_new_string(fresh)
    numbers = settle_rows.numbers(made, values.draw_weight) | damp.numbers(fresh)
    return Answer(
        rows=rows(_RESULTS, numbers, WORKSHEET.row_texts),
        headlines=(*_headlines(made), *damp.headlines(fresh)),
        cautions=(*cords.unsure(cords.strand_of(values)), *damp.cautions(fresh), *_cautions(made)),
        leaves_out=TEXT.leaves_out,
        figures=lambda system: (settle_drawings.chart(made, system),),
        tables=lambda system: (settle_drawings.times(made, system), *damp.table(fresh, system)),
    )


WORKSHEET = Worksheet(
    id="settle",
    place=65,
    title="Settle the stretch",
    purpose="From a new string to how short to make it, what to hang on it and how long, and what still comes after.",
    groups=(fields.BOW, fields.CORD, _SETTLING, fields.METHOD),
    fields=(
        fields.STRING_LENGTH, fields.DRAW_WEIGHT, _PULL, fields.FIBRE, fields.YARN, fields.STRANDS,
        _HANGING, _TIME, _WORK, _WARMTH, fields.BRACE_HEIGHT, fields.HANDLE_LENGTH, fields.LIMB_SHAPE, fields.BUNDLES,
        _TURNS, fields.TAIL_LENGTH, replace(fields.DRAW_LENGTH, absent=fields.NOT_KNOWN), fields.DRAW_FROM,
    ),
    results=_RESULTS,
    plan=plan,
    inputs=SettleInputs,
    text=TEXT,
    blames=_BLAMES,
    next=(onward.HANG, onward.NAIL, onward.BRACE),
    guides=(
        Guide(page="settle", step="hang", words="Hang the weight low"),
        Guide(page="settle", step="night", words="Or settle it on the bow"),
    ),
)  # fmt: skip
