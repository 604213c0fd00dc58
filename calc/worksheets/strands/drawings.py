"""The strand sheet's drawings: the string cut across, and strand count against what it holds."""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING, TypeAlias

from calc import units
from calc.data import practice
from calc.draw.charts import Axis, Band, Marker, Ribbon, Series, line_chart
from calc.draw.string import bundle_section
from calc.geometry.lay import lay

if TYPE_CHECKING:
    from calc.draw import Drawing
    from calc.geometry.lay import Hand
    from calc.making.strands import Chosen
    from calc.numerics import Spread
    from calc.units import System

_MOST_DRAWN = 60
"""Strands in one bundle that can still be told apart on a phone."""
_STEPS = (1, 2, 4, 5, 10, 20, 25, 50)
_TICKS = 6
_POINTS = 12
_Line: TypeAlias = "tuple[tuple[float, float], ...]"


def drawings(chosen: Chosen, string_m: float, hand: Hand, system: System) -> tuple[Drawing, ...]:
    """Return the section, where its strands can be told apart, and both charts.

    Parameters
    ----------
    chosen : Chosen
        The string's strands.
    string_m : float
        How long the string is. [m]
    hand : Hand
        Direction of the lay.
    system : {"inch", "metric"}
        The reader's units.
    """
    return (*section(chosen, hand, system), _strength(chosen, system), _speed(chosen, string_m, system))


def section(chosen: Chosen, hand: Hand, system: System) -> tuple[Drawing, ...]:
    """Return the string cut across, nothing where its strands cannot be told apart.

    Parameters
    ----------
    chosen : Chosen
        The string's strands.
    hand : Hand
        Direction of the lay.
    system : {"inch", "metric"}
        The reader's units.
    """
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


def _strength(chosen: Chosen, system: System) -> Drawing:
    """Draw what each count holds against the hardest pull of a shot."""
    margin = practice("working_margin").spread
    most = _most(chosen)
    counts = _counts(chosen, most)
    held = [chosen.at_count(count).safety for count in counts]
    typical, low, high = _lines(counts, held, 1.0)
    top = max(held[-1].high, 1.2 * margin.high)
    safety = units.show(chosen.strength.safety.value, "ratio", system)
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
        markers=(Marker(f"{chosen.strands}: {safety} times", (chosen.strands, chosen.strength.safety.value)),),
    )


def _speed(chosen: Chosen, string_m: float, system: System) -> Drawing:
    """Draw what the weight of each count costs of the arrow's speed."""
    most = _most(chosen)
    counts = _counts(chosen, most)
    typical, low, high = _lines(counts, [chosen.speed_at(string_m, count) for count in counts], 100.0)
    ends = [value for _, value in (*low, *high)]
    mass = units.show(chosen.mass_kg(string_m, chosen.strands), "mass", system)
    return line_chart(
        (Series("typical", typical),),
        Axis("strands in the whole string", 0.0, float(most), _whole(most)),
        Axis("% of the speed with this string", min(*ends, 99.0), max(*ends, 101.0)),
        key="speed",
        title="Strands against arrow speed",
        desc=f"{chosen.strands} strands weigh {mass}. Twice as many leave {typical[-1][1]:.1f} % of the arrow's speed, "
        "by weight alone.",
        ribbons=(Ribbon("low to high", low, high),),
        markers=(Marker(f"{chosen.strands} strands", (chosen.strands, 100.0)),),
    )


def _most(chosen: Chosen) -> int:
    return 2 * max(chosen.strands, chosen.advice.for_strength)


def _counts(chosen: Chosen, most: int) -> tuple[int, ...]:
    return tuple(range(chosen.bundles, most + 1, chosen.bundles * ceil(most / (chosen.bundles * _POINTS))))


def _lines(counts: tuple[int, ...], spreads: list[Spread], times: float) -> tuple[_Line, _Line, _Line]:
    """Return the typical line, the low and the high."""
    typical, low, high = (
        tuple((float(count), times * value) for count, value in zip(counts, values, strict=True))
        for values in zip(*((each.value, each.low, each.high) for each in spreads), strict=True)
    )
    return typical, low, high


def _whole(most: int) -> tuple[tuple[float, str], ...]:
    """Return ticks at whole strands."""
    step = next((each for each in _STEPS if most / each <= _TICKS), 50 * ceil(most / (50 * _TICKS)))
    return tuple((float(count), str(count)) for count in range(0, most + 1, step))
