"""A limb that bends freely under a pull at its tip: the exact shape, by shooting."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, partial
from math import cos, pi, sin
from typing import TYPE_CHECKING, Literal, TypeAlias

from calc.roots import crossing

if TYPE_CHECKING:
    from collections.abc import Callable

Stiffness: TypeAlias = Literal["tapered", "uniform"]
HIGHEST = 0.6
"""Highest brace height the limb shapes are worked out for, in working limb lengths. [-]"""
_Triple: TypeAlias = tuple[float, float, float]
_STEPS = 32
_DRAW_STEPS = 3
_NEWTON = 12
_CLOSED = 1e-9
_NUDGE = 1e-6
_NODES = 9
_LEAST_LOAD: dict[Stiffness, float] = {"tapered": 1.4457, "uniform": 2.4674}
"""Load at which a straight limb just starts to bend: (j0/2)^2 with j0 the first zero of the Bessel function,
and (pi/2)^2 (Euler). Where the search starts, nothing more. [-]"""


@dataclass(frozen=True, slots=True)
class Bent:
    """A bent limb of unit length, base at the origin and clamped along the first axis.

    Attributes
    ----------
    along, across : float
        Where the tip is. [limb lengths]
    load : float
        Pull x length^2 / bending stiffness at the base. [-]
    base_rad : float
        Angle of the base, 0 when the shot found its mark. [rad]
    tip_rad : float
        Slope of the tip against the unbent limb. [rad]
    path : tuple of (along, across)
        From the tip inwards, measured from the tip. [limb lengths]
    """

    along: float
    across: float
    load: float
    base_rad: float
    tip_rad: float
    path: tuple[tuple[float, float], ...]


def bend(stiffness: Stiffness, tip_rad: float, load: float, pull_rad: float) -> Bent:
    """Integrate a limb inwards from its tip.

    Parameters
    ----------
    stiffness : {"tapered", "uniform"}
        Bending stiffness falling evenly to nothing at the tip, or the same all along.
    tip_rad : float
        Slope of the tip against the unbent limb. [rad]
    load : float, > 0
        As in `Bent`.
    pull_rad : float
        Angle of the pull against the line of the unbent limbs. [rad]

    Notes
    -----
    Source: Euler's elastica, fourth-order Runge-Kutta in equal steps (``derived:limbs``). Leaves out shear, the
    limb's own weight and stretch of its back and belly.
    """
    cos_pull, sin_pull = cos(pull_rad), sin(pull_rad)
    h = 1.0 / _STEPS

    def slope(r: float, angle: float, x: float, y: float) -> float:
        lever = y * cos_pull + x * sin_pull
        if stiffness == "uniform":
            return -load * lever
        return -load * (lever / r if r > 0.0 else sin(angle) * cos_pull + cos(angle) * sin_pull)

    angle, x, y = tip_rad, 0.0, 0.0
    path = [(x, y)]
    for step in range(_STEPS):
        r = step * h
        k1 = slope(r, angle, x, y)
        a2 = angle + h * k1 / 2.0
        k2 = slope(r + h / 2.0, a2, x + h * cos(angle) / 2.0, y + h * sin(angle) / 2.0)
        a3 = angle + h * k2 / 2.0
        k3 = slope(r + h / 2.0, a3, x + h * cos(a2) / 2.0, y + h * sin(a2) / 2.0)
        a4 = angle + h * k3
        k4 = slope(r + h, a4, x + h * cos(a3), y + h * sin(a3))
        x += h * (cos(angle) + 2.0 * cos(a2) + 2.0 * cos(a3) + cos(a4)) / 6.0
        y += h * (sin(angle) + 2.0 * sin(a2) + 2.0 * sin(a3) + sin(a4)) / 6.0
        angle += h * (k1 + 2.0 * k2 + 2.0 * k3 + k4) / 6.0
        path.append((x, y))
    return Bent(x, y, load, angle, tip_rad, tuple(path))


def _held(stiffness: Stiffness, tip_rad: float, pull_rad: float) -> Bent:
    """Return the limb whose base does not turn, for a tip slope and a pull direction."""
    low = 1e-3
    high = _LEAST_LOAD[stiffness] * tip_rad / (tip_rad + pull_rad)
    while bend(stiffness, tip_rad, high, pull_rad).base_rad > 0.0:
        low, high = high, 1.15 * high
    load = crossing(lambda p: bend(stiffness, tip_rad, p, pull_rad).base_rad, low, high, within=1e-11)
    return bend(stiffness, tip_rad, load, pull_rad)


@cache
def braced(stiffness: Stiffness, across: float) -> Bent:
    """Return a limb whose tip stands a known distance off the unbent line, pulled along that line.

    Parameters
    ----------
    stiffness
        As for `bend`.
    across : float
        From above 0 to `HIGHEST`. [limb lengths]
    """
    low, high = 0.0, 1.4 * across
    while _held(stiffness, high, 0.0).across < across:
        low, high = high, 1.1 * high
    tip = crossing(lambda angle: _held(stiffness, angle, 0.0).across - across, low or 0.7 * high, high, within=1e-11)
    return _held(stiffness, tip, 0.0)


@cache
def _along_at_nodes(stiffness: Stiffness) -> tuple[tuple[float, float, float], ...]:
    """Return (z, shortening / z, weight) at Chebyshev nodes of z = across^2."""
    nodes = []
    for k in range(_NODES):
        turn = (2 * k + 1) * pi / (2 * _NODES)
        z = HIGHEST**2 * (1.0 + cos(turn)) / 2.0
        along = braced(stiffness, z**0.5).along
        nodes.append((z, (1.0 - along) / z, (-1.0) ** k * sin(turn)))
    return tuple(nodes)


def along(stiffness: Stiffness, across: float) -> float:
    """Return how far along the unbent line a braced limb's tip stands. [limb lengths].

    Parameters
    ----------
    stiffness
        As for `bend`.
    across : float
        From 0 to `HIGHEST`. [limb lengths]

    Notes
    -----
    Barycentric interpolation of the shot solutions in ``across^2``; within 1e-7 of them.
    """
    z = across * across
    top = bottom = 0.0
    for node, value, weight in _along_at_nodes(stiffness):
        if z == node:
            return 1.0 - value * z
        top += weight / (z - node) * value
        bottom += weight / (z - node)
    return 1.0 - z * top / bottom


def drawn(stiffness: Stiffness, half_handle: float, half_string: float, draw: float) -> tuple[Bent, float]:
    """Return the limb at full draw, and the string's angle against the line of the unbent limbs.

    Parameters
    ----------
    stiffness
        As for `bend`.
    half_handle, half_string, draw : float, > 0
        [limb lengths]

    Returns
    -------
    Bent, float
        The limb; the angle. [-], [rad]

    Notes
    -----
    Newton's rule on load, tip slope and string angle, drawn in small steps from where the string is straight.
    Source: own (``derived:statics``).
    """
    straight = half_string - half_handle
    across = crossing(lambda y: along(stiffness, y) - straight, 1e-6, HIGHEST)
    limb = braced(stiffness, across)
    found = (limb.load, limb.tip_rad, 0.0)
    for step in range(1, _DRAW_STEPS + 1):
        target = across + (draw - across) * step / _DRAW_STEPS
        found = _solve(partial(_closure, stiffness, half_handle, half_string, target), found)
    load, tip_rad, pull_rad = found
    return bend(stiffness, tip_rad, load, pull_rad), pull_rad


def _closure(stiffness: Stiffness, half_handle: float, half_string: float, draw: float, at: _Triple) -> _Triple:
    """Return what is still wrong: base turned, string short along, string short across."""
    load, tip_rad, pull_rad = at
    limb = bend(stiffness, tip_rad, load, pull_rad)
    return (
        limb.base_rad,
        limb.along + half_handle - half_string * cos(pull_rad),
        limb.across + half_string * sin(pull_rad) - draw,
    )


def _solve(wrong: Callable[[_Triple], _Triple], start: _Triple) -> _Triple:
    """Return where three residuals vanish, by Newton's rule with differences for slopes."""
    at = start
    for _ in range(_NEWTON):
        here = wrong(at)
        if max(abs(each) for each in here) < _CLOSED:
            break
        columns = []
        for k in range(3):
            moved = [value + _NUDGE * (j == k) for j, value in enumerate(at)]
            there = wrong((moved[0], moved[1], moved[2]))
            columns.append(tuple((b - a) / _NUDGE for a, b in zip(here, there, strict=True)))
        step = _cramer(columns, here)
        at = (at[0] - step[0], at[1] - step[1], at[2] - step[2])
    return at


def _cramer(columns: list[tuple[float, ...]], right: tuple[float, ...]) -> tuple[float, ...]:
    """Solve three equations by determinants."""
    whole = _determinant(columns)
    return tuple(_determinant([right if j == k else columns[j] for j in range(3)]) / whole for k in range(3))


def _determinant(m: list[tuple[float, ...]]) -> float:
    (a, b, c), (d, e, f), (g, h, i) = m
    return a * (e * i - f * h) - d * (b * i - c * h) + g * (b * f - c * e)
