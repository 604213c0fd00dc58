"""A bow that has never had a string: draw weight, the pull a string must hold, and the limbs' balance by a weight."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING, Literal

from calc.errors import DomainError, Problem
from calc.making.strands import choose
from calc.mechanics.estimate import LimbTest
from calc.numerics import Spread, combine_ratios
from calc.units import INCH
from calc.worksheets.core import (
    Answer,
    Guide,
    Sentence,
    SheetText,
    Worksheet,
    cautions,
    cords,
    fields,
    read,
    rows,
    tips,
)
from calc.worksheets.core import next_steps as onward
from calc.worksheets.limb_test import drawings as limb_drawings
from calc.worksheets.string.more import TIP_CONTACT, UNBRACED

if TYPE_CHECKING:
    from calc.making.strands import Chosen
    from calc.units import System

TEXT = SheetText(__spec__)

_TEST, _STRING = "The weight and what it did", "The string to come"
_RESULTS = ("draw_weight_found", "limb_balance", "tension_brace", "tension_draw", "tension_peak")
_LEAST_WAY_M = 4 * INCH
_BLAMES = {
    **read.BOW_BLAMES,
    "drop_0": "limb_drop_upper",
    "drop_1": "limb_drop_lower",
    "drop_m": "limb_drop_upper",
    **cords.BLAMES,
}


class LimbTestInputs(read.BowInputs, cords.StrandInputs, tips.LimbWeightInputs):
    """What was read, in SI, by field key."""

    brace_height: float
    draw_length: float
    test_weight: float
    limb_drop_upper: float
    limb_drop_lower: float
    bow_kind: tips.BowKind
    arrow_mass: float | None
    bundles: Literal["2", "3"]


def _tried(values: LimbTestInputs) -> LimbTest:
    bow = read.bow_of(values, braced_m=values.brace_height)
    assert bow.draw_m is not None
    if bow.draw_m < values.brace_height + _LEAST_WAY_M:
        raise DomainError(Problem(field="draw_length", code="pair", other="brace_height", reason="draw_short"))
    return LimbTest(
        bow=bow,
        brace_m=values.brace_height,
        hung_n=values.test_weight,
        drops_m=(values.limb_drop_upper, values.limb_drop_lower),
    )


def _chosen(values: LimbTestInputs, weight_n: float) -> Chosen:
    """Return the string that the bow would be advised, as the strand sheet does."""
    return choose(
        cords.strand_of(values),
        None,
        int(values.bundles),
        weight_n,
        arrow_kg=values.arrow_mass,
        shape=read.shape_of(values.limb_shape),
        limbs=tips.limbs_of(values.bow_kind, values.tip_upper),
        limb=tips.limb_of(values, values.nock_to_nock),
    )


def _numbers(
    values: LimbTestInputs, tried: LimbTest, found: dict[str, Spread], made: Chosen
) -> dict[str, Spread | float]:
    """Return every number the working shows, by row key."""
    ratio, weight, balance = made.strength.peak_ratio, found["weight"], found["balance"]
    peak = combine_ratios(lambda at: {"peak": at["ratio"] * at["weight"]}, {"ratio": ratio, "weight": weight})["peak"]
    causes, measures = tried.causes, tried.bow.moves.spreads(dict)
    upper = balance.value >= 0.0
    return {
        "draw_weight_found": weight,
        "limb_balance": balance,
        "stiffer_by": balance if upper else Spread(*(1.0 / (1.0 + each) - 1.0 for each in _turned(balance))),
        "tension_brace": found["brace"],
        "tension_draw": found["draw"],
        "tension_peak": peak,
        "peak_ratio": ratio,
        "arrow": made.arrow,
        "test_weight": values.test_weight,
        "limb_drop_upper": causes["drop_0"],
        "limb_drop_lower": causes["drop_1"],
        "clamp_give": causes["give"],
        "nock_to_nock": measures["tape"].shifted(values.nock_to_nock),
        "handle": measures["handle"],
        "set_taken": measures["follow"],
        "proud_taken": measures["proud"],
        "braced_drop": tried.braced_drop_m,
        "full_draw": tried.bow.draw_m or 0.0,
        "brace_wanted": values.brace_height,
    }


def _turned(balance: Spread) -> tuple[float, float, float]:
    return balance.high, balance.value, balance.low


def _headlines(balance: Spread) -> tuple[Sentence, ...]:
    which = "upper" if balance.value >= 0.0 else "lower"
    alike = balance.low <= 0.0 <= balance.high
    text = "alike, as far as a tape can tell" if alike else f"the {which} is stiffer by {{stiffer_by}}"
    span = (
        f"the {which} is stiffer by {{stiffer_by.high}} at most" if alike else "{stiffer_by.low} to {stiffer_by.high}"
    )
    return (
        Sentence(
            level="answer",
            lead="The bow will pull",
            text="{draw_weight_found} at {full_draw}",
            span="{draw_weight_found.low} to {draw_weight_found.high}",
        ),
        Sentence(
            level="answer",
            lead="The limbs",
            text=text,
            span=span,
        ),
        Sentence(
            level="answer",
            lead="A string must hold",
            text="{tension_peak} in the hardest moment of a shot, {tension_brace} braced",
            span="{tension_peak.low} to {tension_peak.high}",
        ),
    )


def plan(values: LimbTestInputs) -> Answer:
    """Return the answer of the limb test.

    Parameters
    ----------
    values : LimbTestInputs
        As read.

    Raises
    ------
    DomainError
        With the field at fault, or a name from below that `_BLAMES` knows.
    """
    tried = _tried(values)
    found = tried.found()
    made = _chosen(values, found["weight"].value)
    numbers = _numbers(values, tried, found, made)

    @cache
    def weights(system: System) -> tuple[tuple[float, Spread], ...]:
        at = limb_drawings.draws(tried, system)
        told = tried.found(at)
        return tuple((draw_m, told[f"at_{k}"]) for k, draw_m in enumerate(at))

    return Answer(
        rows=rows(_RESULTS, numbers, WORKSHEET.row_texts),
        headlines=_headlines(found["balance"]),
        cautions=(
            TEXT.caution("clamped"),
            *((TEXT.caution("much"),) if max(tried.drops_m) > tried.braced_drop_m / 2.0 else ()),
            TEXT.caution("tiller"),
            *cautions.of_brace_height(values.nock_to_nock, values.brace_height),
            *cords.counted_on(made.strand),
            *cords.cautions_of(made.strand),
            *cords.of_arrow(values.arrow_mass, found["weight"].value),
            *tips.of_bow_kind(values.bow_kind, made.shot.limbs),
            cautions.DOUBT,
        ),
        leaves_out=TEXT.leaves_out,
        figures=lambda system: limb_drawings.drawings(tried, weights(system), system),
        tables=lambda system: (limb_drawings.table(weights(system), system),),
        answers={"draw_weight": "draw_weight_found"},
    )


WORKSHEET = Worksheet(
    id="limb-test",
    place=22,
    title="Test a bow without a string",
    purpose="A weight on each limb of a bow that never had a string: how strong it is, and whether its limbs agree.",
    groups=(fields.BOW, _TEST, _STRING),
    folded=(_STRING,),
    fields=(
        fields.NOCK_TO_NOCK, fields.HANDLE_LENGTH,
        replace(fields.LIMB_SHAPE, hint="Look at the bent limb from the side."),
        *(replace(each, group=fields.BOW) for each in (*UNBRACED, TIP_CONTACT)),
        fields.BRACE_HEIGHT, fields.DRAW_LENGTH, fields.DRAW_FROM,
        TEXT.number("test_weight"), TEXT.number("limb_drop_upper"), TEXT.number("limb_drop_lower"),
        *(replace(each, group=_STRING) for each in (
            fields.BOW_KIND, fields.LIMB_MASS, tips.PIPE_TIP, tips.PIPE_WALL,
            fields.ARROW_MASS, fields.FIBRE, fields.STRAND_SIZE, *cords.SIZE_AND_LABEL, fields.BUNDLES,
        )),
    ),
    results=_RESULTS,
    plan=plan,
    inputs=LimbTestInputs,
    text=TEXT,
    shared=(cords.SENTENCES, tips.SENTENCES),
    blames=_BLAMES,
    guides=(Guide(page="measure", step="unstrung", words="Weigh a bow that has no string"),),
    next=(onward.CHOOSE, onward.PLAN),
)  # fmt: skip
