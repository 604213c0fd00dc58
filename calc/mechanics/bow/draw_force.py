"""A bow being drawn: string tension, draw force and stored energy, with limbs that bend."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import asin, sin
from typing import TYPE_CHECKING

from calc.errors import DomainError, Problem, require
from calc.mechanics.bow.brace import set_angles, string_length
from calc.mechanics.bow.limb_model import HINGE_ARM, limb
from calc.mechanics.bow.statics import StringHold, braced, drawn
from calc.numerics import NoRootError

if TYPE_CHECKING:
    from calc.mechanics.bow.bow import Bow
    from calc.mechanics.bow.statics import LimbState

_STEPS = 8


@dataclass(frozen=True, slots=True)
class Tension:
    """The string's pull at rest.

    Attributes
    ----------
    brace_n, draw_n, least_n : float
        Braced; at full draw; the least on the way. [N]
    least_at_m : float
        Draw at which it is least, from where brace height is measured. [m]
    energy_j : float
        Stored between brace and full draw. [J]
    angle_rad : float
        Between the half string at full draw and the line of the tips. [rad]
    """

    brace_n: float
    draw_n: float
    least_n: float
    least_at_m: float
    energy_j: float
    angle_rad: float


@dataclass(frozen=True, slots=True)
class DrawPoint:
    """One place of a draw-force curve.

    Parameters
    ----------
    draw_m : float
        From where brace height is measured. [m]
    force_n : float
        On the fingers. [N]
    tension_n : float
        Of the string. [N]
    """

    draw_m: float
    force_n: float
    tension_n: float


@dataclass(frozen=True, slots=True)
class DrawCurve:
    """A bow from brace to full draw.

    Attributes
    ----------
    points : tuple of DrawPoint
        Evenly spaced in draw, the first braced.
    energy_j : float
        Bending energy gained on the way. [J]
    """

    points: tuple[DrawPoint, ...]
    energy_j: float


def static_tension(bow: Bow, brace_m: float, draw_m: float, draw_force_n: float) -> Tension:
    """Return the string's pull from brace to full draw.

    Parameters
    ----------
    bow, brace_m
        As for `string_length`.
    draw_m : float
        From the point where brace height is measured. [m]
    draw_force_n : float, > 0
        Draw weight there. [N]

    Raises
    ------
    DomainError
        As `string_length`; ``pair`` with reason ``draw_short`` for a draw not above the brace height,
        ``draw_long`` for one the string or the limbs cannot follow.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> from calc.mechanics.bow.bow import Bow
    >>> at = static_tension(Bow(68, 8, "tapered"), 6, 28, 100)
    >>> round(at.brace_n), round(at.draw_n), round(at.least_n)
    (151, 111, 102)
    """
    curve = draw_curve(bow, brace_m, draw_m, draw_force_n, steps=_STEPS)
    last = curve.points[-1]
    least_at_m, least_n = _least(curve.points)
    return Tension(
        brace_n=curve.points[0].tension_n,
        draw_n=last.tension_n,
        least_n=least_n,
        least_at_m=least_at_m,
        energy_j=curve.energy_j,
        angle_rad=_states(bow, brace_m, draw_m, _STEPS)[-1].pull_rad,
    )


def draw_curve(bow: Bow, brace_m: float, draw_m: float, draw_force_n: float, *, steps: int = 24) -> DrawCurve:
    """Return draw force and string tension from brace to full draw.

    Parameters
    ----------
    bow, brace_m, draw_m, draw_force_n
        As for `static_tension`.
    steps : int, > 0
        How many even steps of draw.

    Raises
    ------
    DomainError
        As `static_tension`.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> from calc.mechanics.bow.bow import Bow
    >>> curve = draw_curve(Bow(72, 8, "tapered"), 6, 28, 1.0, steps=7)
    >>> [round(point.force_n, 2) for point in curve.points]
    [0.0, 0.2, 0.34, 0.46, 0.58, 0.7, 0.84, 1.0]
    """
    require("draw_force_n", draw_force_n, low=0.0, open_=True)
    require("draw_m", draw_m, low=0.0, open_=True)
    require("steps", steps, low=1.0)
    string_length(bow, brace_m)
    if draw_m <= brace_m:
        raise DomainError(Problem(field="draw_m", code="pair", other="brace_m", reason="draw_short"))
    states = _states(bow, brace_m, draw_m, steps)
    last = states[-1]
    unit_n = draw_force_n / (2.0 * sin(last.pull_rad) * last.load)
    points = tuple(
        DrawPoint(
            brace_m + (draw_m - brace_m) * k / steps,
            2.0 * unit_n * state.load * sin(state.pull_rad),
            unit_n * state.load,
        )
        for k, state in enumerate(states)
    )
    return DrawCurve(points, 2.0 * unit_n * bow.limb_m * (last.energy - states[0].energy))


def end_tension(bow: Bow, brace_m: float, draw_m: float, draw_force_n: float) -> tuple[float, float]:
    """Return the string's pull braced and at full draw, and nothing between: the ends of `draw_curve` [N].

    Parameters
    ----------
    bow, brace_m, draw_m, draw_force_n
        As for `static_tension`.

    Raises
    ------
    DomainError
        As `static_tension`.

    Notes
    -----
    Source: as `static_tension`. It goes to full draw in one step, and in small ones where that does not close.

    Examples
    --------
    >>> from calc.mechanics.bow.bow import Bow
    >>> [round(end) for end in end_tension(Bow(68, 8, "tapered"), 6, 28, 100)]
    [151, 111]
    """
    require("draw_force_n", draw_force_n, low=0.0, open_=True)
    require("draw_m", draw_m, low=0.0, open_=True)
    string_length(bow, brace_m)
    if draw_m <= brace_m:
        raise DomainError(Problem(field="draw_m", code="pair", other="brace_m", reason="draw_short"))
    try:
        states = _states(bow, brace_m, draw_m, 1)
    except DomainError:
        states = _states(bow, brace_m, draw_m, _STEPS)
    first, last = states[0], states[-1]
    draw_n = draw_force_n / (2.0 * sin(last.pull_rad))
    return draw_n * first.load / last.load, draw_n


def _states(bow: Bow, brace_m: float, draw_m: float, steps: int) -> tuple[LimbState, ...]:
    """Return the limb braced and at every even step of the draw."""
    return limb_state_at(bow, brace_m, tuple(brace_m + (draw_m - brace_m) * k / steps for k in range(1, steps + 1)))


@lru_cache(maxsize=64)
def limb_state_at(bow: Bow, brace_m: float, draws_m: tuple[float, ...]) -> tuple[LimbState, ...]:
    """Return the limb braced and at every one of several draws, rising.

    Parameters
    ----------
    bow, brace_m
        As for `string_length`.
    draws_m : tuple of float
        From the point where brace height is measured. [m]

    Raises
    ------
    DomainError
        ``pair`` with reason ``draw_long``; ``model`` with reason ``brace_unheld`` for a bow that no string holds there.

    Notes
    -----
    Source: as `static_tension`; each draw is looked for from the one before.
    """
    try:
        strung, state = _strung(bow, brace_m)
    except NoRootError:
        raise DomainError(Problem(field="brace_m", code="model", reason="brace_unheld")) from None
    states = [state]
    for to_m in draws_m:
        try:
            state = drawn(strung, (to_m + bow.handle_proud_m) / bow.limb_m, state)
        except NoRootError:
            raise _draw_long() from None
        states.append(state)
    return tuple(states)


def limb_state_near(
    bow: Bow, brace_m: float, draws_m: tuple[float, ...], near: tuple[LimbState, ...] = ()
) -> tuple[LimbState, ...]:
    """Return what `limb_state_at` does, each state looked for from that of a bow not far from this one.

    Parameters
    ----------
    bow, brace_m, draws_m
        As for `limb_state_at`; draws in any order.
    near : tuple of LimbState
        The same states of another bow; without them each is looked for from the braced bow.

    Raises
    ------
    DomainError
        As `limb_state_at`.

    Notes
    -----
    Source: as `static_tension`; where a state is not found from the near one, the draw is followed in small steps.
    """
    try:
        strung, start = _strung(bow, brace_m, near[0] if near else None)
        from_there = near[1:] or (start,) * len(draws_m)
        to = [(to_m + bow.handle_proud_m) / bow.limb_m for to_m in draws_m]
        return (start, *(drawn(strung, draw, state) for draw, state in zip(to, from_there, strict=True)))
    except NoRootError:
        return (limb_state_at(bow, brace_m, ())[0], *(_slowly(bow, brace_m, to_m) for to_m in draws_m))


def _slowly(bow: Bow, brace_m: float, to_m: float) -> LimbState:
    return _states(bow, brace_m, to_m, _STEPS)[-1]


def _strung(bow: Bow, brace_m: float, near: LimbState | None = None) -> tuple[StringHold, LimbState]:
    """Return bow and string, and the limb braced."""
    bent, rest, unit = limb(bow.shape, 4), rest_angles(bow), bow.limb_m
    state = braced(bent, rest, (brace_m + bow.handle_proud_m) / unit, near)
    half_handle, lever = bow.handle_length_m / 2.0 / unit, bow.contact_m / unit
    return StringHold(bent, rest, half_handle, half_handle + state.along + lever, lever, state.angles[-1]), state


def _draw_long() -> DomainError:
    return DomainError(Problem(field="draw_m", code="pair", other="nock_to_nock_m", reason="draw_long"))


def rest_angles(bow: Bow) -> tuple[float, ...]:
    """Return the limb's angles with no string on: set spread evenly along the limb, or all in the hinge [rad].

    Parameters
    ----------
    bow : Bow
        Its shape and its set.

    Notes
    -----
    Source: own rule: set is an even bend, as `set_angles` has it, or a turn of the hinge.
    """
    if bow.shape == "hinged":
        return (asin(bow.follow / HINGE_ARM),)
    return set_angles(limb(bow.shape, 4).positions, bow.follow)


def _least(points: tuple[DrawPoint, ...]) -> tuple[float, float]:
    """Return where the tension is least, and how large there, by a parabola through the three lowest places."""
    k = min(range(len(points)), key=lambda i: points[i].tension_n)
    if k in {0, len(points) - 1}:
        return points[k].draw_m, points[k].tension_n
    left, here, right = (points[i].tension_n for i in (k - 1, k, k + 1))
    step_m = points[k + 1].draw_m - points[k].draw_m
    off = (left - right) / (2.0 * (left - 2.0 * here + right))
    return points[k].draw_m + off * step_m, here - (left - right) * off / 4.0
