"""Drawings of the limb test: a clamped limb with its weight, and draw weight against draw."""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING

from calc import units
from calc.draw import FIRM, HAIR, LINE, PHONE, Dim, Drawing, Label, Line, Pen, Polyline
from calc.draw.charts import Axis, Marker, Ribbon, Series, line_chart
from calc.mechanics.bow import hung_outline
from calc.units import INCH
from calc.worksheets.core import Table, shown

if TYPE_CHECKING:
    from calc.draw import Point, Shape
    from calc.mechanics.estimate import LimbTest
    from calc.numerics import Spread
    from calc.units import System

_STEP_M = {"inch": 2.0 * INCH, "metric": 0.05}
_GRIP, _LEFT, _RIGHT, _TOP = 46.0, 8.0, 62.0, 40.0


def drawings(tried: LimbTest, weights: tuple[tuple[float, Spread], ...], system: System) -> tuple[Drawing, ...]:
    """Return the limb that dropped further, and the chart, labelled in the reader's units.

    Parameters
    ----------
    tried : LimbTest
        The bow and its weights.
    weights : tuple of (float, Spread)
        Draws [m], each with the draw weight there [N].
    system : {"inch", "metric"}
        The reader's units.
    """
    return _clamped(tried, system), _chart(tried.brace_m, weights, system)


def draws(tried: LimbTest, system: System) -> list[float]:
    """Return the draws at which the weight is told: even ones of the reader's, then full draw [m].

    Parameters
    ----------
    tried : LimbTest
        The bow and its weights.
    system : {"inch", "metric"}
        The reader's units.
    """
    assert tried.bow.draw_m is not None
    step_m, full_m = _STEP_M[system], tried.bow.draw_m
    first = ceil((tried.brace_m + step_m / 2.0) / step_m)
    even = [step_m * k for k in range(first, ceil(full_m / step_m))]
    return [*even, full_m]


def table(weights: tuple[tuple[float, Spread], ...], system: System) -> Table:
    """Return draw weight by draw.

    Parameters
    ----------
    weights : tuple of (float, Spread)
        Draws [m], each with the draw weight there [N].
    system : {"inch", "metric"}
        The reader's units.
    """
    return Table(
        key="draws",
        title="Draw weight for each draw",
        heads=("Draw", "Draw weight", "Between"),
        cells=tuple(
            (
                units.show(draw_m, "length", system),
                shown(each, "force", system),
                f"{shown(each, 'force', system, 'low')} to {shown(each, 'force', system, 'high')}",
            )
            for draw_m, each in weights
        ),
        note="Draw is measured from the string to where brace height is measured.",
    )


def _clamped(tried: LimbTest, system: System) -> Drawing:
    """Draw the limb to scale, level and with the weight on its nock, the grip clamped at the left."""
    bow, drop_m = tried.bow.bow, max(tried.drops_m)
    level, bent = hung_outline(bow, 0.0), hung_outline(bow, drop_m)
    left = _LEFT + _GRIP
    scale = (PHONE - left - _RIGHT) / max(x for x, _ in level)

    def placed(curve: tuple[Point, ...]) -> tuple[Point, ...]:
        return tuple((left + x * scale, _TOP + y * scale) for x, y in curve)

    free, held = placed(level), placed(bent)
    (x0, y0), (x1, y1) = free[-1], held[-1]
    at = max(x0, x1) + 10.0
    hangs, foot = y1 + 22.0, y1 + 50.0
    drop, weight = units.show(drop_m, "length", system), units.show(tried.hung_n, "force", system)
    grip = ((_LEFT, _TOP - 6.0), (left, _TOP - 6.0), (left, _TOP + 6.0), (_LEFT, _TOP + 6.0))
    box = ((x1 - 17.0, hangs), (x1 + 17.0, hangs), (x1 + 17.0, foot), (x1 - 17.0, foot))
    bench = ((_LEFT, _TOP + 6.0), (left - 6.0, _TOP + 6.0), (left - 6.0, foot), (_LEFT, foot))
    shapes: tuple[Shape, ...] = (
        Polyline(bench, LINE, "tint", closed=True),
        Polyline(grip, FIRM, "tint", closed=True),
        Polyline(free, Pen("quiet", 1.5, dash=True)),
        Polyline(held, Pen("ink", 4.0)),
        Line((x1, y1), (x1, hangs), LINE),
        Polyline(box, LINE, "tint", closed=True),
        Line((x0, y0), (at + 4.0, y0), HAIR),
        Line((x1, y1), (at + 4.0, y1), HAIR),
        Dim((at, y0), (at, y1), offset=0.0),
        Label((at + 7.0, (y0 + y1) / 2.0 + 4.5), drop, 13.0, bold=True),
        Label((x1 - 24.0, hangs + 18.0), weight, 13.0, "end", bold=True),
        Label((_LEFT, _TOP - 14.0), "grip, clamped level, belly down", 12.6),
    )
    return Drawing(
        key="limb",
        title="The limb with its weight",
        desc=f"The grip is clamped level, belly down. {weight} on the nock pulls it down by {drop}. To scale.",
        shapes=shapes,
    )


def _chart(brace_m: float, weights: tuple[tuple[float, Spread], ...], system: System) -> Drawing:
    def at(draw_m: float, force_n: float) -> tuple[float, float]:
        return units.number_in(draw_m, "length", system), units.number_in(force_n, "force", system)

    ends = [(brace_m, 0.0, 0.0, 0.0), *((draw_m, each.low, each.value, each.high) for draw_m, each in weights)]
    full_m, full = weights[-1]
    told = f"{shown(full, 'force', system)} at {units.show(full_m, 'length', system)}"
    x_unit, y_unit = units.unit_label("length", system), units.unit_label("force", system)
    return line_chart(
        [Series("", tuple(at(each[0], each[2]) for each in ends))],
        Axis(f"draw, {x_unit}", at(brace_m, 0.0)[0], at(full_m, 0.0)[0]),
        Axis(f"draw weight, {y_unit}", 0.0, at(0.0, full.high)[1]),
        key="weight",
        title="Draw weight against draw",
        desc=f"From nothing at brace height to {told}.",
        ribbons=[Ribbon("", *(tuple(at(each[0], each[k]) for each in ends) for k in (1, 3)))],
        markers=[Marker(told, at(full_m, full.value))],
    )
