"""What stands in a chart, and the field that maps values to the page."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from calc.draw.axes import Axis
    from calc.draw.frames import Box, Point
    from calc.draw.shapes import Ink


@dataclass(frozen=True, slots=True)
class Series:
    """One line of a chart, at least one point; `dash` tells it apart where ink alone would not."""

    words: str
    points: tuple[Point, ...]
    ink: Ink = "ink"
    dash: bool = False


@dataclass(frozen=True, slots=True)
class Band:
    """A stretch of an axis with a name, tinted across the chart."""

    words: str
    low: float
    high: float
    along: Literal["x", "y"] = "x"


@dataclass(frozen=True, slots=True)
class Marker:
    """A point with a name."""

    words: str
    at: Point


@dataclass(frozen=True, slots=True)
class Plot:
    """The field of a chart."""

    x_axis: Axis
    y_axis: Axis
    field: Box

    def x(self, value: float) -> float:
        """Return where a value along the first axis stands; one beyond its ends stands at its end."""
        return self.field.left + self.x_axis.share(value) * self.field.width

    def y(self, value: float) -> float:
        """Return where a value up the second axis stands; one beyond its ends stands at its end."""
        return self.field.bottom - self.y_axis.share(value) * self.field.height

    def at(self, point: Point) -> Point:
        """Return where a pair of values stands."""
        return self.x(point[0]), self.y(point[1])
