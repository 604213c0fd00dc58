"""A laid cord that takes up water: its fibres swell, so that the same turns take up more of its length."""

from __future__ import annotations

from math import asin, cos, pi, sin, tan

from calc.errors import DomainError, Problem, require
from calc.geometry.lay.twist import flat_surface_angle


def wet_length(lay_rad: float, swelling: float, along: float = 0.0) -> float:
    """Return the length of a slack balanced cord when it is wet / when it was dry [-].

    Parameters
    ----------
    lay_rad : float, >= 0 and below a right angle
        Dry, and as much the other way inside each bundle. [rad]
    swelling : float, >= 0
        Of a fibre's diameter. [-]
    along : float, > -1
        Of a fibre's length; below 0 it shrinks. [-]

    Raises
    ------
    DomainError
        ``number``, ``min`` or ``max``; ``model`` with reason ``jam`` where so many turns do not fit the swollen cord.

    Notes
    -----
    Source: own derivation (``derived:wetting``): turns and fibres stay what they are, every radius grows as the fibres
    do; lay and bundle each shorten by their own angle. Leaves out the pull of a bow, which holds a cord straighter.

    Examples
    --------
    >>> wet_length(0.0, 0.3, 0.05), round(wet_length(0.2, 0.2), 4)
    (1.05, 0.9862)
    """
    require("lay_rad", lay_rad, low=0.0)
    require("lay_rad", lay_rad, high=pi / 2.0, open_=True)
    require("swelling", swelling, low=0.0)
    require("along", along, low=-1.0, open_=True)
    dry = _bundle(lay_rad)
    twist = tan(lay_rad) * dry / pi / (1.0 + along)
    wet = (1.0 + along) * _bundle(flat_surface_angle(1.0 + swelling, twist))
    slant = sin(lay_rad) * (1.0 + swelling) * dry / wet
    if slant >= 1.0:
        raise DomainError(Problem(field="swelling", code="model", reason="jam"))
    return wet * cos(asin(slant)) / (dry * cos(lay_rad))


def _bundle(angle_rad: float) -> float:
    """Return a twisted bundle's length / its fibres'."""
    return 1.0 - tan(angle_rad / 2.0) ** 2
