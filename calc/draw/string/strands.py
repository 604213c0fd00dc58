"""The strands of a bundle laid side by side, with their stepped ends."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.draw import Line, Pen

if TYPE_CHECKING:
    from calc.draw import Scale, Shape

_WIDEST, _TALLEST = 3.6, 34.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Strands:
    """One bundle laid flat.

    Attributes
    ----------
    count : int
        Strands.
    step_m : float
        Each lies this far behind the last. [m]
    total_m : float
        From the first end to the last. [m]
    """

    count: int
    step_m: float
    total_m: float

    @property
    def pitch(self) -> float:
        """From strand to strand on the page: thickness is never to scale."""
        return min(_WIDEST, _TALLEST / self.count)

    @property
    def height(self) -> float:
        """Of the bundle on the page."""
        return self.pitch * self.count

    @property
    def taper_m(self) -> float:
        """From the first strand end to the last at one end [m]."""
        return (self.count - 1) * self.step_m

    def shapes(self, scale: Scale, top: float) -> tuple[Shape, ...]:
        """Draw what lies within a stretch."""
        pen = Pen("a", round(min(2.0, 0.62 * self.pitch), 2), cap="butt")
        shapes: list[Shape] = []
        for index in range(self.count):
            start_m = max(scale.start_m, index * self.step_m)
            end_m = min(scale.end_m, self.total_m - self.taper_m + index * self.step_m)
            y = top + (index + 0.5) * self.pitch
            if end_m > start_m:
                shapes.append(Line((scale.x(start_m), y), (scale.x(end_m), y), pen))
        return tuple(shapes)
