"""What the brace sheet says: rows, sentences, headlines and cautions."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from calc.data import rule
from calc.worksheets.brace import learnt as brace_learnt
from calc.worksheets.core import RowText, Sentence
from calc.worksheets.core import cautions as shared

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping

    from calc.making.tuning import Braced
    from calc.numerics import Spread

TOLD = (
    RowText(key="string_length", symbol="S", words="String on the braced bow, nock to nock", quantity="length",
         working="limbs of {nock_to_nock}, {handle} of it stiff, bent to {brace_height}", source="derived:limbs"),
    RowText(key="brace_height", symbol="H", words="Brace height", quantity="length",
         working="where limbs of {nock_to_nock}, {handle} of it stiff, leave room for {string_length} of string",
         source="derived:limbs"),
    RowText(key="brace_per_length", symbol="dH ÷ dS", words="Brace height gained for each unit of string added",
         quantity="ratio", working="slope of brace height over string length, at {brace_height}",
         source="derived:limbs"),
    RowText(key="deficit", symbol="N − S", words="The string is shorter than the bow by", quantity="length",
         working="{nock_to_nock} − {string_length}", source="derived:limbs"),
    RowText(key="deficit_quick", symbol="", words="The same by a short rule", quantity="length",
         working="4 × {brace_height}² ÷ (3 × working limb {limb})", source="derived:limbs"),
    RowText(key="limb", symbol="l", words="Working limb", quantity="length",
         working="({nock_to_nock} − {handle}) ÷ 2", source="derived:limbs"),
    RowText(key="string_step", symbol="", words="A small step of string", quantity="length",
         working="what a hand can make", source="input", kind="exact"),
    RowText(key="brace_step", symbol="", words="It lifts the brace height by", quantity="length",
         working="brace height with {string_step} less string − {brace_height}", source="derived:limbs"),
    RowText(key="free_body", symbol="", words="Free body between the splices", quantity="length",
         working="{string_length} − two throats − two splices of {tail}", source="derived:body"),
    RowText(key="string_longest", symbol="", words="The string with its turns let out", quantity="length",
         working="free body of {free_body} from the middle lay to {lay_loosest}", source="derived:window"),
    RowText(key="string_shortest", symbol="", words="The string turned up", quantity="length",
         working="free body of {free_body} from the middle lay to {lay_tightest}", source="derived:window"),
    RowText(key="brace_low", symbol="", words="Lowest brace height by turns alone", quantity="length",
         working="with {string_longest} of string", source="derived:window"),
    RowText(key="brace_high", symbol="", words="Highest brace height by turns alone", quantity="length",
         working="with {string_shortest} of string", source="derived:window"),
    RowText(key="first_guess", symbol="", words="Brace height of your measured string, by the bow alone",
         quantity="length", working="limbs of {nock_to_nock}, {handle} of it stiff", source="derived:limbs"),
    RowText(key="calibrated", symbol="", words="The same, with what was measured", quantity="length",
         working="working limb and handle fitted to what was measured", source="derived:estimate"),
    RowText(key="shrink", symbol="", words="Spread with what was measured ÷ without", quantity="fraction",
         working="width of {calibrated} ÷ width of {first_guess}", source="derived:estimate"),
    RowText(key="rule_low", symbol="", words="With a string 3 in shorter than the bow", quantity="length",
         working="the trade's rule put to these limbs", source="common-practice", kind="practice"),
    RowText(key="rule_high", symbol="", words="With a string 4 in shorter than the bow", quantity="length",
         working="the trade's rule put to these limbs", source="common-practice", kind="practice"),
    *brace_learnt.TOLD,
)  # fmt: skip
SENTENCES = brace_learnt.SENTENCES | {
    "handle_long": "Stiff handle must be shorter than the bow, nock to nock",
    "both_open": "Enter the brace height or the string length: this sheet works out the other",
    "both_given": "Leave the brace height or the string length empty: this sheet works it out from the other",
    "string_long": "String length must be {limit} or less: a longer string does not brace this bow",
    "string_short": "String length must be {limit} or more: the limbs cannot be worked out for less",
    "half_pair": "Enter both: the length of the measured string and the brace height it gave",
    "no_first": "Enter the first measured string, or leave the second one empty",
    "pair_string_long": "The measured string must be shorter than the bow, nock to nock. Check all three readings",
    "pair_string_stiff": "The measured string would brace a bow of this length lower. Check all three readings",
    "pair_string_short": "Limbs of this bow cannot bend as far as the measured string asks. Check all three readings",
    "pair_far": "These readings do not go with a bow of this length. Check the measured strings and brace heights",
    "tails_long": "Two splices with these tails leave no body between them. Use shorter tails",
}
LEAVES_OUT = (
    "A handle that stands proud of the belly hides part of the brace height: the tape then reads less than this.",
    "Recurved tips, where string lies on the limb, and string follow, which changes the pull but hardly the length.",
    "Stretch: this is the string under tension. A string hanging slack is shorter; the bench sheet works that out.",
    "The two bundles' grip at the loops, and turns that wander into the splices.",
    *brace_learnt.LEAVES_OUT,
)


def row_texts(given: str, keys: Collection[str]) -> tuple[RowText, ...]:
    """Return the rows with the one that was typed told as such, for the numbers that are there."""
    rows = tuple(
        replace(each, working="as asked", source="input", kind="exact") if each.key == given else each for each in TOLD
    )
    return brace_learnt.row_texts(rows, keys)


def headlines(*, from_brace: bool, weighed: bool) -> tuple[Sentence, ...]:
    """Say what was asked first: the string for a brace height, or the brace height of a string."""
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
        *((brace_learnt.headline(),) if weighed else ()),
    )


_WHY = {
    "tape": "the tape reading. Measure nock to nock twice",
    "handle": "the stiff handle. Measure what does not bend",
    "limb": "how the limbs bend. Look at the bow from the side, drawn, and choose the bend that fits",
}
_WIDE_M = 0.006
_TAUGHT = (
    "What you measured brings the spread of the brace height from {first_guess.low} to {first_guess.high} down to "
    "{calibrated.low} to {calibrated.high}: {shrink} of its width. The bow drawn here is the one that fits."
)

_APART = (
    "These readings do not go together on a bow like this. Check the lengths and the brace heights, nock to nock, and "
    "whether the handle stands proud of the belly."
)


def cautions(found: Braced, numbers: Mapping[str, Spread | float]) -> tuple[Sentence, ...]:
    """Say what the trade says, where the range comes from, and what may go wrong."""
    said = [*_by_trade(found, numbers)]
    answer = found.figures[found.asked]
    if found.bow.strings:
        said.append(Sentence(text=_TAUGHT))
        said += [Sentence(level="caution", text=_APART)] if found.bow.apart and not found.bow.forces else []
    elif answer.high - answer.low > _WIDE_M:
        said.append(Sentence(text=f"Most of the range comes from {_WHY[found.worst()]}."))
    if found.figures["brace_low"].low <= 0.0:
        text = "With its turns let out, this string may be too long to brace the bow: it could fall off the nocks."
        said.append(Sentence(level="caution", text=text))
    return (*said, *brace_learnt.cautions(found), shared.FIRST_BRACING, shared.DOUBT)


def _by_trade(found: Braced, numbers: Mapping[str, Spread | float]) -> list[Sentence]:
    """Hold the answer against what the trade says."""
    shorter = rule("string_shorter").figure("shorter by").spread
    said = []
    if "rule_low" in numbers:
        deficit = found.figures["deficit"].value
        verdict = "more than here" if shorter.low > deficit else "less than here"
        if shorter.low <= deficit <= shorter.high:
            verdict = "and here they agree"
        said.append(
            Sentence(
                text="By common practice, no published source, a string is 3 to 4 in (75 to 100 mm) shorter than the "
                f"bow. On these limbs that braces at {{rule_low}} to {{rule_high}}, {verdict}. A handle that stands "
                "proud, or a string measured slack, hides the difference."
            )
        )
    usual = shared.of_brace_height(found.bow.nock_to_nock_m, found.figures["brace_height"].value)
    return [*said, *usual]
