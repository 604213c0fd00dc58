"""Loops to a known throat, a known length or a fit over the limb."""

from __future__ import annotations

from math import cos, pi, sin
from typing import TYPE_CHECKING

from calc.errors import DomainError, Problem, require
from calc.geometry.bounds import require_length
from calc.geometry.ends.loops import Loop, loop_at, shortest_loop
from calc.geometry.ends.sections import outline_ahead, outline_behind, perimeter, touch
from calc.numerics import find_root

if TYPE_CHECKING:
    from collections.abc import Callable

    from calc.geometry.ends.sections import Section

_ROUNDING = 1.0 - 1e-12


def _solved(section: Section, cord_diameter_m: float, shortest: Loop, over: Callable[[float], float]) -> Loop:
    """Return the loop at the half opening where `over` falls to zero, no wider than the shortest."""
    widest_rad = shortest.opening_rad / 2.0
    if over(widest_rad) >= 0.0:
        return shortest
    return loop_at(section, cord_diameter_m, find_root(over, 0.0, widest_rad))


def loop_of_throat(section: Section, cord_diameter_m: float, throat_m: float) -> Loop:
    """Return the loop that closes at a known distance.

    Parameters
    ----------
    section, cord_diameter_m
        As for `loop_nocked`.
    throat_m : float
        Middle of the tip to the throat, at least that of the shortest loop. [m]

    Returns
    -------
    Loop

    Raises
    ------
    DomainError
        ``min`` for a throat that is too close, with the closest as limit; ``number`` or ``max`` otherwise.

    Notes
    -----
    Source: as `loop_nocked`, solved for the opening.

    Examples
    --------
    A thread round a pin of radius 1, throat at distance 2: half-angle 30 degrees.

    >>> from math import sqrt
    >>> from calc.geometry.ends.sections import RoundTip
    >>> made = loop_of_throat(RoundTip(2.0), 1e-12, 2.0)
    >>> round(made.length_m - (4 * pi / 3 + 2 * sqrt(3)), 9), round(made.opening_rad - pi / 3, 9)
    (0.0, 0.0)
    """
    shortest = shortest_loop(section, cord_diameter_m)
    require_length("throat_m", throat_m)
    if throat_m < shortest.throat_m * _ROUNDING:
        raise DomainError(Problem(field="throat_m", code="min", limit=shortest.throat_m))
    half_m = cord_diameter_m / 2.0

    def over(half_rad: float) -> float:
        at = touch(section, half_rad)
        return at.reach_m + half_m * (1.0 - cos(half_rad)) - throat_m * sin(half_rad)

    return _solved(section, cord_diameter_m, shortest, over)


def loop_of_length(section: Section, cord_diameter_m: float, length_m: float) -> Loop:
    """Return where a loop of known length closes.

    Parameters
    ----------
    section, cord_diameter_m
        As for `loop_nocked`.
    length_m : float
        Centre line from throat to throat. [m]

    Returns
    -------
    Loop

    Raises
    ------
    DomainError
        ``min`` when it does not go round the tip, with the shortest as limit; ``number`` or ``max`` otherwise.

    Notes
    -----
    Source: as `loop_nocked`, solved for the opening.

    Examples
    --------
    >>> from calc.geometry.ends.sections import RoundTip
    >>> round(loop_of_length(RoundTip(2.0), 1e-12, 7.652891821).throat_m, 8)
    2.0
    """
    shortest = shortest_loop(section, cord_diameter_m)
    require_length("length_m", length_m)
    if length_m < shortest.length_m * _ROUNDING:
        raise DomainError(Problem(field="length_m", code="min", limit=shortest.length_m))
    half_m = cord_diameter_m / 2.0
    spare_m = length_m / 2.0 - outline_behind(section) - half_m * pi / 2.0

    def over(half_rad: float) -> float:
        at = touch(section, half_rad)
        across, along = cos(half_rad), sin(half_rad)
        legs_m = (at.reach_m + half_m * (1.0 - across)) * across - (half_m * along + at.slide_m) * along
        return legs_m + (outline_ahead(section, half_rad) + half_m * half_rad - spare_m) * along

    return _solved(section, cord_diameter_m, shortest, over)


def loop_sliding(section: Section, cord_diameter_m: float, ease: float) -> Loop:
    """Return a loop that passes over the limb with some ease.

    Parameters
    ----------
    section, cord_diameter_m
        As for `loop_nocked`; the section where the loop must pass.
    ease : float, >= 0
        Extra length as a share of the section's perimeter. [-]

    Returns
    -------
    Loop

    Raises
    ------
    DomainError
        ``number`` or ``min`` for the ease, and all that `loop_of_length` raises.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> from calc.geometry.ends.sections import RoundTip
    >>> round((loop_sliding(RoundTip(1.0), 0.1, 0.05).length_m - shortest_loop(RoundTip(1.0), 0.1).length_m) / pi, 9)
    0.05
    """
    require("ease", ease, low=0.0, high=1e6)
    shortest = shortest_loop(section, cord_diameter_m)
    return loop_of_length(section, cord_diameter_m, shortest.length_m + ease * perimeter(section))
