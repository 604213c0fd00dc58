"""The working limb and the depth of the handle that fit strings best: two unknowns, Newton's rule."""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, inf, isfinite
from typing import TYPE_CHECKING

from calc.errors import DomainError, Problem

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

_ROUNDS = 40
_NUDGE = 1e-4
_CLOSED = 1e-9
_LONGEST = 0.3
_NEAR = 0.05
"""A step this short is near enough for the bend of the residuals to help."""


@dataclass(frozen=True, slots=True)
class Read:
    """A string that was measured, with what it counts.

    Attributes
    ----------
    over_m : float
        Nock to nock of the bow less the string. [m]
    brace_m : float
        [m]
    weight : float
        1 / how far off the two may be together. [1/m]
    """

    over_m: float
    brace_m: float
    weight: float


def best_limb(
    reach: Callable[[float], float],
    reads: Sequence[Read],
    start: tuple[float, float],
    told: tuple[float, float],
    highest: float,
) -> tuple[float, float]:
    """Return the working limb and how far the handle stands proud that fit best [m].

    Parameters
    ----------
    reach : callable
        How far along a limb of unit length reaches whose tip stands off so far.
    reads : sequence of Read
        What was measured.
    start : tuple of float
        Limb and depth to begin with. [m]
    told : tuple of float
        The depth that was told and how far off it may be. [m]
    highest : float
        Furthest that the tip of a limb of unit length may stand off.

    Raises
    ------
    DomainError
        ``pair`` with reason ``far`` where no limb comes near what was measured.

    Notes
    -----
    Source: own derivation (``derived:calibrate``): sum of squares of (bow less string as bent - as measured) x weight
    and of the depth's own misfit, least by Gauss and Newton, the bend of the residuals taken in once a step is short.
    """
    told_m, sure_m = told
    most_m = max(each.brace_m for each in reads)
    limb_m, deep_m = start
    limb_m = _long_enough(limb_m, (most_m + deep_m) / highest)
    for _ in range(_ROUNDS):
        square, bent, slope = _slopes(reach, reads, limb_m, deep_m)
        square = (square[0], square[1], square[2] + 1.0 / sure_m**2)
        slope = (slope[0], slope[1] + (deep_m - told_m) / sure_m**2)
        step = _solve(square, slope)
        if max(map(abs, step)) < _NEAR:
            whole = tuple(a + b for a, b in zip(square, bent, strict=True))
            if whole[0] > 0.0 and whole[0] * whole[2] > whole[1] ** 2:
                step = _solve((whole[0], whole[1], whole[2]), slope)
        largest = max(map(abs, step))
        share = min(1.0, _LONGEST / largest) if largest else 1.0
        deep_m -= share * step[1]
        limb_m = _long_enough(limb_m * exp(-share * step[0]), (most_m + deep_m) / highest)
        if largest < _CLOSED:
            break
    return limb_m, deep_m


def _long_enough(limb_m: float, least_m: float) -> float:
    """Return a limb that can stand off as far as was measured [m]."""
    if not 0.0 < least_m < inf:
        raise _far()
    return max(limb_m, least_m)


def _slopes(
    reach: Callable[[float], float], reads: Sequence[Read], limb_m: float, deep_m: float
) -> tuple[tuple[float, float, float], tuple[float, float, float], tuple[float, float]]:
    """Return products of the residuals' slopes, residuals x their bends, and residuals x slopes.

    By the limb's logarithm and by the depth; the first two as the upper half of a symmetric pair of rows.
    """
    aa = ap = pp = bend_aa = bend_ap = bend_pp = off_a = off_p = 0.0
    for each in reads:
        across = (each.brace_m + deep_m) / limb_m
        if across <= 0.0:
            raise _far()
        here, low, high = (reach(across + nudge) for nudge in (0.0, -_NUDGE, _NUDGE))
        first, second = (high - low) / (2.0 * _NUDGE), (high - 2.0 * here + low) / _NUDGE**2
        half, heavy = 1.0 - here + across * first, each.weight**2
        off = 2.0 * limb_m * (1.0 - here) - each.over_m
        a, p = 2.0 * limb_m * half, -2.0 * first
        aa, ap, pp = aa + heavy * a * a, ap + heavy * a * p, pp + heavy * p * p
        off_a, off_p = off_a + heavy * off * a, off_p + heavy * off * p
        heavy *= off
        bend_aa += heavy * (a - 2.0 * limb_m * across**2 * second)
        bend_ap += heavy * 2.0 * across * second
        bend_pp -= heavy * 2.0 * second / limb_m
    return (aa, ap, pp), (bend_aa, bend_ap, bend_pp), (off_a, off_p)


def _solve(square: tuple[float, float, float], right: tuple[float, float]) -> tuple[float, float]:
    """Solve two equations with a symmetric matrix."""
    (aa, ap, pp), (a, p) = square, right
    det = aa * pp - ap * ap
    if not (isfinite(det) and det > 0.0):
        raise _far()
    return (pp * a - ap * p) / det, (aa * p - ap * a) / det


def _far() -> DomainError:
    return DomainError(Problem(field="pairs", code="pair", reason="far"))
