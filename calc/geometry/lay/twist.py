"""Twist a bundle carries of its own: its angle and what it costs in length."""

from __future__ import annotations

from math import atan, copysign, pi, tan
from typing import TYPE_CHECKING

from calc.errors import DomainError, Problem, require
from calc.geometry.bounds import require_length

if TYPE_CHECKING:
    from calc.geometry.lay.helical_lay import Lay


def retraction(surface_rad: float) -> float:
    """Return how much of its length a bundle gives up to its own twist.

    Parameters
    ----------
    surface_rad : float
        Angle of the surface fibres to the bundle's axis, of either hand, within a right angle. [rad]

    Returns
    -------
    float
        ``1 - twisted / untwisted`` length. [-]

    Raises
    ------
    DomainError
        ``number``, ``min`` or ``max`` for the angle.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> from math import radians
    >>> round(100 * retraction(radians(20)), 4)
    3.1091
    """
    require("surface_rad", surface_rad, low=-pi / 2.0, high=pi / 2.0, open_=True)
    return tan(surface_rad / 2.0) ** 2


def modulus_ratio(surface_rad: float) -> float:
    """Return the stiffness of a twisted bundle, per fibre, against that of straight fibres.

    Parameters
    ----------
    surface_rad : float
        As for `retraction`. [rad]

    Returns
    -------
    float
        [-]

    Raises
    ------
    DomainError
        As `retraction`.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> from math import radians
    >>> round(modulus_ratio(radians(30)), 4)
    0.75
    """
    require("surface_rad", surface_rad, low=-pi / 2.0, high=pi / 2.0, open_=True)
    return 1.0 / (1.0 + tan(surface_rad) ** 2)


def surface_angle(diameter_m: float, twist_per_m: float) -> float:
    """Return the angle of a bundle's surface fibres to its axis.

    Parameters
    ----------
    diameter_m : float, > 0
        Of the twisted bundle. [m]
    twist_per_m : float
        Turns per metre of *twisted* bundle, Z positive. [turn/m]

    Returns
    -------
    float
        With the sign of the twist. [rad]

    Raises
    ------
    DomainError
        ``number``, ``min`` or ``max`` for the diameter, ``number`` for the twist.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> from math import degrees
    >>> round(degrees(surface_angle(0.0003697, 100)), 2)
    6.62
    """
    require_length("diameter_m", diameter_m)
    require("twist_per_m", twist_per_m)
    return atan(pi * diameter_m * twist_per_m)


def twist_of_angle(diameter_m: float, surface_rad: float) -> float:
    """Return the turns per metre of twisted bundle that lay the surface fibres at an angle.

    Parameters
    ----------
    diameter_m : float, > 0
        Of the twisted bundle. [m]
    surface_rad : float
        As for `retraction`. [rad]

    Returns
    -------
    float
        With the sign of the angle. [turn/m]

    Raises
    ------
    DomainError
        ``number``, ``min`` or ``max``.

    Notes
    -----
    Source: `surface_angle`, the other way about.

    Examples
    --------
    >>> round(surface_angle(0.001, twist_of_angle(0.001, -0.3)), 12)
    -0.3
    """
    require_length("diameter_m", diameter_m)
    require("surface_rad", surface_rad, low=-pi / 2.0, high=pi / 2.0, open_=True)
    return tan(surface_rad) / (pi * diameter_m)


def flat_surface_angle(diameter_m: float, twist_per_flat_m: float) -> float:
    """Return the angle of the surface fibres from turns counted over the length *before* twisting.

    Parameters
    ----------
    diameter_m : float, > 0
        Of the twisted bundle. [m]
    twist_per_flat_m : float
        Turns per metre of bundle laid flat, Z positive. [turn/m]

    Returns
    -------
    float
        With the sign of the twist. [rad]

    Raises
    ------
    DomainError
        ``number``, ``min`` or ``max`` for the diameter; ``number`` for the twist; ``model`` with reason
        ``overtwisted`` and the most turns as limit where all length would be gone.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> from math import degrees
    >>> round(degrees(flat_surface_angle(0.001, 100.0)), 3)
    17.854
    """
    require_length("diameter_m", diameter_m)
    require("twist_per_flat_m", twist_per_flat_m)
    most = 2.0 / (pi * diameter_m)
    if abs(twist_per_flat_m) >= most:
        limit = copysign(most, twist_per_flat_m)
        raise DomainError(Problem(field="twist_per_flat_m", code="model", limit=limit, reason="overtwisted"))
    return 2.0 * atan(pi * diameter_m * twist_per_flat_m / 2.0)


def cord_of_bundle(bundle_m: float, shape: Lay, twist_per_flat_m: float) -> float:
    """Return the cord that a length of bundle makes, after its own twist and the lay have both taken theirs.

    Parameters
    ----------
    bundle_m : float, > 0
        Bundle laid flat. [m]
    shape : Lay
        The lay it ends up in.
    twist_per_flat_m : float
        Turns of its own that the bundle holds in the cord, per metre laid flat, of either hand. [turn/m]

    Returns
    -------
    float
        Along the cord's axis. [m]

    Raises
    ------
    DomainError
        ``number``, ``min``, ``max`` for the length; as `flat_surface_angle` for the twist.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> from calc.geometry.lay.helical_lay import lay
    >>> round(cord_of_bundle(1.0, lay(0.002, 2, 0.3), 0.0), 6)
    0.955336
    """
    require_length("bundle_m", bundle_m)
    own = retraction(flat_surface_angle(shape.diameter_m, twist_per_flat_m))
    return bundle_m * (1.0 - own) * shape.ratio


def bundle_of_cord(cord_m: float, shape: Lay, twist_per_flat_m: float) -> float:
    """Return the bundle to lay out for a length of cord: `cord_of_bundle`, the other way about.

    Parameters
    ----------
    cord_m : float, > 0
        Along the cord's axis. [m]
    shape, twist_per_flat_m
        As for `cord_of_bundle`.

    Returns
    -------
    float
        Bundle laid flat. [m]

    Raises
    ------
    DomainError
        As `cord_of_bundle`.

    Notes
    -----
    Source: as `cord_of_bundle`.

    Examples
    --------
    >>> from calc.geometry.lay.helical_lay import lay
    >>> round(bundle_of_cord(0.955336, lay(0.002, 2, 0.3), 0.0), 5)
    1.0
    """
    require_length("cord_m", cord_m)
    return cord_m / cord_of_bundle(1.0, shape, twist_per_flat_m)
