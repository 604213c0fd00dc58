"""A bow's own force against draw, as somebody read it off a scale: used where it is given, in place of the model."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from itertools import pairwise
from math import sin
from typing import TYPE_CHECKING

from calc.errors import DomainError, Problem, require
from calc.mechanics.bow.draw_force import DrawPoint, limb_state_at
from calc.numerics import Spread

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.mechanics.bow.bow import Bow


@dataclass(frozen=True, slots=True)
class ForceTable:
    """Draw and force, read by read, the first at brace.

    Parameters
    ----------
    draws_m : tuple of float
        Rising, from where brace height is measured. [m]
    forces_n : tuple of float, >= 0
        On the fingers; 0 at the first. [N]

    Raises
    ------
    DomainError
        ``missing`` for fewer than two reads; ``pair`` with reason ``table_order`` for draws that do not rise,
        ``table_slack`` for a force that is not 0 at brace; ``min`` and ``number`` otherwise.

    Examples
    --------
    >>> table = ForceTable((0.15, 0.40, 0.70), (0.0, 80.0, 170.0))
    >>> round(table.force_n(0.55))
    126
    """

    draws_m: tuple[float, ...]
    forces_n: tuple[float, ...]

    def __post_init__(self) -> None:
        for draw_m, force_n in zip(self.draws_m, self.forces_n, strict=True):
            require("draw_m", draw_m, low=0.0)
            require("force_n", force_n, low=0.0)
        if len(self.draws_m) < 2:
            raise DomainError(Problem(field="force_table", code="missing"))
        for before, after in pairwise(self.draws_m):
            if after <= before:
                raise _wrong("table_order", after)
        if self.forces_n[0] > 0.0:
            raise _wrong("table_slack", self.draws_m[0])

    def force_n(self, draw_m: float) -> float:
        """Return the force at a draw within the table [N].

        Raises
        ------
        DomainError
            ``pair`` with reason ``table_short`` outside it.
        """
        k, part = self._find(draw_m)
        h, (a, b), (p, q) = self._piece(k)
        rest = 1.0 - part
        ends = rest * rest * (1.0 + 2.0 * part) * a + part * part * (1.0 + 2.0 * rest) * b
        return ends + h * part * rest * (rest * p - part * q)

    def energy_j(self, draw_m: float) -> Spread:
        """Return the energy stored from brace to a draw, with how far two ways to add it up differ [J].

        Raises
        ------
        DomainError
            ``pair`` with reason ``table_short`` for a draw outside the table.

        Notes
        -----
        Source: integral of the monotone cubic through the reads (F. N. Fritsch, J. Butland, SIAM J. Sci. Stat.
        Comput. 5 (1984) 300, from memory). Low and high are as far away as the trapezoid rule, which cuts every
        bend short, is. Leaves out the scale's own error, and what a bow takes back as hysteresis.
        """
        last, part = self._find(draw_m)
        smooth = straight = 0.0
        for k in range(last + 1):
            h, (a, b), (p, q) = self._piece(k)
            u = part if k == last else 1.0
            smooth += h * _area(u, a, b, h * p, h * q)
            straight += h * (u * a + u * u * (b - a) / 2.0)
        off = abs(smooth - straight)
        return Spread(smooth - off, smooth, smooth + off)

    def _find(self, draw_m: float) -> tuple[int, float]:
        """Return the interval of a draw, and how far along it is."""
        first, last = self.draws_m[0], self.draws_m[-1]
        if not first <= draw_m <= last:
            raise _wrong("table_short", last if draw_m > last else first)
        k = min(bisect_right(self.draws_m, draw_m), len(self.draws_m) - 1) - 1
        return k, (draw_m - self.draws_m[k]) / (self.draws_m[k + 1] - self.draws_m[k])

    def _piece(self, k: int) -> tuple[float, tuple[float, float], tuple[float, float]]:
        """Return an interval's width, and force and slope at its ends."""
        return (
            self.draws_m[k + 1] - self.draws_m[k],
            (self.forces_n[k], self.forces_n[k + 1]),
            (self._slope(k), self._slope(k + 1)),
        )

    def _slope(self, k: int) -> float:
        """Return the slope at a read that keeps the curve from overshooting: a weighted harmonic mean."""
        widths = [b - a for a, b in pairwise(self.draws_m)]
        rises = [(b - a) / w for (a, b), w in zip(pairwise(self.forces_n), widths, strict=True)]
        if len(rises) == 1:
            return rises[0]
        if k in {0, len(rises)}:
            near, far = (0, 1) if k == 0 else (-1, -2)
            return _end_slope(widths[near], widths[far], rises[near], rises[far])
        left, right = rises[k - 1], rises[k]
        if left * right <= 0.0:
            return 0.0
        heavy, light = 2.0 * widths[k] + widths[k - 1], widths[k] + 2.0 * widths[k - 1]
        return (heavy + light) / (heavy / left + light / right)


def _end_slope(near_m: float, far_m: float, near: float, far: float) -> float:
    """Return the slope at an end: of the parabola through three reads, held to what does not overshoot."""
    slope = ((2.0 * near_m + far_m) * near - near_m * far) / (near_m + far_m)
    if slope * near <= 0.0:
        return 0.0
    if near * far <= 0.0 and abs(slope) > 3.0 * abs(near):
        return 3.0 * near
    return slope


def _area(u: float, a: float, b: float, p: float, q: float) -> float:
    """Return the integral of a cubic from 0 to u, by its values and slopes at 0 and 1."""
    bend, turn = 3.0 * (b - a) - 2.0 * p - q, 2.0 * (a - b) + p + q
    return u * (a + u * (p / 2.0 + u * (bend / 3.0 + u * turn / 4.0)))


def _wrong(reason: str, limit_m: float) -> DomainError:
    return DomainError(Problem(field="force_table", code="pair", limit=limit_m, other="draw_m", reason=reason))


def force_table(brace_m: float, reads: Sequence[tuple[float, float]]) -> ForceTable:
    """Return the table of what was read on a braced bow.

    Parameters
    ----------
    brace_m : float, > 0
        Where the force is nothing. [m]
    reads : sequence of (float, float)
        Draw and force in any order; reads at brace or below with no force are left out. [m, N]

    Raises
    ------
    DomainError
        As `ForceTable`; ``pair`` with reason ``table_slack`` for a force where the string is at rest.

    Notes
    -----
    Source: own rule; what was read is kept as it is.

    Examples
    --------
    >>> force_table(0.15, [(0.70, 170.0), (0.40, 80.0)]).draws_m
    (0.15, 0.4, 0.7)
    """
    require("brace_m", brace_m, low=0.0, open_=True)
    kept = sorted(each for each in reads if each[0] > brace_m)
    if any(draw_m <= brace_m and force_n != 0.0 for draw_m, force_n in reads):
        raise _wrong("table_slack", brace_m)
    draws, forces = zip(*((brace_m, 0.0), *kept), strict=True)
    return ForceTable(draws, forces)


@dataclass(frozen=True, slots=True)
class MeasuredCurve:
    """A bow by its own table.

    Attributes
    ----------
    points : tuple of DrawPoint
        At brace, at every read and at full draw.
    energy_j : Spread
        As `ForceTable.energy_j`. [J]
    """

    points: tuple[DrawPoint, ...]
    energy_j: Spread


def measured_curve(bow: Bow, brace_m: float, draw_m: float, table: ForceTable) -> MeasuredCurve:
    """Return draw force as it was measured, with the string tension that goes with it.

    Parameters
    ----------
    bow, brace_m
        As for `string_length`.
    draw_m : float
        Full draw, within the table. [m]
    table : ForceTable
        What was read.

    Raises
    ------
    DomainError
        As `static_tension` and `ForceTable.energy_j`.

    Notes
    -----
    Source: tension = force / (2 x sine of the string's angle), the angle from the limb shape (``derived:statics``);
    at brace, where both are nothing, tension stands to the first read's as the model has it.

    Examples
    --------
    >>> from calc.mechanics.bow.bow import Bow
    >>> table = force_table(0.15, [(0.30, 60.0), (0.50, 110.0), (0.70, 170.0)])
    >>> curve = measured_curve(Bow(1.73, 0.2, "tapered"), 0.15, 0.70, table)
    >>> round(curve.energy_j.value, 1), [round(point.tension_n) for point in curve.points]
    (49.7, [290, 210, 185, 193])
    """
    energy_j = table.energy_j(draw_m)
    draws = (*(each for each in table.draws_m[1:] if brace_m < each < draw_m), draw_m)
    start, *states = limb_state_at(bow, brace_m, draws)
    points = []
    for to_m, state in zip(draws, states, strict=True):
        force_n = table.force_n(to_m)
        points.append(DrawPoint(to_m, force_n, force_n / (2.0 * sin(state.pull_rad))))
    braced_n = points[0].tension_n * start.load / states[0].load
    return MeasuredCurve((DrawPoint(brace_m, 0.0, braced_n), *points), energy_j)
