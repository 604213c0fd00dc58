"""A limb as a few angles along it: where its tip is, how hard it is to bend, how heavy it is to move."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from math import cos, sin, sqrt
from typing import Literal, TypeAlias

from calc.numerics import newton

LimbShape: TypeAlias = Literal["arc", "hinged", "tapered", "uniform"]
HINGE_ARM = 0.75
"""A rigid limb on a hinge behaves like a bent one when its arm is 3/4 of the limb (``hickman1937``)."""
SMALL_RAD, _CLOSE_RAD, _NEAR_RAD = 1e-3, 1e-10, 1e-8
"""A bend below the first is a series to the last digit; Newton's method is there once a step is below another."""
Vector: TypeAlias = tuple[float, ...]
Matrix: TypeAlias = tuple[Vector, ...]

_INNER: dict[int, Vector] = {
    4: (sqrt(3.0 / 7.0), 0.0, -sqrt(3.0 / 7.0)),
    6: (
        sqrt((5.0 + 2.0 * sqrt(5.0 / 3.0)) / 11.0),
        sqrt((5.0 - 2.0 * sqrt(5.0 / 3.0)) / 11.0),
        0.0,
        -sqrt((5.0 - 2.0 * sqrt(5.0 / 3.0)) / 11.0),
        -sqrt((5.0 + 2.0 * sqrt(5.0 / 3.0)) / 11.0),
    ),
}
"""Lobatto's places between the ends, on -1 to 1, for the two numbers of angles in use."""
_STIFFNESS: dict[LimbShape, Vector] = {"arc": (1.0, 0.0, -1.0), "tapered": (1.0, -1.0), "uniform": (1.0,)}
"""Bending stiffness along the limb as a polynomial of the place, 1 at the handle."""
_MASS: dict[LimbShape, Vector] = {"arc": (1.5, 0.0, -1.5), "tapered": (2.0, -2.0), "uniform": (1.0,)}
"""Mass along the limb likewise, 1 in all."""


@dataclass(frozen=True, slots=True)
class Limb:
    """A limb of unit length, mass and stiffness, described by its angles at a few places.

    Attributes
    ----------
    positions : tuple of float
        Where the angles are, from the handle outwards; the last one is the tip. [limb lengths]
    base : float
        What the unbent root adds to the tip's place along. [limb lengths]
    reach : tuple of float
        The tip is at ``base + sum(reach * cos(angle))`` along, ``sum(reach * sin(angle))`` across. [limb lengths]
    stiffness : tuple of tuple of float
        Bending energy is half of angles x this x angles. [bending stiffness at the handle / limb length]
    inertia : tuple of tuple of float
        Energy of motion is half the sum of this x cos(difference of angles) x rates. [mass x limb length^2]
    """

    positions: Vector
    base: float
    reach: Vector
    stiffness: Matrix
    inertia: Matrix


HINGED = Limb((1.0,), 1.0 - HINGE_ARM, (HINGE_ARM,), ((1.0,),), ((HINGE_ARM**2 / 15.0,),))
"""The rigid limb on a spring hinge; its tip carries 1/15 of the mass, as a tapered limb's does when it moves slowly."""


@cache
def limb(shape: LimbShape, angles: Literal[4, 6]) -> Limb:
    """Return a limb of a shape.

    Parameters
    ----------
    shape : LimbShape
        ``tapered``: stiffness and mass fall evenly to nothing at the tip; ``uniform``: the same all along;
        ``arc``: as 1 - place^2, which bends to an arc while it bends little; ``hinged`` has one angle whatever
        is asked for.
    angles : {4, 6}
        How many; 4 are within 1e-4 of the exact bend up to a tip slope of a radian, 6 within 1e-6.

    Notes
    -----
    Source: own derivation (``derived:limbs``). The angle along the limb is the polynomial through the handle (0)
    and Lobatto's places, and so are its cosine and sine; energies are then integrated exactly. Leaves out shear,
    stretch of back and belly, and twist.

    Examples
    --------
    >>> straight = limb("tapered", 4)
    >>> round(straight.base + sum(straight.reach), 12)
    1.0
    """
    if shape == "hinged":
        return HINGED
    positions = (0.0, *((1.0 - inner) / 2.0 for inner in _INNER[angles]), 1.0)
    through = [_through(positions, k) for k in range(len(positions))]
    along = [_integral(each) for each in through]
    slopes = [_slope(each) for each in through[1:]]
    return Limb(
        positions[1:],
        sum(along[0]),
        tuple(sum(each) for each in along[1:]),
        _weighted(slopes, _STIFFNESS[shape]),
        _weighted(along[1:], _MASS[shape]),
    )


def _through(positions: Vector, k: int) -> Vector:
    """Return the polynomial that is 1 at one place and 0 at the others, rising powers."""
    out: Vector = (1.0,)
    for other in positions[:k] + positions[k + 1 :]:
        gap = positions[k] - other
        out = _product(out, (-other / gap, 1.0 / gap))
    return out


def _product(a: Vector, b: Vector) -> Vector:
    out = [0.0] * (len(a) + len(b) - 1)
    for i, x in enumerate(a):
        for j, y in enumerate(b):
            out[i + j] += x * y
    return tuple(out)


def _integral(a: Vector) -> Vector:
    return (0.0, *(x / (i + 1) for i, x in enumerate(a)))


def _slope(a: Vector) -> Vector:
    return tuple(i * x for i, x in enumerate(a) if i)


def _weighted(terms: list[Vector], weight: Vector) -> Matrix:
    """Return the integrals of weight x term x term over the limb."""
    return tuple(tuple(sum(_integral(_product(_product(a, b), weight))) for b in terms) for a in terms)


def arc_across(reach: float) -> float:
    """Return how far the tip of a limb bent to an arc stands off, from how far along it reaches [limb lengths].

    Parameters
    ----------
    reach : float, above 0, up to 1
        How far along the tip is. [limb lengths]

    Notes
    -----
    Source: ``formulas.toml`` beside this file.
    """
    short = 1.0 - reach
    bend_rad = sqrt(6.0 * short * (1.0 + 0.3 * short))
    if bend_rad >= SMALL_RAD:
        bend_rad = newton(lambda b: (sin(b) - reach * b, cos(b) - reach), bend_rad, within=_CLOSE_RAD)
    return 2.0 * sin(bend_rad / 2.0) ** 2 / bend_rad if bend_rad else 0.0


def arc_bend(across: float) -> float:
    """Return the slope at the tip of a limb bent to an arc, from where its tip stands off [rad].

    Parameters
    ----------
    across : float
        Where the tip stands off. [limb lengths]

    Notes
    -----
    Source: ``formulas.toml`` beside this file.
    """
    bend_rad = across * (2.0 + across**2 * (2.0 / 3.0 + 0.6 * across**2))
    if bend_rad < SMALL_RAD:
        return bend_rad
    return newton(lambda b: (1.0 - cos(b) - across * b, sin(b) - across), bend_rad, within=_NEAR_RAD)
