"""A motion step by step: extrapolated midpoint steps that choose their own length."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    from collections.abc import Callable

State: TypeAlias = list[float]
Rates: TypeAlias = "Callable[[State], State]"
_COUNTS = (2, 4, 6, 8)
_ORDER = 2 * len(_COUNTS) - 1
_SAFE, _SHRINK, _GROW = 0.9, 0.2, 2.0


@dataclass(frozen=True, slots=True)
class Leg:
    """One step: where it began and ended, with the rates there.

    Attributes
    ----------
    step_s : float
        How long it took. [s]
    start, end : list of float
        Places first, their rates after them.
    start_rates, end_rates : list of float
        Rates of all these.
    """

    step_s: float
    start: State
    start_rates: State
    end: State
    end_rates: State

    def places(self, part: float) -> State:
        """Return the places between start (0) and end (1), by the quintic that meets place, speed and acceleration."""
        half, h = len(self.start) // 2, self.step_s
        u, v = part, 1.0 - part
        start = (v**3 * (1.0 + 3.0 * u + 6.0 * u * u), h * v**3 * u * (1.0 + 3.0 * u), h * h * v**3 * u * u / 2.0)
        end = (u**3 * (1.0 + 3.0 * v + 6.0 * v * v), -h * u**3 * v * (1.0 + 3.0 * v), h * h * u**3 * v * v / 2.0)
        return [
            start[0] * a + start[1] * b + start[2] * c + end[0] * d + end[1] * e + end[2] * f
            for a, b, c, d, e, f in zip(
                self.start[:half],
                self.start[half:],
                self.start_rates[half:],
                self.end[:half],
                self.end[half:],
                self.end_rates[half:],
                strict=True,
            )
        ]


def leg(rates: Rates, start: State, start_rates: State, step_s: float) -> tuple[Leg, State]:
    """Return one step of a given length, and how its last two extrapolations differ.

    Notes
    -----
    Source: midpoint rule extrapolated to no step at all (W. B. Gragg, J. SIAM Numer. Anal. B 2 (1965) 384, from
    memory), 2, 4, 6 and 8 parts: eighth order.

    Examples
    --------
    >>> made, off = leg(lambda s: [s[1], -s[0]], [1.0, 0.0], [0.0, -1.0], 0.5)
    >>> round(made.end[0], 6), abs(off[0]) < 1e-5
    (0.877583, True)
    """
    table: list[list[State]] = []
    for parts in _COUNTS:
        h = step_s / parts
        before, here = start, [a + h * b for a, b in zip(start, start_rates, strict=True)]
        for _ in range(parts - 1):
            before, here = here, [a + 2.0 * h * b for a, b in zip(before, rates(here), strict=True)]
        row = [here]
        for fewer, known in zip(reversed(_COUNTS[: len(table)]), table[-1] if table else (), strict=True):
            gain = 1.0 / ((parts / fewer) ** 2 - 1.0)
            row.append([a + gain * (a - b) for a, b in zip(row[-1], known, strict=True)])
        table.append(row)
    end = table[-1][-1]
    off = [a - b for a, b in zip(end, table[-1][-2], strict=True)]
    return Leg(step_s, start, start_rates, end, rates(end)), off


def next_leg(rates: Rates, start: State, start_rates: State, step_s: float, within: State) -> tuple[Leg, float]:
    """Return a step no longer than asked for whose error is within bounds, and how long to try next.

    Parameters
    ----------
    rates : callable
        Gives the rates of a state.
    start, start_rates : list of float
        Where the motion is.
    step_s : float, > 0
        What to try. [s]
    within : list of float, > 0
        Largest error of every part of the state.

    Examples
    --------
    >>> made, longer = next_leg(lambda s: [s[1], -s[0]], [1.0, 0.0], [0.0, -1.0], 9.0, [1e-6, 1e-6])
    >>> 0.5 < made.step_s < 2.0
    True
    """
    while True:
        made, off = leg(rates, start, start_rates, step_s)
        error = max(abs(each) / bound for each, bound in zip(off, within, strict=True))
        factor = min(_GROW, max(_SHRINK, _SAFE * error ** (-1.0 / _ORDER))) if error > 0.0 else _GROW
        step_s *= factor
        if error <= 1.0:
            return made, step_s
