"""A laid cord as shapes, from its lowest layer up."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.draw.cord.fibres import strand_lines
from calc.draw.cord.pieces import Piece, cubics, pieces
from calc.draw.cord.traced import traced
from calc.draw.shapes import Many, Path, Pen
from calc.draw.steps import To

if TYPE_CHECKING:
    from calc.draw.cord.laid import Laid, Name
    from calc.draw.frames import Point
    from calc.draw.shapes import Shape
    from calc.draw.steps import Step

SHOWS_STRANDS = 10.0
"""Diameter of a bundle from which its strands are drawn, in drawing units."""
_LINES = 7
_LAYERS = {1: ("front",), 2: ("back", "front"), 3: ("back", "middle", "front")}
_STRAND: dict[Name, Pen] = {"a": Pen("ground", 0.8), "b": Pen("quiet", 0.7), "c": Pen("quiet", 0.7)}
_OVER = 0.35


def painted(
    cord: Laid,
    start: float | None = None,
    end: float | None = None,
    *,
    halo: bool = False,
    strands: bool = True,
    ends: bool = True,
) -> tuple[Shape, ...]:
    """Return a cord as shapes.

    Parameters
    ----------
    cord : Laid
    start, end : float or None
        Running lengths to draw between; the whole way when None.
    halo : bool
        Whether a rim of ground parts it from what it crosses over.
    strands : bool
        Whether strands are drawn where there is room.
    ends : bool
        Whether cut ends are closed with a line.
    """
    first = 0.0 if start is None else start
    last = cord.way.length if end is None else end
    under: list[Shape] = [_halo(cord, first, last)] if halo else []
    layers = painted_layers(cord, first, last, strands=strands, ends=ends)
    return (*under, *(shape for layer in layers for shape in layer))


def painted_layers(
    cord: Laid,
    start: float,
    end: float,
    *,
    only: int | None = None,
    strands: bool = True,
    ends: bool = True,
) -> list[list[Shape]]:
    """Return the shapes of each layer, the lowest first; `only` one bundle when something else lies between."""
    parts = [each for each in pieces(cord, start, end) if only in {None, each.bundle}]
    digits = 2 if cord.here(start).bundle >= SHOWS_STRANDS else 1
    layers: list[list[Shape]] = []
    for layer, word in enumerate(_LAYERS[cord.bundles]):
        held = [each for each in parts if each.layer == layer]
        shapes: list[Shape] = []
        for bundle in range(cord.bundles):
            own = [each for each in held if each.bundle == bundle]
            if own:
                shapes += _bundle(cord, own, cord.names[bundle], word, digits, strands=strands)
        sides = [side for each in held for side in _sides(cord, each)]
        if ends:
            sides += [cut for each in held for cut in _cuts(cord, each, start, end)]
        if sides:
            shapes.append(Many(tuple(sides), Pen("ink", 1.0), role=f"edge-{word}", digits=digits))
        layers.append(shapes)
    return layers


def _bundle(cord: Laid, own: list[Piece], name: Name, word: str, digits: int, *, strands: bool) -> list[Shape]:
    """Fill the pieces of a bundle within a layer, and draw its strands."""
    fills = tuple(_outline(cord, each) for each in own)
    shapes: list[Shape] = [Many(fills, None, name, closed=True, role=f"{name}-{word}", digits=digits)]
    if strands and cord.here(own[0].start).bundle >= SHOWS_STRANDS:
        lines = tuple(line for each in own for line in strand_lines(cord, each, _LINES))
        if lines:
            shapes.append(Many(lines, _STRAND[name], role=f"strand-{name}-{word}"))
    return shapes


def _outline(cord: Laid, piece: Piece) -> tuple[Point, tuple[Step, ...]]:
    """Return the outline of a piece, a hair longer than it is so that no seam shows."""
    count = cubics(cord, piece)
    first, last = piece.start - _OVER, piece.end + _OVER
    start, there = traced(lambda s: cord.beside(s, piece.bundle, 1.0), first, last, count)
    turn, back = traced(lambda s: cord.beside(s, piece.bundle, -1.0), last, first, count)
    return start, (*there, To(turn), *back)


def _sides(cord: Laid, piece: Piece) -> list[tuple[Point, tuple[Step, ...]]]:
    """Return both sides of a piece, left then right, in the same stations."""
    count = cubics(cord, piece)
    return [
        traced(lambda s, share=share: cord.beside(s, piece.bundle, share), piece.start, piece.end, count)  # type: ignore[misc]
        for share in (1.0, -1.0)
    ]


def _cuts(cord: Laid, piece: Piece, start: float, end: float) -> list[tuple[Point, tuple[Step, ...]]]:
    """Return lines across a piece where the cord is cut."""
    at = [each for each in {piece.start, piece.end} & {start, end} if 0.0 <= each <= cord.way.length]
    return [(cord.beside(s, piece.bundle, 1.0), (To(cord.beside(s, piece.bundle, -1.0)),)) for s in sorted(at)]


def _halo(cord: Laid, start: float, end: float) -> Path:
    """Return a rim of ground as long as the cord and a little wider."""
    half, count = cord.thickness / 2.0 + 2.5, max(1, round((end - start) / 12.0))
    first, there = traced(lambda s: cord.way.aside(s, half), start, end, count)
    turn, back = traced(lambda s: cord.way.aside(s, -half), end, start, count)
    return Path(first, (*there, To(turn), *back), None, "ground", closed=True)
