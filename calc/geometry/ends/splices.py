"""Tails laid in with their bundles: stagger of the strand ends, taper, turns."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt
from typing import TYPE_CHECKING

from calc.errors import DomainError, Problem, require
from calc.geometry.bounds import require_length
from calc.geometry.lay import Lay, lay

if TYPE_CHECKING:
    from collections.abc import Sequence


@dataclass(frozen=True, slots=True)
class SpliceStation:
    """A stretch of splice between two neighbouring strand ends.

    Attributes
    ----------
    from_m, to_m : float
        Along the cord from the throat. [m]
    tails : int
        Tail strands that each bundle still holds.
    shape : Lay
        Its bundles, the tails that are left laid in.
    """

    from_m: float
    to_m: float
    tails: int
    shape: Lay


@dataclass(frozen=True, slots=True)
class Splice:
    """Tails laid in with their bundles, thinning out end by end.

    Attributes
    ----------
    tail_m, shortest_m, step_m : float
        Longest tail; shortest tail; from one strand end to the next, along the bundle. [m]
    ends_m : tuple of float
        Where the strand ends of one bundle come out, along the cord from the throat, nearest first. [m]
    stations : tuple of SpliceStation
        From the throat outwards.
    turns : float
        Turns of lay in the whole splice. [turn]
    """

    tail_m: float
    shortest_m: float
    step_m: float
    ends_m: tuple[float, ...]
    stations: tuple[SpliceStation, ...]
    turns: float

    @property
    def cord_m(self) -> float:
        """Length of the splice along the cord [m]."""
        return self.ends_m[-1]

    @property
    def doubled(self) -> Lay:
        """Lay at the throat, where every tail is in."""
        return self.stations[0].shape


def stagger(strands: int, tail_m: float, least_m: float, wanted_m: float) -> float:
    """Return the even step between neighbouring strand ends of one bundle.

    Parameters
    ----------
    strands : int, >= 1
        In the bundle.
    tail_m, least_m : float, > 0
        Longest tail; shortest tail. [m]
    wanted_m : float, > 0
        Step to use where the tail is long enough for it. [m]

    Returns
    -------
    float
        0 for a single strand. [m]

    Raises
    ------
    DomainError
        ``number``, ``min`` or ``max``; ``min`` for a tail shorter than the shortest.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> stagger(7, 8.0, 2.0, 0.5), stagger(25, 8.0, 2.0, 0.5), stagger(1, 8.0, 2.0, 0.5)
    (0.5, 0.25, 0.0)
    """
    if strands < 1:
        raise DomainError(Problem(field="strands", code="min", limit=1))
    require_length("least_m", least_m)
    require_length("tail_m", tail_m)
    require("tail_m", tail_m, low=least_m)
    require_length("wanted_m", wanted_m)
    return 0.0 if strands == 1 else min(wanted_m, (tail_m - least_m) / (strands - 1))


def splice(bare: Lay, strands: int, tail_m: float, step_m: float) -> Splice:
    """Lay staggered tails in with their bundles.

    Parameters
    ----------
    bare : Lay
        The bundles without tails, at the angle the splice is laid at.
    strands : int, >= 1
        In each bundle, and so in each tail.
    tail_m : float, > 0
        Longest tail, along the laid bundle. [m]
    step_m : float, >= 0
        From one strand end to the next, as `stagger` gives it. [m]

    Returns
    -------
    Splice

    Raises
    ------
    DomainError
        ``min`` below one strand; ``max`` for a step that leaves the shortest strand no tail, with the
        longest step as limit; ``number``, ``min`` or ``max`` otherwise.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> made = splice(lay(0.0015, 2, 0.33), 7, 0.2, 0.0127)
    >>> round(made.doubled.diameter_m, 5), round(made.turns, 1), round(made.shortest_m, 4)
    (0.00212, 10.3, 0.1238)
    """
    if strands < 1:
        raise DomainError(Problem(field="strands", code="min", limit=1))
    require_length("tail_m", tail_m)
    require("step_m", step_m, low=0.0)
    shortest_m = tail_m - (strands - 1) * step_m
    if shortest_m <= 0.0:
        raise DomainError(Problem(field="step_m", code="max", limit=tail_m / (strands - 1)))
    tails_m = [shortest_m + k * step_m for k in range(strands)]
    stations = tuple(_stations(bare, tails_m))
    turns = sum((each.to_m - each.from_m) * each.shape.turns_per_m for each in stations)
    return Splice(tail_m, shortest_m, step_m, tuple(end_m * bare.ratio for end_m in tails_m), stations, turns)


def _stations(bare: Lay, tails_m: Sequence[float]) -> list[SpliceStation]:
    strands, start_m, made = len(tails_m), 0.0, []
    for out, tail_m in enumerate(tails_m):
        end_m = tail_m * bare.ratio
        if end_m > start_m:
            left = strands - out
            shape = lay(bare.diameter_m * sqrt(1.0 + left / strands), bare.bundles, bare.lay_rad)
            made.append(SpliceStation(start_m, end_m, left, shape))
        start_m = end_m
    return made
