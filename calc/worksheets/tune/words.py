"""What the tuning sheet says: rows, sentences and the verdict."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from calc.data import practice
from calc.worksheets.core import Sentence

if TYPE_CHECKING:
    from calc.making.tuning import Tuning

_NOTHING = 0.25
_MISSED_M = 0.001
_HARDLY = 0.95


class TuneAdvice(NamedTuple):
    """What to do, in words.

    Parameters
    ----------
    headlines : tuple of Sentence
        The answer in large figures.
    cautions : tuple of Sentence
        What to mind.
    """

    headlines: tuple[Sentence, ...]
    cautions: tuple[Sentence, ...]


def verdict(done: Tuning, hand: str) -> TuneAdvice:
    """Return what to do, in words.

    Parameters
    ----------
    done : Tuning
        As worked out.
    hand : str
        Direction of the lay.
    """
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
        "and sums allow. So your readings alone are used. Check the turns and the thickness of the cord. A new string "
        "that still settles lowers the brace height between readings."
    )


def _width(done: Tuning) -> float:
    assert done.untaught is not None
    return done.untaught.high - done.untaught.low
