"""A smooth bent line through points that were marked by hand: its slope and bend along it, and how sure they are."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from math import atan2, cos, exp, hypot, log, pi, sin, sqrt
from typing import TYPE_CHECKING, TypeAlias

from calc.errors import DomainError, Problem, require
from calc.numerics import solve_linear

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

Point: TypeAlias = tuple[float, float]
_TERMS = 6
_PIECES = 48
_ROUNDS, _EAGER = 40, 8
"""After the second, steps are halved: a tap between two feet else sends the line to and fro."""
_CLOSE = 1e-5
_ANY = 100.0
"""How far what nothing is known of may be from a first guess, in lengths of the line or radians."""
_UNEVEN = (0.8, 0.6, 0.45, 0.3, 0.2)
"""How far bend may stray from even, term by term, beside the whole bend: own rule, wide enough for a limb that bends
by its handle alone. [-]"""
_LEAST_RAD = 0.1
"""A line that is bent less may stray as if it were bent so far. [rad]"""
_FEWEST = 4
_SMALL_STEP = 0.1
"""Slopes are taken over so much of a standard deviation."""


@dataclass(frozen=True, slots=True)
class Marked:
    """A point that was marked.

    Attributes
    ----------
    at : (float, float)
        Where.
    off : float, > 0
        How far it may be off, across and along, as a standard deviation.
    """

    at: Point
    off: float


@dataclass(frozen=True, slots=True)
class BentLine:
    """A line from its start to its end by its slope along it; places on it go from 0 to 1.

    Attributes
    ----------
    told : tuple of float
        Where it starts, x and y; the logarithm of its length; its slope at the start [rad]; then the whole bend and
        the terms by which the bend strays from even [rad].
    unsure : tuple of tuple of float
        Covariance of these.
    square : float
        How far the taps are off it, beside what was told of them: the sum of squares. [-]
    free : float
        How many such squares even taps that are off as told would leave. [-]
    """

    told: tuple[float, ...]
    unsure: tuple[tuple[float, ...], ...]
    square: float
    free: float

    @property
    def length(self) -> float:
        """How long it is."""
        return _length(self.told)

    def slope(self, place: float) -> float:
        """Return its slope at a place [rad].

        Parameters
        ----------
        place : float
            0 at its start, 1 at its end.
        """
        return slope_of(self.told, place)

    def points(self, count: int = _PIECES) -> tuple[Point, ...]:
        """Return points along it, the first at its start and the last at its end.

        Parameters
        ----------
        count : int, > 0
            How many pieces they part it into; must divide 48.
        """
        return tuple(each.at for each in _traced(self.told)[:: _PIECES // count])

    def sure(self, answer: Callable[[tuple[float, ...]], float]) -> tuple[float, float]:
        """Return a figure of it, and the standard deviation that the taps leave.

        Parameters
        ----------
        answer : callable
            Takes what ``told`` holds.
        """
        value, variance = self.variances(lambda told: {"it": answer(told)})["it"]
        return value, sqrt(variance)

    def variances(self, answer: Callable[[tuple[float, ...]], Mapping[str, float]]) -> dict[str, tuple[float, float]]:
        """Return figures of it, each with the variance that the taps leave.

        Parameters
        ----------
        answer : callable
            Takes what ``told`` holds, gives one number a figure.
        """
        here = answer(self.told)
        slopes: dict[str, list[float]] = {key: [] for key in here}
        for k, row in enumerate(self.unsure):
            step = _SMALL_STEP * sqrt(row[k])
            up, down = (answer((*self.told[:k], self.told[k] + by, *self.told[k + 1 :])) for by in (step, -step))
            for key, found in slopes.items():
                found.append((up[key] - down[key]) / (2.0 * step))
        return {
            key: (
                here[key],
                max(
                    0.0,
                    sum(
                        a * b * c
                        for a, row in zip(each, self.unsure, strict=True)
                        for b, c in zip(each, row, strict=True)
                    ),
                ),
            )
            for key, each in slopes.items()
        }


def slope_of(told: Sequence[float], place: float) -> float:
    """Return the slope at a place of a line that is told as `BentLine` tells it [rad].

    Parameters
    ----------
    told : sequence of float
        As of a `BentLine`.
    place : float
        0 at its start, 1 at its end.

    Notes
    -----
    Source: the sum of terms of `fit_line` (``derived:photo``).
    """
    return told[3] + sum(each * term for each, term in zip(told[4:], _bends(place), strict=True))


def bend_of(told: Sequence[float], place: float) -> float:
    """Return how fast the slope of a line turns at a place [rad a length of the line].

    Parameters
    ----------
    told : sequence of float
        As of a `BentLine`.
    place : float
        0 at its start, 1 at its end.

    Notes
    -----
    Source: the sum of terms of `fit_line` (``derived:photo``).
    """
    return sum(each * term for each, term in zip(told[4:], _legendre(2.0 * place - 1.0), strict=False))


def end_of(told: Sequence[float]) -> Point:
    """Return where a line ends.

    Parameters
    ----------
    told : sequence of float
        As of a `BentLine`.

    Notes
    -----
    Source: the sum of terms of `fit_line` (``derived:photo``).
    """
    x, y, piece = told[0], told[1], exp(told[2]) / _PIECES / 3.0
    for k in range(_PIECES + 1):
        weight = piece * (1.0 if k in {0, _PIECES} else 4.0 if k % 2 else 2.0)
        slope = slope_of(told, k / _PIECES)
        x, y = x + weight * cos(slope), y + weight * sin(slope)
    return x, y


def fit_line(taps: Sequence[Marked], start: BentLine | None = None) -> BentLine:
    """Return the smooth line through points that were marked, the first and the last of them its ends.

    Parameters
    ----------
    taps : sequence of Marked
        At least 4, in their order.
    start : BentLine, optional
        A line not far away, to begin with.

    Raises
    ------
    DomainError
        ``min`` with field ``taps`` for fewer, ``model`` with reason ``taps_crooked`` where no smooth line is near them.

    Notes
    -----
    Source: least squares over how far each tap is off the line, both ways at its ends (``derived:photo``). The slope
    is a sum of integrals of Legendre polynomials along the line. Terms of higher order are held down as limbs bend:
    the spread then covers what a few taps cannot show.

    Examples
    --------
    A quarter of a circle of radius 1, marked at seven places:

    >>> from math import pi
    >>> turns = [k * pi / 12 for k in range(7)]
    >>> found = fit_line([Marked((sin(turn), 1.0 - cos(turn)), 0.001) for turn in turns])
    >>> round(found.length, 3), round(found.slope(1.0) - found.slope(0.0), 3)
    (1.571, 1.571)
    """
    require("taps", float(len(taps)), low=_FEWEST)
    told = list((start or _first(taps)).told)
    for count in range(_ROUNDS):
        normal, right, _ = _equations(taps, told)
        step = solve_linear([list(row) for row in normal], right)
        share = 1.0 if count < _EAGER else 0.5
        told = [value + share * each for value, each in zip(told, step, strict=True)]
        if not hypot(*step[3:]) < _ANY:
            raise DomainError(Problem(field="taps", code="model", reason="taps_crooked"))
        if hypot(*step[2:]) < _CLOSE:
            break
    else:
        raise DomainError(Problem(field="taps", code="model", reason="taps_crooked"))
    normal, _, (square, free) = _equations(taps, told)
    size = len(told)
    columns = [solve_linear([list(row) for row in normal], [float(i == k) for i in range(size)]) for k in range(size)]
    unsure = tuple(tuple((columns[j][i] + columns[i][j]) / 2.0 for j in range(size)) for i in range(size))
    return BentLine(tuple(told), unsure, square, free)


@dataclass(frozen=True, slots=True)
class _Place:
    """A place on a line: where it is, its slope [rad], and how it moves with each bend."""

    at: Point
    slope_rad: float
    moves: tuple[Point, ...]


@cache
def _bends(place: float) -> tuple[float, ...]:
    """Return the integrals of Legendre's polynomials from the start to a place, the first one 1 over the whole."""
    values = _legendre(2.0 * place - 1.0)
    later = [(values[k + 1] - values[k - 1]) / (2 * k + 1) / 2.0 for k in range(1, _TERMS)]
    return (place, *later)


def _legendre(x: float) -> list[float]:
    """Return Legendre's polynomials at a place between -1 and 1."""
    values = [1.0, x]
    for k in range(1, _TERMS):
        values.append(((2 * k + 1) * x * values[k] - k * values[k - 1]) / (k + 1))
    return values


def _length(told: Sequence[float]) -> float:
    return exp(told[2])


def _traced(told: Sequence[float]) -> list[_Place]:
    """Return places along a line, from its start to its end."""
    piece = _length(told) / _PIECES
    at, moves = (told[0], told[1]), tuple((0.0, 0.0) for _ in range(_TERMS))
    found = [_Place(at, slope_of(told, 0.0), moves)]
    for k in range(1, 2 * _PIECES, 2):
        ends = [(1.0, (k - 1) / (2 * _PIECES)), (4.0, k / (2 * _PIECES)), (1.0, (k + 1) / (2 * _PIECES))]
        slopes = [(weight * piece / 6.0, slope_of(told, place), _bends(place)) for weight, place in ends]
        over, up = (sum(weight * of(slope) for weight, slope, _ in slopes) for of in (cos, sin))
        at = (at[0] + over, at[1] + up)
        moves = tuple(
            (
                x - sum(weight * sin(slope) * terms[i] for weight, slope, terms in slopes),
                y + sum(weight * cos(slope) * terms[i] for weight, slope, terms in slopes),
            )
            for i, (x, y) in enumerate(moves)
        )
        found.append(_Place(at, slopes[-1][1], moves))
    return found


def _first(taps: Sequence[Marked]) -> BentLine:
    """Return the arc through the ends that is as far off their chord as the middle tap."""
    (x0, y0), (x1, y1), (x, y) = taps[0].at, taps[-1].at, taps[len(taps) // 2].at
    chord = hypot(x1 - x0, y1 - y0)
    if not chord > 0.0:
        raise DomainError(Problem(field="taps", code="model", reason="taps_crooked"))
    off = ((x1 - x0) * (y - y0) - (y1 - y0) * (x - x0)) / chord
    bend = -8.0 * off / chord
    told = (x0, y0, log(chord), atan2(y1 - y0, x1 - x0) - bend / 2.0, bend, *(0.0 for _ in _UNEVEN))
    return BentLine(told, (), 0.0, 0.0)


def _equations(
    taps: Sequence[Marked], told: Sequence[float]
) -> tuple[list[list[float]], list[float], tuple[float, float]]:
    """Return the normal equations of a small change of a line; the taps' misfit squared, and how many may vary."""
    size = len(told)
    normal, right = [[0.0] * size for _ in range(size)], [0.0] * size
    curve = _traced(told)
    square = 0.0

    def add(slopes: Sequence[float], wrong: float, off: float) -> None:
        for i, one in enumerate(slopes):
            if one:
                right[i] += one * wrong / off**2
                for j, other in enumerate(slopes):
                    normal[i][j] += one * other / off**2

    for k, tap in enumerate(taps):
        end = {0: curve[0], len(taps) - 1: curve[-1]}.get(k)
        place = end or _foot(curve, tap.at)
        ways = [place.slope_rad + pi / 2.0]
        if end:
            ways.append(place.slope_rad)
        x, y = place.at[0] - told[0], place.at[1] - told[1]
        for way in ways:
            c, s = cos(way), sin(way)
            slopes = [c, s, c * x + s * y, s * x - c * y, *(c * u + s * v for u, v in place.moves)]
            wrong = c * (tap.at[0] - place.at[0]) + s * (tap.at[1] - place.at[1])
            square += (wrong / tap.off) ** 2
            add(slopes, wrong, tap.off)
    whole = max(abs(told[4]), _LEAST_RAD)
    for k, share in enumerate(_UNEVEN):
        add([float(i == 5 + k) for i in range(size)], -told[5 + k], share * whole)
    add([float(i == 4) for i in range(size)], -told[4], _ANY)
    return normal, right, (square, max(0.0, len(taps) + 2.0 - 6.0))


def _foot(curve: Sequence[_Place], at: Point) -> _Place:
    """Return the place on a line that is nearest to a point."""
    near = min(range(len(curve)), key=lambda k: hypot(curve[k].at[0] - at[0], curve[k].at[1] - at[1]))
    here = curve[near]
    past = (at[0] - here.at[0]) * cos(here.slope_rad) + (at[1] - here.at[1]) * sin(here.slope_rad)
    other = curve[min(max(near + (1 if past > 0.0 else -1), 0), len(curve) - 1)]
    gap = hypot(other.at[0] - here.at[0], other.at[1] - here.at[1])
    share = min(1.0, abs(past) / gap) if gap else 0.0
    turn = share * (other.slope_rad - here.slope_rad)
    way = here.slope_rad + turn / 2.0
    long = share * gap if past > 0.0 else -share * gap
    return _Place(
        (here.at[0] + long * cos(way), here.at[1] + long * sin(way)),
        here.slope_rad + turn,
        tuple(
            (a + share * (c - a), b + share * (d - b)) for (a, b), (c, d) in zip(here.moves, other.moves, strict=True)
        ),
    )
