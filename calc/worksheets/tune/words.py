"""What the tuning sheet says: rows, sentences and the verdict."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from calc.data import practice
from calc.worksheets.core import RowText, Sentence

if TYPE_CHECKING:
    from calc.making.tuning import Tuning

TOLD = (
    RowText(key="turns_change", symbol="ΔN", words="Turns to put in (a minus: to take out)", quantity="turns",
         working="{turns_new} − {turns_now}", source="derived:tuning"),
    RowText(key="turns_by", symbol="", words="The same without its sign", quantity="turns",
         working="{turns_change}, put in or taken out", source="derived:tuning"),
    RowText(key="turns_now", symbol="N", words="Turns in the free body now", quantity="turns",
         working="counted to half a turn, or {free_body} laid at {lay_now}", source="input", kind="measured"),
    RowText(key="turns_new", symbol="N′", words="Turns in the free body then", quantity="turns",
         working="{free_body} of free body longer by {string_change} ÷ {response}", source="derived:tuning"),
    RowText(key="lay_now", symbol="θ", words="Lay angle now", quantity="angle",
         working="{turns_now} turns of {bundle_diameter} bundles in {free_body}", source="derived:unroll"),
    RowText(key="lay_new", symbol="θ′", words="Lay angle then", quantity="angle",
         working="the same bundles with {turns_new} turns", source="derived:unroll"),
    RowText(key="brace_per_turn", symbol="ΔH", words="Brace height for each turn, here", quantity="thickness",
         working="what a turn takes off the free body × slope of brace height over string length × {response}",
         source="derived:tuning"),
    RowText(key="turns_to_jam", symbol="", words="Turns still to go then before the lay jams", quantity="turns",
         working="{turns_jam} − {turns_new}", source="olsen2011"),
    RowText(key="turns_to_loose", symbol="", words="Turns to spare then before the lay is too loose to hold",
         quantity="turns", working="{turns_new} − {turns_loose}", source="derived:window"),
    RowText(key="turns_jam", symbol="", words="Turns at which the lay jams", quantity="turns",
         working="the most turns that bundles of {bundle_diameter} can make", source="olsen2011"),
    RowText(key="turns_loose", symbol="", words="Turns at the loosest lay that holds", quantity="turns",
         working="laid at {lay_loosest}", source="derived:window"),
    RowText(key="turns_tight", symbol="", words="Turns at the tightest lay of use", quantity="turns",
         working="laid at {lay_tightest}", source="derived:window"),
    RowText(key="brace_low", symbol="", words="Lowest brace height by turns alone", quantity="length",
         working="let out to {turns_loose} turns", source="derived:window"),
    RowText(key="brace_high", symbol="", words="Highest brace height by turns alone", quantity="length",
         working="turned up to {turns_tight} turns", source="derived:window"),
    RowText(key="string_change", symbol="ΔS", words="The string must become longer by (a minus: shorter)",
         quantity="length", working="string for {brace_wanted} − string for {brace_now}, limbs of {nock_to_nock}, "
         "{handle} of it stiff", source="derived:limbs"),
    RowText(key="next_body", symbol="ΔB", words="Body to mark longer on the next string (a minus: shorter)",
         quantity="length", working="flat bundle for {brace_wanted} at the middle lay − this string's",
         source="derived:tuning"),
    RowText(key="next_by", symbol="", words="The same without its sign", quantity="length",
         working="{next_body}, longer or shorter", source="derived:tuning"),
    RowText(key="brace_then", symbol="H′", words="Brace height with those turns", quantity="length",
         working="{brace_now} and {turns_change} turns", source="derived:tuning"),
    RowText(key="free_body", symbol="", words="Free body between the splices", quantity="length",
         working="string − two throats − two splices of {tail}", source="derived:body"),
    RowText(key="bundle_diameter", symbol="D", words="One bundle", quantity="thickness",
         working="as measured, or from the plied body", source="derived:lay"),
    RowText(key="brace_now", symbol="H", words="Brace height now", quantity="length",
         working="as measured, a tape reading either way", source="input", kind="measured"),
    RowText(key="response_usual", symbol="", words="What a turn does ÷ what the sums say, usually", quantity="ratio",
         working="an estimate: splices take a part of each turn", source="derived:tuning", kind="practice"),
    RowText(key="response", symbol="κ", words="What a turn does ÷ what the sums say, as used here", quantity="ratio",
         working="{response_usual}, and what was read where turns were tried", source="derived:tuning"),
    RowText(key="response_measured", symbol="", words="The same, from your readings alone", quantity="ratio",
         working="heights that were read over heights the sums say, best straight line", source="derived:tuning",
         kind="measured"),
    RowText(key="per_turn_untaught", symbol="", words="Brace height for each turn without your readings",
         quantity="thickness", working="by {response_usual} alone", source="derived:tuning"),
    RowText(key="shrink", symbol="", words="Spread of a turn with your readings ÷ without", quantity="fraction",
         working="width of {brace_per_turn} ÷ width of {per_turn_untaught}", source="derived:tuning"),
    RowText(key="believed", symbol="", words="Share that your readings decide", quantity="fraction",
         working="weighed by how sure readings and sums are", source="derived:tuning"),
)  # fmt: skip
SENTENCES = {
    "handle_long": "Stiff handle must be shorter than the bow, nock to nock",
    "no_cord": "Enter the thickness of the cord or of one bundle",
    "counted_twice": "Leave the turns in the body or the turns along a length empty: one count is enough",
    "jam": "So many turns do not fit this cord: at most {limit}. Check the count and the thickness",
    "half_turns": "Enter the turns that were put in after that brace height was read",
    "half_brace": "Enter the brace height that was read before those turns were put in",
    "no_first": "Enter the first brace height and the turns that followed it, or leave the second ones empty",
    "turns_backward": "Brace height rises when turns go in. Check both readings; write a minus before turns taken out",
    "turns_apart": "These turns do not fit the count in the body. Check both; write a minus before turns taken out",
    "tails_long": "Two splices with these tails leave no body between them. Use shorter tails",
}
LEAVES_OUT = (
    "Turns that stay in the splices and loops: the estimate of what a turn does allows for them.",
    "A string pulled tighter stretches a little more; a new one still settles. Read again after ten shots.",
    "Bundles pressed out of round: soft cord takes a few more turns before it jams.",
    "String follow, recurves and a proud handle: they shift the brace height, not what a turn does to it.",
)
_NOTHING = 0.25
_MISSED_M = 0.001
_HARDLY = 0.95


class TuneAdvice(NamedTuple):
    """Headlines and cautions."""

    headlines: tuple[Sentence, ...]
    cautions: tuple[Sentence, ...]


def verdict(done: Tuning, hand: str) -> TuneAdvice:
    """Say what to do, in words."""
    return TuneAdvice(
        (_at_the_range(done), _lay(done), _window(), _next(done)), (*_which_way(done, hand), *_warned(done))
    )


def _at_the_range(done: Tuning) -> Sentence:
    change = done.figures["turns_change"].value
    do = "put in" if change > 0.0 else "take out"
    text = f"{do} {{turns_by}} turns: now {{brace_now}}, wanted {{brace_wanted}}"
    span = "{turns_by.low} to {turns_by.high} turns"
    if abs(change) < _NOTHING:
        text = "leave it: now {brace_now}, wanted {brace_wanted}"
    elif _short_of_it(done):
        text = "turns cannot bring it there: now {brace_now}, wanted {brace_wanted}"
        span = "even {turns_by} turns, all that change it, give {brace_then}"
    elif any(_edges(done)):
        text = f"{do} {{turns_by}} turns? Too many for this string: now {{brace_now}}, wanted {{brace_wanted}}"
    return Sentence(level="answer", lead="At the range", text=text, span=span)


def _short_of_it(done: Tuning) -> bool:
    return abs(done.figures["brace_then"].value - done.asked.wanted_m) > _MISSED_M


def _lay(done: Tuning) -> Sentence:
    text = "{lay_now} now, {lay_new} then: {turns_to_jam} turns from the jam, {turns_to_loose} from too loose"
    if _edges(done)[0]:
        text = "{lay_now} now, {lay_new} then: too loose to hold"
    return Sentence(level="answer", lead="The lay", text=text, span="from {turns_now} to {turns_new} turns in the body")


def _window() -> Sentence:
    return Sentence(
        level="answer",
        lead="Each turn",
        text="{brace_per_turn} of brace height; turns reach from {brace_low} to {brace_high}",
        span="{brace_per_turn.low} to {brace_per_turn.high} a turn",
    )


def _edges(done: Tuning) -> tuple[bool, bool]:
    """Return whether the lay would be too loose to hold, and too tight to be of use."""
    return done.figures["turns_to_loose"].value < 0.0, done.figures["lay_new"].value > _tightest()


def _tightest() -> float:
    return practice("lay_tightest").spread.value


def _next(done: Tuning) -> Sentence:
    loose, tight = _edges(done)
    text = "no: turns alone bring it there"
    if loose:
        text = "yes: the lay would fall open before it gets there"
    if tight:
        text = "yes: the lay would kink when slack before it gets there"
    if _short_of_it(done) and not loose and not tight:
        text = "yes: it cannot be let out so far, whatever turns come out"
    which = "longer" if done.figures["next_body"].value > 0.0 else "shorter"
    span = f"the next one: mark its body {{next_by}} {which} on the flat bundle, for the middle of its window"
    if abs(done.figures["next_body"].value) < _MISSED_M:
        span = "the next one: mark its body as long as this one's, for the middle of its window"
    return Sentence(level="answer", lead="Make it again?", text=text, span=span)


def _which_way(done: Tuning, hand: str) -> list[Sentence]:
    """Say which way to turn the loop: a Z lay tightens as its near end turns counter-clockwise."""
    change = done.figures["turns_change"].value
    if abs(change) < _NOTHING or any(_edges(done)):
        return []
    clockwise = (hand == "S") == (change > 0.0)
    way = "clockwise" if clockwise else "counter-clockwise"
    does = f"{'tightens' if change > 0.0 else 'opens'} {'an' if hand == 'S' else 'a'} {hand} lay"
    return [
        Sentence(
            text=f"Unstring the bow, take one loop off and turn it {way}, as you look from the loop along the string: "
            f"that {does}. Share the turns between both ends, brace, and read again."
        )
    ]


def _warned(done: Tuning) -> list[Sentence]:
    figures, said = done.figures, list[tuple[str, str]]()
    loose, tight = _edges(done)
    if tight:
        said.append(("caution", "Past the tightest lay of use the string kinks when slack and wears. Make it shorter."))
    elif figures["lay_new"].high > _tightest():
        said.append(("note", "The lay may come close to where it kinks when slack: put the last turns in one by one."))
    if loose:
        said.append(("caution", "So few turns may not hold the splices. Do not draw the bow with it: make it longer."))
    elif figures["turns_to_loose"].low < 0.0:
        said.append(("note", "The lay may come close to too loose to hold: look at the splices as you let turns out."))
    if done.untaught is not None:
        said.append(("note", _taught(done)))
    return [Sentence(level="caution" if level == "caution" else "note", text=text) for level, text in said]


def _taught(done: Tuning) -> str:
    narrowed = (
        "Your readings bring the spread of a turn from {per_turn_untaught.low} to {per_turn_untaught.high} down to "
        "{brace_per_turn.low} to {brace_per_turn.high}: {shrink} of its width."
    )
    if done.figures["brace_per_turn"].high - done.figures["brace_per_turn"].low > _HARDLY * _width(done):
        narrowed = (
            "Your readings are too close together to narrow the spread of a turn: turn it further and read again."
        )
    if done.believed < 1.0:
        return narrowed
    return (
        "Your string answers a turn {response_measured} times as strongly as the sums say, further off than readings "
        "and sums allow, so your readings alone are used. Check the turns and the thickness of the cord. A new string "
        "that still settles lowers the brace height between readings."
    )


def _width(done: Tuning) -> float:
    assert done.untaught is not None
    return done.untaught.high - done.untaught.low
