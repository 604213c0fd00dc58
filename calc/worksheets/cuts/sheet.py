"""From a finished length to the cut: every strand, the marks along it, the cord."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Literal

from calc.data import practice
from calc.geometry.ends import is_pipe
from calc.making.strands import tails
from calc.making.string import CutOrder, End, body_lay, cut_plan
from calc.mechanics.estimate import HandEstimate
from calc.numerics import Spread, combine
from calc.units import INCH
from calc.worksheets.core import (
    Answer,
    Choice,
    Guide,
    Number,
    Option,
    Sentence,
    SheetText,
    Worksheet,
    cords,
    fields,
    rows,
    tips,
)
from calc.worksheets.core import next_steps as onward
from calc.worksheets.cuts import drawings as cuts_drawings
from calc.worksheets.cuts import words as cuts_words

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.geometry.ends import Section
    from calc.making.strands import TailCheck, Wax
    from calc.making.string import Method
    from calc.worksheets.core import RowText

TEXT = SheetText(__spec__)

_RESULTS = ("cut_length", "pieces", "cord_total", "cord_to_buy", "loop_upper", "body_raw")
_STRING = "The string"
_USUAL = "usual"

_FINISHED = Number(
    key="finished_length",
    label="Finished length",
    hint="Nock to nock along the slack, settled string, as the bench sheet gives it. Of an old string: over two pins "
    "as thick as the tips.",
    group=_STRING,
    example="62 15/16 in",
    quantity="length",
    low=16 * INCH,
    high=110 * INCH,
)
_METHOD = Choice(
    key="method",
    label="Made with",
    hint="Two laid loops, one laid loop and a timber hitch at the lower nock, or wound endless.",
    group=_STRING,
    example="loops",
    options=(
        Option(value="loops", label="two laid loops"),
        Option(value="hitch", label="one loop and a timber hitch"),
        Option(value="endless", label="endless, loops served"),
    ),
)
_STRANDS = replace(
    fields.STRANDS,
    hint="They share evenly between the bundles. An endless string has an even count: each time round makes two.",
    group=_STRING,
    example="14",
    absent="",
)
_BUNDLES = replace(
    fields.BUNDLES, hint="Two are easier to keep even; three lie rounder. Left out for an endless string."
)
STRAND_STEP = Number(
    key="strand_step",
    label="Step between strand ends",
    hint="So that the tails thin out. 0 for none.",
    group=fields.METHOD,
    example="1/2 in",
    quantity="length",
    low=0.0,
    high=4 * INCH,
)
_HITCH = Number(
    key="hitch_length",
    label="For the hitch",
    hint="Beyond the lower nock; only for one loop and a hitch. Leave empty for the usual 10 to 12 in (250 to 300 mm).",
    group=fields.METHOD,
    example=_USUAL,
    absent=_USUAL,
    quantity="length",
    low=4 * INCH,
    high=40 * INCH,
)

_GROWTH = Number(
    key="settling_growth",
    label="Growth while it settles",
    hint="The bench sheet tells it. Leave empty if not known.",
    group=_STRING,
    example=fields.NOT_KNOWN,
    absent=fields.NOT_KNOWN,
    quantity="fraction",
    low=0.0,
    high=0.2,
)

_BLAMES = {
    "tail_m": "tail_length",
    "finished_m": "finished_length",
    "bundle_m": "bundle_diameter",
}


class CutInputs(tips.EndInputs):
    """What was read, in SI, by field key."""

    finished_length: float
    method: Method
    strands: float
    bundle_diameter: float
    bundles: Literal["2", "3"]
    tail_length: float
    strand_step: float
    hitch_length: float | None
    fibre: str
    wax: Wax
    settling_growth: float | None


def _order(values: CutInputs) -> CutOrder:
    return CutOrder(
        finished_m=values.finished_length,
        method=values.method,
        bundles=2 if values.method == "endless" else int(values.bundles),
        strands=int(values.strands),
        bundle_m=values.bundle_diameter,
        upper=End(section=values.tip_upper, fit=values.loop_fit_upper),
        lower=End(section=values.tip_lower, fit=values.loop_fit_lower),
        tail_m=values.tail_length,
        step_m=values.strand_step,
    )


def _tip(section: Section | None) -> Spread:
    """Return how far a tip may be off; of one that is not known, how thick it may be. [m]."""
    if section is None:
        return practice("tip_usual").spread
    return Spread.exactly(0.0) if is_pipe(section) else practice("tip_reading").spread


def _growth(name: str, told: float | None) -> Spread:
    """Return how much a string grows while it settles [-]: as such strings do, or as told and no surer."""
    usual = practice(name).spread
    if told is None:
        return usual
    around = usual.shifted(told - usual.value)
    return Spread(max(0.0, around.low), told, around.high)


def _causes(order: CutOrder, hitch_m: float | None, growth: float | None) -> dict[str, Spread]:
    """Return what is uncertain about the cut."""
    return {
        "tape": practice("tape_reading").spread,
        "tip_upper": _tip(order.upper.section),
        "tip_lower": _tip(order.lower.section),
        "bundle": practice("thickness_reading").spread,
        "seat": Spread(-1.0, 0.0, 1.0),
        **HandEstimate().causes,
        "body_lay": Spread.exactly(body_lay()),
        "bedding": _growth("bedding", growth),
        "endless_bedding": _growth("endless_bedding", growth),
        "hitch": practice("hitch_length").spread if hitch_m is None else Spread.exactly(hitch_m),
        "ends": practice("tie_off").spread,
        "bound": Spread.exactly(practice("loop_bound").spread.value),
        "pitch": practice("endless_pitch").spread,
    }


def _figures(order: CutOrder, at: Mapping[str, float]) -> dict[str, float]:
    made = cut_plan(order, at)
    waste = 1.0 + at["waste"]
    lengths = [zone.length_m for zone in made.zones]
    taper_m = made.step_m * (order.each - 1)
    out = {
        "cut_length": made.cut_m,
        "cord_total": made.cord_m,
        "cord_to_buy": made.cord_m * waste,
        "finished": order.finished_m + at["tape"],
        "middle_cord": made.body_cord_m,
        "take_up_body": made.take_up,
        "bundle_diameter": order.bundle_m * (1.0 + at["bundle"]),
    }
    if order.method == "endless":
        return out | {
            "loop_upper": lengths[0],
            "body_raw": lengths[1],
            "loop_lower": lengths[2],
            "once_round": sum(lengths),
            "ends": at["ends"],
        }
    marks = made.marks_m
    out |= {
        "loop_upper": lengths[1],
        "body_raw": lengths[2],
        "mark_tail": marks[0],
        "mark_loop": marks[1],
        "mark_end_body": marks[2],
        "mark_last": marks[-1],
        "step": made.step_m,
        "taper": taper_m,
        "laid_out": made.cut_m + taper_m,
    }
    if order.method == "hitch":
        return out | {"hitch_raw": lengths[3], "hitch_length": at["hitch"]}
    return out | {"loop_lower": lengths[3], "mark_lower": marks[3]}


def _numbers(order: CutOrder, causes: dict[str, Spread], held: TailCheck | None) -> dict[str, Spread | float]:
    """Return every number the working shows, by row key."""
    waste = practice("waste").spread
    figures = combine(lambda at: _figures(order, at), causes | {"waste": waste})
    shared: dict[str, Spread | float] = {**figures, "waste": waste}
    if held is not None:
        shared |= {"tail_needed": held.needed, "tail_shortest": held.shortest_m}
    if order.method == "endless":
        return shared | {"pieces": 1, "wraps": order.each}
    return shared | {"pieces": order.strands, "tail": order.tail_m, "steps": order.each - 1}


def _rows_of_method(method: Method) -> tuple[RowText, ...]:
    """Return the rows as a method works them."""
    return (*WORKSHEET.row_texts, *(TEXT.rows_of(WORKSHEET.fields, f"{method}_rows")))


def _of_tails(values: CutInputs, held: TailCheck | None) -> tuple[Sentence, ...]:
    """Say whether the tails hold, and what was counted on where nobody knows the fibre."""
    if held is None:
        return ()
    unknown = Sentence(level="caution", text="The fibre is not known: its tails are judged as those of the slickest.")
    return (*((unknown,) if values.fibre == fields.UNKNOWN else ()), cords.of_tails(held))


def plan(values: CutInputs) -> Answer:
    """Return the answer of the cuts worksheet.

    Parameters
    ----------
    values : CutInputs
        As read.

    Raises
    ------
    DomainError
        For strands that do not share evenly, tails too short or too long, bundles too thick for their tips.
    """
    order = _order(values)
    causes = _causes(order, values.hitch_length, values.settling_growth)
    made = cut_plan(order, {name: cause.value for name, cause in causes.items()})
    held = None
    if order.method != "endless":
        shortest_m = order.tail_m - (order.each - 1) * made.step_m
        may_be, wax = cords.fibres_of(values.fibre), values.wax
        held = tails(may_be, wax, order.bundle_m, order.bundles, shortest_m)
    return Answer(
        rows=rows(_RESULTS, _numbers(order, causes, held), _rows_of_method(order.method)),
        headlines=cuts_words.headlines(order),
        cautions=(*_of_tails(values, held), *cuts_words.said_with(order, made)),
        leaves_out=TEXT.leaves_out,
        figures=lambda system: (cuts_drawings.layout(order, made, system),),
        tables=lambda system: cuts_words.tables(order, made, system),
        next=(onward.make(order.bundles, order.method),),
    )


WORKSHEET = Worksheet(
    id="cuts",
    place=45,
    title="Cut the strands",
    purpose="From a finished length to the cut of every strand, the marks along it and the cord.",
    groups=(_STRING, fields.CORD, fields.ENDS, fields.METHOD),
    fields=(
        _FINISHED, _METHOD, _STRANDS, fields.BUNDLE_DIAMETER, fields.TIP_UPPER, fields.TIP_LOWER, fields.LOOP_FIT_UPPER,
        fields.LOOP_FIT_LOWER, _BUNDLES, fields.TAIL_LENGTH, STRAND_STEP, _HITCH, fields.FIBRE, fields.WAX, _GROWTH,
    ),
    results=_RESULTS,
    plan=plan,
    inputs=CutInputs,
    text=TEXT,
    shared=(tips.SENTENCES,),
    blames=_BLAMES,
    guides=(
        Guide(page="two-bundle", step="cut", words="Cut the strands"),
        Guide(page="two-bundle", step="stagger", words="Step the strand ends"),
        Guide(page="two-bundle", step="mark", words="Mark the bundles"),
        Guide(page="one-loop", step="body", words="Make the body for a hitch"),
    ),
)  # fmt: skip
