"""Tails as they will lie once the loops are made: back over the body, tapering to nothing."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.draw import DESCENT, HAIR, HEAD, CubicTo, Label, Path, Polyline, arrow_head, text_width
from calc.draw.labels import Seat, place_labels

if TYPE_CHECKING:
    from calc.draw import Scale, Shape

_TALL = 9.0
_SIZE = 12.6
_LINE = 15.0
_WORDS = "tail lies back here"
_HELD = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Tail:
    """One tail, from the loop's inner mark over the body.

    Attributes
    ----------
    inner_m, outer_m : float
        The marks at both ends of its loop. [m]
    way : float
        1 when it lies to the right of the inner mark, -1 to the left.
    longest_m, shortest_m : float
        How far its strands reach. [m]
    """

    inner_m: float
    outer_m: float
    way: float
    longest_m: float
    shortest_m: float

    def reach(self, scale: Scale) -> tuple[float, float, float]:
        """Return mark, shortest and longest strand on the page, cut to the stretch."""
        at = (self.inner_m + self.way * each for each in (0.0, self.shortest_m, self.longest_m))
        mark, short, long = (scale.x(min(max(each, scale.start_m), scale.end_m)) for each in at)
        return mark, short, long

    def seen(self, scale: Scale) -> bool:
        """Tell whether any of it lies in a stretch."""
        mark, _, long = self.reach(scale)
        return abs(long - mark) > _HELD

    def begins(self, scale: Scale) -> bool:
        """Tell whether it begins in a stretch."""
        return self.seen(scale) and scale.start_m <= self.inner_m <= scale.end_m

    def shapes(self, scale: Scale, bottom: float) -> list[Shape]:
        """Draw it, with an arrow from the outer mark over to the inner one."""
        mark, short, long = self.reach(scale)
        top = bottom - _TALL
        shapes: list[Shape] = [
            Polyline(((mark, bottom), (mark, top), (short, top), (long, bottom)), HAIR, "tint", closed=True)
        ]
        folds = self.begins(scale) and scale.start_m <= self.outer_m <= scale.end_m
        if folds and abs(scale.x(self.outer_m) - mark) >= 2.0 * HEAD:
            outer, middle = scale.x(self.outer_m), bottom - _TALL / 2.0
            lift = (outer, bottom - 2.2 * _TALL)
            shapes.append(
                Path((outer, bottom + 1.0), (CubicTo(lift, (mark - 8.0 * self.way, middle), (mark, middle)),), HAIR)
            )
            shapes.append(arrow_head((mark, middle), (self.way, 0.0)))
        return shapes


@dataclass(frozen=True, slots=True)
class TailLabels:
    """The tails of one row with their words: beside them where there is room, else in a line above.

    Parameters
    ----------
    tails : tuple of Tail
        Those that lie in the row.
    middles : tuple of float
        Where the words of each tail that begins in the row stand.
    above : bool
        Whether the words stand in a line above the tails.
    """

    tails: tuple[Tail, ...]
    middles: tuple[float, ...]
    above: bool

    @classmethod
    def within(cls, tails: tuple[Tail, ...], scale: Scale) -> TailLabels:
        """Take those that lie in a stretch and place their words."""
        seen = tuple(each for each in tails if each.seen(scale))
        named = [each for each in seen if each.begins(scale)]
        width = text_width(_WORDS, _SIZE)
        beside = [each.reach(scale)[2] + each.way * (5.0 + width / 2.0) for each in named]
        if _clear(beside, width, [each.reach(scale) for each in seen], scale):
            return cls(seen, tuple(beside), above=False)
        seats = [Seat(each.reach(scale)[0] + each.way * (4.0 + width / 2.0), width) for each in named]
        return cls(
            seen, tuple(each.middle for each in place_labels(seats, scale.left, scale.right, most=1)), above=True
        )

    @property
    def height(self) -> float:
        """From their lower edge up to the top of everything."""
        return _TALL + (_LINE if self.above else 5.0) if self.tails else 0.0

    def shapes(self, scale: Scale, bottom: float) -> list[Shape]:
        """Draw them standing on a line."""
        shapes = [shape for each in self.tails for shape in each.shapes(scale, bottom)]
        foot = bottom - _TALL - 2.0 - DESCENT * _SIZE if self.above else bottom - 1.0
        labels = [Label((x, foot), _WORDS, _SIZE, "middle", "quiet", backed=self.above) for x in self.middles]
        return [*shapes, *labels]


def _clear(middles: list[float], width: float, reaches: list[tuple[float, float, float]], scale: Scale) -> bool:
    """Tell whether words would touch neither each other nor a tail nor the ends of the row."""
    taken = [(min(mark, long), max(mark, long)) for mark, _, long in reaches]
    for x in middles:
        left, right = x - width / 2.0, x + width / 2.0
        if left < scale.left or right > scale.right or any(left < end and start < right for start, end in taken):
            return False
        taken.append((left, right))
    return True
