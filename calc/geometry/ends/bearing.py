"""How hard a loop presses on its tip, and what a string bridge leaves of the string's way."""

from __future__ import annotations

from math import cos, hypot, pi

from calc.errors import require
from calc.geometry.bounds import require_length


def bearing_line(width_m: float, opening_rad: float, pull_n: float) -> float:
    """Return how hard a loop presses along its way round a round tip [N/m].

    Parameters
    ----------
    width_m : float, > 0
        Of the tip, across the string. [m]
    opening_rad : float, >= 0 and below a straight angle
        Between the loop's legs. [rad]
    pull_n : float, >= 0
        In the string. [N]

    Raises
    ------
    DomainError
        ``number``, ``min`` or ``max``.

    Notes
    -----
    Source: own derivation (``derived:bearing``): each leg pulls half the string's pull / cos of half the opening, and a
    cord presses with its pull / radius. Leaves out friction, which lets the far side press less, and the corners of a
    flat tip, which press more.

    Examples
    --------
    >>> round(bearing_line(0.02, 0.0, 100.0))
    5000
    """
    require_length("width_m", width_m)
    require("opening_rad", opening_rad, low=0.0)
    require("opening_rad", opening_rad, high=pi, open_=True)
    require("pull_n", pull_n, low=0.0)
    return pull_n / (width_m * cos(opening_rad / 2.0))


def over_bridge(from_nock_m: float, height_m: float) -> float:
    """Return the string from its nock to the top of a string bridge, straight [m].

    Parameters
    ----------
    from_nock_m : float, > 0
        Along the tip, from the nock to the bridge. [m]
    height_m : float, >= 0
        Of the bridge above the tip, where the string lies. [m]

    Raises
    ------
    DomainError
        ``number``, ``min`` or ``max``.

    Notes
    -----
    Source: Pythagoras (``derived:bearing``); the tip between nock and bridge is straight and stiff.

    Examples
    --------
    >>> over_bridge(0.04, 0.03)
    0.05
    """
    require_length("from_nock_m", from_nock_m)
    require("height_m", height_m, low=0.0)
    return hypot(from_nock_m, height_m)
