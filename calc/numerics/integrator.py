"""A motion step by step: steps of the eighth order that choose their own length."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import inf, isfinite, sqrt
from typing import TYPE_CHECKING, TypeAlias

from calc.numerics.integrator_stages import FIVE, LAST, THREE, stage_rates

if TYPE_CHECKING:
    from collections.abc import Callable

State: TypeAlias = list[float]
Rates: TypeAlias = "Callable[[State], State]"
_ORDER = 8
_SAFE, _SHRINK, _GROW = 0.8, 0.2, 1.3
_TRIES = 100


class NoStepError(ArithmeticError):
    """No step was short enough: the motion is wilder than numbers can follow."""


@dataclass(frozen=True, slots=True)
class Step:
    """One step: where it began and ended, with the rates there.

    Attributes
    ----------
    step_s : float
        How long it took. [s]
    start, end : list of float
        Positions first, their rates after them.
    start_rates, end_rates : list of float
        Rates of all these.
    """

    step_s: float
    start: State
    start_rates: State
    end: State
    end_rates: State

    def positions(self, part: float) -> State:
        """Return the positions at a part of the step, by the quintic that meets position, speed and acceleration."""
        half, h = len(self.start) // 2, self.step_s
        p, q, r, s, t, u = _shares(part)
        q, r, t, u = h * q, h * h * r, h * t, h * h * u
        return [
            p * a + q * b + r * c + s * d + t * e + u * f
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


@lru_cache(maxsize=64)
def _shares(u: float) -> tuple[float, float, float, float, float, float]:
    """Return what place, speed and acceleration at either end of a step of length 1 count between them."""
    v = 1.0 - u
    start, end = v**3, u**3
    return (
        start * (1.0 + 3.0 * u + 6.0 * u * u),
        start * u * (1.0 + 3.0 * u),
        start * u * u / 2.0,
        end * (1.0 + 3.0 * v + 6.0 * v * v),
        -end * v * (1.0 + 3.0 * v),
        end * v * v / 2.0,
    )


def step(rates: Rates, start: State, start_rates: State, step_s: float) -> tuple[Step, State]:
    """Return one step of a given length, and how far off every part of its end may be.

    Parameters
    ----------
    rates : callable
        Returns the rate of every part of a state.
    start, start_rates : list of float
        State to begin with, and its rates.
    step_s : float, > 0
        How long the step takes. [s]

    Notes
    -----
    Source: twelve stages of the eighth order (`stage_rates`). The error is judged by the rules of fifth and third order
    that the same stages give, so that it shrinks as the step's eighth power (``hairer1993``).

    Examples
    --------
    >>> made, off = step(lambda s: [s[1], -s[0]], [1.0, 0.0], [0.0, -1.0], 0.5)
    >>> round(made.end[0], 9), abs(off[0]) < 1e-5
    (0.877582562, True)
    """
    seen = stage_rates(rates, start, start_rates, step_s)
    end = [y + step_s * each for y, each in zip(start, _weighted(LAST, seen), strict=True)]
    off = [
        step_s * five * five / sqrt(five * five + 0.01 * three * three) if five else 0.0
        for five, three in zip(_weighted(FIVE, seen), _weighted(THREE, seen), strict=True)
    ]
    return Step(step_s, start, start_rates, end, rates(end)), off


def _weighted(weights: tuple[float, ...], seen: tuple[State, ...]) -> State:
    """Return the sum of eight stages, each by its weight."""
    p, q, r, s, t, u, v, w = weights
    return [
        p * a + q * b + r * c + s * d + t * e + u * f + v * g + w * h
        for a, b, c, d, e, f, g, h in zip(*seen, strict=True)
    ]


def next_step(rates: Rates, start: State, start_rates: State, step_s: float, within: State) -> tuple[Step, float]:
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

    Raises
    ------
    NoStepError
        Where even the shortest step leaves what numbers can hold.

    Examples
    --------
    >>> made, longer = next_step(lambda s: [s[1], -s[0]], [1.0, 0.0], [0.0, -1.0], 9.0, [1e-6, 1e-6])
    >>> 0.5 < made.step_s < 2.0
    True
    """
    for _ in range(_TRIES):
        try:
            made, off = step(rates, start, start_rates, step_s)
            error = max(abs(each) / bound for each, bound in zip(off, within, strict=True))
            error = error if isfinite(error) and isfinite(sum(off)) and isfinite(sum(made.end_rates)) else inf
        except (ArithmeticError, ValueError):
            error = inf
        factor = min(_GROW, max(_SHRINK, _SAFE * error ** (-1.0 / _ORDER))) if error > 0.0 else _GROW
        if error <= 1.0:
            return made, step_s * factor
        step_s *= factor
    msg = f"next_step: no step down to {step_s} s is within bounds"
    raise NoStepError(msg)
