"""How a bow moves after the release: limbs as a few angles, the string straight, elastic and heavy."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, hypot, sin
from operator import mul, sub
from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    from collections.abc import Callable

    from calc.mechanics.bow import Matrix, Vector

State: TypeAlias = list[float]
"""Angles of the limb, place of the nock, then the rates of both."""


@dataclass(frozen=True, slots=True)
class BowModel:
    """Half a bow with half a string; the other half does the same.

    Attributes
    ----------
    reach_m : tuple of float
        Weights of the angles in the tip's place, as `Limb.reach`. [m]
    base_m : float
        What needs no angle in the tip's place along, with half the handle. [m]
    rest : tuple of float
        Angles with no string on. [rad]
    stiffness_nm : tuple of tuple of float
        As `Limb.stiffness`. [N m]
    inertia_kg_m2 : tuple of tuple of float
        As `Limb.inertia`. [kg m^2]
    slack_m : float
        Half the string with no pull in it. [m]
    spring_n_m : float
        Pull per stretch of the half string. [N/m]
    at_tip_kg, at_nock_kg, shared_kg : float
        The half string's mass in the squares of the tip's and the nock's speed, and in their product. [kg]
    """

    reach_m: Vector
    base_m: float
    rest: Vector
    stiffness_nm: Matrix
    inertia_kg_m2: Matrix
    slack_m: float
    spring_n_m: float
    at_tip_kg: float
    at_nock_kg: float
    shared_kg: float

    def string(self, state: State) -> tuple[float, float]:
        """Return the half string's stretch, negative when slack, and how far the nock is behind the tips [m]."""
        behind_m = state[len(self.reach_m)] - sum(map(mul, self.reach_m, map(sin, state)))
        along_m = self.base_m + sum(map(mul, self.reach_m, map(cos, state)))
        return hypot(along_m, behind_m) - self.slack_m, behind_m

    def energy_j(self, state: State, arrow_kg: float) -> float:
        """Return all energy of the whole bow, string and arrow [J]."""
        count = len(self.reach_m)
        angles, rates, nock_m_s = state[:count], state[count + 1 : -1], state[-1]
        off = list(map(sub, angles, self.rest))
        tip_x = -sum(reach * sin(a) * w for reach, a, w in zip(self.reach_m, angles, rates, strict=True))
        tip_y = sum(reach * cos(a) * w for reach, a, w in zip(self.reach_m, angles, rates, strict=True))
        bending = sum(
            a * k * b for a, row in zip(off, self.stiffness_nm, strict=True) for k, b in zip(row, off, strict=True)
        )
        moving = sum(
            inertia * cos(angles[i] - angles[k]) * rates[i] * rates[k]
            for i, row in enumerate(self.inertia_kg_m2)
            for k, inertia in enumerate(row)
        )
        string = self.at_tip_kg * (tip_x**2 + tip_y**2) + 2.0 * self.shared_kg * tip_y * nock_m_s
        nock = (arrow_kg / 2.0 + self.at_nock_kg) * nock_m_s * nock_m_s
        stretched = self.spring_n_m * max(0.0, self.string(state)[0]) ** 2
        return float(bending + moving + string + nock + stretched)


def rates_of(model: BowModel, arrow_kg: float, *, taut: bool) -> Callable[[State], State]:
    """Return the function that gives the rates of a state.

    Parameters
    ----------
    model : BowModel
        Bow and string.
    arrow_kg : float, >= 0
        What the nock carries; 0 once the arrow has gone. [kg]
    taut : bool
        Whether the string pulls. A taut string that is too long pushes: watch for it and change over.

    Notes
    -----
    Source: Lagrange's equations (``derived:links``). Leaves out air, hysteresis, the hand, and waves along the string.
    """
    count, reach = len(model.reach_m), model.reach_m
    nock_kg = arrow_kg / 2.0 + model.at_nock_kg
    share, pull = model.shared_kg / nock_kg, model.spring_n_m if taut else 0.0
    base, slack, shared, rest = model.base_m, model.slack_m, model.shared_kg, model.rest
    coupling = share * shared
    rows = [
        tuple(inertia + model.at_tip_kg * mine * other for inertia, other in zip(row, reach, strict=True))
        for mine, row in zip(reach, model.inertia_kg_m2, strict=True)
    ]
    table = tuple(
        (row, row[: i + 1], stiff) for i, (row, stiff) in enumerate(zip(rows, model.stiffness_nm, strict=True))
    )

    def rates(state: State) -> State:
        angles, speeds = state[:count], state[count + 1 : -1]
        cosines, sines = [cos(a) for a in angles], [sin(a) for a in angles]
        turn, lean = list(map(mul, reach, cosines)), list(map(mul, reach, sines))
        along, behind = base + sum(turn), state[count] - sum(lean)
        length = hypot(along, behind)
        tension = pull * (length - slack) / length
        squares = list(map(mul, speeds, speeds))
        out, held = list(map(mul, squares, cosines)), list(map(mul, squares, sines))
        nock = (shared * sum(map(mul, lean, squares)) - tension * behind) / nock_kg
        across, inward = tension * behind - shared * nock, tension * along
        off = list(map(sub, angles, rest))
        right, left = [], []
        for (row, lower, stiff), c, s, forth, side in zip(table, cosines, sines, turn, lean, strict=True):
            mine = coupling * forth
            right.append(
                side * inward
                + forth * across
                - sum(map(mul, stiff, off))
                - s * sum(map(mul, row, out))
                + c * sum(map(mul, row, held))
            )
            left.append(
                [a * (c * ck + s * sk) - mine * tk for a, ck, sk, tk in zip(lower, cosines, sines, turn, strict=False)]
            )
        _settle(left, right)
        return [*speeds, state[-1], *right, nock - share * sum(map(mul, turn, right))]

    return rates


def _settle(left: list[list[float]], right: list[float]) -> None:
    """Solve a symmetric positive set given by its lower half, in place."""
    count = len(right)
    for i in range(count):
        head, value = left[i][i], right[i]
        for k in range(i + 1, count):
            row = left[k]
            factor = row[i] / head
            for j in range(i + 1, k + 1):
                row[j] -= factor * left[j][i]
            right[k] -= factor * value
    for i in range(count - 1, -1, -1):
        value = right[i]
        for k in range(i + 1, count):
            value -= left[k][i] * right[k]
        right[i] = value / left[i][i]
