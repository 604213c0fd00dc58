"""A bow at rest: the limbs' angles when a string holds them, braced or drawn."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, cos, hypot, sin
from typing import TYPE_CHECKING

from calc.mechanics.bow.statics_four import braced_four, drawn_four
from calc.numerics import NoRootError, find_roots

if TYPE_CHECKING:
    from calc.mechanics.bow.limb_model import Limb, Vector
    from calc.numerics import Residual

_STEEPEST_RAD = 2.4
_STRAIGHTEST_RAD = 1.4
_FOUR = 4
_BENT = 0.02
"""A limb that stands off less is balanced with pivots."""


@dataclass(frozen=True, slots=True)
class LimbState:
    """A limb held by a string; lengths in limb lengths, limb and string from the end of the handle.

    Attributes
    ----------
    angles : tuple of float
        Of the limb, at its places. [rad]
    load : float
        String tension x limb length^2 / bending stiffness at the handle. [-]
    pull_rad : float
        String's angle against the line of the tips. [rad]
    along, across : float
        Where the tip is.
    energy : float
        Bending energy of one limb x limb length / bending stiffness. [-]
    """

    angles: Vector
    load: float
    pull_rad: float
    along: float
    across: float
    energy: float


@dataclass(frozen=True, slots=True)
class StringHold:
    """What a limb is held by; lengths in limb lengths.

    Attributes
    ----------
    limb : Limb
        The limb.
    rest : tuple of float
        Its angles with no string on. [rad]
    half_handle, half_string : float
        From the middle of the bow; along the string.
    lever : float
        Stiff tip beyond the bending limb that carries the string.
    back_rad : float
        Slope of the bending limb's end at which the lever lies along the line of the tips. [rad]
    """

    limb: Limb
    rest: Vector
    half_handle: float
    half_string: float
    lever: float = 0.0
    back_rad: float = 0.0


def braced(limb: Limb, rest: Vector, across: float, near: LimbState | None = None) -> LimbState:
    """Return the limb under a straight string, its tip standing off the handle's line.

    Parameters
    ----------
    limb : Limb
        The limb.
    rest : tuple of float
        Its angles with no string on. [rad]
    across : float, > 0
        [limb lengths]
    near : LimbState, optional
        A state not far away, to begin with.

    Raises
    ------
    NoRootError
        When the limb cannot be held so.

    Notes
    -----
    Source: the bend of a limb at a place is the string's pull x its distance / the limb's stiffness there
    (``derived:limbs``), solved by Newton's method. Leaves out shear and twist of the limb.
    """

    def equations(at: list[float]) -> Residual:
        angles, load = at[:-1], at[-1]
        lean = [weight * sin(angle) for weight, angle in zip(limb.reach, angles, strict=True)]
        turn = [weight * cos(angle) for weight, angle in zip(limb.reach, angles, strict=True)]
        wrong = [bent - load * pull for bent, pull in zip(_bent(limb, rest, angles), lean, strict=True)]
        slopes = [[*row, -pull] for row, pull in zip(limb.stiffness, lean, strict=True)]
        for i, each in enumerate(turn):
            slopes[i][i] -= load * each
        return [*wrong, sum(lean) - across], [*slopes, [*turn, 0.0]]

    start = [*(2.0 * across * place for place in limb.positions), 2.0]
    if near is not None:
        start = [*near.angles, near.load]
    return _limb_state(limb, rest, _braced_quickly(limb, rest, across, start) or find_roots(equations, start), 0.0)


def _braced_quickly(limb: Limb, rest: Vector, across: float, start: list[float]) -> list[float] | None:
    """Return angles and load of a limb of four angles, None where that must be left to `find_roots`."""
    if len(rest) != _FOUR or across < _BENT:
        return None
    try:
        return list(braced_four(limb, rest, across, start))
    except NoRootError:
        return None


def drawn(strung: StringHold, draw: float, start: LimbState) -> LimbState:
    """Return the limb when the middle of the string is drawn.

    Parameters
    ----------
    strung : StringHold
        Bow and string.
    draw : float
        From the line of the handle. [limb lengths]
    start : LimbState
        A state not far away.

    Raises
    ------
    NoRootError
        When the string cannot follow, or limb or string would pass what a bow can do.

    Notes
    -----
    Source: as `braced`, with a string of fixed length from the tip to the middle (``derived:statics``). Leaves out
    stretch of the string.
    """
    found = _drawn_quickly(strung, draw, start) or find_roots(
        lambda at: _drawn(strung, draw, at), [*start.angles, start.load]
    )
    angles = found[:-1]
    along, across = _end(strung, angles)
    pull_rad = atan2(draw - across, along + strung.half_handle)
    if found[-1] <= 0.0 or abs(pull_rad) > _STRAIGHTEST_RAD or max(angles) > _STEEPEST_RAD:
        raise NoRootError("drawn: past what a bow can do")
    return _limb_state(strung.limb, strung.rest, found, pull_rad)


def _drawn_quickly(strung: StringHold, draw: float, start: LimbState) -> list[float] | None:
    """Return angles and load of a limb of four angles, None where that must be left to `find_roots`."""
    if len(start.angles) != _FOUR:
        return None
    try:
        return list(drawn_four(strung, draw, (*start.angles, start.load)))
    except NoRootError:
        return None


def _tip(limb: Limb, angles: list[float]) -> tuple[float, float]:
    """Return where a bending limb ends, along and across, from the end of the handle."""
    along = sum(weight * cos(angle) for weight, angle in zip(limb.reach, angles, strict=True))
    return limb.base + along, sum(weight * sin(angle) for weight, angle in zip(limb.reach, angles, strict=True))


def _end(strung: StringHold, angles: list[float]) -> tuple[float, float]:
    """Return where the string leaves the lever."""
    along, across = _tip(strung.limb, angles)
    lever_rad = angles[-1] - strung.back_rad
    return along + strung.lever * cos(lever_rad), across + strung.lever * sin(lever_rad)


def _drawn(strung: StringHold, draw: float, at: list[float]) -> Residual:
    """Return couples out of balance and the string's misfit, with their slopes."""
    limb, angles, load = strung.limb, at[:-1], at[-1]
    along, across = _end(strung, angles)
    over, out = draw - across, strung.half_handle + along
    pull_rad, string = atan2(over, out), hypot(over, out)
    lean = [weight * sin(angle + pull_rad) for weight, angle in zip(limb.reach, angles, strict=True)]
    turn = [weight * cos(angle + pull_rad) for weight, angle in zip(limb.reach, angles, strict=True)]
    lean[-1] += strung.lever * sin(angles[-1] - strung.back_rad + pull_rad)
    turn[-1] += strung.lever * cos(angles[-1] - strung.back_rad + pull_rad)
    wrong = [bent - load * pull for bent, pull in zip(_bent(limb, strung.rest, angles), lean, strict=True)]
    slopes = [
        [*(k + load * mine * other / string for k, other in zip(row, turn, strict=True)), -pull]
        for row, mine, pull in zip(limb.stiffness, turn, lean, strict=True)
    ]
    for i, each in enumerate(turn):
        slopes[i][i] -= load * each
    return [*wrong, string - strung.half_string], [*slopes, [*(-each for each in lean), 0.0]]


def _bent(limb: Limb, rest: Vector, angles: list[float]) -> list[float]:
    """Return the bending couples of the angles."""
    off = [angle - free for angle, free in zip(angles, rest, strict=True)]
    return [sum(k * each for k, each in zip(row, off, strict=True)) for row in limb.stiffness]


def _limb_state(limb: Limb, rest: Vector, found: list[float], pull_rad: float) -> LimbState:
    angles = found[:-1]
    energy = sum((a - free) * k for a, free, k in zip(angles, rest, _bent(limb, rest, angles), strict=True)) / 2.0
    along, across = _tip(limb, angles)
    return LimbState(tuple(angles), found[-1], pull_rad, along, across, energy)
