"""What the nail sheet says: rows, sentences, the verdict."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.data import practice
from calc.worksheets.core import RowText, Sentence, cords

if TYPE_CHECKING:
    from calc.making.tuning import Nailed

RESULTS = (
    "brace_given", "turns_on_nail", "brace_after", "string_given", "hung_then", "growth_left", "nail_per_turn",
    "nail_low", "nail_high",
)  # fmt: skip
TOLD = (
    RowText(key="brace_given", symbol="H", words="Brace height it will give as it is", quantity="length",
         working="limbs of {nock_to_nock}, {handle} of it stiff, under {string_given} of string",
         source="derived:limbs"),
    RowText(key="turns_on_nail", symbol="ΔN", words="Turns to put in now (a minus: to take out)", quantity="turns",
         working="from {brace_given} to {brace_wanted}, {nail_per_turn} a turn", source="derived:tuning"),
    RowText(key="turns_on_nail_by", symbol="", words="The same without its sign", quantity="turns",
         working="{turns_on_nail}, put in or taken out", source="derived:tuning"),
    RowText(key="brace_after", symbol="H′", words="Brace height with those turns", quantity="length",
         working="{brace_given} and {turns_on_nail} turns", source="derived:tuning"),
    RowText(key="string_given", symbol="S", words="The string on the braced bow, nock to nock", quantity="length",
         working="{hung_then} from peg to peg under {pull}, taken from the pegs to the tips, and {growth_left} longer",
         source="derived:nail"),
    RowText(key="hung_then", symbol="L", words="Peg to peg under the pull of the bow", quantity="length",
         working="{hung_length} under {hung_weight}, and what the string gives from there to {pull}",
         source="derived:nail"),
    RowText(key="growth_left", symbol="", words="It still grows on the bow by", quantity="length",
         working="what an hour on the bow takes out after {hung_time} under {hung_weight}", source="derived:settling"),
    RowText(key="grown_length", symbol="", words="It grew on the nail by", quantity="length",
         working="{hung_length} − what it measured at first", source="input", kind="measured"),
    RowText(key="loops_grown", symbol="", words="Of that, in the loops", quantity="length",
         working="{grown_length} − what grew from throat to throat", source="input", kind="measured"),
    RowText(key="nail_per_turn", symbol="", words="Brace height for each turn", quantity="thickness",
         working="what a turn takes off the free body × slope of brace height over string length",
         source="derived:tuning"),
    RowText(key="nail_low", symbol="", words="Lowest brace height by turns alone", quantity="length",
         working="let out to the loosest lay that holds", source="derived:window"),
    RowText(key="nail_high", symbol="", words="Highest brace height by turns alone", quantity="length",
         working="turned up to the tightest lay of use", source="derived:window"),
    RowText(key="pull", symbol="T₀", words="Pull of the bow when it is braced", quantity="force",
         working="statics of limbs that give {draw_weight} at full draw", source="derived:statics"),
    RowText(key="hung_length", symbol="", words="Peg to peg, as read", quantity="length",
         working="a tape reading either way", source="input", kind="measured"),
    RowText(key="hung_weight", symbol="", words="Weight hung on it", quantity="force", working="as weighed",
         source="input", kind="measured"),
    RowText(key="hung_time", symbol="", words="Hanging time", quantity="duration", working="as told", source="input",
         kind="measured"),
    RowText(key="narrower", symbol="", words="Narrower with throats and nocks measured by", quantity="fraction",
         working="range of {brace_given} with them ÷ without", source="derived:nail"),
    RowText(key="made_breaks", symbol="", words="The made string breaks at", quantity="force",
         working="strands added up × what lay, splices and uneven lengths leave", source="derived:strength"),
)  # fmt: skip
SENTENCES = {
    **cords.SENTENCES,
    "handle_long": "Stiff handle must be shorter than the bow, nock to nock",
    "draw_short": "Draw length must be more than the brace height",
    "draw_long": "Draw length is more than a bow of this length can follow. Check it, and where it was measured from",
    "string_long": "So long a string hardly braces this bow: peg to peg {limit} at most. Check both lengths",
    "string_short": "So short a string would bend this bow too far: peg to peg {limit} at least. Check both lengths",
    "peg_thick": "The loops of these limb tips do not go over so thick a peg. Take thinner pegs",
    "same_weight": "The second weight must differ from the first: about half of it is best",
    "shrank": "A string is longer under the heavier weight. Check both weights and both lengths",
    "throats_apart": "Throat to throat is a little less than peg to peg. Measure both again under the same weight",
    "half_second": "Enter both: the second weight and the length under it",
    "half_reach": "Enter both: nock to throat at the upper and at the lower tip",
    "no_brace": "Enter the brace height that string gave",
    "no_string": "Enter how long that string was, on the bow or on the nail",
    "no_growth": "To see what the loops do, enter both lengths at first and both lengths now",
    "earlier_apart": "That string does not go with this one: another cord, weight or nail. Check it, or leave it empty",
    "pair_string_long": "The measured string must be shorter than the bow, nock to nock. Check all three readings",
    "pair_string_stiff": "The measured string would brace a bow of this length lower. Check all three readings",
    "pair_string_short": "Limbs of this bow cannot bend as far as the measured string asks. Check all three readings",
    "pair_far": "These readings do not go with a bow of this length. Check the measured string and its brace height",
    "tails_long": "Two splices with these tails leave no body between them. Use shorter tails",
    "jam": "So many turns do not fit this cord: at most {limit}. Check the count and the thickness",
    "cord_thick": "So thick a cord makes no loop for this tip. Check both",
}
BLAMES = {
    **cords.BLAMES,
    "length_m": "hung_length",
    "weight_n": "hanging_weight",
    "tension_n": "hanging_weight",
    "peg_m": "peg_diameter",
    "earlier_m": "earlier_hung",
    "throats_m": "throats_length",
    "pairs": "measured_string",
    "wanted_m": "brace_height",
    "brace_m": "brace_height",
    "now_m": "hung_length",
    "draw_m": "draw_length",
    "draw_weight_n": "draw_weight",
    "handle_m": "handle_length",
    "nock_to_nock_m": "nock_to_nock",
    "tail_m": "tail_length",
    "diameter_m": "cord_diameter",
    "opening_rad": "tip_upper",
}
LEAVES_OUT = (
    "The string's own weight, and loops that stick on their pegs: lift the weight once and let it down again.",
    "Loops that sit otherwise on the bow than on pegs, unless nock to throat was measured.",
    "Creep after the first hour on the bow: read the brace height again after 10, 50 and 200 shots.",
    "Damp, which moves natural fibres more than load does.",
)
_NOTHING = 0.25
_MISSED_M = 0.001


def headlines(done: Nailed) -> tuple[Sentence, ...]:
    """Say what comes of the string, and what to do now."""
    return (
        Sentence(
            level="answer",
            lead="On the bow",
            text="it will brace at {brace_given} as it is; wanted {brace_wanted}",
            span="{brace_given.low} to {brace_given.high}",
        ),
        _turn(done),
        Sentence(
            level="answer",
            lead="Settled?",
            text=_settled(done),
            span="{growth_left.low} to {growth_left.high} still to come in the first hour on the bow",
        ),
        *_loops(done),
    )


def _turn(done: Nailed) -> Sentence:
    change = done.figures["turns_change"].value
    do = "put in" if change > 0.0 else "take out"
    if abs(change) < _NOTHING:
        return Sentence(level="answer", lead="Turn it now", text="no: leave it as it is",
                        span="turns reach from {nail_low} to {nail_high}")  # fmt: skip
    if abs(done.figures["brace_then"].value - done.hung.wanted_m) > _MISSED_M or done.remake:
        which = "shorter" if change > 0.0 else "longer"
        return Sentence(level="answer", lead="Turn it now", text=f"turns cannot mend it: make the string {which}",
                        span="they reach from {nail_low} to {nail_high}")  # fmt: skip
    return Sentence(
        level="answer",
        lead="Turn it now",
        text=f"{do} {{turns_on_nail_by}} turns, then it braces at {{brace_after}}",
        span="{brace_after.low} to {brace_after.high} with them",
    )


def _settled(done: Nailed) -> str:
    tape_m = practice("tape_reading").spread.high
    if done.figures["left_length"].high < tape_m:
        return "yes: what it still grows is less than a tape tells"
    if done.figures["left_length"].value < tape_m:
        return "nearly: it may still grow by {growth_left.high}"
    return "not yet: it may still grow by {growth_left}. Let it hang longer, and measure again"


def _loops(done: Nailed) -> tuple[Sentence, ...]:
    grown = done.figures.get("loops_grown")
    if grown is None:
        return ()
    text = "hold: what they grew is less than the tape tells"
    if grown.low > 0.0:
        text = "bed in or slip: they grew by {loops_grown}. Look at the pen line across each throat"
    elif grown.high < 0.0:
        text = "seem to have shrunk, by more than the tape tells: measure all four lengths again"
    return (Sentence(level="answer", lead="The loops", text=text, span="{loops_grown.low} to {loops_grown.high}"),)
