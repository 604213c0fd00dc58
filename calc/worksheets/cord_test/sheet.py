"""An unknown cord: weigh it, float it, roll it up, hang something on it; what it may be and how many strands of it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Literal

from calc.making.strands import UnknownCord, examine_cord
from calc.worksheets.cord_test import rows as cord_test_rows
from calc.worksheets.cord_test import words as cord_test_words
from calc.worksheets.core import (
    Answer,
    Guide,
    Sentence,
    SheetText,
    Worksheet,
    cautions,
    cords,
    fields,
    measures,
    read,
    rows,
    tips,
)
from calc.worksheets.core import next_steps as onward
from calc.worksheets.strands import drawings as strands_drawings

if TYPE_CHECKING:
    from calc.geometry.lay import Hand
    from calc.making.strands import CordFindings
    from calc.mechanics.fibre import Rating

TEXT = SheetText(__spec__)

_RESULTS = ("yarn", "fits", "cord_strength", "strands", "safety_factor")
_TEST = "The test"
_BLAMES = {
    "mass_kg": "weighed_mass",
    "length_m": "weighed_length",
    "yarn_kg_m": "weighed_mass",
    "fibre": "draw_weight",
    "thickness_m": "roll_width",
    "linear_density_kg_m": "weighed_mass",
    "roll_m": "roll_width",
    "held_n": "held_load",
    "rated_n": "rated_load",
    "broken_n": "broken_load",
}
_TESTS = tuple(replace(each, group=_TEST) for each in (*measures.WEIGHING, fields.BROKEN_LOAD))


class CordTestInputs(tips.LimbWeightInputs):
    """What was read, in SI, by field key."""

    weighed_length: float
    weighed_mass: float
    in_water: Literal["floats", "sinks", "untried"]
    roll_width: float | None
    roll_turns: float
    held_load: float | None
    rated_load: float | None
    rating: Rating
    broken_load: float | None
    draw_weight: float
    limb_shape: str
    arrow_mass: float | None
    bundles: Literal["2", "3"]
    hand: Hand
    bow_kind: tips.BowKind
    nock_to_nock: float | None


def _unknown(values: CordTestInputs) -> UnknownCord:
    """Turn what was read into a cord with its tests."""
    return UnknownCord(
        mass_kg=values.weighed_mass,
        length_m=values.weighed_length,
        floats={"floats": True, "sinks": False}.get(values.in_water),
        roll_m=values.roll_width,
        wraps=int(values.roll_turns),
        held_n=values.held_load,
        rated_n=values.rated_load,
        rating=values.rating,
        broken_n=values.broken_load,
    )


def _headlines(cord: UnknownCord, made: CordFindings) -> tuple[Sentence, ...]:
    weighs = Sentence(level="answer", lead="It weighs", text="{yarn}", span="{yarn.low} to {yarn.high}")
    trust = Sentence(level="answer", lead="Trust it", text=cord_test_words.trust(cord, made))
    if made.chosen is None:
        take = Sentence(level="answer", lead="Take", text="none of it for a bow of {draw_weight}")
        return weighs, trust, take
    each = made.chosen.strands // made.chosen.bundles
    weakest = ", if it is the weakest of these" if made.fits > 1 else ""
    return (
        weighs,
        Sentence(level="answer", lead="It may be", text=cord_test_words.names(made)),
        Sentence(level="answer", lead="One cord holds", text=f"{{cord_strength}}{weakest}",
                 span="{cord_strength.low} to {cord_strength.high}"),
        Sentence(level="answer", lead="Take", text=f"{{strands}} of them for a bow of {{draw_weight}}: "
                 f"{made.chosen.bundles} bundles of {each}",
                 span="strength asks {for_strength}, thickness {for_thickness}"),
        trust,
    )  # fmt: skip


def _cautions(made: CordFindings, values: CordTestInputs) -> tuple[Sentence, ...]:
    if made.chosen is None:
        return cautions.BREAKS, cautions.DOUBT
    strand = made.chosen.strand
    wear = Sentence(
        level="caution",
        standing=True,
        text="A test says what a cord is not. Make the first string of it as a trial, draw it in stages, and look at "
        "every strand after the first dozen shots.",
    )
    return (
        *cord_test_words.of_label(made),
        *(each for each in cords.of_break(strand) if each != cautions.BREAKS),
        wear,
        *cords.of_size(made.chosen, values.arrow_mass),
        cautions.BREAKS,
        *cords.cautions_of(strand),
        cautions.FIRST_BRACING,
        *tips.of_bow_kind(values.bow_kind, made.chosen.shot.limbs),
        cautions.DOUBT,
    )


def _for_other_sheets(made: CordFindings) -> dict[str, str]:
    """Return what other worksheets ask of this cord: its fibre, where only one fits, and that it is a laid cord."""
    if made.chosen is None:
        return {}
    fibre = made.chosen.strand.fibre.id if made.fits == 1 else fields.UNKNOWN
    return {"fibre": fibre, "strand_kind": "cord"}


def plan(values: CordTestInputs) -> Answer:
    """Return the answer of the cord test.

    Parameters
    ----------
    values : CordTestInputs
        As read.

    Raises
    ------
    DomainError
        With the field at fault, or a name from below that `_BLAMES` knows.
    """
    cord = _unknown(values)
    made = examine_cord(
        cord,
        values.draw_weight,
        int(values.bundles),
        arrow_kg=values.arrow_mass,
        shape=read.shape_of(values.limb_shape),
        limbs=tips.limbs_of(values.bow_kind, values.tip_upper),
        limb=tips.limb_of(values, values.nock_to_nock),
    )
    chosen = made.chosen
    return Answer(
        rows=rows(_RESULTS, cord_test_rows.numbers(cord, made, values.draw_weight), WORKSHEET.row_texts),
        headlines=_headlines(cord, made),
        cautions=_cautions(made, values),
        leaves_out=TEXT.leaves_out,
        figures=lambda system: () if chosen is None else strands_drawings.section(chosen, values.hand, system),
        tables=lambda system: (cord_test_words.compared(made, system),),
        next=(onward.CHOOSE, onward.PLAN) if chosen else (),
        known=_for_other_sheets(made),
    )


WORKSHEET = Worksheet(
    id="cord-test",
    place=35,
    title="Test an unknown cord",
    purpose="From a weighed length, a bowl of water and a pencil to what a cord may be and what it holds.",
    groups=(_TEST, fields.CORD, fields.BOW, fields.METHOD, tips.MORE),
    folded=(tips.MORE,),
    fields=(
        *_TESTS, fields.RATED_LOAD, fields.RATING, fields.DRAW_WEIGHT,
        fields.LIMB_SHAPE, fields.ARROW_MASS, fields.BUNDLES, fields.HAND, fields.BOW_KIND,
        replace(fields.NOCK_TO_NOCK, group=tips.MORE, example=fields.NOT_KNOWN, absent=fields.NOT_KNOWN),
        *tips.LIMB_WEIGHT,
    ),
    results=_RESULTS,
    plan=plan,
    inputs=CordTestInputs,
    text=TEXT,
    shared=({"broke_strong": cords.SENTENCES["broke_strong"]}, tips.SENTENCES, tips.LIMB_SENTENCES),
    blames={**_BLAMES, **tips.LIMB_BLAMES},
    guides=(
        Guide(page="choose-cord", step="label", words="Find out the fibre"),
        Guide(page="choose-cord", step="roll-up", words="Roll strands up to the right thickness"),
    ),
)  # fmt: skip
