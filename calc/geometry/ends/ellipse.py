"""Arc length of an ellipse by symmetric elliptic integrals."""

from __future__ import annotations

from math import copysign, cos, hypot, sin, sqrt

_ALIKE = 1e-8
"""The arguments below differ by less than this when they are replaced by their mean: the error goes as its square."""


def _mean_of_first(x: float, y: float, z: float) -> float:
    """Return Carlson's integral of the first kind, by duplication until its arguments are all alike."""
    while max(x, y, z) - min(x, y, z) > _ALIKE * max(x, y, z):
        shift = sqrt(x * y) + sqrt(y * z) + sqrt(z * x)
        x, y, z = (x + shift) / 4.0, (y + shift) / 4.0, (z + shift) / 4.0
    return 1.0 / sqrt((x + y + z) / 3.0)


def _mean_of_second(x: float, y: float, z: float) -> float:
    """Return Carlson's integral of the second kind, likewise."""
    total, scale = 0.0, 1.0
    while max(x, y, z) - min(x, y, z) > _ALIKE * max(x, y, z):
        shift = sqrt(x * y) + sqrt(y * z) + sqrt(z * x)
        total += scale / (sqrt(z) * (z + shift))
        x, y, z, scale = (x + shift) / 4.0, (y + shift) / 4.0, (z + shift) / 4.0, scale / 4.0
    return 3.0 * total + scale / sqrt((x + y + 3.0 * z) / 5.0) ** 3


def quarter_arc(half_width: float, half_depth: float, normal_rad: float) -> float:
    """Return the outline from the end of the width to where its outward normal has turned by an angle.

    Parameters
    ----------
    half_width, half_depth : float, > 0
        Half axes. [m]
    normal_rad : float
        From the direction of the width, within a right angle either way. [rad]

    Returns
    -------
    float
        With the sign of the angle. [m]

    Notes
    -----
    Source: incomplete elliptic integral of the second kind in its symmetric form, computed by duplication
    (``carlson1995``). The eccentric angle ``u`` has ``tan(u) = depth / width x tan(normal)``.

    Examples
    --------
    A quarter of the unit circle:

    >>> round(4.0 * quarter_arc(1.0, 1.0, 1.5707963267948966), 9)
    6.283185307
    """
    far = hypot(half_width * cos(normal_rad), half_depth * sin(normal_rad))
    sine = half_depth * sin(abs(normal_rad)) / far
    cosine = half_width * cos(normal_rad) / far
    flat = 1.0 - (half_width / half_depth) ** 2
    x, y = cosine * cosine, 1.0 - flat * sine * sine
    arc = sine * _mean_of_first(x, y, 1.0) - flat * sine**3 * _mean_of_second(x, y, 1.0) / 3.0
    return copysign(half_depth * arc, normal_rad)
