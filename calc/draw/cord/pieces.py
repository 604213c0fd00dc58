"""Bundles cut where one dives under another, so that painting from the lowest layer up gives the true order."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from calc.draw.cord.laid import Laid

_STEP = 1.0
_CLOSE = 1e-4
_STRAIGHT, _BENT = 78.0, 18.0


@dataclass(frozen=True, slots=True)
class Piece:
    """A stretch of one bundle within one layer.

    Parameters
    ----------
    bundle : int
        Which, from 0.
    layer : int
        How high it lies among the others, 0 the lowest.
    start, end : float
        Running lengths, in drawing units.
    """

    bundle: int
    layer: int
    start: float
    end: float


def pieces(cord: Laid, start: float, end: float) -> tuple[Piece, ...]:
    """Return all pieces of a cord between two running lengths.

    Parameters
    ----------
    cord : Laid
        What is cut.
    start, end : float
        Running lengths, start before end.
    """
    return tuple(each for bundle in range(cord.bundles) for each in _cut(cord, bundle, start, end))


def _cut(cord: Laid, bundle: int, start: float, end: float) -> Iterator[Piece]:
    count = max(1, ceil((end - start) / _STEP))
    begun, before = start, start
    layer = cord.layer(start + _CLOSE, bundle)
    for index in range(1, count + 1):
        at = start + (end - start) * index / count
        now = cord.layer(at - _CLOSE, bundle)
        if now != layer:
            change = _change(cord, bundle, (before, at), layer)
            if change - begun > _CLOSE:
                yield Piece(bundle, layer, begun, change)
            begun, layer = change, now
        before = at
    if end - begun > _CLOSE:
        yield Piece(bundle, layer, begun, end)


def _change(cord: Laid, bundle: int, between: tuple[float, float], layer: int) -> float:
    """Return where a bundle leaves a layer, by halving."""
    low, high = between
    while high - low > _CLOSE:
        middle = (low + high) / 2.0
        low, high = (middle, high) if cord.layer(middle, bundle) == layer else (low, middle)
    return high


def cubics(cord: Laid, piece: Piece) -> int:
    """Return how many cubics a side of a piece needs to look smooth.

    Parameters
    ----------
    cord : Laid
        What the piece was cut from.
    piece : Piece
        A longer or more twisted one needs more.
    """
    turned = abs(cord.phase(piece.end, piece.bundle) - cord.phase(piece.start, piece.bundle))
    here = cord.here((piece.start + piece.end) / 2.0)
    straight = (
        cord.way.toward(piece.start),
        cord.way.toward((piece.start + piece.end) / 2.0),
        cord.way.toward(piece.end),
    )
    bent = max(abs(a[0] * b[1] - a[1] * b[0]) for a in straight for b in straight) > 0.03
    by_turn = ceil(turned / (1.1 if here.radius > 8.0 else 1.65) - 1e-6)
    radii = [cord.here(piece.start + (piece.end - piece.start) * k / 4.0).radius for k in range(5)]
    if max(radii) - min(radii) > 1.0:
        bent = bent or any(each.eased for each in cord.stations)
    return max(1, by_turn, ceil((piece.end - piece.start) / (_BENT if bent else _STRAIGHT)))
