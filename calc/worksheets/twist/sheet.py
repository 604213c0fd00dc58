"""Twisting to a length: turns, take-up and counter-twist of a laid cord, and how far it is from the jam."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt
from typing import TYPE_CHECKING, Literal

from calc.data import practice
from calc.errors import DomainError, Problem
from calc.geometry.lay import jam, lay, middle_lay
from calc.making.string import Twisted, plied, raw_for, twisted_to_turns, widest_bundle
from calc.mechanics.estimate import HandEstimate
from calc.numerics import Spread, combine
from calc.units import INCH
from calc.worksheets.core import Answer, Guide, Inputs, Number, Sentence, SheetText, Worksheet, cautions, fields, rows
from calc.worksheets.core import next_steps as onward
from calc.worksheets.twist import drawings as twist_drawings
from calc.worksheets.twist import words as twist_words

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.geometry.lay import Hand

TEXT = SheetText(__spec__)

_USUAL = "usual lay"
_RESULTS = (
    "turns", "lay_angle", "take_up", "bundle_length", "bundle_flat", "cord_diameter", "jam_turns", "counter_twist",
    "pitch", "turns_loop", "turns_splice",
)  # fmt: skip
_DEGREE = 0.017453292519943295
_ROUNDING = 1.0 - 1e-9

_CORD_LENGTH = Number(
    key="cord_length",
    label="Finished length of the cord",
    hint="Plied and lying straight. In a string: the body between the splices.",
    group=fields.CORD,
    example="46 in",
    quantity="length",
    low=1 * INCH,
    high=200 * INCH,
)
_TURNS = Number(
    key="turns",
    label="Turns",
    hint="Full turns in the whole finished length. Leave empty to be told.",
    group=fields.METHOD,
    example=_USUAL,
    absent=_USUAL,
    quantity="turns",
    low=0.5,
    high=2000.0,
)
_LAY_WANTED = Number(
    key="lay_wanted",
    label="Lay angle wanted",
    hint="In degrees from the cord's axis, in place of the turns. Leave empty unless you want a certain lay.",
    group=fields.METHOD,
    example=_USUAL,
    absent=_USUAL,
    quantity="angle",
    low=0.5 * _DEGREE,
    high=60.0 * _DEGREE,
)
_LOOP_LENGTH = Number(
    key="loop_length",
    label="A loop, plied",
    hint="From throat to throat along the cord, as the loops worksheet gives it.",
    group=fields.METHOD,
    example="1 7/8 in",
    quantity="length",
    low=0.25 * INCH,
    high=24 * INCH,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Asked:
    """What was read, in SI; a lay that was asked is a count of turns by now, for turns are what hands count."""

    diameter_m: float
    bundles: int
    cord_m: float
    turns: float
    loop_m: float
    tail_m: float

    def made(self, at: Mapping[str, float]) -> Twisted:
        """Return the cord at one set of causes."""
        return twisted_to_turns(at["bundle"], self.bundles, self.cord_m, self.turns, at["spring"])

    def causes(self) -> dict[str, Spread]:
        """Return what is uncertain; no bundle is thicker than the one that jams."""
        reading = practice("thickness_reading").spread
        widest_m = widest_bundle(self.bundles, self.cord_m, self.turns) * _ROUNDING
        high_m = max(self.diameter_m, min(self.diameter_m * (1.0 + reading.high), widest_m))
        return {
            "bundle": Spread(self.diameter_m * (1.0 + reading.low), self.diameter_m, high_m),
            "spring": practice("spring").spread,
            **HandEstimate().causes,
        }


class TwistInputs(Inputs):
    """What was read, in SI, by field key."""

    bundle_diameter: float
    cord_length: float
    bundles: Literal["2", "3"]
    hand: Hand
    turns: float | None
    lay_wanted: float | None
    loop_length: float
    tail_length: float


def _asked(values: TwistInputs) -> _Asked:
    bundles = int(values.bundles)
    diameter_m, cord_m = values.bundle_diameter, values.cord_length
    return _Asked(
        diameter_m=diameter_m,
        bundles=bundles,
        cord_m=cord_m,
        turns=_turns(values, diameter_m, bundles, cord_m),
        loop_m=values.loop_length,
        tail_m=values.tail_length,
    )


def _turns(values: TwistInputs, diameter_m: float, bundles: int, cord_m: float) -> float:
    """Return the turns that were asked, or those of the lay asked, or those of the usual lay."""
    turns, wanted = values.turns, values.lay_wanted
    limit = jam(bundles)
    if turns is not None:
        if wanted is not None:
            raise DomainError(Problem(field="turns", code="pair", other="lay_wanted", reason="twice"))
        most = limit.cord_turns_times_diameter * cord_m / diameter_m
        if turns > most:
            raise DomainError(Problem(field="turns", code="max", other="bundle_diameter", limit=most, reason="jam"))
        return turns
    if wanted is None:
        wanted = middle_lay(*(practice(name).spread.value for name in ("lay_loosest", "lay_tightest")))
    if wanted > limit.lay_rad:
        raise DomainError(Problem(field="lay_wanted", code="max", limit=limit.lay_rad, reason="jam_lay"))
    return cord_m * lay(diameter_m, bundles, wanted).turns_per_m


def _figures(asked: _Asked, at: Mapping[str, float]) -> dict[str, float]:
    """Return every figure at one set of causes."""
    made = asked.made(at)
    loop = raw_for(asked.loop_m, at["bundle"], asked.bundles, at["loop_lay"], at["twist_held"])
    splice = plied(asked.tail_m, at["bundle"] * sqrt(2.0), asked.bundles, at["splice_lay"], at["twist_held"])
    return {
        "turns": made.turns,
        "lay_angle": made.shape.lay_rad,
        "take_up": made.take_up,
        "bundle_length": made.bundle_m,
        "bundle_flat": made.flat_m,
        "cord_diameter": made.shape.cord_diameter_m,
        "jam_turns": made.jam_turns,
        "counter_twist": made.counter,
        "pitch": made.shape.pitch_m,
        "turns_loop": loop.turns,
        "turns_splice": splice.turns,
        "loop_raw": loop.raw_m,
        "radius": made.shape.radius_m,
        "counter_each": made.counter_each,
        "finger_each": made.finger_each,
        "own_take_up": made.own_take_up,
        "jam_radius": at["bundle"] * jam(asked.bundles).radius_ratio,
        "turns_left": made.jam_turns - made.turns,
        "turns_loose": made.turns_at(practice("lay_loosest").spread.value),
        "turns_tight": made.turns_at(practice("lay_tightest").spread.value),
    }


def _numbers(asked: _Asked) -> dict[str, Spread | float]:
    """Return every number the working shows, by row key."""
    causes = asked.causes()
    return {
        **combine(lambda at: _figures(asked, at), causes),
        "cord_length": asked.cord_m,
        "bundle_diameter": causes["bundle"],
        "loop_length": asked.loop_m,
        "tail": asked.tail_m,
        "jam_lay": jam(asked.bundles).lay_rad,
        **{name: practice(name).spread for name in ("lay_loosest", "lay_tightest")},
        **{name: causes[name] for name in ("loop_lay", "splice_lay")},
    }


def plan(values: TwistInputs) -> Answer:
    """Return the answer of the twist worksheet.

    Parameters
    ----------
    values : TwistInputs
        As read.

    Raises
    ------
    DomainError
        For turns or a lay past the jam, or both given.
    """
    asked = _asked(values)
    middle = asked.made({"bundle": asked.diameter_m, "spring": practice("spring").spread.value})
    by_hand = Sentence(
        text="Turning the loose end twists all bundles at once: roll the counter-twist in first. Carrying the bundles "
        "round each other by hand is itself a turn. So there roll each by {finger_each} of a turn for every turn of "
        "lay ({finger_each.low} to {finger_each.high}). Count alike in every bundle."
    )
    ends = Sentence(
        text="A loop of {loop_length} takes {loop_raw} of flat bundle and {turns_loop} turns; a splice with tails of "
        "{tail} takes {turns_splice}."
    )
    lays = [practice(name).spread.value for name in ("lay_loosest", "lay_tightest")]
    return Answer(
        rows=rows(_RESULTS, _numbers(asked), WORKSHEET.row_texts),
        headlines=twist_words.headlines(values.hand),
        cautions=(twist_words.verdict(middle.shape.lay_rad, asked.bundles), ends, by_hand, cautions.DOUBT),
        leaves_out=TEXT.leaves_out,
        figures=lambda system: twist_drawings.drawings(middle, lays[0], lays[1], system),
        next=(onward.make(asked.bundles), onward.NAIL),
    )


WORKSHEET = Worksheet(
    id="twist",
    place=55,
    title="Twist a cord",
    purpose="Turns, take-up and counter-twist of a laid cord, and how far it is from the jam.",
    groups=(fields.CORD, fields.METHOD),
    fields=(
        fields.BUNDLE_DIAMETER, _CORD_LENGTH, fields.BUNDLES, fields.HAND, _TURNS, _LAY_WANTED, _LOOP_LENGTH,
        fields.TAIL_LENGTH,
    ),
    results=_RESULTS,
    plan=plan,
    inputs=TwistInputs,
    text=TEXT,
    guides=(
        Guide(page="two-bundle", step="counter", words="Roll the counter-twist in"),
        Guide(page="two-bundle", step="body", words="Turn the body"),
        Guide(page="transfer-twist", step="turn", words="Turn the loop and spread the twist"),
    ),
)  # fmt: skip
