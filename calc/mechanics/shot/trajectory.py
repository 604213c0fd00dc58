"""A shot step by step, with the moments when the string goes slack or the arrow leaves."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt
from typing import TYPE_CHECKING

from calc.errors import DomainError, Problem
from calc.mechanics.shot.motion import rates_of
from calc.mechanics.shot.motion_four import rates_of_four
from calc.numerics import NoStepError, find_root, next_step, step

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from calc.mechanics.shot.full_draw import FullDrawState
    from calc.mechanics.shot.motion import BowModel, State
    from calc.numerics import Step

PARTS = (0.25, 0.5, 0.75, 1.0)
"""Where on a step the string is looked at."""
_FOUR = 4
_ONE_ANGLE = 0.002
"""Limbs of one angle have no quick waves that would keep their steps short; their bounds are tighter instead."""
_NO_ARROW = 0.3
"""A string with nothing on it moves faster than the bounds' own measure of speed, the arrow's."""
FALLEN = 0.6
"""Share of its most that the tension has fallen to when a peak is past."""
_MOST_STEPS = 5_000
"""A string this wild is none."""
WITHIN = 1e-4
"""Largest error of a step, in limb lengths and in speeds of the order of the arrow's."""


@dataclass(frozen=True, slots=True)
class Moment:
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
class Trajectory:
    """A stretch of motion.

    Attributes
    ----------
    moments : tuple of Moment
        Four to a step, in order of time.
    end : list of float
        State at the end.
    """

    moments: tuple[Moment, ...]
    end: State


@dataclass(slots=True)
class _Watch:
    """What to look for on a step."""

    model: BowModel
    taut: bool
    leaves: bool

    def look(self, made: Step, clock_s: float) -> tuple[list[Moment], float, str]:
        """Return what is seen on a step, the first moment of note as a part of it, and what happens there."""
        seen: list[Moment] = []
        model, before, count = self.model, 0.0, len(self.model.reach_m)
        for part in PARTS:
            positions = made.positions(part)
            stretch_m, behind_m = model.string(positions)
            if self.leaves and behind_m < 0.0:
                return seen, self._moment(lambda u: model.string(made.positions(u))[1], before, part), "straight"
            if (stretch_m < 0.0) == self.taut:
                return seen, self._moment(lambda u: model.string(made.positions(u))[0], before, part), "other"
            tension_n = model.spring_n_m * stretch_m if self.taut else 0.0
            seen.append(Moment(clock_s + part * made.step_s, tension_n, behind_m, positions[count]))
            before = part
        return seen, 1.0, ""

    @staticmethod
    def _moment(value: Callable[[float], float], before: float, after: float) -> float:
        if (value(before) < 0.0) == (value(after) < 0.0):
            return after
        return find_root(value, before, after, within=1e-12)


def integrate_trajectory(
    start: FullDrawState,
    state: State,
    arrow_kg: float,
    *,
    begin_s: float,
    time_s: float,
    leaves: bool,
    within: float = WITHIN,
    least_s: float | None = None,
) -> Trajectory:
    """Return the motion from a state on.

    Parameters
    ----------
    start : FullDrawState
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
    least_s : float, optional
        Where this is told, stop once the tension has fallen to `FALLEN` of its most, but go on at least so long. [s]

    Raises
    ------
    DomainError
        ``model`` with reason ``wild`` for a motion that no steps can follow.

    Notes
    -----
    Source: `calc.numerics.integrator`, each step cut where the string goes slack or taut, so that no step meets a kink.
    """
    seen: list[Moment] = []
    most_n = 0.0
    try:
        for step_seen, here in _steps(start, state, arrow_kg, begin_s, time_s, leaves=leaves, within=within):
            seen.extend(step_seen)
            state = here
            if least_s is None:
                continue
            most_n = max(most_n, *(each.tension_n for each in step_seen))
            if seen[-1].time_s - begin_s >= least_s and seen[-1].tension_n < FALLEN * most_n:
                break
    except NoStepError:
        raise _wild() from None
    return Trajectory(tuple(seen), state)


def _wild() -> DomainError:
    return DomainError(Problem(field="string", code="model", reason="wild"))


def _steps(
    start: FullDrawState, here: State, arrow_kg: float, clock_s: float, time_s: float, *, leaves: bool, within: float
) -> Iterator[tuple[list[Moment], State]]:
    """Yield what is seen on every step, and where it ends."""
    model, end_s = start.model, clock_s + time_s
    bounds, step_s = _scales(start, arrow_kg, within)
    watch = _Watch(model, model.string(here)[0] >= 0.0, leaves)
    write = rates_of_four if len(model.reach_m) == _FOUR else rates_of
    rates = write(model, arrow_kg, taut=watch.taut)
    here_rates = rates(here)
    for _ in range(_MOST_STEPS):
        if clock_s >= end_s:
            return
        made, step_s = next_step(rates, here, here_rates, min(step_s, end_s - clock_s), bounds)
        seen, part, what = watch.look(made, clock_s)
        if part < 1.0:
            made, _ = step(rates, here, here_rates, part * made.step_s)
            seen = _seen(model, made, clock_s, taut=watch.taut)
        yield seen, made.end
        here, here_rates = made.end, made.end_rates
        clock_s += made.step_s
        if what == "straight":
            return
        if what:
            watch.taut = not watch.taut
            rates = write(model, arrow_kg, taut=watch.taut)
            here_rates = rates(here)
    raise _wild()


def _scales(start: FullDrawState, arrow_kg: float, within: float) -> tuple[State, float]:
    """Return the error allowed in every part of a state, and a first step [s]."""
    count = len(start.model.reach_m)
    size_m = sum(start.model.reach_m)
    speed_m_s = sqrt(2.0 * start.energy_j / (arrow_kg + 20.0 * start.model.at_nock_kg))
    if count == 1:
        within *= _ONE_ANGLE
    if arrow_kg == 0.0:
        within *= _NO_ARROW
    turn = [within] * count
    bounds = [*turn, within * size_m, *(each * speed_m_s / size_m for each in turn), within * speed_m_s]
    return bounds, 0.2 * size_m / speed_m_s


def _seen(model: BowModel, made: Step, clock_s: float, *, taut: bool) -> list[Moment]:
    """Return what is seen on a step that was cut."""
    seen = []
    for part in PARTS:
        positions = made.positions(part)
        stretch_m, behind_m = model.string(positions)
        tension_n = model.spring_n_m * max(0.0, stretch_m) if taut else 0.0
        seen.append(Moment(clock_s + part * made.step_s, tension_n, behind_m, positions[len(model.reach_m)]))
    return seen
