"""A free spot for words about a point: clear of other words, and of lines if it can be."""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import pairwise, product
from math import cos, hypot, pi, sin
from typing import TYPE_CHECKING

from calc.draw import HAIR, Box, Label, Line

if TYPE_CHECKING:
    from calc.draw import Anchor, Point, Shape

_RINGS = (9.0, 20.0, 34.0, 52.0, 74.0)
_LED = 12.0
_WAYS = 16
_OVER_LINE, _LEADER_OVER = 60.0, 25.0
_ON_LINE = 1e-6
"""A point whose triangle with a line is smaller than this lies on it, whatever the last digits of its place."""


@dataclass(slots=True)
class Free:
    """What is taken in a field so far: boxes that words must not touch, runs of lines they had better not.

    Parameters
    ----------
    room : Box
        The field; no words leave it.
    boxes : list of Box
        What words must not touch; `words` adds those it places.
    runs : list of tuple of Point
        Lines that words had better not cross; `words` adds its leaders.
    """

    room: Box
    boxes: list[Box] = field(default_factory=list)
    runs: list[tuple[Point, ...]] = field(default_factory=list)

    def words(self, at: Point, text: str, size: float) -> list[Shape]:
        """Place words about a point and take their room; no words where there is none.

        Nearer is better, and clear of lines is better still. Words that end up far off get a leader.
        """
        best: tuple[float, Label, Point] | None = None
        others = [each for each in self.boxes if not each.holds(Box(*at, *at))]
        for ring, way in product(_RINGS, range(_WAYS)):
            if best is not None and best[0] <= ring:
                break
            label, near = _try(at, text, size, ring, way)
            box = label.box()
            if not self._clear(box) or any(_crosses(each, at, near) for each in others):
                continue
            cost = ring + _OVER_LINE * self._covered(box)
            if best is not None and cost >= best[0]:
                continue
            cost += _LEADER_OVER * self._cut(at, near)
            if best is None or cost < best[0]:
                best = cost, label, near
        if best is None:
            return []
        _, label, near = best
        self.boxes.append(label.box())
        if hypot(near[0] - at[0], near[1] - at[1]) <= _LED:
            return [label]
        self.runs.append((at, near))
        return [Line(at, near, HAIR), label]

    def _clear(self, box: Box) -> bool:
        """Tell whether words keep off all other words, within the field."""
        return self.room.holds(box) and not any(box.meets(each) for each in self.boxes)

    def _covered(self, box: Box) -> int:
        return sum(any(_crosses(box, a, b) for a, b in pairwise(run)) for run in self.runs)

    def _cut(self, at: Point, near: Point) -> int:
        """Count the lines a leader runs across, not those it starts from."""
        return sum(any(_meet(at, near, a, b) for a, b in pairwise(run)) for run in self.runs)


def _meet(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Tell whether two straight lines cross within both of them, ends aside.

    Examples
    --------
    A leader that starts on a line does not cross it, to the last digit:

    >>> _meet((0.1, 0.1 + 1e-16), (0.1, 1.0), (0.0, 0.0), (1.0, 1.0))
    False
    """
    if max(a[0], b[0]) < min(c[0], d[0]) or max(c[0], d[0]) < min(a[0], b[0]):
        return False

    def side(p: Point, q: Point, r: Point) -> float:
        twice = (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])
        return twice if abs(twice) > _ON_LINE else 0.0

    return side(a, b, c) * side(a, b, d) < 0.0 and side(c, d, a) * side(c, d, b) < 0.0


def _try(at: Point, text: str, size: float, ring: float, way: int) -> tuple[Label, Point]:
    """Return words on a ring about a point, and the end of their leader."""
    angle = 2.0 * pi * way / _WAYS
    x, y = at[0] + ring * cos(angle), at[1] - ring * sin(angle)
    level = cos(angle)
    anchor: Anchor = "start" if level > 0.25 else "end" if level < -0.25 else "middle"
    lift = 0.36 if anchor != "middle" else (-0.25 if sin(angle) > 0.0 else 0.82)
    return Label((x, y + lift * size), text, size, anchor, backed=True), (x, y)


def _crosses(box: Box, start: Point, end: Point) -> bool:
    """Tell whether a straight line touches a box: what is left of it, cut at each side in turn.

    Examples
    --------
    >>> _crosses(Box(0, 0, 2, 2), (-1, 1), (3, 1)), _crosses(Box(0, 0, 2, 2), (-1, 3), (3, 3))
    (True, False)
    """
    if max(start[0], end[0]) < box.left or min(start[0], end[0]) > box.right:
        return False
    if max(start[1], end[1]) < box.top or min(start[1], end[1]) > box.bottom:
        return False
    first, last = 0.0, 1.0
    for at, to, low, high in (
        (start[0], end[0], box.left, box.right),
        (start[1], end[1], box.top, box.bottom),
    ):
        way = to - at
        if way == 0.0:
            if not low <= at <= high:
                return False
            continue
        near, far = sorted(((low - at) / way, (high - at) / way))
        first, last = max(first, near), min(last, far)
    return first <= last
