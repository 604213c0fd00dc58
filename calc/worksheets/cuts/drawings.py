"""The layout of the cuts worksheet: the flat bundle with its marks, or an endless string once round."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc import units
from calc.draw.string import FlatZone, string_layout

if TYPE_CHECKING:
    from calc.draw import Drawing
    from calc.making.string import CutOrder, CutPlan
    from calc.units import System

_KINDS = {"tail": "tail", "loop": "loop", "body": "body", "hitch": "tail"}


def layout(order: CutOrder, made: CutPlan, system: System) -> Drawing:
    """Return one bundle laid flat, labelled in the reader's units; of an endless string, one time round.

    Parameters
    ----------
    order : CutOrder
        What is to be cut.
    made : CutPlan
        As worked out.
    system : {"inch", "metric"}
        The reader's units.
    """
    zones = tuple(
        FlatZone(
            _KINDS[zone.name],
            zone.length_m,
            units.show(zone.length_m, "length", system),
            units.show(mark_m, "length", system),
            "Hitch" if zone.name == "hitch" else "",
        )
        for zone, mark_m in zip(made.zones, made.marks_m, strict=True)
    )
    if order.method == "endless":
        return string_layout(
            zones, 0.0, order.each, 0.0, system=system, note="One time round, laid out from the upper loop."
        )
    step = units.show(made.step_m, "length", system) if made.step_m else ""
    return string_layout(zones, made.step_m, order.each, order.tail_m, system=system, step_text=step)
