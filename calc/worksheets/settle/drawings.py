"""Settling against time: the chart and the list."""

from __future__ import annotations

from math import log10
from typing import TYPE_CHECKING

from calc import units
from calc.draw.charts import Axis, Marker, Ribbon, Series, line_chart
from calc.making.tuning import SETTLING_TIMES_S
from calc.worksheets.core import Table

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.draw import Drawing
    from calc.making.tuning import Settled
    from calc.mechanics.fibre import Settling
    from calc.units import System

_WORDS = ("1 min", "10 min", "1 h", "4 h", "8 h", "1 day", "3 days", "1 week")
_MARKED = {"1 min", "10 min", "1 h", "1 day", "1 week"}
_LISTED = ("1 h", "8 h", "1 day", "1 week")
_AT = tuple(log10(each) for each in SETTLING_TIMES_S)


def chart(made: Settled, system: System) -> Drawing:
    """Return growth against time, hung and braced.

    Parameters
    ----------
    made : Settled
        As worked out.
    system : {"inch", "metric"}
        The reader's units.
    """
    unit = 0.0254 if system == "inch" else 1e-3
    string = made.figures["make_length"].value

    def line(words: str, settlings: Sequence[Settling], *, dash: bool) -> Series:
        grown = [each.taken.value * string for each in settlings]
        texts = tuple(
            (time, units.show(each, "length", system)) for time, each in zip(_WORDS, grown, strict=True)
        )  # fmt: skip
        return Series(
            words, tuple((at, each / unit) for at, each in zip(_AT, grown, strict=True)), dash=dash, texts=texts
        )

    hung = line("hung", made.hung, dash=False)
    lines = (hung,) if made.hung is made.braced else (hung, line("on the bow", made.braced, dash=True))
    low = tuple((at, max(0.0, each.taken.low) * string / unit) for at, each in zip(_AT, made.hung, strict=True))
    high = tuple((at, each.taken.high * string / unit) for at, each in zip(_AT, made.hung, strict=True))
    taken = made.figures["taken"].value * string
    time = units.show(made.hang_s, "duration", system)
    weight = units.show(made.hang_n, "force", system)
    grown, left = (units.show(each, "length", system) for each in (taken, made.figures["left_length"].value))
    return line_chart(
        lines,
        Axis("time under the pull", _AT[0], _AT[-1], tuple((at, word) for at, word in zip(_AT, _WORDS, strict=True)
                                                           if word in _MARKED)),
        Axis(f"string grows, {units.unit_label('length', system)}", 0.0, 1.05 * max(each for _, each in high)),
        key="settling",
        title="Settling against time",
        desc=f"Under {weight} the string grows by {grown} in {time}; {left} come after. Each "
        "tenfold of time takes out less of the bedding, and about as much creep.",
        ribbons=(Ribbon("low to high", low, high),),
        markers=(Marker(f"{time}: {grown}", (log10(made.hang_s), taken / unit)),),
    )  # fmt: skip


def times(made: Settled, system: System) -> Table:
    """Return what some usual times take out and leave, hung and braced.

    Parameters
    ----------
    made : Settled
        As worked out.
    system : {"inch", "metric"}
        The reader's units.
    """

    def shown(each: Settling) -> tuple[str, str]:
        taken = each.taken.value * made.figures["make_length"].value
        left = each.left.value * made.fresh.string_m
        return units.show(taken, "length", system), units.show(left, "length", system)

    lines = [
        (time, *shown(hung), *shown(braced))
        for time, hung, braced in zip(_WORDS, made.hung, made.braced, strict=True)
        if time in _LISTED
    ]
    return Table(
        key="times",
        title="Other times",
        heads=("Time", "Hung, it grows by", "and has left", "Braced, it grows by", "and has left"),
        cells=tuple(lines),
        note="Left is what comes in {work_time} on the braced bow after that, typically.",
    )
