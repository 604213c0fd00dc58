"""What a drawing is made of: plain shapes that know their box and their mirror image.

A mirror turns geometry over an upright axis; words move with it and stay readable.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal, TypeAlias

from calc.draw.boxes import Box
from calc.draw.steps import band_extent, extent
from calc.draw.text import ASCENT, DESCENT, text_width

if TYPE_CHECKING:
    from calc.draw.boxes import Point
    from calc.draw.dims import Dim
    from calc.draw.readouts import Readout
    from calc.draw.steps import PathStep

Ink: TypeAlias = Literal["ink", "quiet", "accent", "a", "b", "c", "ground"]
Fill: TypeAlias = Literal["none", "ink", "quiet", "accent", "ground", "tint", "a", "b", "c"]
"""`a` is plain, `b` is hatched and `c` is dotted; `tint` is a breath of ink."""
Anchor: TypeAlias = Literal["start", "middle", "end"]
Dash: TypeAlias = "bool | Literal['dots', 'long']"
"""False is a whole line; True is short dashes."""
_BEFORE: dict[Anchor, float] = {"start": 0.0, "middle": 0.5, "end": 1.0}
_OTHER_END: dict[Anchor, Anchor] = {"start": "end", "middle": "middle", "end": "start"}


@dataclass(frozen=True, slots=True)
class Pen:
    """How a line is drawn.

    Parameters
    ----------
    ink : Ink
        Its colour, by what it is for.
    weight : float
        In drawing units: 1, 2 or 4 unless it is a thickness to scale.
    dash : Dash
        False for a whole line, True for short dashes.
    cap : {"round", "butt"}
        Whether ends are rounded or cut off square.
    """

    ink: Ink = "ink"
    weight: float = 1.0
    dash: Dash = False
    cap: Literal["round", "butt"] = "round"


HAIR = Pen("quiet", 1.0)
LINE = Pen("ink", 1.0)
FIRM = Pen("ink", 2.0)
MARK = Pen("accent", 2.0)


@dataclass(frozen=True, slots=True)
class Path:
    """Straight, round and free steps from a start; without a pen it is only filled.

    Parameters
    ----------
    start : Point
        Where the first step begins.
    steps : tuple of PathStep
        In order.
    pen : Pen or None
        None to leave the line out.
    fill : Fill
        What it is filled with.
    closed : bool
        Whether a straight line leads back to the start.
    """

    start: Point
    steps: tuple[PathStep, ...]
    pen: Pen | None = LINE
    fill: Fill = "none"
    closed: bool = False

    def box(self) -> Box:
        """With half the pen's thickness round it."""
        grown = self.pen.weight / 2.0 if self.pen else 0.0
        return Box.of(extent(self.start, self.steps)).grown(grown)

    def mirrored(self, axis: float) -> Path:
        """Return it turned over the upright line at x = `axis`."""
        return replace(
            self, start=mirror_point(self.start, axis), steps=tuple(each.mirrored(axis) for each in self.steps)
        )


def mirror_point(point: Point, axis: float) -> Point:
    """Return a point turned over the upright line at x = `axis`.

    Parameters
    ----------
    point : Point
        In drawing units.
    axis : float
        The x of the line.
    """
    return 2.0 * axis - point[0], point[1]


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line.

    Parameters
    ----------
    start, end : Point
        In drawing units.
    pen : Pen
        How it is drawn.
    """

    start: Point
    end: Point
    pen: Pen = LINE

    def box(self) -> Box:
        """With half the pen's thickness round it."""
        (x, y), (u, v), half = self.start, self.end, self.pen.weight / 2.0
        return Box(min(x, u) - half, min(y, v) - half, max(x, u) + half, max(y, v) + half)

    def mirrored(self, axis: float) -> Line:
        """Return it turned over the upright line at x = `axis`."""
        return replace(self, start=mirror_point(self.start, axis), end=mirror_point(self.end, axis))


@dataclass(frozen=True, slots=True)
class Polyline:
    """Straight lines from point to point.

    Parameters
    ----------
    points : tuple of Point
        At least one.
    pen : Pen or None
        None to leave the line out.
    fill : Fill
        What it is filled with.
    closed : bool
        Whether the last point is joined to the first.
    """

    points: tuple[Point, ...]
    pen: Pen | None = LINE
    fill: Fill = "none"
    closed: bool = False

    def box(self) -> Box:
        """With half the pen's thickness round it."""
        return Box.of(self.points).grown(self.pen.weight / 2.0 if self.pen else 0.0)

    def mirrored(self, axis: float) -> Polyline:
        """Return it turned over the upright line at x = `axis`."""
        return replace(self, points=tuple(mirror_point(each, axis) for each in self.points))


@dataclass(frozen=True, slots=True)
class Comb:
    """Upright ticks from one level, like those of a tape.

    Parameters
    ----------
    level : float
        The y they all start from.
    ticks : tuple of Point
        Their far ends, at least one.
    pen : Pen
        How they are drawn.
    """

    level: float
    ticks: tuple[Point, ...]
    pen: Pen = HAIR

    def box(self) -> Box:
        """With half the pen's thickness round it."""
        return Box.of((*self.ticks, (self.ticks[0][0], self.level))).grown(self.pen.weight / 2.0)

    def mirrored(self, axis: float) -> Comb:
        """Return it turned over the upright line at x = `axis`."""
        return replace(self, ticks=tuple(mirror_point(each, axis) for each in self.ticks))


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle.

    Parameters
    ----------
    centre : Point
        In drawing units.
    radius : float
        To the middle of the line.
    pen : Pen or None
        None to leave the line out.
    fill : Fill
        What it is filled with.
    """

    centre: Point
    radius: float
    pen: Pen | None = LINE
    fill: Fill = "none"

    def box(self) -> Box:
        """With half the pen's thickness round it."""
        return Box.of((self.centre,)).grown(self.radius + (self.pen.weight / 2.0 if self.pen else 0.0))

    def mirrored(self, axis: float) -> Circle:
        """Return it turned over the upright line at x = `axis`."""
        return replace(self, centre=mirror_point(self.centre, axis))


@dataclass(frozen=True, slots=True)
class Label:
    """One line of words.

    Parameters
    ----------
    at : Point
        Where the anchor stands on the baseline.
    text : str
        Not yet escaped.
    size : float
        Font size, in drawing units.
    anchor : Anchor
        Which part of the words stands at the point.
    ink : Ink
        Their colour.
    bold : bool
        Whether they are set in the heavier weight.
    backed : bool
        Whether they carry a rim of ground, for the few places where a line may run behind them.
    """

    at: Point
    text: str
    size: float = 13.0
    anchor: Anchor = "start"
    ink: Ink = "ink"
    bold: bool = False
    backed: bool = False

    @property
    def width(self) -> float:
        """More than the words need in any usual face."""
        return text_width(self.text, self.size, bold=self.bold)

    def box(self) -> Box:
        """Room kept for the words."""
        (x, y), width = self.at, self.width
        left = x - _BEFORE[self.anchor] * width
        return Box(left, y - ASCENT * self.size, left + width, y + DESCENT * self.size)

    def mirrored(self, axis: float) -> Label:
        """Return it on the other side, still readable."""
        return replace(self, at=mirror_point(self.at, axis), anchor=_OTHER_END[self.anchor])


@dataclass(frozen=True, slots=True)
class Many:
    """Paths of one look drawn as one: all bundles' sides, all strands of a layer.

    Parameters
    ----------
    parts : tuple of (start, steps)
        At least one.
    pen : Pen or None
        None to leave the line out.
    fill : Fill
        What each part is filled with.
    closed : bool
        Whether each part leads back to its start.
    role : str
        What it is of a cord, for whoever reads the drawing: ``a-back``, ``edge-front``.
    digits : int
        Decimals written.
    band : float
        Thickness of a band along each part, without a pen: `fill` is then what the band is filled with. 0 for none.
    """

    parts: tuple[tuple[Point, tuple[PathStep, ...]], ...]
    pen: Pen | None = LINE
    fill: Fill = "none"
    closed: bool = False
    role: str = ""
    digits: int = 1
    band: float = 0.0

    def box(self) -> Box:
        """With half the pen's thickness, or the band's, round it."""
        if self.band or (self.pen and self.pen.cap == "butt"):
            thick = self.pen.weight if self.pen else self.band
            return Box.of([point for start, steps in self.parts for point in band_extent(start, steps, thick)])
        grown = self.pen.weight / 2.0 if self.pen else 0.0
        return Box.of([point for start, steps in self.parts for point in extent(start, steps)]).grown(grown)

    def mirrored(self, axis: float) -> Many:
        """Return it turned over the upright line at x = `axis`."""
        turned = [(mirror_point(at, axis), tuple(each.mirrored(axis) for each in steps)) for at, steps in self.parts]
        return replace(self, parts=tuple(turned))


@dataclass(frozen=True, slots=True)
class Frame:
    """One picture of a short loop of pictures; the last is the still that stands where nothing moves.

    Parameters
    ----------
    index : int
        Its place among the pictures, from 0.
    count : int
        How many pictures the loop has.
    shapes : tuple of Shape
        What the picture shows.
    """

    index: int
    count: int
    shapes: tuple[Shape, ...]

    def box(self) -> Box:
        """Round all its shapes."""
        return Box.around(each.box() for each in self.shapes)

    def mirrored(self, axis: float) -> Frame:
        """Return it with every shape mirrored."""
        return replace(self, shapes=tuple(each.mirrored(axis) for each in self.shapes))


@dataclass(frozen=True, slots=True)
class Group:
    """Shapes under one name, so that a page can point at them.

    Parameters
    ----------
    key : str
        Unique within a drawing.
    shapes : tuple of Shape
        In painting order.
    """

    key: str
    shapes: tuple[Shape, ...]

    def box(self) -> Box:
        """Round all its shapes."""
        return Box.around(each.box() for each in self.shapes)

    def mirrored(self, axis: float) -> Group:
        """Return it with every shape mirrored."""
        return replace(self, shapes=tuple(each.mirrored(axis) for each in self.shapes))


Entry: TypeAlias = tuple[float, float, str, str]
"""A point of a readout: where it stands, and what is said of it along each axis."""
Shape: TypeAlias = "Line | Polyline | Comb | Path | Many | Circle | Label | Group | Frame | Dim | Readout"
