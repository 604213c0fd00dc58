"""The bench sheet's drawings, made from its own plan."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc import units
from calc.draw.string import FlatZone, braced_bow, string_layout
from calc.mechanics.bow import limb_outline

if TYPE_CHECKING:
    from calc.draw import Drawing
    from calc.making.string import Plan
    from calc.units import System


def drawings(plan: Plan, system: System) -> tuple[Drawing, ...]:
    """Return the braced bow and the bundle laid flat, labelled in the reader's units.

    Parameters
    ----------
    plan : Plan
        As planned.
    system : {"inch", "metric"}
        The reader's units.
    """
    return _bow(plan, system), _layout(plan, system)


def _layout(plan: Plan, system: System) -> Drawing:
    order, made, cut = plan.order, plan.lengths, plan.cuts
    lengths = (order.tail_m, made.upper.raw.raw_m, made.body_raw_m, made.lower.raw.raw_m, order.tail_m)
    zones = tuple(
        FlatZone(name, length, units.show(length, "length", system), units.show(mark, "length", system))
        for name, length, mark in zip(("tail", "loop", "body", "loop", "tail"), lengths, cut.marks_m, strict=True)
    )
    return string_layout(zones, cut.step_m, plan.strands // order.bundles, order.tail_m, system=system)


def _bow(plan: Plan, system: System) -> Drawing:
    order = plan.order
    bow = order.bow.middle.bow()
    return braced_bow(
        limb_outline(bow, order.brace_m),
        f"brace {units.show(order.brace_m, 'length', system)}",
        f"string {units.show(plan.lengths.string_m, 'length', system)}",
        f"nock to nock {units.show(order.bow.nock_to_nock_m, 'length', system)}",
    )
