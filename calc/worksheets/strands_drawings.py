"""The strand sheet's drawings: the string cut across, and strand count against what it holds."""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING

from calc import units
from calc.data import practice
from calc.draw import Axis, Band, Drawing, Marker, Ribbon, Series, bundle_section, line_chart
from calc.geometry import lay

if TYPE_CHECKING:
    from calc.geometry import Hand
    from calc.making import Chosen
    from calc.units import System

_MOST_DRAWN = 60
"""Strands in one bundle that can still be told apart on a phone."""
_STEPS = (1, 2, 4, 5, 10, 20, 25, 50)
_TICKS = 6
_POINTS = 24


def drawings(chosen: Chosen, hand: Hand, system: System) -> tuple[Drawing, ...]:
    """Return the section, where its strands can be told apart, and the chart."""
    return (*section(chosen, hand, system), _chart(chosen, system))


def section(chosen: Chosen, hand: Hand, system: System) -> tuple[Drawing, ...]:
    """Return the string cut across, nothing where its strands cannot be told apart."""
    each = chosen.strands // chosen.bundles
    if each > _MOST_DRAWN:
        return ()
    bundle_m, cord_m = chosen.thick.bundle_m.value, chosen.thick.cord_m.value
    drawn = bundle_section(
        chosen.bundles,
        each,
        bundle_m=bundle_m,
        cord_m=cord_m,
        radius_m=lay(bundle_m, chosen.bundles, chosen.lay_rad).radius_m,
        bundle_text=f"bundle {units.show(bundle_m, 'thickness', system)}",
        cord_text=f"plied {units.show(cord_m, 'thickness', system)}",
        hand=hand,
    )
    return (drawn,)


def _chart(chosen: Chosen, system: System) -> Drawing:
    """Draw what each count holds against the hardest pull of a shot."""
    margin = practice("working_margin").spread
    most = 2 * max(chosen.strands, chosen.advice.for_strength)
    counts = tuple(range(chosen.bundles, most + 1, chosen.bundles * ceil(most / (chosen.bundles * _POINTS))))
    held = [chosen.at_count(count).safety for count in counts]
    typical, low, high = (
        tuple((float(count), value) for count, value in zip(counts, values, strict=True))
        for values in zip(*((each.value, each.low, each.high) for each in held), strict=True)
    )
    top = max(held[-1].high, 1.2 * margin.high)
    safety = units.show(chosen.held.safety.value, "ratio", system)
    return line_chart(
        (Series("typical", typical),),
        Axis("strands in the whole string", 0.0, float(most), _whole(most)),
        Axis("times the hardest pull of a shot", 0.0, top),
        key="safety",
        title="Strands against what they hold",
        desc=f"{chosen.strands} strands hold {safety} times the hardest pull of a shot; a new string should hold "
        f"{margin.low:g} to {margin.high:g} times. Twice the strands hold twice as much.",
        ribbons=(Ribbon("low to high", low, high),),
        bands=(Band("a new string", margin.low, margin.high, "y"),),
        markers=(Marker(f"{chosen.strands}: {safety} times", (chosen.strands, chosen.held.safety.value)),),
    )


def _whole(most: int) -> tuple[tuple[float, str], ...]:
    """Return ticks at whole strands."""
    step = next((each for each in _STEPS if most / each <= _TICKS), 50 * ceil(most / (50 * _TICKS)))
    return tuple((float(count), str(count)) for count in range(0, most + 1, step))
