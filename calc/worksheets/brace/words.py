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
BRIDGES = (
    Sentence(
        level="answer",
        lead="The whole string",
        text="{string_whole} on the braced bow, nock to nock: {bridge_way} of it lies on each tip",
        span="{string_whole.low} to {string_whole.high}",
    ),
)
AT_BRIDGES = (
    Sentence(
        text="With bridges, bow and string are told from bridge to bridge: there the limb ends for the braced string. "
        "All other lengths here are too. The body is longer by what lies on the tips, so a turn does a little more."
    ),
    Sentence(
        level="caution",
        text="See that the string lies in the middle of both bridges before you let go. One that slips off its bridge "
        "turns the limb over.",
    ),
)


def row_texts(own: tuple[RowText, ...], given: str, keys: Collection[str]) -> tuple[RowText, ...]:
    """Return the rows with the one that was typed told as such, for the numbers that are there.

    Parameters
    ----------
    own : tuple of RowText
        The sheet's rows.
    given : str
        Key of the field that was typed.
    keys : collection of str
        Of the numbers that are there.
    """
    rows = tuple(
        replace(each, working="as asked", source="input", kind="exact") if each.key == given else each for each in own
    )
    return brace_learnt.row_texts(rows, keys)


def headlines(*, from_brace: bool, weighed: bool) -> tuple[Sentence, ...]:
    """Return what was asked first: the string for a brace height, or the brace height of a string.

    Parameters
    ----------
    from_brace : bool
        Whether the brace height was typed.
    weighed : bool
        Whether a draw weight or a force is known.
    """
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
    "proud": "a handle that may stand proud. Stretch a thread from nock to nock and measure from it to the handle",
    "follow": "the set of the unbraced bow, which is not known. Stretch a thread from nock to nock and measure",
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
    """Return what the trade says, where the range comes from, and what may go wrong.

    Parameters
    ----------
    found : Braced
        As worked out.
    numbers : mapping of str to Spread or float
        By row key.
    """
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
