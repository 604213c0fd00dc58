"""Thread wound close on a cord: servings, whippings and the loops of an endless string."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, sqrt
from typing import TYPE_CHECKING

from calc.errors import DomainError, Problem
from calc.geometry.bounds import require_length
from calc.geometry.ends.loops import Loop, loop_nocked

if TYPE_CHECKING:
    from calc.geometry.ends.sections import Section


@dataclass(frozen=True, slots=True)
class Coil:
    """A close coil of thread.

    Attributes
    ----------
    turns : float
        Of thread. [turn]
    thread_m : float
        Thread in the coil, its ends not counted. [m]
    diameter_m : float
        Over the coil. [m]
    """

    turns: float
    thread_m: float
    diameter_m: float


def coil(core_m: float, thread_m: float, length_m: float) -> Coil:
    """Wind thread close round a core.

    Parameters
    ----------
    core_m, thread_m : float, > 0
        Diameter of the core; diameter of the thread. [m]
    length_m : float, > 0
        Along the core. [m]

    Returns
    -------
    Coil

    Raises
    ------
    DomainError
        ``number``, ``min`` or ``max``.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> made = coil(0.003, 0.0005, 0.15)
    >>> round(made.turns, 1), round(made.thread_m, 3), round(made.diameter_m, 4)
    (299.7, 3.299, 0.004)
    """
    require_length("core_m", core_m)
    require_length("thread_m", thread_m)
    require_length("length_m", length_m)
    around_m = pi * (core_m + thread_m)
    pitch_m = thread_m / sqrt(1.0 - (thread_m / around_m) ** 2)
    turns = length_m / pitch_m
    return Coil(turns, length_m * around_m / thread_m, core_m + 2.0 * thread_m)


@dataclass(frozen=True, slots=True)
class ServedLoop:
    """A loop of an endless string: strands served alone round the tip, then both legs bound together.

    Attributes
    ----------
    loop : Loop
        Centre line of the served strands.
    single : Coil
        Serving that covers the loop from throat to throat.
    bound : Coil
        Binding that closes it, over both legs.
    """

    loop: Loop
    single: Coil
    bound: Coil


def served_loop(
    section: Section, bundle_m: float, thread_m: float, opening_rad: float, bound_length_m: float
) -> ServedLoop:
    """Plan the loop of an endless string.

    Parameters
    ----------
    section : Section
        Limb tip.
    bundle_m : float, > 0
        Diameter of the strands of one side, half of the string's. [m]
    thread_m : float, > 0
        Diameter of the serving thread, thinner than the bundle. [m]
    opening_rad : float, > 0
        Between the legs when the loop is closed. [rad]
    bound_length_m : float, > 0
        Length over which both legs are bound. [m]

    Returns
    -------
    ServedLoop

    Raises
    ------
    DomainError
        ``pair`` for a thread thicker than the bundle, and all that `loop_nocked` and `coil` raise.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> from math import radians
    >>> from calc.geometry.ends.sections import RoundTip
    >>> made = served_loop(RoundTip(0.0127), 0.002, 0.0005, radians(60), 0.06)
    >>> round(made.loop.length_m, 3), round(made.single.turns), round(made.bound.turns)
    (0.054, 108, 120)
    """
    require_length("thread_m", thread_m)
    require_length("bundle_m", bundle_m)
    require_length("bound_length_m", bound_length_m)
    if thread_m > bundle_m:
        raise DomainError(Problem(field="thread_m", code="pair", other="bundle_m"))
    loop = loop_nocked(section, bundle_m + 2.0 * thread_m, opening_rad)
    single = coil(bundle_m, thread_m, loop.length_m)
    return ServedLoop(loop, single, coil(bundle_m * sqrt(2.0), thread_m, bound_length_m))
