"""The course of a shot: step after step, with the moments when the string goes slack or the arrow leaves."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt
from typing import TYPE_CHECKING

from calc.mechanics.motion import rates_of
from calc.mechanics.steps import leg, next_leg
from calc.roots import crossing

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from calc.mechanics.loaded import Loaded
    from calc.mechanics.motion import Rig, State
    from calc.mechanics.steps import Leg

PARTS = (0.25, 0.5, 0.75, 1.0)
"""Where on a step the string is looked at."""
WITHIN = 1e-4
"""Largest error of a step, in limb lengths and in speeds of the order of the arrow's."""


@dataclass(frozen=True, slots=True)
class Glimpse:
    """The bow at one moment of a shot.

    Attributes
    ----------
    time_s : float
        Since the loose. [s]
    tension_n : float
        In the string. [N]
    behind_m : float
        Nock behind the line of the tips. [m]
    nock_m : float
        From the line of the limbs' belly. [m]
    """

    time_s: float
    tension_n: float
    behind_m: float
    nock_m: float


@dataclass(frozen=True, slots=True)
class Course:
    """A stretch of motion.

    Attributes
    ----------
    glimpses : tuple of Glimpse
        Four to a step, in order of time.
    end : list of float
        State at the end.
    """

    glimpses: tuple[Glimpse, ...]
    end: State


@dataclass(slots=True)
class _Watch:
    """What to look for on a step."""

    rig: Rig
    taut: bool
    leaves: bool

    def first(self, made: Leg) -> tuple[float, str]:
        """Return the first moment of note on a step, as a part of it, and what happens there."""
        before = 0.0
        for part in PARTS:
            stretch_m, behind_m = self.rig.string(made.places(part))
            if self.leaves and behind_m < 0.0:
                return self._moment(lambda u: self.rig.string(made.places(u))[1], before, part), "straight"
            if (stretch_m < 0.0) == self.taut:
                return self._moment(lambda u: self.rig.string(made.places(u))[0], before, part), "other"
            before = part
        return 1.0, ""

    @staticmethod
    def _moment(value: Callable[[float], float], before: float, after: float) -> float:
        if (value(before) < 0.0) == (value(after) < 0.0):
            return after
        return crossing(value, before, after, within=1e-12)


def course(
    start: Loaded, state: State, arrow_kg: float, *, begin_s: float, time_s: float, leaves: bool, within: float = WITHIN
) -> Course:
    """Return the motion from a state on.

    Parameters
    ----------
    start : Loaded
        The bow at full draw; sets the scale of what error is small.
    state : list of float
        Where to begin.
    arrow_kg : float, >= 0
        What the nock carries. [kg]
    begin_s, time_s : float
        Clock at the beginning; how long to go on at most. [s]
    leaves : bool
        Whether to stop when the string is straight.
    within : float
        As `WITHIN`.

    Notes
    -----
    Source: `calc.mechanics.steps`, each step cut where the string goes slack or taut, so that no step meets a kink.
    """
    seen: list[Glimpse] = []
    clock = 0.0
    for made, taut in _legs(start, state, arrow_kg, time_s, leaves=leaves, within=within):
        seen.extend(_glimpses(start.rig, made, begin_s + clock, taut=taut))
        clock += made.step_s
        state = made.end
    return Course(tuple(seen), state)


def _legs(
    start: Loaded, here: State, arrow_kg: float, time_s: float, *, leaves: bool, within: float
) -> Iterator[tuple[Leg, bool]]:
    """Yield steps and whether the string was taut on them."""
    rig = start.rig
    bounds, step_s = _scales(start, arrow_kg, within)
    watch = _Watch(rig, rig.string(here)[0] >= 0.0, leaves)
    rates = rates_of(rig, arrow_kg, taut=watch.taut)
    here_rates = rates(here)
    left_s = time_s
    while left_s > 0.0:
        made, step_s = next_leg(rates, here, here_rates, min(step_s, left_s), bounds)
        part, what = watch.first(made)
        if part < 1.0:
            made, _ = leg(rates, here, here_rates, part * made.step_s)
        yield made, watch.taut
        here, here_rates = made.end, made.end_rates
        left_s -= made.step_s
        if what == "straight":
            return
        if what:
            watch.taut = not watch.taut
            rates = rates_of(rig, arrow_kg, taut=watch.taut)
            here_rates = rates(here)


def _scales(start: Loaded, arrow_kg: float, within: float) -> tuple[State, float]:
    """Return the error allowed in every part of a state, and a first step [s]."""
    count = len(start.rig.reach_m)
    size_m = sum(start.rig.reach_m)
    speed_m_s = sqrt(2.0 * start.energy_j / (arrow_kg + 20.0 * start.rig.at_nock_kg))
    turn = [within] * count
    bounds = [*turn, within * size_m, *(each * speed_m_s / size_m for each in turn), within * speed_m_s]
    return bounds, 0.2 * size_m / speed_m_s


def _glimpses(rig: Rig, made: Leg, clock_s: float, *, taut: bool) -> Iterator[Glimpse]:
    count = len(rig.reach_m)
    for part in PARTS:
        places = made.places(part)
        stretch_m, behind_m = rig.string(places)
        tension_n = rig.spring_n_m * max(0.0, stretch_m) if taut else 0.0
        yield Glimpse(clock_s + part * made.step_s, tension_n, behind_m, places[count])
