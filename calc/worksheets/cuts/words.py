"""The words of the cuts worksheet: what is wrong, the headlines, the cautions, the lists."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc import units
from calc.worksheets.core import Sentence, SheetText, Table, cautions

if TYPE_CHECKING:
    from calc.making.string import CutOrder, CutPlan
    from calc.units import System

TEXT = SheetText(__spec__)
_MOST_LINES = 24


def headlines(order: CutOrder) -> tuple[Sentence, ...]:
    """Return the answer in large figures.

    Parameters
    ----------
    order : CutOrder
        What is to be cut.
    """
    between = "between {cut_length.low} and {cut_length.high}"
    have = Sentence(
        level="answer", lead="Have at hand", text="{cord_to_buy} of cord", span="{cord_total} of it in the string"
    )
    if order.method == "endless":
        cut = Sentence(
            level="answer", lead="Cut", text="one piece of {cut_length}, to go round {wraps} times", span=between
        )
        once = Sentence(
            level="answer", lead="Once round", text="{once_round}", span="{once_round.low} to {once_round.high}"
        )
        return (cut, once, have)
    shared = f"{order.bundles} bundles of {order.each}"
    cut = Sentence(level="answer", lead="Cut", text=f"{{cut_length}} × {order.strands} strands, {shared}", span=between)
    keys = ["mark_tail", "mark_loop", "mark_end_body", *(["mark_lower"] if order.method == "loops" else [])]
    marks = Sentence(
        level="answer",
        lead="Mark at",
        text=" · ".join(f"{{{key}}}" for key in keys),
        span="from the first strand end of the stepped bundle, {laid_out} in all",
    )
    return (cut, marks, have)


def said_with(order: CutOrder, made: CutPlan) -> tuple[Sentence, ...]:
    """Return what is to be minded.

    Parameters
    ----------
    order : CutOrder
        What is to be cut.
    made : CutPlan
        As worked out.
    """
    said = [TEXT.caution("wound") if order.method == "endless" else TEXT.caution("even")]
    if order.method == "hitch":
        said += [TEXT.caution("hitch_takes_up"), TEXT.caution("hitch_holds")]
    if order.method != "endless" and made.step_m < order.step_m and order.each > 1:
        said.append(
            Sentence(
                text="The tails are too short for such steps: strand ends lie {step} apart, and the shortest is "
                "{tail_shortest}. Longer tails thin out more gently."
            )
        )
    if order.method != "endless" and made.step_m == 0.0 and order.each > 1:
        said.append(
            Sentence(
                level="caution",
                text="With no steps the splice ends all at once: the string bends and wears there. Comb the ends thin, "
                "or give the strands a step.",
            )
        )
    if order.method == "endless":
        said.append(
            Sentence(
                text="Here one bundle is one side of the string, half of its strands. The worksheet for an endless "
                "string tells the posts and the serving."
            )
        )
    return (*said, cautions.DOUBT)


def tables(order: CutOrder, made: CutPlan, system: System) -> tuple[Table, ...]:
    """Return the marks, and where every strand of a bundle lies.

    Parameters
    ----------
    order : CutOrder
        What is to be cut.
    made : CutPlan
        As worked out.
    system : {"inch", "metric"}
        The reader's units.
    """

    def show(length_m: float) -> str:
        return units.show(length_m, "length", system)

    if order.method == "endless":
        return ()
    ends = {"tail": "tail ends", "loop": "loop ends", "body": "body ends", "hitch": "last strand ends, after the hitch"}
    names = [ends[zone.name] for zone in made.zones]
    if order.method == "loops":
        names[-1] = "last strand ends"
    marks = Table(
        key="marks",
        title="Marks along the stepped bundle",
        heads=("From the first strand end", "here"),
        cells=tuple((show(mark_m), name) for mark_m, name in zip(made.marks_m, names, strict=True)),
        note="Mark all bundles alike, side by side, before any wax.",
    )
    lines = [
        (f"{number + 1}", show(made.cut_m), show(number * made.step_m), show(number * made.step_m + made.cut_m))
        for number in range(order.each)
    ]
    if len(lines) > _MOST_LINES:
        lines = [*lines[: _MOST_LINES - 2], ("…", "…", "…", "…"), lines[-1]]
    strands = Table(
        key="strands",
        title=f"Every strand of a bundle: {order.bundles} bundles alike",
        heads=("Strand", "cut to", "lies from", "to"),
        cells=tuple(lines),
        note="All strands are cut alike; each lies one step behind the one before.",
    )
    return marks, strands
