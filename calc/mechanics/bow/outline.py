"""The shape of a braced bow, for drawing."""

from __future__ import annotations

from math import asin, cos, sin
from typing import TYPE_CHECKING

from calc.errors import DomainError, Problem
from calc.mechanics.bow.brace import set_angles, string_length
from calc.mechanics.bow.draw_force import rest_angles
from calc.mechanics.bow.limb_model import HINGE_ARM, arc_bend, limb
from calc.mechanics.bow.statics import braced
from calc.mechanics.bow.weighed_limb import hung_limb
from calc.numerics import NoRootError

if TYPE_CHECKING:
    from calc.mechanics.bow.bow import Bow

_PIECES = 24


def limb_outline(bow: Bow, brace_m: float) -> tuple[tuple[float, float], ...]:
    """Return the upper limb of the braced bow: along, across from the middle of the handle [m].

    Parameters
    ----------
    bow, brace_m
        As for `string_length`.

    Raises
    ------
    DomainError
        As `string_length`; ``model`` with reason ``brace_unheld`` for a bow that no string holds there.

    Notes
    -----
    Source: the shapes of `string_length` (``derived:limbs``); the curve of tapered and uniform limbs is the
    polynomial of their angle, summed by Simpson's rule over each piece. The last point is where the string lifts off.

    Examples
    --------
    >>> from calc.mechanics.bow.bow import Bow
    >>> [round(value, 3) for value in limb_outline(Bow(1.6, 0.2, "hinged"), 0.15)[-1]]
    [0.778, 0.15]
    """
    string_length(bow, brace_m)
    across = (brace_m + bow.handle_proud_m) / bow.limb_m
    half_m = bow.handle_length_m / 2.0
    if bow.shape == "hinged":
        turn_rad = asin(across / HINGE_ARM)
        curve = [(0.0, 0.0), (1.0 - HINGE_ARM, 0.0), (1.0 - HINGE_ARM + HINGE_ARM * cos(turn_rad), across)]
    else:
        curve = _curve(bow, across)
    return ((0.0, 0.0), *((half_m + along * bow.limb_m, off * bow.limb_m) for along, off in curve))


def hung_outline(bow: Bow, drop_m: float) -> tuple[tuple[float, float], ...]:
    """Return one limb of a bow with no string, clamped level with a weight on its nock: along, down from there [m].

    Parameters
    ----------
    bow : Bow
    drop_m : float, >= 0
        As for `hung_limb`; nothing hangs at 0. [m]

    Raises
    ------
    DomainError
        As `hung_limb`.

    Notes
    -----
    Source: `hung_limb`; the curve as that of `limb_outline`. From the end of the handle to where a recurved tip begins.
    """
    angles = hung_limb(bow, drop_m)[:-1] if drop_m else rest_angles(bow)
    if bow.shape == "hinged":
        arm = HINGE_ARM * cos(angles[0]), HINGE_ARM * sin(angles[0])
        curve = [(0.0, 0.0), (1.0 - HINGE_ARM, 0.0), (1.0 - HINGE_ARM + arm[0], arm[1])]
    else:
        knots = tuple(zip((0.0, *limb(bow.shape, 4).positions), (0.0, *angles), strict=True))
        curve = _traced([_between(knots, k / (2 * _PIECES)) for k in range(2 * _PIECES + 1)])
    return tuple((along * bow.limb_m, down * bow.limb_m) for along, down in curve)


def _curve(bow: Bow, across: float) -> list[tuple[float, float]]:
    """Return places along a bent limb of unit length."""
    steps = [k / (2 * _PIECES) for k in range(2 * _PIECES + 1)]
    if bow.shape == "arc":
        whole_rad = arc_bend(across)
        angles = [whole_rad * step for step in steps]
    else:
        bent = limb(bow.shape, 6)
        try:
            held = braced(bent, set_angles(bent.positions, bow.follow), across)
        except NoRootError:
            raise DomainError(Problem(field="brace_m", code="model", reason="brace_unheld")) from None
        knots = tuple(zip((0.0, *bent.positions), (0.0, *held.angles), strict=True))
        angles = [_between(knots, step) for step in steps]
    return _traced(angles)


def _traced(angles: list[float]) -> list[tuple[float, float]]:
    """Return places along a limb of unit length from its angles at the ends and the middle of every piece."""
    curve = [(0.0, 0.0)]
    for one, middle, other in zip(angles[::2], angles[1::2], angles[2::2], strict=False):
        along, off = curve[-1]
        curve.append(
            (
                along + (cos(one) + 4.0 * cos(middle) + cos(other)) / 6.0 / _PIECES,
                off + (sin(one) + 4.0 * sin(middle) + sin(other)) / 6.0 / _PIECES,
            )
        )
    return curve


def _between(knots: tuple[tuple[float, float], ...], at: float) -> float:
    """Return the polynomial through all knots, by Lagrange's formula."""
    total = 0.0
    for place, value in knots:
        term = value
        for other, _ in knots:
            if other != place:
                term *= (at - other) / (place - other)
        total += term
    return total
