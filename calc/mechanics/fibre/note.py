"""The note of a stretched string, and the pull that a note tells."""

from __future__ import annotations

from math import pi, sin, sqrt

from calc.errors import require


def mean_line(line_kg_m: float, length_m: float, more_kg_m: float = 0.0, over_m: float = 0.0) -> float:
    """Return the even weight that would sound as a string with a heavier middle does [kg/m].

    Parameters
    ----------
    line_kg_m, length_m : float, > 0
        Of the string between the nocks. [kg/m], [m]
    more_kg_m, over_m : float, >= 0
        What the middle weighs more, over how much of the length. [kg/m], [m]

    Raises
    ------
    DomainError
        ``min``, ``max`` or ``number``: the heavier middle is no longer than the string.

    Notes
    -----
    Source: Rayleigh's principle on the first shape, half a wave between nocks that stand still (``derived:note``).
    Leaves out that a heavy middle bends the shape: a tenth of it twice as heavy sounds 1 in 400 lower.

    Examples
    --------
    >>> round(mean_line(0.002, 1.6, 0.002, 1.6), 9), round(1000 * mean_line(0.002, 1.6, 0.001, 0.16), 3)
    (0.004, 2.198)
    """
    require("line_kg_m", line_kg_m, low=0.0, open_=True)
    require("length_m", length_m, low=0.0, open_=True)
    require("more_kg_m", more_kg_m, low=0.0)
    require("over_m", over_m, low=0.0, high=length_m)
    return line_kg_m + more_kg_m * (over_m / length_m + sin(pi * over_m / length_m) / pi)


def string_note(tension_n: float, length_m: float, line_kg_m: float) -> float:
    """Return the lowest note of a stretched string [Hz].

    Parameters
    ----------
    tension_n, length_m, line_kg_m : float, > 0
        Its pull, its length between nocks that stand still, its weight. [N], [m], [kg/m]

    Raises
    ------
    DomainError
        ``min`` or ``number``.

    Notes
    -----
    Source: half a wave between the nocks (``derived:note``). Leaves out the string's own stiffness.

    Examples
    --------
    >>> round(string_note(800.0, 0.4, 0.0075), 1)
    408.2
    """
    for name, value in (("tension_n", tension_n), ("length_m", length_m), ("line_kg_m", line_kg_m)):
        require(name, value, low=0.0, open_=True)
    return sqrt(tension_n / line_kg_m) / (2.0 * length_m)


def note_tension(note_hz: float, length_m: float, line_kg_m: float) -> float:
    """Return the pull of a string that sounds a note: `string_note` the other way [N].

    Parameters
    ----------
    note_hz, length_m, line_kg_m : float, > 0
        [Hz], [m], [kg/m]

    Raises
    ------
    DomainError
        ``min`` or ``number``.

    Notes
    -----
    Source: half a wave between the nocks (``derived:note``).

    Examples
    --------
    >>> round(note_tension(408.24829, 0.4, 0.0075), 3)
    800.0
    """
    for name, value in (("note_hz", note_hz), ("length_m", length_m), ("line_kg_m", line_kg_m)):
        require(name, value, low=0.0, open_=True)
    return line_kg_m * (2.0 * length_m * note_hz) ** 2
