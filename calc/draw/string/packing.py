"""Where the strands of a round bundle lie when drawn: in rings, close to the closest there is."""

from __future__ import annotations

from functools import lru_cache
from math import cos, pi, sin
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from calc.draw import Point


def _ring(count: int) -> float:
    """Return the envelope of equal circles in one ring that touch their neighbours, in circle diameters."""
    return 1.0 if count == 1 else 1.0 + 1.0 / sin(pi / count)


@lru_cache(maxsize=256)
def _rings(count: int) -> tuple[float, tuple[int, ...]]:
    """Return the smallest envelope of rings within rings, with the strands in each from the outside in."""
    best: tuple[float, tuple[int, ...]] = (_ring(count), (count,))
    for outer in range(max(1, count // 2), count):
        inner, shared = _rings(count - outer)
        ratio = max(_ring(outer), inner + 2.0)
        if ratio < best[0] - 1e-12:
            best = ratio, (outer, *shared)
    return best


def packed(count: int) -> tuple[float, tuple[Point, ...]]:
    """Return envelope and middles of equal circles packed in a circle, in circle diameters.

    Parameters
    ----------
    count : int, >= 1

    Returns
    -------
    tuple
        The envelope's diameter, and the middles about its middle.

    Notes
    -----
    Source: own arrangement, each ring even and as far out as the envelope lets it, the rings within
    shared out best. At most a few hundredths wider than the tightest packings known; no circles overlap.

    Examples
    --------
    >>> ratio, middles = packed(7)
    >>> round(ratio, 9), len(middles)
    (3.0, 7)
    """
    ratio, rings = _rings(count)
    middles: list[Point] = []
    for index, share in enumerate(rings):
        away = (ratio - 1.0) / 2.0 - index if share > 1 else 0.0
        for place in range(share):
            angle = (2.0 * place + index % 2) * pi / share - pi / 2.0
            middles.append((away * cos(angle), away * sin(angle)))
    return ratio, tuple(middles)
