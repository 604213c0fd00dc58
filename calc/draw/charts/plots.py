"""What stands in a chart, and the field that maps values to the page."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, TypeAlias

if TYPE_CHECKING:
    from calc.draw import Box, Dash, Ink, Point
    from calc.draw.charts.axes import Axis

Mark: TypeAlias = Literal["", "dot", "ring", "square", "cross"]
"""A small sign that tells a line or a cloud of points apart in any print."""


@dataclass(frozen=True, slots=True)
class Series:
    """One line of a chart, at least one point.

    Parameters
    ----------
    words : str
        Its name.
    points : tuple of (x, y)
        In the reader's units.
    ink : Ink
        Never the only thing that tells it apart.
    dash : Dash
        Whole, short dashes, dots or long dashes.
    mark : Mark
        Set on the line a few times.
    texts : tuple of (x text, y text)
        What a readout says at each point, as many as there are points; empty to print the numbers plainly.
    """

    words: str
    points: tuple[Point, ...]
    ink: Ink = "ink"
    dash: Dash = False
    mark: Mark = ""
    texts: tuple[tuple[str, str], ...] = ()

    def __post_init__(self) -> None:
        if self.texts and len(self.texts) != len(self.points):
            msg = f"Series: got {len(self.texts)} texts, expected one for each of {len(self.points)} points"
            raise ValueError(msg)


@dataclass(frozen=True, slots=True)
class Band:
    """A stretch of an axis with a name, tinted across the chart: a tuning window, a band that fits.

    Parameters
    ----------
    words : str
        Its name.
    low, high : float
        Where it begins and ends, in the reader's units.
    along : {"x", "y"}
        Which axis it is a stretch of.
    """

    words: str
    low: float
    high: float
    along: Literal["x", "y"] = "x"


@dataclass(frozen=True, slots=True)
class Ribbon:
    """What lies between two lines over the same x, tinted: the spread of an answer.

    Parameters
    ----------
    words : str
        Its name; empty to leave it unsaid.
    lower, upper : tuple of Point
        Points of each line, in the reader's units.
    """

    words: str
    lower: tuple[Point, ...]
    upper: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Limit:
    """A value of an axis not to pass: a heavy broken line with its name, not drawn when it lies beyond the axis.

    Parameters
    ----------
    words : str
        Its name.
    at : float
        In the reader's units.
    along : {"x", "y"}
        Which axis it stands on.
    """

    words: str
    at: float
    along: Literal["x", "y"] = "x"


@dataclass(frozen=True, slots=True)
class Marker:
    """A point with a name.

    Parameters
    ----------
    words : str
        Its name.
    at : Point
        A pair of values in the reader's units.
    """

    words: str
    at: Point


@dataclass(frozen=True, slots=True)
class MeasuredPoint:
    """A measured point, with how far it may be out either way.

    Parameters
    ----------
    at : (x, y)
        In the reader's units.
    x_spread, y_spread : (low, high) or None
        Ends of its bars.
    texts : (x text, y text) or None
        What a readout says.
    """

    at: Point
    x_spread: tuple[float, float] | None = None
    y_spread: tuple[float, float] | None = None
    texts: tuple[str, str] | None = None


@dataclass(frozen=True, slots=True)
class Scatter:
    """Measured points of one kind under one name.

    Parameters
    ----------
    words : str
        Their name; empty to leave it unsaid.
    readings : tuple of MeasuredPoint
        In any order.
    mark : Mark
        Stands at each point.
    ink : Ink
        Never the only thing that tells them apart.
    """

    words: str
    readings: tuple[MeasuredPoint, ...]
    mark: Mark = "ring"
    ink: Ink = "ink"


@dataclass(frozen=True, slots=True)
class Plot:
    """The field of a chart: where values stand on the page.

    Parameters
    ----------
    x_axis, y_axis : Axis
        In the reader's units.
    field : Box
        In drawing units.
    """

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
