"""One row of a bundle laid flat: names over it, tails that will lie on it, strands, tape and marks."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from calc.draw import HAIR, HEAD, LINE, MARK, CubicTo, Group, Line, Path, Pen, Polyline, arrow_head
from calc.draw import tape_measure as tape
from calc.draw.labels import Tag, Tags, Words
from calc.draw.string.tails import TailLabels

if TYPE_CHECKING:
    from collections.abc import Iterator

    from calc.draw import Scale, Shape
    from calc.draw.string.strands import Strands
    from calc.draw.string.tails import Tail
    from calc.units import System

EDGE = 4.5
"""Left and right of everything."""
SMALL = 12.6
_AIR = 7.0
_ON, _FROM = "carries on below", "from above"
_HELD = 1e-9
_ACCENT = Pen("accent", 1.0)


@dataclass(frozen=True, slots=True)
class FlatZone:
    """One zone of a bundle laid flat.

    Parameters
    ----------
    kind : {"tail", "loop", "body"}
        What it becomes.
    length_m : float, > 0
        On the flat bundle. [m]
    length_text, mark_text : str
        Its length (empty to leave it unsaid), and the running measure at its far end, as printed.
    words : str
        Its name, when it is not just the kind.
    """

    kind: str
    length_m: float
    length_text: str
    mark_text: str
    words: str = ""

    def __post_init__(self) -> None:
        if self.kind not in {"tail", "loop", "body"} or not self.length_m > 0.0:
            msg = f"Zone: got {self.kind} of {self.length_m}, expected a tail, loop or body of some length"
            raise ValueError(msg)

    @property
    def name(self) -> str:
        """What it is called on the drawing."""
        return self.words or self.kind.capitalize()


@dataclass(frozen=True, slots=True, kw_only=True)
class Flat:
    """Everything a row needs to know.

    Parameters
    ----------
    zones : tuple of FlatZone
        From left to right.
    edges_m : tuple of float
        Running lengths of the ends of the zones, one more than there are zones. [m]
    strands : Strands
        The bundle.
    tails : tuple of Tail
        Where they will lie; empty when none are drawn.
    system : System
        Of the tape.
    width : float
        Of the drawing, in drawing units.
    """

    zones: tuple[FlatZone, ...]
    edges_m: tuple[float, ...]
    strands: Strands
    tails: tuple[Tail, ...]
    system: System
    width: float

    def pieces(self, scale: Scale) -> Iterator[_Piece]:
        """Yield the part of every zone that lies within a stretch."""
        for index, zone in enumerate(self.zones):
            start_m, end_m = self.edges_m[index : index + 2]
            if start_m < scale.end_m and end_m > scale.start_m:
                left, right = max(start_m, scale.start_m), min(end_m, scale.end_m)
                cut = left - start_m, end_m - right
                yield _Piece(index, zone, scale.x(left), scale.x(right), cut, right - left)

    def marks(self, scale: Scale) -> list[tuple[float, str]]:
        """Return place and words of every mark within a stretch; one at its start belongs to the row before."""
        texts = ("0", *(each.mark_text for each in self.zones))
        return [
            (scale.x(edge_m), text)
            for edge_m, text in zip(self.edges_m, texts, strict=True)
            if scale.start_m < edge_m <= scale.end_m or edge_m == scale.start_m == 0.0
        ]


@dataclass(frozen=True, slots=True)
class _Piece:
    """The part of a zone in one row; `cut` is what lies in rows before and after [m]."""

    index: int
    zone: FlatZone
    left: float
    right: float
    cut: tuple[float, float]
    length_m: float

    @property
    def middle(self) -> float:
        return (self.left + self.right) / 2.0

    @property
    def main(self) -> bool:
        """True for the part that carries the zone's length: the longest, of equals the first."""
        return self.length_m > self.cut[0] + _HELD and self.length_m >= self.cut[1] - _HELD


def draw_row(flat: Flat, scale: Scale, number: int, top: float) -> tuple[list[Shape], float]:
    """Return the shapes of one row with the y of its bottom.

    Parameters
    ----------
    flat : Flat
        The bundle.
    scale : Scale
        The stretch of it that the row shows.
    number : int
        Which row, from 0; it names the groups a page can point at.
    top : float
        The y of the row's upper edge.
    """
    pieces = list(flat.pieces(scale))
    names = Tags.seated(tuple(_name(each) for each in pieces), EDGE, flat.width - EDGE, -1.0)
    spans_y = top + names.height
    tails = TailLabels.within(flat.tails, scale)
    strands_y = spans_y + _AIR + tails.height + 3.0
    tape_y = strands_y + flat.strands.height + 5.0
    marks_y = tape_y + tape.HEIGHT + 2.0
    at = flat.marks(scale)
    marks = Tags.seated(_mark_tags(flat, scale, at), EDGE, flat.width - EDGE, 1.0)
    shapes: list[Shape] = [
        *(_band(each, number, strands_y, flat.strands.height) for each in pieces),
        *names.shapes(spans_y - 3.0),
        *(shape for each in pieces for shape in _span(each, spans_y)),
        *(Line((x, spans_y - 4.0), (x, strands_y - 3.0), HAIR) for x, _ in at),
        *tails.shapes(scale, spans_y + _AIR + tails.height),
        *flat.strands.shapes(scale, strands_y),
        *_breaks(flat, scale, strands_y),
        *tape.tape(scale, tape_y, flat.system, [x for x, _ in at]),
        *(Line((x, strands_y - 3.0), (x, marks_y), MARK) for x, _ in at),
        *marks.shapes(marks_y),
    ]
    return shapes, marks_y + marks.height


def _name(piece: _Piece) -> Tag:
    name = Words(piece.zone.name, SMALL, "quiet")
    if not piece.zone.length_text:
        return Tag(piece.middle, (name,), room=(piece.right - piece.left) / 2.0)
    rest = Words(piece.zone.length_text, bold=True) if piece.main else Words("carried on", SMALL, "quiet")
    return Tag(piece.middle, (name, rest), room=(piece.right - piece.left) / 2.0)


def _mark_tags(flat: Flat, scale: Scale, at: list[tuple[float, str]]) -> tuple[Tag, ...]:
    tags = [Tag(x, (Words(text, 13.0, "accent", bold=True),), _ACCENT) for x, text in at]
    if scale.start_m > 0.0:
        tags.insert(0, Tag(scale.left, (Words(_FROM, SMALL, "quiet"),), None))
    if scale.end_m < flat.edges_m[-1]:
        tags.append(Tag(scale.right, (Words(_ON, SMALL, "quiet"),), None))
    return tuple(tags)


def _band(piece: _Piece, row: int, top: float, height: float) -> Group:
    """Return the ground of a piece, tinted for a loop: what a page can point at."""
    bottom = top + height
    corners = (
        (piece.left, top - 3.0),
        (piece.right, top - 3.0),
        (piece.right, bottom + 3.0),
        (piece.left, bottom + 3.0),
    )
    fill: Literal["tint", "ground"] = "tint" if piece.zone.kind == "loop" else "ground"
    return Group(f"zone-{piece.index}-{row}", (Polyline(corners, None, fill, closed=True),))


def _span(piece: _Piece, y: float) -> list[Shape]:
    """Draw the dimension line of a piece: arrows at its marks, none where it is cut."""
    shapes: list[Shape] = [Line((piece.left, y), (piece.right, y), HAIR)]
    roomy = piece.right - piece.left >= 2.0 * HEAD
    for x, way, cut_m in ((piece.left, -1.0, piece.cut[0]), (piece.right, 1.0, piece.cut[1])):
        if cut_m > 0.0:
            continue
        shapes.append(arrow_head((x, y), (way, 0.0)) if roomy else Line((x - 3.0, y + 3.0), (x + 3.0, y - 3.0), HAIR))
    return shapes


def _breaks(flat: Flat, scale: Scale, top: float) -> list[Shape]:
    """Draw the wavy ends of a row whose string goes on in another row."""
    bottom = top + flat.strands.height
    ends = [scale.left] * (scale.start_m > 0.0) + [scale.right] * (scale.end_m < flat.edges_m[-1])
    third = (bottom - top + 8.0) / 3.0
    return [
        Path(
            (x, top - 4.0),
            (CubicTo((x - 4.0, top - 4.0 + third), (x + 4.0, bottom + 4.0 - third), (x, bottom + 4.0)),),
            LINE,
        )
        for x in ends
    ]
