"""The words of the loops worksheet: its rows, its headlines, what it leaves out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.worksheets.core import RowText, Sentence

if TYPE_CHECKING:
    from calc.making.string import Fit

TOLD = (
    RowText(key="loop_length", symbol="L", words="The loop, plied, from throat to throat", quantity="length",
         working="tangents from the throat and the arc round {tip_wide}, half of {cord_diameter} outside it",
         source="derived:loop"),
    RowText(key="loop_raw", symbol="", words="The loop, to mark off on the flat bundle", quantity="length",
         working="{loop_length} ÷ (1 − {loop_take_up})", source="derived:loop"),
    RowText(key="throat", symbol="t", words="Throat, from the middle of the tip", quantity="length",
         working="where the legs come together, {opening} apart", source="derived:loop"),
    RowText(key="reach", symbol="", words="Throat, from the belly of the tip", quantity="length",
         working="{throat} − half of {tip_deep}", source="derived:loop"),
    RowText(key="opening", symbol="", words="Between the legs of the loop", quantity="angle",
         working="60° is usual in a nock; a sliding loop opens as far as its length lets it", source="derived:loop"),
    RowText(key="leg_pull", symbol="", words="Pull in each leg ÷ pull in the string", quantity="ratio",
         working="1 ÷ (2 × cos of half of {opening})", source="derived:statics"),
    RowText(key="turns_loop", symbol="", words="Turns in the loop", quantity="turns",
         working="{loop_length} laid at {loop_lay}", source="derived:unroll"),
    RowText(key="loop_take_up", symbol="", words="Taken up by twisting in the loop", quantity="fraction",
         working="1 − cos {loop_lay} × what the bundles keep of their own twist", source="derived:unroll"),
    RowText(key="cord_diameter", symbol="d", words="Thickness of the cord", quantity="thickness",
         working="as measured, a twentieth either way", source="input", kind="measured"),
    RowText(key="bundle_diameter", symbol="D", words="One bundle of it", quantity="thickness",
         working="{cord_diameter} less what the lay adds: half of it for two bundles", source="derived:lay"),
    RowText(key="tip_wide", symbol="", words="The tip, across the limb", quantity="length",
         working="as measured, 1/32 in either way; a pipe by its table; a usual one if not known",
         source="input", kind="measured"),
    RowText(key="tip_deep", symbol="", words="The tip, from belly to back", quantity="length",
         working="as measured", source="input", kind="measured"),
    RowText(key="girth", symbol="", words="Round the thickest place the loop passes", quantity="length",
         working="girth of the section, {thicker} thicker than the tip where nothing was told",
         source="derived:support"),
    RowText(key="thicker", symbol="", words="Thicker there than at the tip", quantity="length",
         working="as the trade has it, 3 in (75 mm) below the nock; nothing for pipe, or where that place was told",
         source="common-practice", kind="practice"),
    RowText(key="ease", symbol="", words="Ease of a loop that slides, share of the girth", quantity="fraction",
         working="as the trade has it", source="common-practice", kind="practice"),
    RowText(key="opening_usual", symbol="", words="Between the legs of a loop made for its nock", quantity="angle",
         working="as the trade has it", source="common-practice", kind="practice"),
)  # fmt: skip

LEAVES_OUT = (
    "The slant of a nock, and how the cord flattens where it bears on the tip.",
    "Stretch: a loop under load is a little longer, and its throat a little further off.",
    "How hard the first turns of the splice are laid: they, not the loop's length, keep the throat shut.",
    "Serving or cover on the loop: add its thickness to the cord's.",
)
LOOK = Sentence(
    level="caution",
    standing=True,
    text="Look at both loops in their grooves before you let go of the braced string, and again before you draw. A "
    "loop that comes off throws the limbs about.",
)


def headlines(fit: Fit) -> tuple[Sentence, ...]:
    """Return the answer in large figures."""
    sits = "just fits its nock" if fit == "nocked" else "slides over {girth} of limb"
    return (
        Sentence(
            level="answer",
            lead="Mark off",
            text=f"{{loop_raw}} of flat bundle for a loop that {sits}",
            span="{loop_raw.low} to {loop_raw.high}",
        ),
        Sentence(
            level="answer",
            lead="Ply it to",
            text="{loop_length} from throat to throat, with {turns_loop} turns",
            span="{loop_length.low} to {loop_length.high}",
        ),
        Sentence(
            level="answer",
            lead="Throat",
            text="{throat} from the middle of the tip, {reach} from its belly",
            span="{throat.low} to {throat.high} from the middle",
        ),
    )
