"""What the bench sheet says of readings: what they taught, and what to measure next."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc import units
from calc.worksheets.core import Sentence, Table

if TYPE_CHECKING:
    from calc.making.string import NextReading, Plan
    from calc.numerics import Spread
    from calc.units import Quantity, System

APART = 2.0
"""Readings further off from what fits best, in units of how unsure they are, do not go together. [-]"""
_MANY = 2
_LEAST = 0.05
_WORDS = {
    "limb": "look how the limbs bend, drawn, from the side",
    "handle": "measure the stiff handle",
    "tips": "measure the limb tips",
    "thread": "stretch a thread over the unbraced bow, and measure from it to the limbs and to the handle",
    "lays": "measure a turn of the loops and of the splices you laid before",
    "trial": "settle a trial piece of this cord under a weight",
    "string": "measure any string on this bow, and the brace height it gives",
    "nail": "hang the finished string on the nail before it is braced, and measure throats and nocks",
    "earlier": "make this one as a trial, and type what it braced at",
}
_SHORT = {
    "limb": "look how the limbs bend",
    "handle": "measure the stiff handle",
    "tips": "measure the tips",
    "thread": "stretch a thread over the bow",
    "lays": "measure turns of earlier loops",
    "trial": "settle a trial piece",
    "string": "measure a string on this bow",
    "nail": "hang it on the nail first",
    "earlier": "make it as a trial",
}
_CAUSES: tuple[tuple[str, str, Quantity], ...] = (
    ("limb", "Limb bend (−1 towards the tips, +1 near the handle)", "ratio"),
    ("handle", "Stiff handle", "length"),
    ("proud", "Handle proud of the limbs", "length"),
    ("follow", "String follow", "length"),
    ("strain", "Stretch on the braced bow", "fraction"),
    ("bedding", "Bedding-in", "fraction"),
    ("loop_lay", "Lay of the loops", "angle"),
    ("splice_lay", "Lay of the splices", "angle"),
    ("twist_held", "Twist held in loops and splices, against a cord at rest", "ratio"),
)


def headline(plan: Plan) -> tuple[Sentence, ...]:
    """Return what would narrow the range of the brace height most; nothing where nothing would.

    Parameters
    ----------
    plan : Plan
        As planned.
    """
    best = sorted(plan.next_readings, key=lambda each: -each.narrower)[:_MANY]
    told = [each for each in plan.next_readings if each in best]
    if not told:
        return ()
    words = " or ".join(_SHORT[each.key] for each in told)
    shares = " or ".join(_percent(each.narrower) for each in told)
    span = f"before tuning, it then braces within a range {shares} narrower"
    return (Sentence(level="answer", lead="To be surer", text=words, span=span, table="next-readings"),)


def cautions(plan: Plan, at_fault: str = "") -> tuple[Sentence, ...]:
    """Return what readings taught, and where they contradict each other, in words.

    Parameters
    ----------
    plan : Plan
        As planned.
    at_fault : str
        Whose readings do not go together, as sentences.
    """
    if plan.unread is None:
        return ()
    text = (
        "What was measured brings the untuned brace height from {brace_unread.low} to {brace_unread.high} down to "
        "{brace_height.low} to {brace_height.high}."
    )
    if plan.moves.misfit <= APART:
        return (Sentence(text=text),)
    wrong = (
        "These readings do not go together on a bow, cord and hand like these: the sums had to stray further than they "
        "trust. Check them, or leave one out, before you cut."
    )
    return (Sentence(level="caution", text=f"{wrong} {at_fault}".strip()), Sentence(text=text))


def tables(plan: Plan, system: System) -> tuple[Table, ...]:
    """Return what to measure next, and what was learnt.

    Parameters
    ----------
    plan : Plan
        As planned.
    system : {"inch", "metric"}
        The reader's units.
    """
    found = []
    if plan.next_readings:
        found.append(
            Table(
                key="next-readings",
                title="What to measure next",
                heads=("Measure", "It then braces, untuned", "Range narrower by"),
                cells=tuple(_line(each, system) for each in plan.next_readings),
                note="Least effort first; each told alone. The range holds the truth nine times in ten.",
            )
        )
    if plan.unread is not None:
        lines = tuple(_learnt(plan, plan.unread, system))
        if lines:
            found.append(
                Table(
                    key="learnt",
                    title="What the readings told",
                    heads=("What", "Before", "With the readings"),
                    cells=lines,
                    note="Bow, cord and hand are worked out together. What the readings cannot tell apart stays wide.",
                )
            )
    return tuple(found)


def _line(each: NextReading, system: System) -> tuple[str, str, str]:
    words = _WORDS[each.key]
    low, high = (units.show(end, "length", system) for end in (each.low_m, each.high_m))
    return words[0].upper() + words[1:], f"{low} to {high}", _percent(each.narrower)


def _percent(share: float) -> str:
    return f"{100.0 * share:.0f} %"


def _learnt(plan: Plan, unread: Plan, system: System) -> list[tuple[str, str, str]]:
    lines = []
    for name, words, quantity in _CAUSES:
        before, after = (each.moves.spread(lambda at, name=name: at[name]) for each in (unread, plan))  # type: ignore[misc]
        wide = before.high - before.low
        moved = abs(after.value - before.value) > _LEAST * wide
        if wide > 0.0 and (moved or after.high - after.low < (1.0 - _LEAST) * wide):
            lines.append((words, _span(before, quantity, system), _span(after, quantity, system)))
    return lines


def _span(spread: Spread, quantity: Quantity, system: System) -> str:
    low, high = (units.show(end, quantity, system) for end in (spread.low, spread.high))
    return f"{units.show(spread.value, quantity, system)} ({low} to {high})"
