"""What is said of an unknown cord: its names, how far to trust it, why not each other fibre."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc import units
from calc.worksheets.core import Sentence, Table

if TYPE_CHECKING:
    from calc.making.strands import CordFindings, UnknownCord
    from calc.mechanics.fibre import Against, Claim, Match
    from calc.units import System

_WHY: dict[Against, str] = {
    "floats": "it floats, and this fibre sinks",
    "sinks": "it sinks, and this fibre floats",
    "too_airy": "it is too thick for its weight",
    "too_solid": "it is too thin for its weight",
    "held_more": "it carried more than this fibre can",
}
_CLAIMS: dict[Claim, str] = {
    "": "",
    "rated_more": "its label promises more than it can hold, which rules nothing out",
    "rated_less": "its label promises less than any such cord holds, which rules nothing out",
}
_NAMED = 4


def names(made: CordFindings) -> str:
    """Return what it may be in words, the weakest first.

    Parameters
    ----------
    made : CordFindings
        As worked out.
    """
    fitting = sorted((each for each in made.matches if not each.against), key=lambda each: each.strength_n.value)
    named = [each.fibre.words.replace(",", "") for each in fitting]
    if len(named) == 1:
        return named[0]
    if len(named) <= _NAMED:
        return f"{', '.join(named[:-1])} or {named[-1]}"
    return f"{', '.join(named[:_NAMED])} or {len(named) - _NAMED} more"


def trust(cord: UnknownCord, made: CordFindings) -> str:
    """Return how far to trust it in words, and which test would tell more.

    Parameters
    ----------
    cord : UnknownCord
        With its tests.
    made : CordFindings
        As worked out.
    """
    if made.trust == "none":
        return "no: nothing in the table fits all that was found. Test it again, and make no string of it"
    if made.trust == "label":
        return "little: its label promises more than anything that fits can hold. Break a piece before you use it"
    if made.trust == "consistent":
        return "as far as these tests go: all that was found fits one fibre"
    more = _next(cord, made)
    return f"so far: {made.fits} fibres fit, and the weakest of them was counted on{more}"


def _next(cord: UnknownCord, made: CordFindings) -> str:
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


def of_label(made: CordFindings) -> tuple[Sentence, ...]:
    """Return cautions about a label that what was tested does not bear out, and about what any label means.

    Parameters
    ----------
    made : CordFindings
        As worked out.
    """
    strand = None if made.chosen is None else made.chosen.strand
    if strand is None or strand.rated_n is None:
        return ()
    said = ["A load on a label is no test: it can lower what is counted on here, and never raises it."]
    if made.trust == "label":
        said.insert(0, "Its label promises more than any fibre that fits can hold: that label is not of this cord.")
    elif any(not each.against and each.claim == "rated_more" for each in made.matches):
        said.insert(0, "Its label promises more than the weakest fibre that fits can hold. The weakest is counted on.")
    return tuple(Sentence(level="caution", text=each) for each in said)


def compared(made: CordFindings, system: System) -> Table:
    """Return every fibre with what one cord of it would hold and what speaks against it.

    Parameters
    ----------
    made : CordFindings
        As worked out.
    system : {"inch", "metric"}
        The reader's units.
    """
    return Table(
        key="fibres",
        title="Fibre by fibre",
        heads=("Fibre", "Fits", "One cord would hold", "What speaks against it"),
        cells=tuple(_line(each, system) for each in made.matches),
        note="The range is wide because cords keep between a quarter and four fifths of the strength of their yarn.",
    )


def _line(match: Match, system: System) -> tuple[str, ...]:
    low, high = (units.show(each, "force", system) for each in (match.strength_n.low, match.strength_n.high))
    why = "; ".join(filter(None, (*(_WHY[reason] for reason in match.against), _CLAIMS[match.claim])))
    return match.fibre.words, "no" if match.against else "yes", f"{low} to {high}", why or "–"
