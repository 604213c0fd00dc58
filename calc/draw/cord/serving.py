"""Thread wound round a cord: a band along a way with its turns across it."""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING

from calc.draw import Many, Path, Pen, To
from calc.draw.cord.traced import traced

if TYPE_CHECKING:
    from calc.draw import Fill, Ink, PathStep, Point, Shape
    from calc.draw.cord.way import Way
    from calc.geometry.lay import Hand

_PER_CURVE = 14.0
_LEAN = 0.28


def served(
    way: Way,
    start: float,
    end: float,
    *,
    width: float,
    pitch: float = 4.0,
    hand: Hand = "Z",
    ink: Ink = "ink",
    fill: Fill = "ground",
) -> tuple[Shape, ...]:
    """Return a close coil of thread along a stretch of a way.

    Parameters
    ----------
    way : Way
        Centre line of what is served.
    start, end : float
        Running lengths, start before end.
    width, pitch : float, > 0
        Over the coil; from turn to turn.
    hand : {"S", "Z"}
        Which way the turns slope.
    ink, fill : Ink, Fill
        Of the turns, of the thread.
    """
    half = width / 2.0
    count = max(1, ceil((end - start) / _PER_CURVE))
    above, up = traced(lambda s: way.aside(s, half), start, end, count)
    below, back = traced(lambda s: way.aside(s, -half), end, start, count)
    turns = max(1, round((end - start) / pitch))
    lean = (_LEAN if hand == "Z" else -_LEAN) * min(width, 2.0 * pitch)
    lines: list[tuple[Point, tuple[PathStep, ...]]] = []
    for turn in range(1, turns):
        at = start + (end - start) * turn / turns
        lines.append((way.aside(at - lean, half), (To(way.aside(at + lean, -half)),)))
    band = Path(above, (*up, To(below), *back), Pen(ink, 1.0), fill, closed=True)
    return (band, Many(tuple(lines), Pen(ink, 1.0), role=f"serving-{hand}")) if lines else (band,)
