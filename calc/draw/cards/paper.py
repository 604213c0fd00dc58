"""Sheets of paper and what lies on them. A drawing unit is a 96th of an inch, so words keep their printed size."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.draw import Box, Circle, Drawing, Line, Pen, Polyline, escaped, svg
from calc.draw.writer import number

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

_UNITS_PER_MM = 96.0 / 25.4
MARGIN = 26.0
"""Left free on every side of a page, 7 mm: no usual printer needs more."""
_CUT = Pen("quiet", 1.0, dash=True)


@dataclass(frozen=True, slots=True)
class Paper:
    """A size of paper, upright.

    Attributes
    ----------
    name : str
        As CSS calls it.
    wide_mm, tall_mm : float
        Its sides. [mm]
    """

    name: str
    wide_mm: float
    tall_mm: float

    @property
    def wide(self) -> float:
        """In drawing units."""
        return self.wide_mm * _UNITS_PER_MM

    @property
    def tall(self) -> float:
        """In drawing units."""
        return self.tall_mm * _UNITS_PER_MM

    @property
    def inner(self) -> Box:
        """What may be printed on."""
        return Box(MARGIN, MARGIN, self.wide - MARGIN, self.tall - MARGIN)


PAPERS: Mapping[str, Paper] = {"A4": Paper("A4", 210.0, 297.0), "Letter": Paper("Letter", 215.9, 279.4)}
"""ISO 216 and ANSI Y14.1, upright."""


@dataclass(frozen=True, slots=True)
class Placed:
    """A drawing on a page.

    Attributes
    ----------
    drawing : Drawing
        What lies there.
    left, top : float
        Of its frame, in drawing units.
    """

    drawing: Drawing
    left: float
    top: float

    @property
    def box(self) -> Box:
        """Of its frame on the page."""
        frame = self.drawing.frame
        return Box(self.left, self.top, self.left + frame.width, self.top + frame.height)


def page_svg(paper: Paper, placed: Iterable[Placed], *, prefix: str, title: str) -> str:
    """Return one page as one SVG element, in its true size.

    Parameters
    ----------
    paper : Paper
    placed : iterable of Placed
        Drawings and where they lie.
    prefix : str
        Starts every id, as for `calc.draw.svg`.
    title : str
        Read out in place of the picture.
    """
    size = f'width="{number(paper.wide_mm)}mm" height="{number(paper.tall_mm)}mm"'
    view = f'viewBox="0 0 {number(paper.wide)} {number(paper.tall)}"'
    parts = "\n".join(svg(each.drawing, prefix=f"{prefix}-{index}", at=each.box) for index, each in enumerate(placed))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="page" {size} {view} role="group"'
        f' aria-label="{escaped(title)}">\n{parts}\n</svg>'
    )


def pocket_places(paper: Paper) -> tuple[Box, ...]:
    """Return the places of four pocket cards on a page, in reading order.

    Parameters
    ----------
    paper : Paper
        The page.
    """
    inner = paper.inner
    wide, tall = inner.width / 2.0, inner.height / 2.0
    return tuple(
        Box(inner.left + column * wide, inner.top + row * tall, inner.left + (column + 1) * wide,
            inner.top + (row + 1) * tall)
        for row in range(2)
        for column in range(2)
    )  # fmt: skip


def cut_frame(box: Box) -> Drawing:
    """Return the line along which one card is cut out.

    Parameters
    ----------
    box : Box
        Of the card on its page.
    """
    corners = ((box.left, box.top), (box.right, box.top), (box.right, box.bottom), (box.left, box.bottom))
    line = Polyline(corners, _CUT, closed=True)
    return Drawing(key="cut", title="Where to cut", desc="A broken line round the card.", shapes=(line,), width=0.0)


def cut_lines(paper: Paper) -> Drawing:
    """Return the lines along which four pocket cards are cut apart, with a hole to hang each by.

    Parameters
    ----------
    paper : Paper
        The page.
    """
    inner = paper.inner
    middle_x, middle_y = (inner.left + inner.right) / 2.0, (inner.top + inner.bottom) / 2.0
    lines = [Line((x, inner.top), (x, inner.bottom), _CUT) for x in (inner.left, middle_x, inner.right)]
    lines += [Line((inner.left, y), (inner.right, y), _CUT) for y in (inner.top, middle_y, inner.bottom)]
    holes = [Circle((place.right - 16.0, place.top + 16.0), 6.0, _CUT) for place in pocket_places(paper)]
    return Drawing(
        key="cut", title="Where to cut", desc="Broken lines round each card.", shapes=(*lines, *holes), width=0.0
    )
