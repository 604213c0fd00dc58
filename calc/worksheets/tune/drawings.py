"""Drawings of the tuning sheet: brace height against turns, and the same as a list to take to the range."""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING

from calc import units
from calc.draw.charts import Axis, Band, Limit, Marker, Series, line_chart
from calc.worksheets.core import Table

if TYPE_CHECKING:
    from calc.draw import Drawing
    from calc.making.tuning import Tuning
    from calc.units import System

_PLACES = 14
_LINES = 4
_LEAST = 1e-3
"""Least height of the chart, in the reader's units."""


def drawings(done: Tuning, system: System) -> tuple[Drawing, ...]:
    """Return the chart, labelled in the reader's units.

    Parameters
    ----------
    done : Tuning
        As worked out.
    system : {"inch", "metric"}
        The reader's units.
    """
    return (_chart(done, system),)


def _chart(done: Tuning, system: System) -> Drawing:
    figures = done.figures
    now, new = figures["turns_now"].value, figures["turns_new"].value
    loose, tight, jam = (figures[key].value for key in ("turns_loose", "turns_tight", "turns_jam"))
    low = max(0.0, min(loose, now, new) - 0.1 * (tight - loose))
    high = min(jam, max(tight, now, new) + 0.1 * (tight - loose))

    def at(turns: float, brace_m: float) -> tuple[float, float]:
        return turns, units.number_in(brace_m, "length", system)

    first, last = (done.body.at_turns(each).lay_rad for each in (low, high))
    places = [done.body.at_lay(first + (last - first) * k / _PLACES) for k in range(_PLACES + 1)]
    turned, heights_m = [each.turns for each in places], [done.brace_of(each) for each in places]
    points = tuple(at(*each) for each in zip(turned, heights_m, strict=True))
    earlier = [(now - each.since, each.brace_m) for each in done.asked.readings]
    heights = [each[1] for each in points] + [units.number_in(each[1], "length", system) for each in earlier]
    there = done.brace_at(new)
    lowest, highest = min(heights), max(heights)
    texts = tuple(
        (f"{units.show(each, 'turns', system)} turns", units.show(height_m, "length", system))
        for each, height_m in zip(turned, heights_m, strict=True)
    )
    return line_chart(
        [Series("", points, texts=texts)],
        Axis("turns in the body", low, high),
        Axis(f"brace height, {units.unit_label('length', system)}", lowest, max(highest, lowest + _LEAST)),
        key="chart",
        title="Brace height against turns",
        desc=f"Brace height rises with turns. {_said(done, system)}",
        bands=[Band("a lay that holds and does not kink", loose, tight)],
        limits=[Limit("jams", jam)],
        markers=[
            *(Marker("read", at(*each)) for each in earlier),
            Marker("now", at(now, done.asked.brace_m)),
            *([] if abs(new - now) < 1.0 else [Marker("then", at(new, there))]),
        ],
    )


def _said(done: Tuning, system: System) -> str:
    now, loose, tight, jam = (
        units.show(done.figures[f"turns_{key}"].value, "turns", system) for key in ("now", "loose", "tight", "jam")
    )
    is_m, wanted_m = (units.show(each, "length", system) for each in (done.asked.brace_m, done.asked.wanted_m))
    return (
        f"Now {now} turns and {is_m}; wanted {wanted_m}. The lay holds from {loose} turns, is of use up to {tight} "
        f"and jams at {jam}."
    )


def ladder(done: Tuning, system: System) -> Table:
    """Return brace heights for turns put in and taken out, in steps that a range card has room for.

    Parameters
    ----------
    done : Tuning
        As worked out.
    system : {"inch", "metric"}
        The reader's units.
    """
    change = abs(done.figures["turns_change"].value)
    step = max(1, ceil(change / (_LINES - 1))) if change > 0.0 else 1
    now, jam = done.figures["turns_now"].value, done.figures["turns_jam"].value
    cells = []
    for k in range(-_LINES, _LINES + 1):
        turns = now + k * step
        if 0.0 <= turns <= jam:
            height = done.brace_at(turns)
            cells.append((_put(k * step), units.show(height, "length", system) if height > 0.0 else "too long"))
    return Table(
        key="ladder",
        title="For the range: turns and brace height",
        heads=("Turns from now", "Brace height"),
        cells=tuple(cells),
        note="A turn may do between {brace_per_turn.low} and {brace_per_turn.high}: read again after half of them.",
    )


def _put(turns: int) -> str:
    if turns == 0:
        return "as it is"
    return f"put in {turns}" if turns > 0 else f"take out {-turns}"
