"""Shapes in drawing units, each with its bounding box; a drawing is a title, words and shapes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

Point: TypeAlias = tuple[float, float]
Box: TypeAlias = tuple[float, float, float, float]
_GLYPH = 0.58
"""Widest mean glyph of the faces a page may use, per text size: leaves room to spare."""


@dataclass(frozen=True, slots=True)
class Line:
    """A run of straight pieces; `role` is its class."""

    points: tuple[Point, ...]
    role: str = "ink"
    closed: bool = False

    def box(self) -> Box:
        """Return left, top, right, bottom."""
        xs, ys = [x for x, _ in self.points], [y for _, y in self.points]
        return min(xs), min(ys), max(xs), max(ys)


@dataclass(frozen=True, slots=True)
class Rect:
    """An upright rectangle."""

    x: float
    y: float
    width: float
    height: float
    role: str = "ink"

    def box(self) -> Box:
        """Return left, top, right, bottom."""
        return self.x, self.y, self.x + self.width, self.y + self.height


@dataclass(frozen=True, slots=True)
class Label:
    """Words at a point; never mirrored."""

    x: float
    y: float
    text: str
    anchor: Literal["start", "middle", "end"] = "middle"
    size: float = 12.0

    def box(self) -> Box:
        """Return left, top, right, bottom, with room to spare."""
        width = len(self.text) * self.size * _GLYPH
        left = self.x - {"start": 0.0, "middle": 0.5, "end": 1.0}[self.anchor] * width
        return left, self.y - self.size, left + width, self.y + 0.35 * self.size


Shape: TypeAlias = Line | Rect | Label


@dataclass(frozen=True, slots=True)
class Drawing:
    """A figure: key unique on its page, title and description for those who cannot see it."""

    key: str
    title: str
    desc: str
    shapes: tuple[Shape, ...]

    def box(self) -> Box:
        """Return the box round all shapes."""
        boxes = [shape.box() for shape in self.shapes]
        lefts, tops, rights, bottoms = zip(*boxes, strict=True)
        return min(lefts), min(tops), max(rights), max(bottoms)
