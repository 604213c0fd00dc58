"""How long a tail must be to hold: an estimate by friction along the helix."""

from __future__ import annotations

from math import log, sin
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import require
from calc.geometry.bounds import require_length
from calc.numerics import Spread

if TYPE_CHECKING:
    from calc.geometry.lay import Lay


def wrap_angle(strand_m: float, shape: Lay) -> float:
    """Return the angle through which a bundle turns on its helix: arc length x curvature.

    Parameters
    ----------
    strand_m : float, >= 0
        Along the bundle. [m]
    shape : Lay
        The lay it lies in.

    Returns
    -------
    float
        [rad]

    Raises
    ------
    DomainError
        ``number``, ``min`` or ``max`` for the length.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    One turn of a flat ring would be 2 pi; a lay of 30 degrees keeps the sine of it:

    >>> from math import pi, radians
    >>> from calc.geometry.lay.helical_lay import lay
    >>> shape = lay(0.002, 2, radians(30))
    >>> round(wrap_angle(1.0 / shape.turns_per_strand_m, shape) / pi, 9)
    1.0
    """
    require("strand_m", strand_m, low=0.0, high=1e9)
    return strand_m * sin(shape.lay_rad) ** 2 / shape.radius_m


def holding_angle(friction: float, squeeze: float) -> float:
    """Return the wrap angle in which a tail that starts with half the pull lets go of all of it.

    Parameters
    ----------
    friction : float, > 0
        Coefficient of fibre on waxed fibre. [-]
    squeeze : float, > 0 and <= 1
        Share of the neighbours' inward press that passes through the tail. [-]

    Returns
    -------
    float
        [rad]

    Raises
    ------
    DomainError
        ``number``, ``min`` or ``max``.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    With all the press on the tail its share falls evenly:

    >>> holding_angle(0.25, 1.0)
    2.0
    >>> round(holding_angle(0.2, 0.3), 2)
    5.52
    """
    require("friction", friction, low=1e-3, high=1e3)
    require("squeeze", squeeze, low=1e-3, high=1.0)
    spare = 1.0 - squeeze
    fall = 0.5 if spare == 0.0 else log((1.0 + squeeze) / (2.0 * squeeze)) / spare
    return fall / friction


def holding_length(shape: Lay, friction: Spread) -> Spread:
    """Return the length of tail that just holds: an estimate, and a wide one.

    Parameters
    ----------
    shape : Lay
        Of the splice, at an angle above zero.
    friction : Spread
        As for `holding_angle`; the squeeze is that of ``splice_squeeze`` in the constants. [-]

    Returns
    -------
    Spread
        Low where both help at once, high where neither does. [m]

    Raises
    ------
    DomainError
        ``min`` with field ``lay_rad`` for a straight lay, and all that `holding_angle` raises.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> from calc.geometry.lay.helical_lay import lay
    >>> need = holding_length(lay(0.0021, 2, 0.33), Spread(0.1, 0.2, 0.4))
    >>> [round(1000 * each) for each in (need.low, need.value, need.high)]
    [18, 55, 158]
    """
    require("lay_rad", shape.lay_rad, low=1e-6)
    per_m = wrap_angle(1.0, shape)
    squeeze = practice("splice_squeeze").spread
    return Spread(
        holding_angle(friction.high, squeeze.high) / per_m,
        holding_angle(friction.value, squeeze.value) / per_m,
        holding_angle(friction.low, squeeze.low) / per_m,
    )


def holding_ratio(tail_m: float, shape: Lay, friction: Spread) -> Spread:
    """Return how many times as long as it need be a tail is: an estimate, and a wide one.

    Parameters
    ----------
    tail_m : float, > 0
        Along the bundle. [m]
    shape, friction
        As for `holding_length`.

    Returns
    -------
    Spread
        Below 1 it slips. [-]

    Raises
    ------
    DomainError
        ``number``, ``min`` or ``max`` for the tail, and all that `holding_length` raises.

    Notes
    -----
    Source: `holding_length`.

    Examples
    --------
    Two inches may hold, eight are safe:

    >>> from calc.geometry.lay.helical_lay import lay
    >>> splice = lay(0.0021, 2, 0.33)
    >>> friction = Spread(0.1, 0.2, 0.4)
    >>> [round(holding_ratio(tail, splice, friction).low, 1) for tail in (0.0508, 0.2032)]
    [0.3, 1.3]
    >>> [round(holding_ratio(tail, splice, friction).high, 1) for tail in (0.0508, 0.2032)]
    [2.8, 11.3]
    """
    require_length("tail_m", tail_m)
    need = holding_length(shape, friction)
    return Spread(tail_m / need.high, tail_m / need.value, tail_m / need.low)
