"""Marks in true size: those of a bundle, of the pegs that step its strands, and gauges for loops."""

from __future__ import annotations

from itertools import accumulate
from math import ceil
from typing import TYPE_CHECKING

from calc import units
from calc.draw.cards import LoopGauge, StripMark, gauge_pages, strip_pages
from calc.plain_text import whole_measures
from calc.worksheets import one
from calc.worksheets.core import Answer, Tip, ask, by_key, convert_tip, show_row, usual

if TYPE_CHECKING:
    from collections.abc import Iterator

    from calc.draw.cards import CardFacts, Paper, Placed

_NARROWEST_M = 0.0085
"""Marks closer than this are not all named. [m]"""
_TIPS = ("round 3/8 in", "round 1/2 in", "round 5/8 in", "round 3/4 in", "pipe 1/2", "pipe 3/4", "pipe 1")
"""What loops are made for in a club, besides a string's own tips."""


def bundle_marks(facts: CardFacts) -> tuple[StripMark, ...]:
    """Return the marks of one bundle, from its first strand end.

    Parameters
    ----------
    facts : CardFacts
    """
    ends = accumulate(each.length_m for each in facts.zones)
    words = ("first loop", "body", "second loop", "tail", "end")
    marks = (
        StripMark(end_m, f"{word} {zone.mark_text}") for zone, end_m, word in zip(facts.zones, ends, words, strict=True)
    )
    return (StripMark(0.0, "end"), *marks)


def bundle_strip(facts: CardFacts, paper: Paper) -> tuple[tuple[Placed, ...], ...]:
    """Return the marks of one bundle on a strip.

    Parameters
    ----------
    facts : CardFacts
    paper : Paper
    """
    return strip_pages(bundle_marks(facts), paper, system=facts.system, title=f"Marks of one bundle{_for(facts)}")


def peg_marks(facts: CardFacts) -> tuple[StripMark, ...]:
    """Return where pegs stand so that the strands of one bundle are stepped as they are wound.

    Parameters
    ----------
    facts : CardFacts

    Returns
    -------
    tuple of StripMark
        A1, A2 and so on at one end, B1, B2 at the other: each strand reaches from its A to its B, as long as it is cut.
        Strands without a step share two pegs.
    """
    each = facts.strands // facts.bundles
    whole_m = sum(zone.length_m for zone in facts.zones)
    cut_m = whole_m - (each - 1) * facts.step_m
    count = each if facts.step_m > 0.0 else 1
    named = ceil(_NARROWEST_M / facts.step_m) if facts.step_m > 0.0 else 1
    return tuple(
        StripMark(start_m + index * facts.step_m, f"{end}{index + 1}" if index % named == 0 else "", over=True)
        for end, start_m in (("A", 0.0), ("B", cut_m))
        for index in range(count)
    )


def peg_strip(facts: CardFacts, paper: Paper) -> tuple[tuple[Placed, ...], ...]:
    """Return the marks of the pegs for one bundle on a strip.

    Parameters
    ----------
    facts : CardFacts
    paper : Paper
    """
    step = units.show(facts.step_m, "length", facts.system)
    each = facts.strands // facts.bundles
    wound = "Wind from A1 to B1 and back, and cut at both"
    if facts.step_m > 0.0 and each > 1:
        wound = "Wind from A1 to B1, across to B2, back to A2, across to A3, and so on. Cut at the marks"
    how = (
        f"Pegs for one bundle{_for(facts)}: {each} strands, each {facts.cut.value}, stepped by {step}. Set a peg "
        f"beyond every mark, its side on the line, each a finger beside the one before. {wound}"
    )
    return strip_pages(peg_marks(facts), paper, system=facts.system, title=how)


def loop_gauges(facts: CardFacts, paper: Paper) -> tuple[tuple[Placed, ...], ...]:
    """Return gauges for the loops of a string and for other limb tips.

    Parameters
    ----------
    facts : CardFacts
    paper : Paper
    """
    cord = units.show(facts.cord_m, "thickness", facts.system)
    title = f"Loops of cord {cord} thick, by limb tip{_for(facts)}"
    return gauge_pages(tuple(gauges_of(facts)), paper, system=facts.system, title=title)


def gauges_of(facts: CardFacts) -> Iterator[LoopGauge]:
    """Yield gauges for the loops of a string, then for usual tips and each way in which its loops sit.

    Parameters
    ----------
    facts : CardFacts

    Yields
    ------
    LoopGauge
    """
    own = [(tip, fit, "this bow: ") for tip, fit in dict.fromkeys(facts.tips) if any(map(str.isdigit, tip))]
    others = [(tip, fit, "") for fit in dict.fromkeys(fit for _, fit in facts.tips) for tip in _TIPS]
    loops = one("loops")
    field = next(each for each in loops.fields if isinstance(each, Tip))
    sits = {"sliding": "slides over the limb", "nocked": "sits in its nock"}
    for tip, fit, lead in (*own, *others):
        told = {
            "tip": tip,
            "loop_fit": fit,
            "bundles": str(facts.bundles),
            "cord_diameter": f"{facts.cord_m * 1e3!r} mm",
        }
        answer = ask(loops, usual(loops, told), facts.system)
        if not isinstance(answer, Answer):
            continue
        rows = by_key(answer.rows)
        plied, flat = rows["loop_length"], rows["loop_raw"]
        yield LoopGauge(
            words=f"{lead}{convert_tip(field, tip, facts.system)}, {sits[fit]}",
            plied_m=plied.spread.value,
            flat_m=flat.spread.value,
            plied_text=whole_measures(show_row(plied, facts.system)),
            flat_text=whole_measures(show_row(flat, facts.system)),
        )


def _for(facts: CardFacts) -> str:
    return f", {facts.name}" if facts.name else ""
