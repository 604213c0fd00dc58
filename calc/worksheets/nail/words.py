"""What the nail sheet says: rows, sentences, the verdict."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.data import practice
from calc.worksheets.core import Sentence, cords, read

if TYPE_CHECKING:
    from calc.making.tuning import Nailed

RESULTS = (
    "brace_given", "turns_on_nail", "brace_after", "string_given", "hung_then", "growth_left", "nail_per_turn",
    "nail_low", "nail_high",
)  # fmt: skip
BLAMES = {
    **read.BOW_BLAMES,
    **cords.BLAMES,
    "length_m": "hung_length",
    "weight_n": "hanging_weight",
    "tension_n": "hanging_weight",
    "peg_m": "peg_diameter",
    "earlier_m": "earlier_hung",
    "earlier_throats_m": "earlier_throats",
    "throats_m": "throats_length",
    "pairs": "measured_string",
    "wanted_m": "brace_height",
    "now_m": "hung_length",
    "handle_m": "handle_length",
    "tail_m": "tail_length",
    "diameter_m": "cord_diameter",
    "opening_rad": "tip_upper",
}
_NOTHING = 0.25
_MISSED_M = 0.001


def headlines(done: Nailed) -> tuple[Sentence, ...]:
    """Return what comes of the string, and what to do now, in words.

    Parameters
    ----------
    done : Nailed
        As worked out.
    """
    return (
        Sentence(
            level="answer",
            lead="On the bow",
            text="it will brace at {brace_given} as it is; wanted {brace_wanted}",
            span="{brace_given.low} to {brace_given.high}",
            against="brace_wanted",
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
        against="brace_wanted",
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
