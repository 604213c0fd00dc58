"""Many shots at once: chains of links with masses, an elastic string, an arrow; the hardest pull in each string.

Written for the experiment alone: it takes nothing from `calc`.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from tests.experiment.limbs import Limbs, drawn

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    State = tuple[Array, Array, Array, Array]

LINKS = 8
STEP_S, LONGEST_S = 8e-5, 0.04


@dataclass(frozen=True)
class Loosed:
    """What came of the shots: hardest pull in the string [N], speed of the arrow [m/s], energy stored [J]."""

    peak_n: Array
    speed_m_s: Array
    stored_j: Array


@dataclass(frozen=True, kw_only=True)
class Shots:
    """Bows ready to be shot, one entry each.

    Attributes
    ----------
    limbs : Limbs
    brace_m, draw_m, weight_n : array
        Brace height, full draw, pull on the fingers there. [m], [m], [N]
    limb_kg, arrow_kg, string_kg : array
        One working limb; the arrow; the whole string. [kg]
    pull_n : array
        Pull that would stretch the string by its own length, where it works. [N]
    """

    limbs: Limbs
    brace_m: Array
    draw_m: Array
    weight_n: Array
    limb_kg: Array
    arrow_kg: Array
    string_kg: Array
    pull_n: Array

    def loose(self) -> Loosed:
        """Loose every arrow and follow the string until it has rung out."""
        limbs = replace(self.limbs, links=LINKS)
        full = drawn(limbs, self.brace_m, self.draw_m)
        stiff = self.weight_n / full.force * limbs.limb_m  # spring of a joint of unit stiffness [N m]
        work = _Work(self, limbs, stiff, limbs.limb_m / LINKS)
        angles = limbs.angles(full.tip_rad, full.load, full.pull_rad)
        nock = self.draw_m + limbs.proud_m
        pull_n = full.load * self.weight_n / full.force
        along, across = work.tip(angles)
        work.slack_m = np.hypot(along, nock - across) / (1.0 + pull_n / self.pull_n)
        state: State = (angles, nock, np.zeros_like(angles), np.zeros_like(nock))
        stored = work.bent(angles) - work.bent(limbs.angles(*_at_brace(limbs, self.brace_m)))
        peak, speed = pull_n.copy(), np.full_like(nock, np.nan)
        for _ in range(round(LONGEST_S / STEP_S)):
            state = _stepped(work, state)
            peak = np.maximum(peak, work.pull(state[0], state[1])[0])
            straight = np.isnan(speed) & (state[1] <= work.tip(state[0])[1])
            speed = np.where(straight, -state[3], speed)
            work.arrow_kg = np.where(straight, 0.0, work.arrow_kg)
        return Loosed(peak, speed, stored)


def _at_brace(limbs: Limbs, brace_m: Array) -> tuple[Array, Array, Array]:
    rows = limbs.braced
    return rows.at(brace_m, rows.tip_rad), rows.at(brace_m, rows.load), np.zeros_like(brace_m)


class _Work:
    """The masses and springs of the bows, and how they move."""

    def __init__(self, shots: Shots, limbs: Limbs, stiff: Array, link_m: Array) -> None:
        self.limbs, self.stiff, self.link_m, self.shots = limbs, stiff, link_m, shots
        ends = np.arange(LINKS + 1)[None, :] / LINKS
        grown = 1.0 - (1.0 - ends) ** (np.maximum(limbs.taper, 0.0) + 1.0)[:, None]
        links_kg = shots.limb_kg[:, None] * np.diff(grown, axis=1)
        self.third_kg = shots.string_kg / 6.0
        masses = links_kg / 2.0
        masses[:, :-1] += links_kg[:, 1:] / 2.0
        masses[:, -1] += self.third_kg
        beyond = np.cumsum(masses[:, ::-1], axis=1)[:, ::-1]
        order = np.maximum.outer(np.arange(LINKS), np.arange(LINKS))
        self.inertia = link_m[:, None, None] ** 2 * beyond[:, order]
        self.arrow_kg = shots.arrow_kg / 2.0
        self.slack_m = np.zeros_like(link_m)

    def tip(self, angles: Array) -> tuple[Array, Array]:
        """Return where the tips are, along and across [m]."""
        along = self.limbs.half_handle_m + self.link_m * np.cos(angles).sum(axis=1)
        return along, self.link_m * np.sin(angles).sum(axis=1)

    def joints(self, angles: Array) -> Array:
        """Return the couple in every joint [N m]."""
        bent = np.diff(angles, axis=1, prepend=0.0) - self.limbs.rest
        return bent * self.limbs.springs * self.stiff[:, None]

    def bent(self, angles: Array) -> Array:
        """Return the energy in both limbs [J]."""
        off = np.diff(angles, axis=1, prepend=0.0) - self.limbs.rest
        energy: Array = (off * self.joints(angles)).sum(axis=1)
        return energy

    def pull(self, angles: Array, nock: Array) -> tuple[Array, Array, Array]:
        """Return the pull in the string [N], and its direction from the tip to the nock."""
        along, across = self.tip(angles)
        over = nock - across
        long = np.hypot(along, over)
        return np.maximum(0.0, self.shots.pull_n * (long / self.slack_m - 1.0)), -along / long, over / long

    def faster(self, state: State) -> State:
        """Return how fast everything changes."""
        angles, nock, turning, going = state
        pull, inward, outward = self.pull(angles, nock)
        apart = angles[:, :, None] - angles[:, None, :]
        couples = self.joints(angles)
        push = -couples
        push[:, :-1] += couples[:, 1:]
        arm = -np.sin(angles) * inward[:, None] + np.cos(angles) * outward[:, None]
        push += self.link_m[:, None] * pull[:, None] * arm
        push -= np.einsum("bjk,bk->bj", self.inertia * np.sin(apart), turning**2)
        turned = np.linalg.solve(self.inertia * np.cos(apart), push[:, :, None])[:, :, 0]
        slowed: Array = -pull * outward / (self.arrow_kg + self.third_kg)
        return turning, going, np.asarray(turned, dtype=np.float64), slowed


def _stepped(work: _Work, state: State) -> State:
    """Go one step on, by the rule of Runge and Kutta."""

    def on(way: State, by: float) -> State:
        a, b, c, d = (here + by * rate for here, rate in zip(state, way, strict=True))
        return a, b, c, d

    first = work.faster(state)
    second = work.faster(on(first, STEP_S / 2.0))
    third = work.faster(on(second, STEP_S / 2.0))
    fourth = work.faster(on(third, STEP_S))
    a, b, c, d = (
        here + STEP_S / 6.0 * (w + 2.0 * x + 2.0 * y + z)
        for here, w, x, y, z in zip(state, first, second, third, fourth, strict=True)
    )
    return a, b, c, d
