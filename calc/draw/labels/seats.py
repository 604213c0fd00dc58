"""Seats for words along a line: near what they name, never over one another."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import product
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

_LEADER = 3.0
_NEAR = 22.0
_FAR = 8.0
_FEW = 5
_HELD = 1e-9


@dataclass(frozen=True, slots=True)
class Seat:
    """Words that want their middle somewhere.

    Parameters
    ----------
    wanted : float
        Where.
    width : float
        Room they take along the line.
    """

    wanted: float
    width: float


@dataclass(frozen=True, slots=True)
class LabelPlace:
    """Where words come to stand.

    Parameters
    ----------
    middle : float
        Of the words, along the line.
    lane : int
        0 is the nearest to what is named.
    """

    middle: float
    lane: int


def place_labels(
    seats: Sequence[Seat], low: float, high: float, gap: float = 6.0, most: int = 3
) -> tuple[LabelPlace, ...]:
    """Return places in the order of the seats.

    In a lane no two words come nearer than the gap, and a leader on its way to a farther lane passes between
    words. Farther lanes are used only where the nearest would carry words too far from what they name.

    Parameters
    ----------
    seats : sequence of Seat
        From left to right.
    low, high : float
        Nothing reaches beyond.
    gap : float
        Between words.
    most : int
        Lanes to use at most.

    Raises
    ------
    ValueError
        When they cannot be placed in that many lanes.

    Examples
    --------
    Two that want the same spot share it out:

    >>> place_labels([Seat(50.0, 20.0), Seat(50.0, 20.0)], 0.0, 100.0)
    (LabelPlace(middle=37.0, lane=0), LabelPlace(middle=63.0, lane=0))
    """
    if not seats:
        return ()
    least = max(0.0, _moved_least(seats, (low, high), gap) - _NEAR)
    best: tuple[float, tuple[LabelPlace, ...]] | None = None
    for lanes in _lanes(len(seats), most):
        if best is not None and best[0] <= least + _FAR * sum(lanes) + _HELD:
            break
        middles = _solve(seats, lanes, (low, high), gap)
        if middles is None:
            continue
        moved = max(abs(x - each.wanted) for x, each in zip(middles, seats, strict=True))
        cost = max(0.0, moved - _NEAR) + _FAR * sum(lanes)
        if best is None or cost < best[0]:
            best = cost, tuple(LabelPlace(x, lane) for x, lane in zip(middles, lanes, strict=True))
    if best is None:
        msg = f"place_labels: got {len(seats)} seats of {sum(each.width for each in seats):.0f}, expected less"
        raise ValueError(msg)
    return best[1]


@lru_cache(maxsize=32)
def _lanes(count: int, most: int) -> tuple[tuple[int, ...], ...]:
    """Return ways to share seats among lanes, nearest first: every way for a few seats, by turns for many."""
    if count <= _FEW:
        return tuple(sorted(product(range(most), repeat=count), key=sum))
    turns = product(range(1, most + 1), (0, 1))
    return tuple(tuple((index + turn) % among for index in range(count)) for among, turn in turns)


def _solve(seats: Sequence[Seat], lanes: Sequence[int], bounds: tuple[float, float], gap: float) -> list[float] | None:
    """Return middles half-way between the leftmost and the rightmost fair ones, None when there is no room.

    The rules are differences of middles, so the mean of two sets of middles that keep them keeps them too.
    """
    indices = range(len(seats))
    apart = [[_apart(seats, lanes, i, j, gap) for j in range(i)] for i in indices]
    least, most = _limits(seats, apart, bounds)
    if any(low > high + _HELD for low, high in zip(least, most, strict=True)):
        return None
    first, last = list(least), list(most)
    for i in indices:
        own = bounds[0] + seats[i].width / 2.0
        first[i] = max([own, min(seats[i].wanted, most[i]), *(first[j] + apart[i][j] for j in range(i))])
    for i in reversed(indices):
        own = bounds[1] - seats[i].width / 2.0
        last[i] = min([own, max(seats[i].wanted, least[i]), *(last[j] - apart[j][i] for j in indices[i + 1 :])])
    return [(a + b) / 2.0 for a, b in zip(first, last, strict=True)]


def _moved_least(seats: Sequence[Seat], bounds: tuple[float, float], gap: float) -> float:
    """Return how far some middle is moved at least, in whatever lanes."""
    closest = [[_closest(one, other, gap) for other in seats[:i]] for i, one in enumerate(seats)]
    ends = zip(seats, *_limits(seats, closest, bounds), strict=True)
    return max(max(low - each.wanted, each.wanted - high) for each, low, high in ends)


def _limits(
    seats: Sequence[Seat], apart: list[list[float]], bounds: tuple[float, float]
) -> tuple[list[float], list[float]]:
    """Return the leftmost and the rightmost middles that keep apart, each by itself."""
    least, most = [bounds[0] + each.width / 2.0 for each in seats], [bounds[1] - each.width / 2.0 for each in seats]
    for i, aways in enumerate(apart):
        for j, away in enumerate(aways):
            least[i] = max(least[i], least[j] + away)
    for i in range(len(seats) - 1, 0, -1):
        for j, away in enumerate(apart[i]):
            most[j] = min(most[j], most[i] - away)
    return least, most


def _closest(one: Seat, other: Seat, gap: float) -> float:
    """Return how far apart two middles must be at least, in whatever lanes."""
    return min(one.width + other.width + 2.0 * gap, min(one.width, other.width) + 3.0 * _LEADER) / 2.0


def _apart(seats: Sequence[Seat], lanes: Sequence[int], i: int, j: int, gap: float) -> float:
    """Return how far apart two middles must be at least, in the lanes both of them take up."""
    if lanes[i] == lanes[j]:
        return seats[i].width / 2.0 + seats[j].width / 2.0 + gap
    nearer = seats[i] if lanes[i] < lanes[j] else seats[j]
    return nearer.width / 2.0 + _LEADER / 2.0 + _LEADER
