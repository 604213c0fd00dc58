"""Forces that were weighed on a measured bow, and what they add to what is known of it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import DomainError, require
from calc.mechanics.estimate.forms import Guessed
from calc.mechanics.estimate.readings import Drawn, ForceRead, FullDraw
from calc.mechanics.estimate.weighing import weigh

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from calc.errors import Problem
    from calc.mechanics.estimate.calibration import Calibration
    from calc.mechanics.estimate.stave import Stave
    from calc.mechanics.estimate.weighing import Weighing
    from calc.numerics import Spread

APART = 3.0
"""Readings further off from what fits best, in units of how unsure they are, do not go together."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Weights:
    """What is known of a bow's strength, all from the point where brace height is measured.

    Attributes
    ----------
    draw_m : float, > 0
        Full draw. [m]
    told_n : float or None, > 0
        Draw weight there, as told. [N]
    at_m, force_n : float or None, > 0
        A force weighed with care, and the draw at which. [m], [N]
    """

    draw_m: float
    told_n: float | None = None
    at_m: float | None = None
    force_n: float | None = None

    def readings(self, brace_m: float | None) -> tuple[ForceRead, ...]:
        """Return what was told and weighed, the told one first.

        Parameters
        ----------
        brace_m : float or None
            As braced when it was weighed; None: as asked about. [m]
        """
        found = []
        if self.told_n is not None:
            found.append(ForceRead(self.draw_m, self.told_n, practice("weight_told").spread.high, brace_m))
        if self.at_m is not None and self.force_n is not None:
            found.append(ForceRead(self.at_m, self.force_n, practice("force_reading").spread.high, brace_m))
        return tuple(found)


@dataclass(frozen=True, slots=True, kw_only=True)
class Learnt:
    """What forces told of a bow.

    Attributes
    ----------
    weights : Weights
    now : Weighing
        With everything that was measured.
    first : Weighing
        By the bow alone and the told draw weight; where none was told, by the weighed force.
    """

    weights: Weights
    now: Weighing
    first: Weighing

    @property
    def tells_bow(self) -> bool:
        """Whether there is a ratio of forces, which tells of the bow beside its strength."""
        return len(self.now.readings) > 1

    @property
    def apart(self) -> bool:
        """Whether the readings do not go together on a bow like this."""
        return self.now.misfit > APART

    def figures(self, length: Callable[[Drawn], float]) -> dict[str, Spread | float]:
        """Return what the readings make of the bow, and what it was before them, by row key.

        Parameters
        ----------
        length : callable
            The answer a reader waits for: string or brace height. [m]
        """

        def of(each: Drawn) -> Mapping[str, float]:
            return {
                "weight": each.weight_n,
                "pull": each.brace_n,
                "drawn": each.draw_n,
                "energy": each.energy_j,
                "length": length(each),
            }

        now, first = self.now.spreads(of), self.first.spreads(of)
        found: dict[str, Spread | float] = {
            "weight_found": now["weight"],
            "tension_brace": now["pull"],
            "tension_draw": now["drawn"],
            "stored_energy": now["energy"],
            "length_first": first["length"],
            "length_left": _left(now["length"], first["length"]),
        }
        if self.weights.told_n is not None:
            for key in ("weight", "pull", "energy"):
                found |= {f"{key}_first": first[key], f"{key}_left": _left(now[key], first[key])}
        return found


def _left(now: Spread, first: Spread) -> float:
    """Return the share of a spread's width that is left [-]."""
    return (now.high - now.low) / (first.high - first.low)


def learn(
    stave: Stave,
    calibration: Calibration | None,
    weights: Weights,
    *,
    brace_m: float | None = None,
    string_m: float | None = None,
) -> Learnt:
    """Return what forces tell of a bow.

    Parameters
    ----------
    stave : Stave
        As measured. It was braced as its first string had it when the forces were read, where there was one.
    calibration : Calibration or None
        As its strings have shown it.
    weights : Weights
        With one force at least.
    brace_m, string_m : float, optional
        One of them: what is asked about. [m]

    Raises
    ------
    DomainError
        As `weigh`, with field ``at_m`` where that draw is the one at fault.

    Notes
    -----
    Source: `weigh` (``derived:weigh``).
    """
    require("draw_m", weights.draw_m, low=0.0, open_=True)
    full = FullDraw(weights.draw_m, brace_m, string_m)
    readings = weights.readings(stave.pairs[0].brace_m if stave.pairs else None)
    guessed = Guessed(stave.known())
    try:
        now = weigh(calibration or guessed, full, readings)
        first = now if len(readings) == 1 and calibration is None else weigh(guessed, full, readings[:1])
    except DomainError as error:
        raise DomainError(replace(error.problem, field=_blamed(error.problem, weights))) from None
    return Learnt(weights=weights, now=now, first=first)


def _blamed(problem: Problem, weights: Weights) -> str:
    """Return which draw is too long, or too short."""
    if problem.field != "draw_m" or weights.at_m is None:
        return problem.field
    long = problem.reason == "draw_long"
    return "at_m" if (weights.at_m >= weights.draw_m if long else weights.at_m <= weights.draw_m) else "draw_m"
