"""Least squares: uncertain causes narrowed down by readings."""

from __future__ import annotations

from math import sqrt
from typing import TYPE_CHECKING

from calc.numerics.moves import Moves

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from calc.numerics.spread import Spread

_ROUNDS, _STEPS, _HALVINGS = 4, 12, 6
_CLOSED = 1e-6
_FAR = 0.1
"""Slopes are taken again where the best fit lies further from where they were taken. [standard moves]"""
_WAY, _NEAR = 1.0, 0.2
"""Steps for slopes: at first, and near the best fit. [standard moves]"""


def conditioned(
    causes: Mapping[str, Spread], off: Callable[[Mapping[str, float]], Sequence[float]]
) -> Moves[Mapping[str, float]]:
    """Return what readings leave of causes.

    Parameters
    ----------
    causes : mapping of str to Spread
        Before the readings.
    off : callable
        Takes causes, gives how far every reading would be off, in units of how unsure it is.

    Notes
    -----
    Source: least squares of readings and causes together by Gauss and Newton, the slopes taken over the spread of each
    cause at first and then where it fits. The covariance that is left, ``1 / (1 + slopes' slopes)``, is kept as a
    root, which each reading shortens along one direction (J. E. Potter, 1963, from memory). A cause is off by its low
    or its high, whichever side it lies on; ends of the spread are brought to where the readings are off as the slopes
    say. What readings cannot tell apart stays as wide as it was.

    Examples
    --------
    A sum of two causes that was read as 3, within 1:

    >>> from calc.numerics.spread import Spread
    >>> found = conditioned({"a": Spread(-1, 0, 1), "b": Spread(-1, 0, 1)}, lambda at: [at["a"] + at["b"] - 3.0])
    >>> round(found.centre["a"], 3), round(found.spread(lambda at: at["a"] + at["b"]).high - 2.0, 3)
    (1.0, 0.816)
    """
    names = [name for name, cause in causes.items() if cause.low != cause.high]
    sure = {name: cause.value for name, cause in causes.items()}

    def at(place: Sequence[float]) -> dict[str, float]:
        found = dict(sure)
        for name, by in zip(names, place, strict=True):
            spread = causes[name]
            found[name] += by * ((spread.high - spread.value) if by > 0.0 else (spread.value - spread.low))
        return found

    place = [0.0] * len(names)
    wrong = list(off(at(place)))
    for turn in range(_ROUNDS):
        start = place
        rows = _slopes(lambda here: off(at(here)), place, _NEAR if turn else _WAY)
        root = _root(rows, len(names))
        for _ in range(_STEPS):
            step = _step(rows, root, wrong, place)
            place, wrong = _better(lambda here: list(off(at(here))), place, wrong, step)
            if max(map(abs, step), default=0.0) < _CLOSED:
                break
        if turn and max((abs(a - b) for a, b in zip(place, start, strict=True)), default=0.0) < _FAR:
            break
    ends = []
    for k, move in enumerate(zip(*root, strict=True)):
        low, high = (
            _bent(lambda here: off(at(here)), place, wrong, [side * by for by in move], (rows, root))
            for side in (-1.0, 1.0)
        )
        ends.append((f"{k}", at(low), at(high)))
    strayed = dict(zip(names, place, strict=True))
    return Moves(at(place), tuple(ends), sqrt(_square(place) + _square(wrong)), strayed)


def _step(
    rows: Sequence[Sequence[float]], root: list[list[float]], wrong: Sequence[float], place: Sequence[float]
) -> list[float]:
    """Return the step that makes least of readings so far off and causes that strayed so far."""
    count = len(place)
    pull = [sum(row[k] * each for row, each in zip(rows, wrong, strict=True)) + place[k] for k in range(count)]
    along = [sum(line[k] * each for line, each in zip(root, pull, strict=True)) for k in range(count)]
    return [-sum(a * b for a, b in zip(line, along, strict=True)) for line in root]


def _bent(
    off: Callable[[Sequence[float]], Sequence[float]],
    place: Sequence[float],
    wrong: Sequence[float],
    move: Sequence[float],
    slopes: tuple[list[list[float]], list[list[float]]],
) -> list[float]:
    """Return the end of a move, corrected for what the slopes did not say of the readings there."""
    rows, root = slopes
    there = [a + by for a, by in zip(place, move, strict=True)]
    said = (was + sum(a * by for a, by in zip(row, move, strict=True)) for row, was in zip(rows, wrong, strict=True))
    more = [found - each for found, each in zip(off(there), said, strict=True)]
    return [a + by for a, by in zip(there, _step(rows, root, more, [0.0] * len(there)), strict=True)]


def _better(
    off: Callable[[Sequence[float]], list[float]], place: list[float], wrong: list[float], step: list[float]
) -> tuple[list[float], list[float]]:
    """Return the place a step leads to, or a shorter one where that fits worse."""
    before = _square(place) + _square(wrong)
    share = 1.0
    for _ in range(_HALVINGS):
        there = [a + share * b for a, b in zip(place, step, strict=True)]
        found = off(there)
        if _square(there) + _square(found) <= before * (1.0 + 1e-12):
            return there, found
        share /= 2.0
    return place, wrong


def _square(values: Sequence[float]) -> float:
    return sum(each * each for each in values)


def _slopes(
    off: Callable[[Sequence[float]], Sequence[float]], place: Sequence[float], step: float
) -> list[list[float]]:
    """Return how each reading's misfit grows with each cause, by a step to both sides: a row a reading."""
    columns = []
    for k in range(len(place)):
        low, high = (off([each + side * step * (at == k) for at, each in enumerate(place)]) for side in (-1.0, 1.0))
        columns.append([(b - a) / (2.0 * step) for a, b in zip(low, high, strict=True)])
    return [list(row) for row in zip(*columns, strict=True)]


def _root(rows: list[list[float]], count: int) -> list[list[float]]:
    """Return a root of the inverse of 1 + rows' rows."""
    root = [[float(i == k) for k in range(count)] for i in range(count)]
    for row in rows:
        along = [sum(root[i][k] * row[i] for i in range(count)) for k in range(count)]
        size = _square(along)
        if size == 0.0:
            continue
        share = (1.0 - 1.0 / sqrt(1.0 + size)) / size
        for line in root:
            by = share * sum(a * b for a, b in zip(line, along, strict=True))
            line[:] = [a - by * b for a, b in zip(line, along, strict=True)]
    return root
