"""Drawings of the note sheet: the note of a string against the draw weight of its bow."""

from __future__ import annotations

from math import sqrt
from typing import TYPE_CHECKING, Literal

from calc import units
from calc.draw.charts import Axis, Limit, Marker, Ribbon, Series, line_chart
from calc.making.tuning import note_name
from calc.numerics import Spread
from calc.worksheets.core import Table, shown

if TYPE_CHECKING:
    from calc.draw import Drawing
    from calc.units import System

_ENDS: tuple[Literal["low", "value", "high"], ...] = ("low", "value", "high")
_SHARES = (0.6, 0.7, 0.8, 0.9, 1.0, 1.1, 1.2, 1.3, 1.4)


def _note(note_hz: float, heard_n: float, weight_n: float) -> float:
    """Return the note that goes with a draw weight: the pull goes with it, the note with the root of the pull [Hz]."""
    return note_hz * sqrt(weight_n / heard_n)


def _weights(weight: Spread, told_n: float) -> list[float]:
    shares = {each * told_n for each in _SHARES}
    return sorted({*shares, weight.value})


def table(note_hz: float, weight: Spread, told_n: float, system: System) -> Table:
    """Return the note by draw weight.

    Parameters
    ----------
    note_hz : float
        As heard. [Hz]
    weight : Spread
        The draw weight that goes with it. [N]
    told_n : float
        The draw weight told. [N]
    system : {"inch", "metric"}
        The reader's units.
    """
    cells = []
    for share in _SHARES:
        each = Spread(*(_note(note_hz, heard_n, share * told_n) for heard_n in (weight.high, weight.value, weight.low)))
        low, value, high = (shown(each, "frequency", system, end) for end in _ENDS)
        cells.append((units.show(share * told_n, "force", system), value, note_name(each.value), f"{low} to {high}"))
    return Table(
        key="notes",
        title="The note by draw weight",
        heads=("Draw weight", "Note", "Near", "Between"),
        cells=tuple(cells),
        note="Of this string at this brace height. A higher note has stronger limbs behind it.",
    )


def chart(sounding_hz: float, weight: Spread, told_n: float, system: System) -> Drawing:
    """Return the note against draw weight, with what was heard.

    Parameters
    ----------
    sounding_hz : float
        As heard. [Hz]
    weight, told_n, system
        As for `table`.
    """

    def at(weight_n: float, heard_n: float) -> tuple[float, float]:
        return units.number_in(weight_n, "force", system), _note(sounding_hz, heard_n, weight_n)

    weights = _weights(weight, told_n)
    lines = [tuple(at(each, heard_n) for each in weights) for heard_n in (weight.value, weight.high, weight.low)]
    found = units.show(weight.value, "force", system, off=weight.high - weight.value)
    heard = units.show(sounding_hz, "frequency", system)
    return line_chart(
        [Series("", lines[0])],
        Axis(f"draw weight, {units.unit_label('force', system)}", lines[0][0][0], lines[0][-1][0]),
        Axis("note, Hz", lines[1][0][1], lines[2][-1][1]),
        key="note",
        title="The note of this string against draw weight",
        desc=f"{heard} goes with {found} of draw weight.",
        ribbons=[Ribbon("", lines[1], lines[2])],
        limits=[Limit("told", units.number_in(told_n, "force", system))],
        markers=[Marker("heard", at(weight.value, weight.value))],
    )
