"""Rules of the trade for strand counts, beside what the strand sheet finds."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import TYPE_CHECKING

from calc import units
from calc.data import fibre, rule
from calc.mechanics.fibre import rope_ratio, strength_ratio
from calc.units import POUND_FORCE
from calc.worksheets.core import Table

if TYPE_CHECKING:
    from calc.making.strands import Chosen
    from calc.units import System

_YOUTH_N = 45.0 * POUND_FORCE
"""Where the trade's counts of polyester change."""
_ROUNDING = 1e-9
_ROPE_M = 0.006


@dataclass(frozen=True, slots=True)
class _Rule:
    """One rule: what it says, the count it gives, empty where it gives none, and why that is not ours."""

    says: str
    strands: int | None
    why: str


def compared(chosen: Chosen, system: System) -> Table:
    """Return what each rule would take of this strand, what that would hold here, and why the counts differ.

    Parameters
    ----------
    chosen : Chosen
        The string's strands.
    system : {"inch", "metric"}
        The reader's units.
    """
    made = (_multiple, _together, _polyester, _threads, _hardware)
    found = [each for rule_of in made if (each := rule_of(chosen))]
    found += _half(chosen, system)
    return Table(
        key="rules",
        title="Beside common practice, no published source",
        heads=("The rule", "It takes", "Which holds", "Why it differs"),
        cells=tuple((each.says, *_counted(chosen, each.strands, system), each.why) for each in found),
        note="Holds is against the hardest pull of a shot, as above. This sheet asks for a sum of strands of "
        "{times_asked} times the draw weight; these have {times}.",
    )


def _counted(chosen: Chosen, strands: int | None, system: System) -> tuple[str, str]:
    if strands is None:
        return "no count", "–"
    safety = chosen.at_count(strands).safety.value
    return f"{strands} strand{'s' * (strands > 1)}", f"{units.show(safety, 'ratio', system)} times"


def _multiple(chosen: Chosen) -> _Rule:
    """Return the multiple of the draw weight: 5 to 6 for twisted strings."""
    known = rule("draw_weight_multiple")
    times = known.figure("twisted or natural").spread
    return _Rule(
        known.words,
        _for_sum(chosen, times.value),
        "It adds up the strands and looks at the draw weight. Laying, uneven strands and splices take a third or so of "
        "that sum. The hardest pull comes in the shot, at several times the draw weight.",
    )


def _for_sum(chosen: Chosen, times: float) -> int:
    return ceil(times * chosen.draw_weight_n / chosen.strength.strand_n.value - _ROUNDING)


def _together(chosen: Chosen) -> _Rule:
    known = rule("cord_roll_up")
    wanted = known.figure("rolled together").spread.value
    one = chosen.thick.together_m.value / chosen.strands**0.5
    return _Rule(
        known.words,
        max(1, round((wanted / one) ** 2)),
        "It goes by thickness alone, so it suits a cord as strong for its thickness as the one the rule grew up "
        "with. It is far too much of a strong fibre, and too little of a weak one.",
    )


def _polyester(chosen: Chosen) -> _Rule | None:
    if chosen.strand.fibre.id != "polyester" or chosen.strand.laid:
        return None
    known = rule("polyester_strands")
    name = "youth bows" if chosen.draw_weight_n <= _YOUTH_N else "above 45 lb"
    return _Rule(
        known.words,
        int(known.figure(name).spread.value),
        "It does not say how heavy a strand is, and yarns differ. It goes by steps where this sheet goes by the pound, "
        "and it counts on strands that fill the nock.",
    )


def _threads(chosen: Chosen) -> _Rule | None:
    if chosen.strand.fibre.id not in {"linen", "hemp", "ramie"}:
        return None
    known = rule("thread_per_pound")
    holds, count = (known.figure(words).spread.value for words in ("thread holds", "threads a pound"))
    return _Rule(
        known.words,
        _for_sum(chosen, count * holds / POUND_FORCE),
        "Read as strands that add up to six times the draw weight, in whatever thread this is. It looks at the draw "
        "weight and not at the shot, and leaves little in hand where strands share unevenly.",
    )


def _hardware(chosen: Chosen) -> _Rule | None:
    if not chosen.strand.laid or not chosen.strand.fibre.id.startswith("polypropylene"):
        return None
    known = rule("hardware_cord")
    up_to = known.figure("draw weight up to").spread.high
    beyond = "" if chosen.draw_weight_n <= up_to else "This bow is beyond the rule. "
    return _Rule(
        known.words,
        int(known.figure("strands").spread.value),
        beyond
        + "The rule trusts the label to be a breaking strength. Two such cords are thick, so thickness asks for no "
        "more; sun and heat take the strength out of them first.",
    )


def _half(chosen: Chosen, system: System) -> list[_Rule]:
    if not chosen.strand.fibre.id.startswith("polypropylene"):
        return []
    mine, polyester = chosen.strand.fibre, fibre("polyester")
    ratios = (
        strength_ratio(mine, polyester, "thickness").value,
        strength_ratio(mine, polyester, "weight").value,
        rope_ratio("polypropylene", "polyester", _ROPE_M, "thickness"),
        rope_ratio("polypropylene", "polyester", _ROPE_M, "weight"),
    )
    thick, heavy, rope_thick, rope_heavy = (units.show(each, "ratio", system) for each in ratios)
    half = _Rule(
        rule("polypropylene_half").words,
        None,
        f"It depends on what is held equal. Yarn of one thickness has {thick} of polyester's strength, of one weight "
        f"{heavy}. Rope in tables has {rope_thick} at one thickness and {rope_heavy} at one weight.",
    )
    return [half]
