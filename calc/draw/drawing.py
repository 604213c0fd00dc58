"""A drawing: shapes with a name, a title and a description, and the frame they need."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.draw.boxes import Box
from calc.draw.dims import Dim
from calc.draw.shapes import Frame, Group, Label

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from calc.draw.shapes import Shape

PHONE = 360.0
"""Width of a drawing in drawing units: about a phone's in CSS pixels, so that a unit is a pixel there."""
_MARGIN = 4.0
_NESTED = (Group, Frame, Dim)


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """A whole drawing.

    Parameters
    ----------
    key : str
        Names it among the drawings of one answer.
    title, desc : str
        What is read out instead of the picture; what it shows, with its numbers.
    shapes : tuple of Shape
        In painting order: later ones lie over earlier ones.
    width : float
        Least width of its frame, so that words keep their size from drawing to drawing.
    """

    key: str
    title: str
    desc: str
    shapes: tuple[Shape, ...]
    width: float = PHONE

    def __post_init__(self) -> None:
        keys = [each.key for each in every(self.shapes) if isinstance(each, Group)]
        if len(set(keys)) != len(keys):
            msg = f"Drawing: got groups {keys}, expected every key once"
            raise ValueError(msg)

    @property
    def frame(self) -> Box:
        """Round all shapes, with a margin, and at least `width` wide."""
        box = Box.around(each.box() for each in self.shapes).grown(_MARGIN)
        more = max(0.0, self.width - box.width) / 2.0
        return Box(box.left - more, box.top, box.right + more, box.bottom)

    @property
    def labels(self) -> tuple[Label, ...]:
        """Every line of words, however deep."""
        return tuple(each for each in every(self.shapes) if isinstance(each, Label))

    def mirrored(self) -> Drawing:
        """Return it as the other hand sees it; words stay readable."""
        box = self.frame
        axis = (box.left + box.right) / 2.0
        shapes = tuple(each.mirrored(axis) for each in self.shapes)
        return Drawing(key=self.key, title=self.title, desc=self.desc, shapes=shapes, width=self.width)


def every(shapes: Iterable[Shape]) -> Iterator[Shape]:
    """Yield shapes and the shapes they are made of, in painting order.

    Parameters
    ----------
    shapes : iterable of Shape
        From the lowest up.

    Yields
    ------
    Shape
        Each group before the shapes in it.
    """
    for each in shapes:
        yield each
        if isinstance(each, _NESTED):
            yield from every(each.shapes)
