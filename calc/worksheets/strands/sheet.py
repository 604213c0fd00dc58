"""How many strands: strong enough for the hardest pull of a shot, thick enough to hold."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Literal

from calc.making.strands import choose
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
from calc.worksheets.strands import drawings as strands_drawings
from calc.worksheets.strands import rows as strands_rows
from calc.worksheets.strands import rules as strands_rules

if TYPE_CHECKING:
    from calc.geometry.lay import Hand
    from calc.making.strands import Chosen

TEXT = SheetText(__spec__)

_RESULTS = ("strands", "breaking_force", "tension_peak", "safety_factor", "bundle_diameter", "cord_diameter")


class StrandsInputs(cords.StrandInputs, tips.LimbWeightInputs):
    """What was read, in SI, by field key."""

    draw_weight: float
    nock_to_nock: float
    limb_shape: str
    bow_kind: tips.BowKind
    arrow_mass: float | None
    strands: float | None
    bundles: Literal["2", "3"]
    hand: Hand


def _choose(values: StrandsInputs) -> Chosen:
    """Turn what was read into a strand and a count of it."""
    return choose(
        cords.strand_of(values),
        None if values.strands is None else int(values.strands),
        int(values.bundles),
        values.draw_weight,
        arrow_kg=values.arrow_mass,
        shape=read.shape_of(values.limb_shape),
        limbs=tips.limbs_of(values.bow_kind, values.tip_upper),
        limb=tips.limb_of(values, values.nock_to_nock),
    )


def _headlines(chosen: Chosen) -> tuple[Sentence, ...]:
    each = chosen.strands // chosen.bundles
    said = [
        Sentence(level="answer", lead="Take", text=f"{{strands}} strands, {chosen.bundles} bundles of {each}",
                 span="strength asks {for_strength}, thickness {for_thickness}"),
        Sentence(level="answer", lead="Holds", text="{breaking_force} when made, against {tension_peak} in a shot",
                 span="{breaking_force.low} to {breaking_force.high}, against {tension_peak.low} to "
                      "{tension_peak.high}"),
        Sentence(level="answer", lead="That is", text=f"{cords.verdict(chosen.strength)}: {{safety_factor}} times",
                 span="at the least {safety_factor.low}, at the most {safety_factor.high}; under 1 it breaks",
                 against="1"),
        Sentence(level="answer", lead="Thick", text="{cord_diameter} plied, from bundles of {bundle_diameter}",
                 span="{cord_diameter.low} to {cord_diameter.high} plied"),
        Sentence(level="answer", lead="Costs", text="little speed: twice the strands, {speed_cost} of the arrow's",
                 span="{speed_cost.low} to {speed_cost.high}"),
    ]  # fmt: skip
    return tuple(said)


def _cautions(chosen: Chosen, bow_kind: tips.BowKind, arrow_kg: float | None) -> tuple[Sentence, ...]:
    strand = chosen.strand
    return (
        *tips.not_for_bow(strand, bow_kind),
        *cords.weak(chosen.strength),
        *cords.of_size(chosen, arrow_kg),
        *cords.of_kind(strand),
        *cords.of_label(strand),
        *cords.of_break(strand),
        *cords.counted_on(strand),
        cautions.FIRST_BRACING,
        *tips.of_bow_kind(bow_kind, chosen.shot.limbs),
        *cords.cautions_of(strand),
        cautions.DOUBT,
    )


def plan(values: StrandsInputs) -> Answer:
    """Return an answer with how many strands to take.

    Parameters
    ----------
    values : StrandsInputs
        As read.

    Raises
    ------
    DomainError
        With the field at fault, or a name from below that `_BLAMES` knows.
    """
    chosen, string_m = _choose(values), values.nock_to_nock
    return Answer(
        rows=rows(
            _RESULTS, strands_rows.numbers(chosen, string_m), (*WORKSHEET.row_texts, *cords.of_strand(chosen.strand))
        ),
        headlines=_headlines(chosen),
        cautions=_cautions(chosen, values.bow_kind, values.arrow_mass),
        leaves_out=TEXT.leaves_out,
        figures=lambda system: strands_drawings.drawings(chosen, string_m, values.hand, system),
        tables=lambda system: (strands_rules.compared(chosen, system),),
    )


WORKSHEET = Worksheet(
    id="strands",
    place=30,
    title="How many strands",
    purpose="From a bow and a cord to a count that holds the hardest pull of a shot, with room to spare.",
    groups=(fields.BOW, fields.CORD, fields.METHOD, tips.MORE),
    folded=(tips.MORE,),
    fields=(
        fields.DRAW_WEIGHT, fields.NOCK_TO_NOCK, fields.LIMB_SHAPE, fields.BOW_KIND, fields.ARROW_MASS, fields.FIBRE,
        fields.STRAND_SIZE, *cords.SIZE_AND_LABEL, fields.STRANDS, fields.BUNDLES, fields.HAND,
        *tips.LIMB_WEIGHT, replace(fields.BROKEN_LOAD, group=tips.MORE),
    ),
    results=_RESULTS,
    plan=plan,
    inputs=StrandsInputs,
    text=TEXT,
    shared=(cords.SENTENCES, tips.SENTENCES, tips.LIMB_SENTENCES),
    blames={**cords.BLAMES, **tips.LIMB_BLAMES},
    next=(onward.PLAN,),
    guides=(
        Guide(page="choose-cord", step="strong", words="Work out whether it is strong enough"),
        Guide(page="two-bundle", step="cut", words="Cut the strands"),
    ),
)  # fmt: skip
