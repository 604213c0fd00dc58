"""Drawings of the tiller sheet: what the scale reads on each string, as a chart and as marks of a tillering tree."""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING

from calc import units
from calc.draw.charts import Axis, Limit, Series, line_chart
from calc.units import INCH
from calc.worksheets.core import Table

if TYPE_CHECKING:
    from calc.draw import Dash, Drawing
    from calc.making.tuning import Tillering
    from calc.units import System

_STEP_M = {"inch": 2.0 * INCH, "metric": 0.05}
_DASHES: tuple[Dash, ...] = ("dots", True, False)
_NAMES = ("long string", "first bracing", "last string")


def marks(asked: Tillering, system: System) -> tuple[float, ...]:
    """Return even marks of the reader's units above brace height, and full draw last [m].

    Parameters
    ----------
    asked : Tillering
        What is tillered.
    system : {"inch", "metric"}
        The reader's units.
    """
    step_m = _STEP_M[system]
    first = ceil((asked.brace_m + step_m / 2.0) / step_m)
    return (*(step_m * k for k in range(first, ceil(asked.full_m / step_m))), asked.full_m)


def table(asked: Tillering, system: System) -> Table:
    """Return the marks of a tillering tree with what the scale reads there.

    Parameters
    ----------
    asked : Tillering
        What is tillered.
    system : {"inch", "metric"}
        The reader's units.
    """
    at = marks(asked, system)
    return Table(
        key="tree",
        title="Marks of the tillering tree",
        heads=("Below the grip", "Long string", "First bracing", "Last string"),
        cells=tuple(
            (
                units.show(mark_m, "length", system),
                *(units.show(each_n, "force", system) if each_n > 0.0 else "slack" for each_n in reads),
            )
            for mark_m, reads in zip(at, asked.reads(at), strict=True)
        ),
        note="From the deepest point of the grip down to the string. The scale shows this for a bow of the weight "
        "wanted at full draw: more means that wood must come off.",
    )


def chart(asked: Tillering, change_m: float, system: System) -> Drawing:
    """Return what the scale reads on each string against draw.

    Parameters
    ----------
    asked : Tillering
        What is tillered.
    change_m : float
        How far the long string is drawn at the change to the first bracing. [m]
    system : {"inch", "metric"}
        The reader's units.
    """
    at = [asked.brace_m + (asked.full_m - asked.brace_m) * k / 12.0 for k in range(1, 13)]
    reads = asked.reads(at)
    x = [units.number_in(each, "length", system) for each in at]
    lines = [
        tuple(zip(x, (units.number_in(each[k], "force", system) for each in reads), strict=True)) for k in range(3)
    ]
    full, long = (units.show(reads[-1][k], "force", system) for k in (2, 0))
    change = units.show(change_m, "length", system)
    return line_chart(
        [Series(name, line, dash=dash) for name, line, dash in zip(_NAMES, lines, _DASHES, strict=True)],
        Axis(f"draw, {units.unit_label('length', system)}", x[0], x[-1]),
        Axis(f"on the scale, {units.unit_label('force', system)}", 0.0, lines[2][-1][1] * 1.02),
        key="scale",
        title="What the scale reads on each string",
        desc=f"At full draw {full} on the last string and {long} on the long one. Change from the long string to the "
        f"first bracing at {change}.",
        limits=[Limit("change", units.number_in(change_m, "length", system))],
    )
