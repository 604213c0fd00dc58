"""What readings tell of causes that were known but roughly, where all readings share a level nobody knows."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

_ROUNDS = 12
_CLOSED = 1e-5


@dataclass(frozen=True, slots=True)
class Posterior:
    """Causes as readings leave them, in units of how unsure they were: 0 and 1 before.

    Attributes
    ----------
    at : tuple of float
        Where they fit best.
    moves : tuple of tuple of float
        Independent moves of all causes together, each as long as it is unsure; each cause alone where nothing was
        told.
    """

    at: tuple[float, ...]
    moves: tuple[tuple[float, ...], ...]


def update(
    off: Callable[[Sequence[float]], Sequence[float]], slopes: Sequence[Sequence[float]], weights: Sequence[float]
) -> Posterior:
    """Return what readings tell of causes.

    Parameters
    ----------
    off : callable
        Takes causes, gives every reading less what it should be, all but for one common level.
    slopes : sequence of sequence of float
        How what it should be grows with each cause: a row for each reading.
    weights : sequence of float, > 0
        1 / variance of each reading.

    Notes
    -----
    Source: least squares of readings and causes together, the level free; the causes' covariance
    ``1 / (1 + slopes' weights slopes)`` is kept as a root, which each reading shortens along one direction (J. E.
    Potter, 1963, from memory).

    Examples
    --------
    Two readings a level apart by twice a cause, each off by 1:

    >>> found = update(lambda at: [0.0 - 0.0, 1.0 - 2.0 * at[0]], [[0.0], [2.0]], [1.0, 1.0])
    >>> [round(each, 3) for each in (found.at[0], found.moves[0][0])]
    [0.333, 0.577]
    """
    whole, count = sum(weights), len(slopes[0])
    means = [sum(w * row[k] for w, row in zip(weights, slopes, strict=True)) / whole for k in range(count)]
    rows = [
        [sqrt(w) * (slope - mean) for slope, mean in zip(row, means, strict=True)]
        for w, row in zip(weights, slopes, strict=True)
    ]
    root = _root(rows)
    at = [0.0] * count
    for _ in range(_ROUNDS):
        wrong = off(at)
        level = sum(w * each for w, each in zip(weights, wrong, strict=True)) / whole
        scaled = [sqrt(w) * (each - level) for w, each in zip(weights, wrong, strict=True)]
        pull = [sum(row[k] * each for row, each in zip(rows, scaled, strict=True)) - at[k] for k in range(count)]
        along = [sum(row[k] * each for row, each in zip(root, pull, strict=True)) for k in range(count)]
        step = [sum(a * b for a, b in zip(row, along, strict=True)) for row in root]
        at = [a + b for a, b in zip(at, step, strict=True)]
        if max(map(abs, step)) < _CLOSED:
            break
    return Posterior(tuple(at), tuple(zip(*root, strict=True)))


def _root(rows: list[list[float]]) -> list[list[float]]:
    """Return a root of the inverse of 1 + rows' rows."""
    count = len(rows[0])
    root = [[float(i == k) for k in range(count)] for i in range(count)]
    for row in rows:
        along = [sum(root[i][k] * row[i] for i in range(count)) for k in range(count)]
        size = sum(each * each for each in along)
        if size == 0.0:
            continue
        share = (1.0 - 1.0 / sqrt(1.0 + size)) / size
        for line in root:
            by = share * sum(a * b for a, b in zip(line, along, strict=True))
            line[:] = [a - by * b for a, b in zip(line, along, strict=True)]
    return root
