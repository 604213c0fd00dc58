"""Brace height from string length, or string length from brace height, on a measured bow."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, cast

from calc.data import practice, rule
from calc.errors import DomainError, Problem
from calc.making.bracing import STEP_M, brace_for, by_rule, string_for
from calc.making.stave import Stave
from calc.units import INCH
from calc.worksheets import brace_drawings, cautions, fields
from calc.worksheets.rows import rows
from calc.worksheets.schema import Answer, Example, Number, Sentence, Told, Worksheet

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.making.bracing import Braced
    from calc.mechanics import Shape
    from calc.spread import Spread
    from calc.worksheets.schema import Value

WORK_OUT = "work it out"
_STRING = "The string"
_RESULTS = ("string_length", "brace_height", "brace_per_length", "brace_low", "brace_high")
_BRACE = replace(
    fields.BRACE_HEIGHT,
    label="Brace height",
    hint="From the string square to the deepest point of the grip. Leave it empty if you know the string's length.",
    group=_STRING,
    absent=WORK_OUT,
)
_LENGTH = Number(
    key="string_length",
    label="String length",
    hint="On the braced bow, from nock to nock along the string. Leave it empty to be told.",
    group=_STRING,
    example=WORK_OUT,
    absent=WORK_OUT,
    quantity="length",
    low=15 * INCH,
    high=100 * INCH,
)
_TAILS = replace(
    fields.TAIL_LENGTH,
    hint="What is laid into each splice cannot be turned: it narrows what turns can do. 8 in is generous.",
    group=_STRING,
)
_TOLD = (
    Told(key="string_length", symbol="S", words="String on the braced bow, nock to nock", quantity="length",
         working="limbs of {nock_to_nock}, {handle} of it stiff, bent to {brace_height}", source="derived:limbs"),
    Told(key="brace_height", symbol="H", words="Brace height", quantity="length",
         working="where limbs of {nock_to_nock}, {handle} of it stiff, leave room for {string_length} of string",
         source="derived:limbs"),
    Told(key="brace_per_length", symbol="dH ÷ dS", words="Brace height gained for each unit of string added",
         quantity="ratio", working="slope of brace height over string length, at {brace_height}",
         source="derived:limbs"),
    Told(key="deficit", symbol="N − S", words="The string is shorter than the bow by", quantity="length",
         working="{nock_to_nock} − {string_length}", source="derived:limbs"),
    Told(key="deficit_quick", symbol="", words="The same by a short rule", quantity="length",
         working="4 × {brace_height}² ÷ (3 × working limb {limb})", source="derived:limbs"),
    Told(key="limb", symbol="l", words="Working limb", quantity="length",
         working="({nock_to_nock} − {handle}) ÷ 2", source="derived:limbs"),
    Told(key="string_step", symbol="", words="A small step of string", quantity="length",
         working="what a hand can make", source="input", kind="exact"),
    Told(key="brace_step", symbol="", words="It lifts the brace height by", quantity="length",
         working="brace height with {string_step} less string − {brace_height}", source="derived:limbs"),
    Told(key="free_body", symbol="", words="Free body between the splices", quantity="length",
         working="{string_length} − two throats − two splices of {tail}", source="derived:body"),
    Told(key="string_longest", symbol="", words="The string with its turns let out", quantity="length",
         working="free body of {free_body} from the middle lay to {lay_loosest}", source="derived:window"),
    Told(key="string_shortest", symbol="", words="The string turned up", quantity="length",
         working="free body of {free_body} from the middle lay to {lay_tightest}", source="derived:window"),
    Told(key="brace_low", symbol="", words="Lowest brace height by turns alone", quantity="length",
         working="with {string_longest} of string", source="derived:window"),
    Told(key="brace_high", symbol="", words="Highest brace height by turns alone", quantity="length",
         working="with {string_shortest} of string", source="derived:window"),
    Told(key="rule_low", symbol="", words="With a string 3 in shorter than the bow", quantity="length",
         working="the trade's rule put to these limbs", source="common-practice", kind="practice"),
    Told(key="rule_high", symbol="", words="With a string 4 in shorter than the bow", quantity="length",
         working="the trade's rule put to these limbs", source="common-practice", kind="practice"),
)  # fmt: skip
_SENTENCES = {
    "handle_long": "Stiff handle must be shorter than the bow, nock to nock",
    "both_open": "Enter the brace height or the string length: this sheet works out the other",
    "both_given": "Leave the brace height or the string length empty: this sheet works it out from the other",
    "string_long": "String length must be {limit} or less: a longer string does not brace this bow",
    "string_short": "String length must be {limit} or more: the limbs cannot be worked out for less",
    "tails_long": "Two splices with these tails leave no body between them. Use shorter tails",
}
_BLAMES = {
    "brace_m": "brace_height",
    "handle_m": "handle_length",
    "nock_to_nock_m": "nock_to_nock",
    "string_m": "string_length",
    "tail_m": "tail_length",
}
_LEAVES_OUT = (
    "A handle that stands proud of the belly hides part of the brace height: the tape then reads less than this.",
    "Recurved tips, where string lies on the limb, and string follow, which changes the pull but hardly the length.",
    "Stretch: this is the string under tension. A string hanging slack is shorter; the bench sheet works that out.",
    "The two bundles' grip at the loops, and turns that wander into the splices.",
)
_EXAMPLES = (
    Example(name="usual", words="The string for a brace height of 6 1/2 in on a 66 in bow"),
    Example(name="from-string", words="The brace height of a 64 in string",
            inputs={"brace_height": "", "string_length": "64 in"}),
    Example(name="pipe", words="A 46 in bow, limbs not measured further",
            inputs={"nock_to_nock": "46 in", "handle_length": "not known", "limb_shape": "unknown",
                    "brace_height": "6 in"}),
    Example(name="metric", words="Tapered limbs, in metric",
            inputs={"nock_to_nock": "1,73 m", "handle_length": "20 cm", "limb_shape": "tapered",
                    "brace_height": "165 mm", "tail_length": "150 mm"}),
    Example(name="long-string", words="Hardly braced, let out it is too long",
            inputs={"brace_height": "", "string_length": "65 11/16 in"}),
    Example(name="toy", words="A bow too short for the trade's rule",
            inputs={"nock_to_nock": "20 in", "handle_length": "8 in", "brace_height": "3 in", "tail_length": "2 in"}),
    Example(name="both-open", words="Neither is known", inputs={"brace_height": ""}, refused=("brace_height",)),
    Example(name="both-given", words="Both are given", inputs={"string_length": "64 in"}, refused=("string_length",)),
    Example(name="too-long", words="A string that does not brace the bow",
            inputs={"brace_height": "", "string_length": "66 in"}, refused=("string_length",)),
    Example(name="too-short", words="A string that would break the bow",
            inputs={"brace_height": "", "string_length": "48 in"}, refused=("string_length",)),
    Example(name="over-braced", words="Higher than the bow allows",
            inputs={"nock_to_nock": "46 in", "brace_height": "14 in"}, refused=("brace_height",)),
    Example(name="long-handle", words="A handle as long as the bow",
            inputs={"nock_to_nock": "30 in", "handle_length": "30 in"}, refused=("handle_length",)),
    Example(name="long-tails", words="No body left", inputs={"nock_to_nock": "30 in", "brace_height": "4 in",
            "tail_length": "16 in"}, refused=("tail_length",)),
    Example(name="empty", words="Nothing typed", inputs={"nock_to_nock": ""}, refused=("nock_to_nock",)),
    Example(name="unit", words="A weight for a length", inputs={"brace_height": "45 lb"}, refused=("brace_height",)),
)  # fmt: skip


def _braced(values: Mapping[str, Value]) -> Braced:
    shape = None if values["limb_shape"] == "unknown" else cast("Shape", values["limb_shape"])
    brace_m = cast("float | None", values["brace_height"])
    string_m = cast("float | None", values["string_length"])
    tail_m = cast("float", values["tail_length"])
    stave = Stave(
        nock_to_nock_m=cast("float", values["nock_to_nock"]),
        handle_m=cast("float | None", values["handle_length"]),
        shape=shape,
    )
    if brace_m is None and string_m is None:
        raise DomainError(Problem(field="brace_height", code="missing", other="string_length", reason="both_open"))
    if brace_m is None:
        return brace_for(stave, cast("float", string_m), tail_m)
    if string_m is None:
        return string_for(stave, brace_m, tail_m)
    raise DomainError(Problem(field="string_length", code="pair", other="brace_height", reason="both_given"))


def _numbers(found: Braced, tail_m: float) -> dict[str, Spread | float]:
    """Return every number the working shows, by row key."""
    stave, bow = found.stave, found.limbs().bow
    return {
        **found.figures,
        **by_rule(stave),
        "limb": bow.limb_m,
        "string_step": STEP_M,
        "nock_to_nock": found.causes["tape"].shifted(stave.nock_to_nock_m),
        "handle": found.causes["handle"],
        "tail": tail_m,
        "lay_loosest": practice("lay_loosest").spread,
        "lay_tightest": practice("lay_tightest").spread,
    }


def _told(given: str) -> tuple[Told, ...]:
    """Return the rows with the one that was typed told as such."""
    return tuple(
        replace(each, working="as asked", source="input", kind="exact") if each.key == given else each for each in _TOLD
    )


def _headlines(*, from_brace: bool) -> tuple[Sentence, ...]:
    string = Sentence(
        level="answer",
        lead="String",
        text="{string_length} on the braced bow, {deficit} shorter than the bow",
        span="{string_length.low} to {string_length.high}",
    )
    brace = Sentence(
        level="answer", lead="Braces at", text="{brace_height}", span="{brace_height.low} to {brace_height.high}"
    )
    return (
        string if from_brace else brace,
        Sentence(
            level="answer",
            lead="To correct it",
            text="{string_step} off the string lifts the brace height by {brace_step}",
            span="{brace_step.low} to {brace_step.high}; the same added lowers it by a little more",
        ),
        Sentence(
            level="answer",
            lead="By turns alone",
            text="from {brace_low} to {brace_high}",
            span="for a string laid half-way between the loosest lay that holds and the tightest of use",
        ),
    )


_WHY = {
    "tape": "the tape reading. Measure nock to nock twice",
    "handle": "the stiff handle. Measure what does not bend",
    "limb": "how the limbs bend. Look at the bow from the side, drawn, and choose the bend that fits",
}
_WIDE_M = 0.006


def _cautions(found: Braced, numbers: Mapping[str, Spread | float], *, from_brace: bool) -> tuple[Sentence, ...]:
    said = [*_by_trade(found, numbers)]
    brace = found.figures["brace_height"]
    answer = found.figures["string_length"] if from_brace else brace
    if answer.high - answer.low > _WIDE_M:
        said.append(Sentence(text=f"Most of the range comes from {_WHY[found.worst(from_brace=from_brace)]}."))
    if found.figures["brace_low"].low <= 0.0:
        text = "With its turns let out, this string may be too long to brace the bow: it could fall off the nocks."
        said.append(Sentence(level="caution", text=text))
    return (*said, cautions.FIRST_BRACING, cautions.DOUBT)


def _by_trade(found: Braced, numbers: Mapping[str, Spread | float]) -> list[Sentence]:
    """Hold the answer against what the trade says."""
    usual = rule("brace_height").figure("brace height").spread
    shorter = rule("string_shorter").figure("shorter by").spread
    said = []
    if "rule_low" in numbers:
        deficit = found.figures["deficit"].value
        verdict = "more than here" if shorter.low > deficit else "less than here"
        if shorter.low <= deficit <= shorter.high:
            verdict = "and here they agree"
        said.append(
            Sentence(
                text="The trade makes a string 3 to 4 in shorter than the bow. On these limbs that braces at "
                f"{{rule_low}} to {{rule_high}}, {verdict}. A handle that stands proud, or a string measured slack, "
                "hides the difference."
            )
        )
    brace_m = found.figures["brace_height"].value
    if not usual.low <= brace_m <= usual.high:
        which = "Lower" if brace_m < usual.low else "Higher"
        said.append(Sentence(text=f"{which} than the 6 to 7 in, a fist with the thumb up, of most long bows."))
    return said


def plan(values: Mapping[str, Value]) -> Answer:
    """Answer with string length, brace height and what changes them.

    Raises
    ------
    DomainError
        With the field at fault, or a name from below that `_BLAMES` knows.
    """
    found = _braced(values)
    from_brace = values["string_length"] is None
    numbers = _numbers(found, cast("float", values["tail_length"]))
    return Answer(
        rows=rows(_RESULTS, numbers, _told("brace_height" if from_brace else "string_length")),
        headlines=_headlines(from_brace=from_brace),
        cautions=_cautions(found, numbers, from_brace=from_brace),
        leaves_out=_LEAVES_OUT,
        figures=lambda system: brace_drawings.drawings(found, system),
        tables=lambda system: (brace_drawings.ladder(found, system),),
    )


WORKSHEET = Worksheet(
    id="brace",
    place=20,
    title="Brace height and string length",
    purpose="From brace height to string length, or back, and what a little more or less string does.",
    groups=(fields.BOW, _STRING),
    fields=(fields.NOCK_TO_NOCK, fields.HANDLE_LENGTH, fields.LIMB_SHAPE, _BRACE, _LENGTH, _TAILS),
    results=_RESULTS,
    examples=_EXAMPLES,
    plan=plan,
    sentences=_SENTENCES,
    blames=_BLAMES,
    told=_TOLD,
)
