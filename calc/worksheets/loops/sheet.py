"""A loop for a limb tip: how long, how much flat bundle, and where its throat comes to stand."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal

from calc import units
from calc.data import practice
from calc.draw.string import loop_round_tip
from calc.errors import DomainError, Problem
from calc.geometry.ends import RoundTip, is_pipe, perimeter, pipe, widest_opening
from calc.making.string import FitLoop, fit_loop, moved_tip, thicker_where_it_rests
from calc.numerics import Spread, combine
from calc.worksheets.core import (
    Answer,
    Guide,
    Inputs,
    Sentence,
    SheetText,
    Table,
    Worksheet,
    cautions,
    fields,
    rows,
    tips,
)
from calc.worksheets.core import next_steps as onward
from calc.worksheets.loops import groove as in_groove
from calc.worksheets.loops.words import headlines

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.draw import Drawing
    from calc.geometry.ends import Section
    from calc.making.string import Fit
    from calc.units import System

TEXT = SheetText(__spec__)

_RESULTS = ("loop_length", "loop_raw", "throat", "reach", "opening", "leg_pull", "turns_loop")

_TIP = replace(
    fields.TIP_UPPER,
    key="tip",
    label="Limb tip",
    hint="Across the nock, where the loop sits: round and its diameter, flat and width x thickness, or pipe size.",
)
_FIT = replace(
    fields.LOOP_FIT_UPPER,
    key="loop_fit",
    label="Fit",
    hint="It must slide if the bow is braced by pushing this loop up the limb.",
    example="nocked",
)
_TIPS = ("3/8", "1/2", "5/8", "3/4")
_PIPES = ("1/2", "3/4", "1")


class LoopsInputs(Inputs):
    """What was read, in SI, by field key."""

    tip: Section | None
    loop_fit: Fit
    passes: Section | None
    cord_diameter: float
    bundles: Literal["2", "3"]
    bridge_from_nock: float | None
    bridge_height: float | None
    hardest_pull: float | None
    wood: str
    strands: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Asked:
    """What was read, in SI; a tip that is not known is a usual one."""

    tip: Section
    passes: Section | None
    off: Spread
    fit: Fit
    cord_m: float
    bundles: int

    def made(self, at: Mapping[str, float]) -> FitLoop:
        """Return the loop at one set of causes; none opens further than lying tight round its tip."""
        cord_m, tip = self.cord_m * (1.0 + at["cord"]), moved_tip(self.tip, at["tip"])
        return fit_loop(
            tip,
            self.thickest(at),
            self.fit,
            cord_m,
            bundles=self.bundles,
            lay_rad=at["lay"],
            opening_rad=min(at["opening"], widest_opening(tip, cord_m)),
            ease=at["ease"],
            held=at["held"],
        )

    def thickest(self, at: Mapping[str, float]) -> Section:
        """Return the place that a sliding loop must pass: where nothing was told, the tip and a limb's usual growth."""
        if self.passes is None:
            return moved_tip(self.tip, at["tip"] + at["thicker"])
        return moved_tip(self.passes, at["passes"])

    def causes(self) -> dict[str, Spread]:
        """Return what is uncertain."""
        return {
            "tip": self.off,
            "passes": Spread.exactly(0.0) if self.passes is None else _reading(self.passes),
            "thicker": thicker_where_it_rests(self.tip) if self.passes is None else Spread.exactly(0.0),
            "cord": practice("thickness_reading").spread,
            "lay": practice("lay_loop").spread,
            "held": practice("twist_held").spread,
            "opening": practice("throat_opening").spread,
            "ease": practice("sliding_ease").spread,
        }


def _reading(section: Section) -> Spread:
    """Return how far off a section may have been read: a pipe is as thick as its table has it [m]."""
    return Spread.exactly(0.0) if is_pipe(section) else practice("tip_reading").spread


def _asked(values: LoopsInputs) -> _Asked:
    usual = practice("tip_usual").spread
    tip = RoundTip(usual.value) if values.tip is None else values.tip
    unknown = Spread(usual.low - usual.value, 0.0, usual.high - usual.value)
    off = unknown if values.tip is None else _reading(values.tip)
    fit, cord_m = values.loop_fit, values.cord_diameter
    if fit == "nocked" and widest_opening(tip, cord_m) < practice("throat_opening").spread.value:
        raise DomainError(Problem(field="cord_diameter", code="pair", other="tip", reason="cord_thick"))
    return _Asked(
        tip=tip,
        passes=values.passes,
        off=off,
        fit=fit,
        cord_m=cord_m,
        bundles=int(values.bundles),
    )


def _figures(asked: _Asked, at: Mapping[str, float]) -> dict[str, float]:
    made = asked.made(at)
    return {
        "loop_length": made.loop.length_m,
        "loop_raw": made.raw.raw_m,
        "throat": made.loop.throat_m,
        "reach": made.reach_m,
        "opening": made.loop.opening_rad,
        "leg_pull": made.leg_pull,
        "turns_loop": made.raw.turns,
        "loop_take_up": made.raw.take_up,
        "cord_diameter": asked.cord_m * (1.0 + at["cord"]),
        "bundle_diameter": made.bundle_m,
        "tip_wide": made.section.width_m,
        "tip_deep": made.section.depth_m,
        "girth": max(perimeter(made.section), perimeter(asked.thickest(at))),
    }


def _cautions(made: FitLoop, asked: _Asked) -> tuple[Sentence, ...]:
    said = [
        Sentence(
            text="The legs stand {opening} apart, and each pulls {leg_pull} times the string. The first turns of the "
            "splice carry that: lay them hard."
        )
    ]
    if made.loop.opening_rad > practice("throat_opening").spread.high:
        longer = " If the limb lets a longer one pass, make it longer." if asked.fit == "sliding" else ""
        said = [
            Sentence(
                level="caution",
                text="On this tip the legs stand {opening} apart, wider than the {opening_usual.high} of a loop made "
                "for its nock. Each pulls {leg_pull} times the string. Lay the first turns of the splice very "
                f"hard: they keep the throat shut.{longer}",
            )
        ]
    if asked.fit == "nocked" and asked.passes is not None and perimeter(asked.passes) > perimeter(asked.tip):
        said.append(
            Sentence(
                text="Made for its nock, this loop need not pass the thicker place. If it must, choose the other fit."
            )
        )
    return (*said, TEXT.caution("look"), *((cautions.PIPE,) if is_pipe(asked.tip) else ()), cautions.DOUBT)


def _beside(asked: _Asked, system: System) -> Table:
    """List what the same cord asks on other tips."""
    inch = units.INCH
    sections: list[tuple[str, Section]] = [
        (tips.tip_words(RoundTip(_fraction(each) * inch), system), RoundTip(_fraction(each) * inch)) for each in _TIPS
    ]
    sections += [(f"pipe {each}", RoundTip(pipe(each))) for each in _PIPES]
    lines = []
    for words, section in sections:
        raws = [_raw(replace(asked, tip=section, passes=None, fit=fit), system) for fit in ("nocked", "sliding")]
        lines.append((words, *raws))
    return Table(
        key="tips",
        title="The same cord on other tips: flat bundle to mark off",
        heads=("Tip", "made for its nock", "slides over it"),
        cells=tuple(lines),
        note="A loop that slides passes a limb that grows as usual below such a tip; a pipe does not grow.",
    )


def _raw(asked: _Asked, system: System) -> str:
    if asked.fit == "nocked" and widest_opening(asked.tip, asked.cord_m) < practice("throat_opening").spread.value:
        return "cord too thick"
    centre = {name: cause.value for name, cause in asked.causes().items()}
    return units.show(asked.made(centre).raw.raw_m, "length", system)


def _fraction(size: str) -> float:
    over, under = size.split("/")
    return float(over) / float(under)


def _drawing(asked: _Asked, made: FitLoop, system: System) -> Drawing:
    return loop_round_tip(
        made.section,
        made.loop,
        asked.cord_m,
        throat_text=f"throat {units.show(made.loop.throat_m, 'length', system)}",
        loop_text=f"loop {units.show(made.loop.length_m, 'length', system)}",
        tip_text=tips.tip_words(made.section, system),
    )


def plan(values: LoopsInputs) -> Answer:
    """Return the answer of the loops worksheet.

    Parameters
    ----------
    values : LoopsInputs
        As read.

    Raises
    ------
    DomainError
        For a cord too thick for its tip.
    """
    asked = _asked(values)
    causes = asked.causes()
    made = asked.made({name: cause.value for name, cause in causes.items()})
    numbers: dict[str, Spread | float] = {
        **combine(lambda at: _figures(asked, at), causes),
        "loop_lay": causes["lay"],
        "ease": causes["ease"],
        "thicker": causes["thicker"],
        "opening_usual": causes["opening"],
    }
    groove = in_groove.groove(made, asked.cord_m, values.hardest_pull, values.wood)
    bridge = in_groove.bridge_numbers(made, asked.cord_m, values.bridge_from_nock, values.bridge_height)
    numbers |= in_groove.numbers(groove, values.strands) | bridge
    return Answer(
        rows=rows(_RESULTS, numbers, WORKSHEET.row_texts),
        headlines=(
            *in_groove.headlines(groove, values.strands),
            *in_groove.bridge_headlines(made, bridge),
            *headlines(asked.fit),
        ),
        cautions=(*_cautions(made, asked), *in_groove.cautions(groove)),
        leaves_out=TEXT.leaves_out,
        figures=lambda system: (_drawing(asked, made, system),),
        tables=lambda system: (_beside(asked, system),),
    )


WORKSHEET = Worksheet(
    id="loops",
    place=40,
    title="Size a loop",
    purpose="How long a loop must be to sit in its nock or slide over the limb, and where its throat stands.",
    groups=(fields.ENDS, fields.CORD, fields.METHOD, in_groove.GROUP),
    fields=(_TIP, _FIT, tips.PASSES, fields.CORD_DIAMETER, fields.BUNDLES, *in_groove.FIELDS),
    folded=(in_groove.GROUP,),
    results=_RESULTS,
    plan=plan,
    inputs=LoopsInputs,
    text=TEXT,
    shared=(tips.SENTENCES,),
    next=(onward.PLAN,),
    guides=(
        Guide(page="two-bundle", step="loop-length", words="Ply the first loop to its length"),
        Guide(page="two-bundle", step="throat", words="Close the throat"),
        Guide(page="measure", step="tips", words="Measure the limb tips"),
    ),
)
