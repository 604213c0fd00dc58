"""A centre serving: thread wound hard on the string, and how it sits in the nock."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, sqrt

from calc.errors import DomainError, Problem, require


@dataclass(frozen=True, slots=True)
class Served:
    """A served string.

    Attributes
    ----------
    diameter_m : float
        Over the serving. [m]
    turns : float
        [turn]
    thread_m : float
        Thread in the coil, its ends not counted. [m]
    """

    diameter_m: float
    turns: float
    thread_m: float


def serve(core_m: float, thread_m: float, length_m: float, press: float = 1.0) -> Served:
    """Wind thread close round a string.

    Parameters
    ----------
    core_m, thread_m : float, > 0
        Diameter of the string and of the thread, which is no thicker. [m]
    length_m : float, > 0
        Served. [m]
    press : float, > 0 and <= 1
        Thickness of the wound thread / its diameter; pressed flat it lies as much wider. [-]

    Returns
    -------
    Served

    Raises
    ------
    DomainError
        ``pair`` with reason ``thread_thick``; ``number``, ``min`` or ``max`` otherwise.

    Notes
    -----
    Source: unrolled cylinder (``derived:unroll``), the thread's cross-section kept (``derived:packing``). Turns that
    touch stand the thread's width apart across the thread. Leaves out bedding into the string.

    Examples
    --------
    >>> made = serve(0.003, 0.0005, 0.15)
    >>> round(made.diameter_m, 4), round(made.turns, 1), round(made.thread_m, 3)
    (0.004, 299.7, 3.299)
    """
    for name, value in (("core_m", core_m), ("thread_m", thread_m), ("length_m", length_m)):
        require(name, value, low=0.0, open_=True)
    require("press", press, low=0.01, high=1.0)
    if thread_m > core_m:
        raise DomainError(Problem(field="thread_m", code="pair", other="core_m", reason="thread_thick"))
    thick_m, wide_m = thread_m * press, thread_m / press
    around_m = pi * (core_m + thick_m)
    require("thread_m", wide_m, high=around_m, open_=True)
    turns = length_m / wide_m * sqrt(1.0 - (wide_m / around_m) ** 2)
    return Served(core_m + 2.0 * thick_m, turns, length_m * around_m / wide_m)


def core_of_strands(core_m: float, strands: int, wanted: float) -> float:
    """Return the diameter of a string of another strand count [m].

    Parameters
    ----------
    core_m : float, > 0
        As measured. [m]
    strands, wanted : float, > 0
        Its strands, and those of the other.

    Raises
    ------
    DomainError
        ``min`` for counts below their bounds, ``number`` for those not finite.

    Notes
    -----
    Source: area goes with the strands (``derived:packing``). Leaves out that few strands lie less round.

    Examples
    --------
    >>> core_of_strands(0.002, 12, 27)
    0.003
    """
    require("strands", strands, low=0.0, open_=True)
    require("wanted", wanted, low=0.0)
    return core_m * sqrt(wanted / strands)
