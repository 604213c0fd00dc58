"""The balance of `statics` written out for limbs of four angles, which an answer calls some hundred times."""

from __future__ import annotations

from math import atan2, cos, hypot, sin
from typing import TYPE_CHECKING, TypeAlias

from calc.numerics import NoRootError

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.mechanics.bow.limb_model import Limb, Vector
    from calc.mechanics.bow.statics import StringHold

Five: TypeAlias = tuple[float, float, float, float, float]
"""Four angles [rad] and the load [-]."""
_ROUNDS = 40
_LONGEST = 0.5
_CLOSED = 1e-8
"""Newton's rule squares what is left at every step: a step this small leaves less than the last digit."""


def braced_four(limb: Limb, rest: Vector, across: float, start: Sequence[float]) -> Five:
    """Return angles and load of a limb of four angles under a straight string.

    Parameters
    ----------
    limb, rest, across
        As for `braced`.
    start : sequence of float
        Angles and load of a state not far away.

    Raises
    ------
    NoRootError
        When it does not close.

    Notes
    -----
    Source: as `braced` (``derived:limbs``). A limb that is hardly bent has next to no stiffness of its own against the
    string: leave those to `braced`.
    """
    r0, r1, r2, r3 = limb.reach
    f0, f1, f2, f3 = rest
    (k00, k01, k02, k03), (_, k11, k12, k13), (_, _, k22, k23), (_, _, _, k33) = limb.stiffness
    t0, t1, t2, t3, load = start
    for _ in range(_ROUNDS):
        y0, y1, y2, y3 = r0 * sin(t0), r1 * sin(t1), r2 * sin(t2), r3 * sin(t3)
        x0, x1, x2, x3 = r0 * cos(t0), r1 * cos(t1), r2 * cos(t2), r3 * cos(t3)
        o0, o1, o2, o3 = t0 - f0, t1 - f1, t2 - f2, t3 - f3
        u0, u1, u2, u3, more = _step(
            (
                k00 - load * x0,
                k01,
                k02,
                k03,
                k11 - load * x1,
                k12,
                k13,
                k22 - load * x2,
                k23,
                k33 - load * x3,
            ),
            (y0, y1, y2, y3),
            (x0, x1, x2, x3),
            (
                k00 * o0 + k01 * o1 + k02 * o2 + k03 * o3 - load * y0,
                k01 * o0 + k11 * o1 + k12 * o2 + k13 * o3 - load * y1,
                k02 * o0 + k12 * o1 + k22 * o2 + k23 * o3 - load * y2,
                k03 * o0 + k13 * o1 + k23 * o2 + k33 * o3 - load * y3,
            ),
            y0 + y1 + y2 + y3 - across,
        )
        largest = max(abs(u0), abs(u1), abs(u2), abs(u3), abs(more))
        share = _LONGEST / largest if largest > _LONGEST else 1.0
        t0, t1, t2, t3 = t0 - share * u0, t1 - share * u1, t2 - share * u2, t3 - share * u3
        load -= share * more
        if largest < _CLOSED:
            return t0, t1, t2, t3, load
    msg = f"braced_four: still moving by {largest}"
    raise NoRootError(msg)


def drawn_four(strung: StringHold, draw: float, start: Sequence[float]) -> Five:
    """Return angles and load of a limb of four angles on a drawn string.

    Parameters
    ----------
    strung, draw
        As for `drawn`.
    start : sequence of float
        Angles and load of a state not far away.

    Raises
    ------
    NoRootError
        When it does not close.

    Notes
    -----
    Source: as `drawn` (``derived:statics``); the four equations of the angles have a symmetric matrix, which is solved
    without pivots, and the string's length settles the load.
    """
    r0, r1, r2, r3 = strung.limb.reach
    f0, f1, f2, f3 = strung.rest
    (k00, k01, k02, k03), (_, k11, k12, k13), (_, _, k22, k23), (_, _, _, k33) = strung.limb.stiffness
    out, stiff, back = strung.half_handle + strung.limb.base, strung.lever, strung.back_rad
    t0, t1, t2, t3, load = start
    for _ in range(_ROUNDS):
        along = out + r0 * cos(t0) + r1 * cos(t1) + r2 * cos(t2) + r3 * cos(t3)
        over = draw - r0 * sin(t0) - r1 * sin(t1) - r2 * sin(t2) - r3 * sin(t3)
        if stiff:
            along += stiff * cos(t3 - back)
            over -= stiff * sin(t3 - back)
        pull, string = atan2(over, along), hypot(over, along)
        a0, a1, a2, a3 = t0 + pull, t1 + pull, t2 + pull, t3 + pull
        y0, y1, y2, y3 = r0 * sin(a0), r1 * sin(a1), r2 * sin(a2), r3 * sin(a3)
        x0, x1, x2, x3 = r0 * cos(a0), r1 * cos(a1), r2 * cos(a2), r3 * cos(a3)
        if stiff:
            y3 += stiff * sin(a3 - back)
            x3 += stiff * cos(a3 - back)
        o0, o1, o2, o3 = t0 - f0, t1 - f1, t2 - f2, t3 - f3
        give = load / string
        z0, z1, z2, z3 = give * x0, give * x1, give * x2, give * x3
        u0, u1, u2, u3, more = _step(
            (
                k00 + z0 * x0 - load * x0,
                k01 + z0 * x1,
                k02 + z0 * x2,
                k03 + z0 * x3,
                k11 + z1 * x1 - load * x1,
                k12 + z1 * x2,
                k13 + z1 * x3,
                k22 + z2 * x2 - load * x2,
                k23 + z2 * x3,
                k33 + z3 * x3 - load * x3,
            ),
            (y0, y1, y2, y3),
            (y0, y1, y2, y3),
            (
                k00 * o0 + k01 * o1 + k02 * o2 + k03 * o3 - load * y0,
                k01 * o0 + k11 * o1 + k12 * o2 + k13 * o3 - load * y1,
                k02 * o0 + k12 * o1 + k22 * o2 + k23 * o3 - load * y2,
                k03 * o0 + k13 * o1 + k23 * o2 + k33 * o3 - load * y3,
            ),
            strung.half_string - string,
        )
        largest = max(abs(u0), abs(u1), abs(u2), abs(u3), abs(more))
        share = _LONGEST / largest if largest > _LONGEST else 1.0
        t0, t1, t2, t3 = t0 - share * u0, t1 - share * u1, t2 - share * u2, t3 - share * u3
        load -= share * more
        if largest < _CLOSED:
            return t0, t1, t2, t3, load
    msg = f"drawn_four: still moving by {largest}"
    raise NoRootError(msg)


def _step(
    half: tuple[float, ...],
    lean: tuple[float, float, float, float],
    cross: tuple[float, float, float, float],
    wrong: tuple[float, float, float, float],
    off: float,
) -> Five:
    """Solve ``half u - lean more = wrong`` and ``cross u = off``, `half` symmetric and given from its diagonal on.

    Raises
    ------
    NoRootError
        When a pivot is nothing.
    """
    m00, m01, m02, m03, m11, m12, m13, m22, m23, m33 = half
    y0, y1, y2, y3 = lean
    x0, x1, x2, x3 = cross
    b0, b1, b2, b3 = wrong
    try:
        g1, g2, g3 = m01 / m00, m02 / m00, m03 / m00
        m11, m12, m13 = m11 - g1 * m01, m12 - g1 * m02, m13 - g1 * m03
        m22, m23, m33 = m22 - g2 * m02, m23 - g2 * m03, m33 - g3 * m03
        h2, h3 = m12 / m11, m13 / m11
        m22, m23, m33 = m22 - h2 * m12, m23 - h2 * m13, m33 - h3 * m13
        i3 = m23 / m22
        m33 -= i3 * m23
        b1, y1, x1 = b1 - g1 * b0, y1 - g1 * y0, x1 - g1 * x0
        b2, y2, x2 = b2 - g2 * b0 - h2 * b1, y2 - g2 * y0 - h2 * y1, x2 - g2 * x0 - h2 * x1
        b3 -= g3 * b0 + h3 * b1 + i3 * b2
        y3 -= g3 * y0 + h3 * y1 + i3 * y2
        x3 -= g3 * x0 + h3 * x1 + i3 * x2
        v0, v1, v2, v3 = x0 / m00, x1 / m11, x2 / m22, x3 / m33
        more = (off - b0 * v0 - b1 * v1 - b2 * v2 - b3 * v3) / (y0 * v0 + y1 * v1 + y2 * v2 + y3 * v3)
        u3 = (b3 + more * y3) / m33
        u2 = (b2 + more * y2) / m22 - i3 * u3
        u1 = (b1 + more * y1) / m11 - h2 * u2 - h3 * u3
        u0 = (b0 + more * y0) / m00 - g1 * u1 - g2 * u2 - g3 * u3
    except ZeroDivisionError:
        msg = "statics_four: no slope"
        raise NoRootError(msg) from None
    return u0, u1, u2, u3, more
