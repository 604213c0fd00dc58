"""Points and the boxes round shapes, in drawing units with y downwards."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple, TypeAlias

if TYPE_CHECKING:
    from collections.abc import Iterable

Point: TypeAlias = "tuple[float, float]"


class Box(NamedTuple):
    """An upright rectangle, in drawing units with y downwards.

    Parameters
    ----------
    left, right : float
        The smaller and the larger x.
    top, bottom : float
        The smaller and the larger y.
    """

    left: float
    top: float
    right: float
    bottom: float

    @classmethod
    def of(cls, points: Iterable[Point]) -> Box:
        """Return the smallest box round some points.

        >>> Box.of([(3.0, 1.0), (0.0, 2.0)])
        Box(left=0.0, top=1.0, right=3.0, bottom=2.0)
        """
        xs, ys = zip(*points, strict=True)
        return cls(min(xs), min(ys), max(xs), max(ys))

    @classmethod
    def around(cls, boxes: Iterable[Box]) -> Box:
        """Return the smallest box round some boxes, at least one."""
        lefts, tops, rights, bottoms = zip(*boxes, strict=True)
        return cls(min(lefts), min(tops), max(rights), max(bottoms))

    @property
    def width(self) -> float:
        """From left to right."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From top to bottom."""
        return self.bottom - self.top

    def grown(self, by: float) -> Box:
        """Return the box with a margin on every side."""
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def meets(self, other: Box, slack: float = 1e-9) -> bool:
        """Tell whether two boxes share more than an edge."""
        return (
            self.left < other.right - slack
            and other.left < self.right - slack
            and self.top < other.bottom - slack
            and other.top < self.bottom - slack
        )

    def holds(self, other: Box, slack: float = 1e-9) -> bool:
        """Tell whether another box lies wholly inside."""
        return (
            self.left <= other.left + slack
            and self.top <= other.top + slack
            and self.right >= other.right - slack
            and self.bottom >= other.bottom - slack
        )
