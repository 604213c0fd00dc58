"""Workshop dimensions and open arrows."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from math import hypot
from typing import TYPE_CHECKING, Literal

from calc.draw.boxes import Box
from calc.draw.shapes import HAIR, Label, Line, Polyline, mirror_point
from calc.draw.text import ASCENT, DESCENT

if TYPE_CHECKING:
    from calc.draw.boxes import Point
    from calc.draw.shapes import Pen, Shape

HEAD = 7.0
"""Length of an arrow head; narrower dimensions get ticks."""
_HALF_HEAD = 2.6
_PAST = 3.0
_TICK = 4.0
_AIR = 4.0


def arrow_head(tip: Point, toward: tuple[float, float], pen: Pen = HAIR) -> Polyline:
    """Return an open arrow head whose tip points along a direction.

    Parameters
    ----------
    tip : Point
        Where it points, in drawing units.
    toward : (float, float)
        Its direction; any length but zero.
    pen : Pen
        How its two lines are drawn.
    """
    size = hypot(*toward)
    ux, uy = toward[0] / size, toward[1] / size
    back = (tip[0] - HEAD * ux, tip[1] - HEAD * uy)
    side = (-_HALF_HEAD * uy, _HALF_HEAD * ux)
    return Polyline(((back[0] + side[0], back[1] + side[1]), tip, (back[0] - side[0], back[1] - side[1])), pen)


@dataclass(frozen=True, slots=True)
class Dim:
    """A workshop dimension between two points that differ.

    Parameters
    ----------
    start, end : Point
        What is measured.
    text : str
        The measure in words; empty when the words are placed otherwise.
    offset : float
        From what is measured to the dimension line, to the right of the way from start to end.
    heads : {"arrow", "tick"}
        Arrows turn to ticks by themselves where there is no room for two.
    size : float
        Font size of the words, in drawing units.
    pen : Pen
        Of the line, its ends and the lines that lead to it.
    """

    start: Point
    end: Point
    text: str = ""
    offset: float = 12.0
    heads: Literal["arrow", "tick"] = "arrow"
    size: float = 13.0
    pen: Pen = HAIR

    @property
    def length(self) -> float:
        """What is measured, in drawing units."""
        return hypot(self.end[0] - self.start[0], self.end[1] - self.start[1])

    @property
    def way(self) -> tuple[float, float]:
        """Unit vector from start to end."""
        return (self.end[0] - self.start[0]) / self.length, (self.end[1] - self.start[1]) / self.length

    @property
    def shapes(self) -> tuple[Shape, ...]:
        """The plain shapes it is drawn with."""
        return _drawn(self)

    def drawn(self) -> tuple[Shape, ...]:
        """Return these shapes, made anew."""
        (ux, uy), off = self.way, self.offset
        ends = [(x - off * uy, y + off * ux) for x, y in (self.start, self.end)]
        shapes: list[Shape] = [Line(ends[0], ends[1], self.pen), *self._ends(ends)]
        if abs(off) > _PAST:
            past = off + (_PAST if off > 0.0 else -_PAST)
            shapes += [Line((x, y), (x - past * uy, y + past * ux), self.pen) for x, y in (self.start, self.end)]
        if self.text:
            shapes.append(self._words(ends))
        return tuple(shapes)

    def _ends(self, ends: list[Point]) -> list[Shape]:
        ux, uy = self.way
        if self.heads == "arrow" and self.length >= 2.0 * HEAD:
            return [arrow_head(ends[0], (-ux, -uy), self.pen), arrow_head(ends[1], (ux, uy), self.pen)]
        lean = ((ux - uy) * _TICK, (uy + ux) * _TICK)
        return [Line((x - lean[0], y - lean[1]), (x + lean[0], y + lean[1]), self.pen) for x, y in ends]

    def _words(self, ends: list[Point]) -> Label:
        """Place the words upright on the far side of the line."""
        ux, uy = self.way
        side = 1.0 if self.offset >= 0.0 else -1.0
        out = (-uy * side, ux * side)
        x, y = (ends[0][0] + ends[1][0]) / 2.0, (ends[0][1] + ends[1][1]) / 2.0
        if abs(out[1]) >= abs(out[0]):
            lift = _AIR + ASCENT * self.size if out[1] > 0.0 else -_AIR - DESCENT * self.size
            return Label((x, y + lift), self.text, self.size, "middle", backed=True)
        shift = _AIR if out[0] > 0.0 else -_AIR
        anchor: Literal["start", "end"] = "start" if out[0] > 0.0 else "end"
        return Label((x + shift, y + 0.35 * self.size), self.text, self.size, anchor, backed=True)

    def box(self) -> Box:
        """Round its lines and words."""
        return Box.around(each.box() for each in self.shapes)

    def mirrored(self, axis: float) -> Dim:
        """Return it turned over; its words stay readable, on the side away from what is measured."""
        return replace(
            self, start=mirror_point(self.start, axis), end=mirror_point(self.end, axis), offset=-self.offset
        )


@lru_cache(maxsize=64)
def _drawn(dim: Dim) -> tuple[Shape, ...]:
    return dim.drawn()
