"""A laid cord as shapes, from its lowest layer up."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.draw import Box, Many, Path, Pen, To
from calc.draw.cord.fibres import strand_lines
from calc.draw.cord.pieces import Piece, cubics, pieces
from calc.draw.cord.traced import traced

if TYPE_CHECKING:
    from calc.draw import PathStep, Point, Shape
    from calc.draw.cord.laid import Laid, Name

SHOWS_STRANDS = 10.0
"""Diameter of a bundle from which its strands are drawn, in drawing units."""
_LINES = 7
_LAYERS = {1: ("front",), 2: ("back", "front"), 3: ("back", "middle", "front")}
_STRAND: dict[Name, Pen] = {"a": Pen("ground", 0.8), "b": Pen("quiet", 0.7), "c": Pen("quiet", 0.7)}
_OVER = 0.35
_EDGE = 1.0
"""Thickness of the line along both sides of a bundle."""


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
    """Return the shapes of each layer, the lowest first.

    Parameters
    ----------
    cord : Laid
        What is drawn.
    start, end : float
        Running lengths to draw between.
    only : int or None
        One bundle, when something else lies between the bundles; None for all.
    strands, ends : bool
        As for `painted`.
    """
    parts = [each for each in pieces(cord, start, end) if only in {None, each.bundle}]
    layers: list[list[Shape]] = []
    for layer, word in enumerate(_LAYERS[cord.bundles]):
        held = [each for each in parts if each.layer == layer]
        shapes: list[Shape] = []
        for bundle in range(cord.bundles):
            for own in _apart(cord, [each for each in held if each.bundle == bundle]):
                shapes += _bundle(cord, own, cord.names[bundle], word, strands=strands)
        sides = [] if _even(cord) else [side for each in held for side in _sides(cord, each)]
        if ends:
            sides += [cut for each in held for cut in _cuts(cord, each, start, end)]
        if sides:
            shapes.append(Many(tuple(sides), Pen("ink", _EDGE), role=f"edge-{word}"))
        layers.append(shapes)
    return layers


def _even(cord: Laid) -> bool:
    """Tell whether the bundles are equally thick all along, so that a band of that thickness draws them."""
    return len({each.bundle for each in cord.stations}) == 1


def _apart(cord: Laid, own: list[Piece]) -> list[list[Piece]]:
    """Part the pieces of a bundle so that none lies over another of its group, as where the legs of a loop meet."""
    groups: list[tuple[list[Piece], list[Box]]] = []
    for piece in own:
        spots = [cord.axis(piece.start + (piece.end - piece.start) * k / 4.0, piece.bundle) for k in range(5)]
        box = Box.of(spots).grown(cord.here(piece.start).bundle / 2.0)
        if not groups or any(box.meets(each) for each in groups[-1][1]):
            groups.append(([], []))
        groups[-1][0].append(piece)
        groups[-1][1].append(box)
    return [pieces for pieces, _ in groups]


def _bundle(cord: Laid, own: list[Piece], name: Name, word: str, *, strands: bool) -> list[Shape]:
    """Draw pieces of a bundle within a layer, and their strands; the sides of a band are the rim it leaves."""
    shapes: list[Shape] = []
    if _even(cord):
        thick = cord.stations[0].bundle
        rims, bands = (tuple(line(cord, each) for each in own) for line in (_axis, _band))
        shapes.append(Many(rims, Pen("ink", thick + _EDGE, cap="butt"), role=f"rim-{word}"))
        shapes.append(Many(bands, None, name, role=f"{name}-{word}", band=thick - _EDGE))
    else:
        outlines = tuple(_outline(cord, each) for each in own)
        shapes.append(Many(outlines, None, name, closed=True, role=f"{name}-{word}"))
    if strands and cord.here(own[0].start).bundle >= SHOWS_STRANDS:
        lines = tuple(line for each in own for line in strand_lines(cord, each, _LINES, _STRAND[name].weight + _EDGE))
        if lines:
            shapes.append(Many(lines, _STRAND[name], role=f"strand-{name}-{word}"))
    return shapes


def _axis(cord: Laid, piece: Piece) -> tuple[Point, tuple[PathStep, ...]]:
    """Return the middle line of a piece."""
    return traced(lambda s: cord.axis(s, piece.bundle), piece.start, piece.end, cubics(cord, piece))


def _band(cord: Laid, piece: Piece) -> tuple[Point, tuple[PathStep, ...]]:
    """Return the middle line of a piece, a hair longer where it comes up from a lower layer so that no seam shows."""
    begun, steps = _axis(cord, piece)
    if piece.layer == 0:
        return begun, steps
    first, last = (cord.axis(at, piece.bundle) for at in (piece.start - _OVER, piece.end + _OVER))
    return first, (To(begun), *steps, To(last))


def _outline(cord: Laid, piece: Piece) -> tuple[Point, tuple[PathStep, ...]]:
    """Return the outline of a piece: its sides joined, a hair longer where it comes up from a lower layer."""
    (begun, there), (turn, back) = _sides(cord, piece)
    if piece.layer == 0:
        return begun, (*there, To(turn), *back)
    first, last = piece.start - _OVER, piece.end + _OVER
    corners = [(cord.beside(at, piece.bundle, 1.0), cord.beside(at, piece.bundle, -1.0)) for at in (first, last)]
    over = (To(corners[1][0]), To(corners[1][1]), To(turn))
    return corners[0][0], (To(begun), *there, *over, *back, To(corners[0][1]))


def _sides(cord: Laid, piece: Piece) -> list[tuple[Point, tuple[PathStep, ...]]]:
    """Return both sides of a piece: there on the left, back on the right."""
    count = cubics(cord, piece)
    return [
        traced(lambda s: cord.beside(s, piece.bundle, 1.0), piece.start, piece.end, count),
        traced(lambda s: cord.beside(s, piece.bundle, -1.0), piece.end, piece.start, count),
    ]


def _cuts(cord: Laid, piece: Piece, start: float, end: float) -> list[tuple[Point, tuple[PathStep, ...]]]:
    """Return lines across a piece where the cord is cut."""
    at = [each for each in {piece.start, piece.end} & {start, end} if 0.0 <= each <= cord.way.length]
    return [(cord.beside(s, piece.bundle, 1.0), (To(cord.beside(s, piece.bundle, -1.0)),)) for s in sorted(at)]


def _halo(cord: Laid, start: float, end: float) -> Path:
    """Return a rim of ground as long as the cord and a little wider."""
    half, count = cord.thickness / 2.0 + 2.5, max(1, round((end - start) / 12.0))
    first, there = traced(lambda s: cord.way.aside(s, half), start, end, count)
    turn, back = traced(lambda s: cord.way.aside(s, -half), end, start, count)
    return Path(first, (*there, To(turn), *back), None, "ground", closed=True)
