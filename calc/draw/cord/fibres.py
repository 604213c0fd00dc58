"""Strands seen on a bundle: lines that wind round it, drawn where they face the eye."""

from __future__ import annotations

from math import ceil, cos, pi, sin
from typing import TYPE_CHECKING

from calc.draw.cord.traced import traced

if TYPE_CHECKING:
    from calc.draw import PathStep, Point
    from calc.draw.cord.laid import Laid
    from calc.draw.cord.pieces import Piece

_FACING = 0.12
_STEP = 1.5
_LEAST = 2.5
_PER_CURVE = 1.6


def strand_lines(cord: Laid, piece: Piece, lines: int, edge: float) -> list[tuple[Point, tuple[PathStep, ...]]]:
    """Return the visible strand lines of a piece.

    Parameters
    ----------
    cord : Laid
    piece : Piece
    lines : int, >= 1
        Round the whole bundle.
    edge : float
        How much of the bundle's thickness they leave to the lines along its sides.
    """
    share = max(0.0, 1.0 - edge / cord.here(piece.start).bundle)
    found: list[tuple[Point, tuple[PathStep, ...]]] = []
    for line in range(lines):
        shift = 2.0 * pi * line / lines + 0.4

        def angle(at: float, shift: float = shift) -> float:
            return cord.strand(at) + shift

        def point(at: float, shift: float = shift) -> Point:
            return cord.beside(at, piece.bundle, share * cos(cord.strand(at) + shift))

        count = max(1, ceil((piece.end - piece.start) / _STEP))
        begun: float | None = None
        for index in range(count + 1):
            at = piece.start + (piece.end - piece.start) * index / count
            faces = sin(angle(at)) > _FACING
            if faces and begun is None:
                begun = at
            if begun is not None and (not faces or index == count):
                if at - begun > _LEAST:
                    turned = abs(angle(at) - angle(begun)) + abs(cord.phase(at, 0) - cord.phase(begun, 0))
                    found.append(traced(point, begun, at, max(1, ceil(turned / _PER_CURVE), ceil((at - begun) / 60.0))))
                begun = None
    return found
