"""Look at the bend: where and how much each limb bends, by points marked in a picture."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Literal

from calc.mechanics.photo import LIMBS, Photo, seen
from calc.worksheets.bend import drawings
from calc.worksheets.bend.taps import TAPS, read_taps
from calc.worksheets.core import (
    Answer,
    Choice,
    Guide,
    Inputs,
    Option,
    Sentence,
    SheetText,
    Worksheet,
    cautions,
    fields,
    read,
    rows,
)
from calc.worksheets.core import next_steps as onward
from calc.worksheets.core.measures import STRING_FOLLOW

if TYPE_CHECKING:
    from calc.mechanics.photo import SeenBow
    from calc.numerics import Spread

TEXT = SheetText(__spec__)

_PICTURE, _SLANT = TAPS.group, "A camera that stood aslant"
_RESULTS = ("bend_upper", "bend_lower", "bend_more", "tips_off", "handle_seen")
_BLAMES = {
    "nock_to_nock_m": "nock_to_nock",
    "string_follow_m": "string_follow",
    "upper": "taps",
    "lower": "taps",
    "string": "taps",
    "marks": "taps",
    "wide": "mark_wide",
    "high": "mark_high",
    "across": "taps",
}
_HOLD = Choice(
    key="bow_hold",
    label="In the picture the bow is",
    hint="A drawn bow shows the most. Only who is qualified draws it.",
    group=_PICTURE,
    example="braced",
    options=(
        Option(value="braced", label="braced, not drawn"),
        Option(value="drawn", label="drawn"),
        Option(value="unbraced", label="unbraced, with no string on"),
    ),
)
_NEVER = Sentence(
    level="caution",
    standing=True,
    text="A bow drawn for a picture is drawn as if an arrow were on it. Someone qualified draws it, points it where an "
    "arrow may go, and lets it down slowly. Nobody stands in line with it, and the camera stands at the side.",
)
_STONES = Sentence(
    level="caution",
    text="Limbs that bend so unlike are for a bowyer. Do not draw the bow further before one has looked at it.",
)
_HINGE = Sentence(
    level="caution",
    text="A limb bends much in one short place: it may fold there. Do not draw the bow before a bowyer has seen it.",
)
_FEW = Sentence(text="Its taps leave much open. Zoom in, tap along the belly’s very edge, and put in more points.")
_UNLIKE = 0.25
_SHARP = (0.6, 0.45, 0.52)
"""A third that bends by more than this share of its limb's bend folds: no taper of a sound limb asks for it. [-]"""


class BendInputs(Inputs):
    """What was read, in SI, by field key."""

    taps: str
    bow_hold: Literal["braced", "drawn", "unbraced"]
    nock_to_nock: float
    string_follow: float | None
    mark_wide: float | None
    mark_high: float | None


def _seen(values: BendInputs) -> SeenBow:
    taps = read_taps(values.taps)
    sides = (values.mark_wide, values.mark_high)
    return seen(
        Photo(
            limbs=(taps.upper, taps.lower),
            string=taps.string,
            grip=taps.grip,
            marks=taps.marks,
            sides_m=(sides[0], sides[1]) if sides[0] is not None and sides[1] is not None else None,
            nock_to_nock_m=values.nock_to_nock,
            hold=values.bow_hold,
            string_follow_m=values.string_follow or 0.0,
        )
    )


def _numbers(values: BendInputs, made: SeenBow) -> dict[str, Spread | float]:
    """Return every number the working shows, by row key."""
    found = made.found
    numbers: dict[str, Spread | float] = {
        "bend_upper": found["bend_upper"],
        "bend_lower": found["bend_lower"],
        "bend_more": found["more"],
        "tips_off": found["off"],
        "handle_seen": found["handle"],
        "nock_to_nock": values.nock_to_nock,
        "taps_off": made.off_px,
        **{f"{name}_third_{k + 1}": found[f"{name}_{k}"] for name in LIMBS for k in range(3)},
    }
    optional = {
        "reach": {"braced": "brace_seen", "drawn": "draw_seen"}.get(values.bow_hold, ""),
        "string": "string_seen",
    }
    numbers |= {key: found[name] for name, key in optional.items() if name in found}
    return numbers | {key: found[key] for key in ("limb_bend",) if key in found}


def _headlines(values: BendInputs, made: SeenBow) -> tuple[Sentence, ...]:
    found = made.found
    held = {
        "braced": (
            "The bow is braced at",
            "{brace_seen}, its string {string_seen}",
            "{brace_seen.low} to {brace_seen.high}",
        ),
        "drawn": (
            "The bow is drawn to",
            "{draw_seen}, its string {string_seen}",
            "{draw_seen.low} to {draw_seen.high}",
        ),
        "unbraced": (
            "The tips stand off",
            "{tips_off}, less than nothing for reflex",
            "{tips_off.low} to {tips_off.high}",
        ),
    }[values.bow_hold]
    more = found["more"]
    which = "upper" if more.value > 0.0 else "lower"
    alike = more.low <= 0.0 <= more.high
    return (
        Sentence(
            level="answer",
            lead="The limbs bend",
            text="alike, as far as the taps tell" if alike else f"unlike: the {which} one bends more",
            span="{bend_upper} the upper, {bend_lower} the lower",
        ),
        Sentence(level="answer", lead="Along each limb the bend is", text=_along(made), table="thirds"),
        Sentence(level="answer", lead=held[0], text=held[1], span=held[2]),
    )


def _along(made: SeenBow) -> str:
    """Say which thirds bend otherwise than an even limb would."""
    said = []
    for name in LIMBS:
        found = [drawings.judged(made, name, k).split()[0] for k in range(len(drawings.WHERE))]
        unlike = [f"{told} {drawings.WHERE[k]}" for k, told in enumerate(found) if told in {"more", "less"}]
        if unlike:
            said.append(f"{name}: {', '.join(unlike)}")
    return "; ".join(said) + ", beside an even bend" if said else "even, as far as the taps tell"


def _cautions(values: BendInputs, made: SeenBow) -> tuple[Sentence, ...]:
    found = made.found
    held = values.bow_hold != "unbraced"
    balance = found["balance"]
    sharp = any(
        found[f"over_{name}_{k}"].low > 0.0 and found[f"{name}_{k}"].value > _SHARP[k] * found[f"bend_{name}"].value
        for name in LIMBS
        for k in range(3)
    )
    wide = found["bend_upper"].high - found["bend_upper"].low > abs(found["bend_upper"].value)
    return (
        _NEVER,
        *((_STONES,) if held and (balance.low > _UNLIKE or balance.high < -_UNLIKE) else ()),
        *((_HINGE,) if held and sharp else ()),
        *((_FEW,) if wide and held else ()),
        cautions.DOUBT,
    )


def plan(values: BendInputs) -> Answer:
    """Return the answer of the bend sheet.

    Parameters
    ----------
    values : BendInputs
        As read.

    Raises
    ------
    DomainError
        With the field at fault, or a name from below that `_BLAMES` knows.
    """
    made = _seen(values)
    known = {"limb_shape": read.photo_text(made.found["limb_bend"])} if "limb_bend" in made.found else {}
    return Answer(
        rows=rows(_RESULTS, _numbers(values, made), WORKSHEET.row_texts),
        headlines=_headlines(values, made),
        cautions=_cautions(values, made),
        leaves_out=TEXT.leaves_out,
        figures=lambda system: (drawings.bow(made), drawings.chart(made, system)),
        tables=lambda system: (drawings.table(made, system),),
        files=lambda _: (drawings.points(made),),
        known=known,
    )


WORKSHEET = Worksheet(
    id="bend",
    place=23,
    title="Look at the bend",
    purpose="From a picture of the bow from the side: where and how much each limb bends, and whether they agree.",
    groups=(_PICTURE, fields.BOW, _SLANT),
    folded=(_SLANT,),
    fields=(
        TAPS, _HOLD, fields.NOCK_TO_NOCK, replace(STRING_FOLLOW, group=fields.BOW),
        TEXT.number("mark_wide"), TEXT.number("mark_high"),
    ),
    results=_RESULTS,
    plan=plan,
    inputs=BendInputs,
    text=TEXT,
    blames=_BLAMES,
    guides=(Guide(page="measure", step="bend", words="Take the picture"),),
    next=(onward.PLAN, onward.TUNE),
)  # fmt: skip
