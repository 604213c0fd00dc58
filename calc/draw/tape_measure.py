"""A tape measure along an edge, in the reader's units."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor
from typing import TYPE_CHECKING

from calc.draw.shapes import HAIR, Comb, Label, Polyline
from calc.units import read, unit_label

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.draw.boxes import Point
    from calc.draw.shapes import Shape
    from calc.units import System

HEIGHT = 23.0
_SIZE = 13.0
_FOOT = 3.5
_CLOSE = 1e-9
_TICKS = (4.0, 6.0, 9.0)
_LEAST_TICK = 2.6
_LEAST_FIGURE: dict[System, float] = {"inch": 34.0, "metric": 44.0}
_STEPS: dict[System, tuple[tuple[float, float, float], ...]] = {
    "inch": ((0.25, 0.5, 1), (0.5, 1, 2), (0.5, 1, 4), (1, 2, 4), (1, 6, 6), (2, 6, 12), (6, 12, 24), (12, 24, 48)),
    "metric": ((5, 10, 50), (10, 50, 100), (10, 50, 200), (50, 100, 200), (100, 500, 500), (100, 500, 1000)),
}
"""Small ticks, longer ticks, figures, in the unit printed."""


@dataclass(frozen=True, slots=True)
class Scale:
    """A stretch of length laid on the page.

    Parameters
    ----------
    start_m, end_m : float
        Running lengths at which it begins and ends. [m]
    left : float
        The x of its start, in drawing units.
    per_m : float
        Drawing units for each metre. [1/m]
    """

    start_m: float
    end_m: float
    left: float
    per_m: float

    def x(self, at_m: float) -> float:
        """Return where a running measure stands on the page."""
        return self.left + (at_m - self.start_m) * self.per_m

    @property
    def right(self) -> float:
        """Where it ends on the page."""
        return self.x(self.end_m)


def tape(scale: Scale, top: float, system: System, clear_of: Sequence[float] = ()) -> tuple[Shape, ...]:
    """Return the shapes of a tape laid alongside.

    Parameters
    ----------
    scale : Scale
        The stretch it lies along.
    top : float
        Its upper edge, where the ticks are.
    system : {"inch", "metric"}
        Ticks and figures in inches or in millimetres.
    clear_of : sequence of float
        Marks on the page; a figure that would touch one is left out.
    """
    unit_m = read("unit", "1", "length", low=0.0, high=1.0, system=system)
    small, longer, figures = _steps(unit_m * scale.per_m, system)
    corners = ((scale.left, top), (scale.right, top), (scale.right, top + HEIGHT), (scale.left, top + HEIGHT))
    unit = f" {unit_label('length', system)}"
    ticks: list[Point] = []
    words: list[Label] = []
    first, last = (scale.start_m / unit_m / small, scale.end_m / unit_m / small)
    for count in range(ceil(first - _CLOSE), floor(last + _CLOSE) + 1):
        at = count * small
        x = scale.x(at * unit_m)
        rank = int(at % longer == 0.0) + int(at % figures == 0.0)
        ticks.append((x, top + _TICKS[rank]))
        if at % figures == 0.0:
            figure = _figure(f"{at:.0f}{unit}", x, top, scale, clear_of)
            if figure and not (words and words[-1].box().grown(2.0).meets(figure.box())):
                words.append(figure)
                unit = ""
    combs = (Comb(top, tuple(ticks)),) if ticks else ()
    return Polyline(corners, HAIR, "ground", closed=True), *combs, *words


def _steps(unit: float, system: System) -> tuple[float, float, float]:
    """Return the finest steps that leave room on the page for a unit this long."""
    for steps in _STEPS[system]:
        if steps[0] * unit >= _LEAST_TICK and steps[2] * unit >= _LEAST_FIGURE[system]:
            return steps
    return _STEPS[system][-1]


def _figure(text: str, x: float, top: float, scale: Scale, clear_of: Sequence[float]) -> Label | None:
    label = Label((x, top + HEIGHT - _FOOT), text, _SIZE, "middle", "quiet")
    room = label.box().grown(2.0)
    inside = scale.left < room.left and room.right < scale.right
    return label if inside and not any(room.left < mark < room.right for mark in clear_of) else None
