"""Words above or below a row of spots, each led to its own."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.draw import ASCENT, DESCENT, HAIR, Label, Pen, Polyline, text_width
from calc.draw.labels.seats import LabelPlace, Seat, place_labels

if TYPE_CHECKING:
    from calc.draw import Ink, Shape

KNEE = 9.0
"""Height in which leaders bend towards their words."""
_LEAD = 2.0


@dataclass(frozen=True, slots=True)
class Words:
    """One line of words with its look.

    Parameters
    ----------
    text : str
        Not yet escaped.
    size : float
        Font size, in drawing units.
    ink : Ink
        Their colour.
    bold : bool
        Whether they are set in the heavier weight.
    """

    text: str
    size: float = 13.0
    ink: Ink = "ink"
    bold: bool = False

    @property
    def width(self) -> float:
        """Room it takes."""
        return text_width(self.text, self.size, bold=self.bold)


@dataclass(frozen=True, slots=True)
class Tag:
    """Lines of words for a spot.

    Parameters
    ----------
    at : float
        The spot.
    lines : tuple of Words
        From top to bottom.
    pen : Pen or None
        Of its leader; None for words that are not led.
    room : float
        Words in the nearest lane that stand nearer than this need no leader.
    """

    at: float
    lines: tuple[Words, ...]
    pen: Pen | None = HAIR
    room: float = 0.0

    @property
    def width(self) -> float:
        """Room its widest line takes."""
        return max(each.width for each in self.lines)

    @property
    def height(self) -> float:
        """Of all lines."""
        return sum(each.size * (ASCENT + DESCENT) for each in self.lines) + _LEAD * len(self.lines)


@dataclass(frozen=True, slots=True)
class Tags:
    """Tags in their places.

    Parameters
    ----------
    tags : tuple of Tag
        From left to right.
    seats : tuple of LabelPlace
        The place of each.
    rise : float
        -1 for words above their spots, 1 for words below.
    """

    tags: tuple[Tag, ...]
    seats: tuple[LabelPlace, ...]
    rise: float

    @classmethod
    def seated(cls, tags: tuple[Tag, ...], low: float, high: float, rise: float) -> Tags:
        """Find places between two limits."""
        seats = place_labels([Seat(each.at, each.width) for each in tags], low, high)
        return cls(tags, seats, rise)

    @property
    def height(self) -> float:
        """From the spots to the far edge of the words."""
        lanes = max((each.lane for each in self.seats), default=0) + 1
        return KNEE + lanes * self._lane

    @property
    def _lane(self) -> float:
        return max(each.height for each in self.tags)

    def shapes(self, y: float) -> tuple[Shape, ...]:
        """Draw them about spots that lie at a height."""
        shapes: list[Shape] = []
        for tag, seat in zip(self.tags, self.seats, strict=True):
            near = y + self.rise * (KNEE + seat.lane * self._lane)
            if tag.pen and (seat.lane or abs(seat.middle - tag.at) >= tag.room):
                bend = y + self.rise * (KNEE - 1.0)
                points = ((tag.at, y), (seat.middle, bend), (seat.middle, near))
                shapes.append(Polyline(points, tag.pen))
            shapes += _lines(tag, seat.middle, near if self.rise > 0 else near - tag.height)
        return tuple(shapes)


def _lines(tag: Tag, middle: float, top: float) -> list[Shape]:
    shapes: list[Shape] = []
    for each in tag.lines:
        top += _LEAD / 2.0 + ASCENT * each.size
        shapes.append(Label((middle, top), each.text, each.size, "middle", each.ink, each.bold))
        top += _LEAD / 2.0 + DESCENT * each.size
    return shapes
