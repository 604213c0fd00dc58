"""The rates of `motion` written out for limbs of four angles, which a shot calls some thousand times."""

from __future__ import annotations

from math import cos, hypot, sin
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

    from calc.mechanics.shot.motion import BowModel, State


def rates_of_four(model: BowModel, arrow_kg: float, *, taut: bool) -> Callable[[State], State]:
    """Return the function that gives the rates of a state, for a model of four angles.

    Parameters
    ----------
    model : BowModel
        Bow and string.
    arrow_kg, taut
        As for `rates_of`, which says the same in sums; DEVELOPERS.md says how much faster this is.

    Notes
    -----
    Source: as `rates_of`. Tip and nock are followed along their own directions: with the nock's rate put in, what is
    left is four equations with a symmetric matrix, solved without pivots.
    """
    r0, r1, r2, r3 = model.reach_m
    f0, f1, f2, f3 = model.rest
    (k00, k01, k02, k03), (_, k11, k12, k13), (_, _, k22, k23), (_, _, _, k33) = model.stiffness_nm
    (a00, _, _, _), (a10, a11, _, _), (a20, a21, a22, _), (a30, a31, a32, a33) = (
        tuple(inertia + model.at_tip_kg * mine * other for inertia, other in zip(row, model.reach_m, strict=True))
        for mine, row in zip(model.reach_m, model.inertia_kg_m2, strict=True)
    )
    nock_kg, shared = arrow_kg / 2.0 + model.at_nock_kg, model.shared_kg
    share, pull, base, slack = shared / nock_kg, model.spring_n_m if taut else 0.0, model.base_m, model.slack_m
    both = share * shared

    def rates(state: State) -> State:
        t0, t1, t2, t3, place, w0, w1, w2, w3, speed = state
        c0, c1, c2, c3 = cos(t0), cos(t1), cos(t2), cos(t3)
        s0, s1, s2, s3 = sin(t0), sin(t1), sin(t2), sin(t3)
        x0, x1, x2, x3 = r0 * c0, r1 * c1, r2 * c2, r3 * c3
        y0, y1, y2, y3 = r0 * s0, r1 * s1, r2 * s2, r3 * s3
        along, behind = base + x0 + x1 + x2 + x3, place - y0 - y1 - y2 - y3
        length = hypot(along, behind)
        tension = pull * (length - slack) / length
        q0, q1, q2, q3 = w0 * w0, w1 * w1, w2 * w2, w3 * w3
        nock = (shared * (y0 * q0 + y1 * q1 + y2 * q2 + y3 * q3) - tension * behind) / nock_kg
        across, inward = tension * behind - shared * nock, tension * along
        o0, o1, o2, o3 = t0 - f0, t1 - f1, t2 - f2, t3 - f3
        d10, d20, d30 = c1 * s0 - s1 * c0, c2 * s0 - s2 * c0, c3 * s0 - s3 * c0
        d21, d31, d32 = c2 * s1 - s2 * c1, c3 * s1 - s3 * c1, c3 * s2 - s3 * c2
        b0 = y0 * inward + x0 * across - k00 * o0 - k01 * o1 - k02 * o2 - k03 * o3
        b1 = y1 * inward + x1 * across - k01 * o0 - k11 * o1 - k12 * o2 - k13 * o3
        b2 = y2 * inward + x2 * across - k02 * o0 - k12 * o1 - k22 * o2 - k23 * o3
        b3 = y3 * inward + x3 * across - k03 * o0 - k13 * o1 - k23 * o2 - k33 * o3
        b0 -= a10 * d10 * q1 + a20 * d20 * q2 + a30 * d30 * q3
        b1 += a10 * d10 * q0 - a21 * d21 * q2 - a31 * d31 * q3
        b2 += a20 * d20 * q0 + a21 * d21 * q1 - a32 * d32 * q3
        b3 += a30 * d30 * q0 + a31 * d31 * q1 + a32 * d32 * q2
        z0, z1, z2 = both * x0, both * x1, both * x2
        m00 = a00 - z0 * x0
        m10, m11 = a10 * (c1 * c0 + s1 * s0) - z0 * x1, a11 - z1 * x1
        m20, m21, m22 = a20 * (c2 * c0 + s2 * s0) - z0 * x2, a21 * (c2 * c1 + s2 * s1) - z1 * x2, a22 - z2 * x2
        m30, m31 = a30 * (c3 * c0 + s3 * s0) - z0 * x3, a31 * (c3 * c1 + s3 * s1) - z1 * x3
        m32, m33 = a32 * (c3 * c2 + s3 * s2) - z2 * x3, a33 - both * x3 * x3
        g1, g2, g3 = m10 / m00, m20 / m00, m30 / m00
        m11 -= g1 * m10
        m21, m22 = m21 - g2 * m10, m22 - g2 * m20
        m31, m32, m33 = m31 - g3 * m10, m32 - g3 * m20, m33 - g3 * m30
        b1, b2, b3 = b1 - g1 * b0, b2 - g2 * b0, b3 - g3 * b0
        h2, h3 = m21 / m11, m31 / m11
        m22, m32, m33 = m22 - h2 * m21, m32 - h3 * m21, m33 - h3 * m31
        b2, b3 = b2 - h2 * b1, b3 - h3 * b1
        last = m32 / m22
        u3 = (b3 - last * b2) / (m33 - last * m32)
        u2 = b2 / m22 - last * u3
        u1 = b1 / m11 - h2 * u2 - h3 * u3
        u0 = b0 / m00 - g1 * u1 - g2 * u2 - g3 * u3
        return [w0, w1, w2, w3, speed, u0, u1, u2, u3, nock - share * (x0 * u0 + x1 * u1 + x2 * u2 + x3 * u3)]

    return rates
