"""What is said of an unknown cord: its names, how far to trust it, why not each other fibre."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc import units
from calc.worksheets.core import Sentence, Table, cautions

if TYPE_CHECKING:
    from calc.making.strands import Examined, Unknown
    from calc.mechanics.fibre import Against, Match
    from calc.units import System

_WHY: dict[Against, str] = {
    "floats": "it floats, and this fibre sinks",
    "sinks": "it sinks, and this fibre floats",
    "too_airy": "it is too thick for its weight",
    "too_solid": "it is too thin for its weight",
    "held_more": "it carried more than this fibre can",
    "rated_more": "its label promises more than this fibre can hold",
    "rated_less": "its label promises less than any cord of this fibre holds",
}
_NAMED = 4


def names(made: Examined) -> str:
    """Say what it may be, the weakest first."""
    fitting = sorted((each for each in made.matches if not each.against), key=lambda each: each.strength_n.value)
    named = [each.fibre.words.replace(",", "") for each in fitting]
    if len(named) == 1:
        return named[0]
    if len(named) <= _NAMED:
        return f"{', '.join(named[:-1])} or {named[-1]}"
    return f"{', '.join(named[:_NAMED])} or {len(named) - _NAMED} more"


def trust(cord: Unknown, made: Examined) -> str:
    """Say how far to trust it, and which test would tell more."""
    if made.trust == "none":
        return "no: nothing in the table fits all that was found. Test it again, and make no string of it"
    if made.trust == "consistent":
        return "as far as these tests go: all that was found fits one fibre"
    more = _next(cord, made)
    return f"so far: {made.fits} fibres fit, and the weakest of them was counted on{more}"


def _next(cord: Unknown, made: Examined) -> str:
    """Name the test not yet tried that would part the fibres which still fit."""
    densities = [each.fibre.density_kg_m3.value for each in made.matches if not each.against]
    lightest_that_sinks = 1000.0
    if cord.floats is None and min(densities) < lightest_that_sinks <= max(densities):
        return ". See whether it floats: that parts them"
    if cord.roll_m is None:
        return ". Roll it up and measure: that may part them"
    if cord.held_n is None:
        return ". Hang a weight on a piece: what holds a strong pull is none of the weak ones"
    return ""


def of_fits(made: Examined) -> tuple[Sentence, ...]:
    """Return the cautions that any fibre which fits calls for, each once."""
    said: dict[str, Sentence] = {}
    for each in made.matches:
        if not each.against:
            said |= {caution.text: caution for caution in cautions.of_fibre(each.fibre)}
    return tuple(
        Sentence(
            level=each.level,
            standing=True,
            text=f"If it is one of those that fit: {each.text[0].lower()}{each.text[1:]}",
        )
        if made.fits > 1
        else each
        for each in said.values()
    )


def compared(made: Examined, system: System) -> Table:
    """Return every fibre with what one cord of it would hold and what speaks against it."""
    return Table(
        key="fibres",
        title="Fibre by fibre",
        heads=("Fibre", "Fits", "One cord would hold", "Why not"),
        cells=tuple(_line(each, system) for each in made.matches),
        note="The range is wide because cords keep between a quarter and four fifths of the strength of their yarn.",
    )


def _line(match: Match, system: System) -> tuple[str, ...]:
    low, high = (units.show(each, "force", system) for each in (match.strength_n.low, match.strength_n.high))
    why = "; ".join(_WHY[reason] for reason in match.against)
    return match.fibre.words, "no" if match.against else "yes", f"{low} to {high}", why or "–"
