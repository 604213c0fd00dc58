"""A bow stringer: how long its cord is, what it must hold, how wide its pockets are."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import DomainError, Problem
from calc.geometry.ends import RoundTip, is_pipe
from calc.making.tuning import Stringer, pocket
from calc.numerics import Spread, combine_ratios
from calc.units import INCH
from calc.worksheets.core import Answer, Guide, Sentence, SheetText, Worksheet, cautions, cords, fields, read, rows
from calc.worksheets.core import next_steps as onward
from calc.worksheets.string.more import TIP_CONTACT, UNBRACED
from calc.worksheets.stringer import drawings as stringer_drawings

if TYPE_CHECKING:
    from calc.geometry.ends import Section
    from calc.mechanics.estimate import CordEstimate
    from calc.mechanics.fibre import Rating

TEXT = SheetText(__spec__)

_CORD, _TIPS = "The cord of the stringer", "The tips"
_RESULTS = ("stringer_length", "stringer_cut", "lift_force", "stringer_pull", "cord_asked", "stringer_holds",
            "stringer_safety", "pocket_lower", "pocket_upper", "pocket_long")  # fmt: skip
_BLAMES = {
    **read.BOW_BLAMES,
    "lift_m": "grip_lift",
    "yarn_kg_m": "rope_size",
    "thickness_m": "rope_thickness",
    "rated_n": "rope_label",
}
_LEAST_CAP_M = 0.75 * INCH
_MOST_LIFT_N = 450.0
"""More than this nobody should lift with one hand, and a helper holds the bow. [N]"""


class StringerInputs(read.BowInputs):
    """What was read, in SI, by field key."""

    draw_weight: float
    draw_length: float
    brace_height: float
    grip_lift: float
    tip_lower: Section | None
    tip_upper: Section | None
    tip_beyond: float
    rope_fibre: str
    rope_size: float | None
    rope_thickness: float | None
    rope_label: float | None
    rope_rating: Rating


def _rope(values: StringerInputs) -> CordEstimate:
    """Return the cord of the stringer; it is not that of the string."""
    told = {"fibre": values.rope_fibre, "yarn": values.rope_size, "strand_kind": "cord", "rating": values.rope_rating}
    sizes = {"strand_thickness": values.rope_thickness, "rated_load": values.rope_label}
    return cords.strand_of(cords.StrandInputs({**told, **sizes}))


def _strength(strand: CordEstimate) -> Spread:
    """Return what the cord holds with a knot in it [N]."""
    known = [each.knot_ratio for each in (strand.fits or (strand.fibre,))]
    knot = Spread(min(each.low for each in known), known[0].value, max(each.high for each in known))
    causes = {"straight": strand.found()["strength"], "knot": knot}
    return combine_ratios(lambda at: {"holds": at["straight"] * at["knot"]}, causes)["holds"]


def _numbers(values: StringerInputs, found: dict[str, Spread], strand: CordEstimate) -> dict[str, Spread | float]:
    """Return every number the working shows, by row key."""
    holds, pull, factor = _strength(strand), found["pull"], practice("design_factor").spread.low
    safety = combine_ratios(lambda at: {"safety": at["holds"] / at["pull"]}, {"holds": holds, "pull": pull})["safety"]
    knot = min(each.knot_ratio.low for each in (strand.fits or (strand.fibre,)))
    takes, cord = practice("knot_takes").spread, found["cord"]
    usual = RoundTip(practice("tip_usual").spread.value)
    lower = pocket(values.tip_lower or usual, practice("cord_thinnest").spread.value)
    upper = pocket(values.tip_upper or usual, 0.0, values.tip_beyond)
    cut = Spread(*(one + 2.0 * two for one, two in ((cord.low, takes.low), (cord.value, takes.value),
                                                    (cord.high, takes.high))))  # fmt: skip
    return {
        "stringer_length": cord,
        "stringer_cut": cut,
        "lift_force": found["lift"],
        "stringer_pull": pull,
        "cord_asked": pull.high * factor / knot,
        "stringer_holds": holds,
        "stringer_safety": safety,
        "pocket_lower": lower.wide_m,
        "pocket_upper": upper.wide_m,
        "pocket_long": lower.long_m,
        "cap_long": upper.long_m,
        "girth_lower": lower.girth_m,
        "girth_upper": upper.girth_m,
        "tip_beyond": values.tip_beyond,
        "grip_lift": values.grip_lift,
        "bent_to": found["bent"],
        "brace_wanted": values.brace_height,
        "draw_weight": values.draw_weight,
        "strand_strength": strand.found()["strength"],
        "knot_leaves": knot,
        "design_asked": factor,
        "knot_takes": takes,
    }


def plan(values: StringerInputs) -> Answer:
    """Return how a stringer for this bow is made.

    Parameters
    ----------
    values : StringerInputs
        As read.

    Raises
    ------
    DomainError
        With the field at fault, or a name from below that `_BLAMES` knows.
    """
    bow = read.bow_of(values, braced_m=values.brace_height)
    if bow.draw_m is not None and bow.draw_m <= values.brace_height:
        raise DomainError(Problem(field="draw_length", code="pair", other="brace_height", reason="draw_short"))
    stringer = Stringer(bow=bow, brace_m=values.brace_height, lift_m=values.grip_lift)
    strand = _rope(values)
    found = stringer.found()
    numbers = _numbers(values, found, strand)
    safety = numbers["stringer_safety"]
    assert isinstance(safety, Spread)
    enough = safety.low >= practice("design_factor").spread.low
    pipe = (cautions.PIPE,) if any(is_pipe(each) for each in (values.tip_upper, values.tip_lower)) else ()
    return Answer(
        rows=rows(_RESULTS, numbers, WORKSHEET.row_texts),
        headlines=(
            Sentence(
                level="answer",
                lead="Cord",
                text="{stringer_length} from tip to tip; cut {stringer_cut}",
                span="{stringer_length.low} to {stringer_length.high}",
            ),
            Sentence(
                level="answer",
                lead="This cord",
                text=("strong enough" if enough else "too weak")
                + ": holds {stringer_safety} times the pull, at the least {stringer_safety.low}",
                span="take one that breaks at {cord_asked} or more",
            ),
            Sentence(
                level="answer",
                lead="You lift",
                text="{lift_force} at the grip, {grip_lift} above your foot",
                span="{lift_force.low} to {lift_force.high}; {stringer_pull} in the cord",
            ),
            Sentence(
                level="answer",
                lead="Leather",
                text="lower pocket {pocket_lower} × {pocket_long}, upper cap {pocket_upper} × {cap_long}",
                span="each folded over its tip, and sewn along both sides",
            ),
        ),
        cautions=(
            *(() if enough else (_weak(),)),
            *((_short_cap(),) if values.tip_beyond < _LEAST_CAP_M else ()),
            *((_two(),) if found["lift"].high > _MOST_LIFT_N else ()),
            TEXT.caution("slips"),
            *cautions.of_brace_height(values.nock_to_nock, values.brace_height),
            *_fibre_unknown(strand),
            *pipe,
            TEXT.caution("alike"),
            cautions.DOUBT,
        ),
        leaves_out=TEXT.leaves_out,
        figures=lambda system: (stringer_drawings.lifted(bow, numbers, system),),
    )


def _fibre_unknown(strand: CordEstimate) -> tuple[Sentence, ...]:
    if not strand.fits:
        return ()
    words = strand.fibre.words.replace(",", "")
    return (
        Sentence(
            level="caution", text=f"The fibre is not known. All is worked out for {words}, the weakest that fits."
        ),
    )


def _weak() -> Sentence:
    return Sentence(
        level="caution",
        text="Too weak: at the low end this cord, knotted, holds only {stringer_safety.low} times the pull. Somebody "
        "stands over it: take one that breaks at {cord_asked} or more.",
    )


def _short_cap() -> Sentence:
    return Sentence(
        level="caution",
        text="So little of the tip stands beyond the nock that a cap can slip off, or covers the groove. Cut a second "
        "groove beyond the nock and put a loop of the cord in it, or leave this bow to a bowyer.",
    )


def _two() -> Sentence:
    return Sentence(
        level="caution",
        text="That is a lot to lift with one hand while the other slides the loop. Let a helper slide it, or make the "
        "cord longer and lift higher.",
    )


WORKSHEET = Worksheet(
    id="stringer",
    place=69,
    title="A bow stringer",
    purpose="The safest way to brace: how long the cord is, what it must hold, how wide the pockets are.",
    groups=(fields.BOW, _TIPS, _CORD),
    fields=(
        fields.NOCK_TO_NOCK, fields.HANDLE_LENGTH, fields.LIMB_SHAPE, fields.DRAW_WEIGHT, fields.DRAW_LENGTH,
        fields.DRAW_FROM, fields.BRACE_HEIGHT, TEXT.number("grip_lift"),
        *(replace(each, group=fields.BOW) for each in (*UNBRACED, TIP_CONTACT)),
        replace(fields.TIP_LOWER, group=_TIPS), replace(fields.TIP_UPPER, group=_TIPS), TEXT.number("tip_beyond"),
        replace(fields.FIBRE, key="rope_fibre", group=_CORD,
                hint="Of the stringer's cord. If nobody knows, the weakest that fits is counted on."),
        replace(fields.STRAND_THICKNESS, key="rope_thickness", group=_CORD, label="Thickness of the cord",
                example="1/4 in", hint="Laid or braided cord, measured across."),
        replace(fields.STRAND_SIZE, key="rope_size", group=_CORD, label="Size of the cord", example=fields.NOT_KNOWN,
                hint="Weigh a length: 12 g / 1 m. Leave empty if only its thickness is known."),
        replace(fields.RATED_LOAD, key="rope_label", group=_CORD),
        replace(fields.RATING, key="rope_rating", group=_CORD),
    ),
    results=_RESULTS,
    plan=plan,
    inputs=StringerInputs,
    text=TEXT,
    shared=(cords.SENTENCES,),
    blames=_BLAMES,
    guides=(
        Guide(page="stringer", step="cord", words="Make it"),
        Guide(page="brace", step="stringer", words="Brace with it"),
    ),
    next=(onward.BRACE,),
)  # fmt: skip
