"""A bow at full draw with an elastic, massive string: what a shot starts from."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache
from math import sin
from typing import TYPE_CHECKING

from calc.errors import DomainError, Problem, require
from calc.mechanics.bow import StringHold, braced, drawn, limb, rest_angles, string_length
from calc.mechanics.shot.motion import BowModel
from calc.numerics import NoRootError, find_root

if TYPE_CHECKING:
    from calc.mechanics.bow import Bow, LimbState
    from calc.mechanics.shot.motion import State

_STEPS = 6
_CLOSED = 1e-12


@dataclass(frozen=True, slots=True)
class AddedMass:
    """Mass on the string beyond its own: serving, nocking point, spliced tails.

    Attributes
    ----------
    mass_kg : float, >= 0
        In all, half of it on either side of the middle. [kg]
    near_m, far_m : float, >= 0
        Spread evenly from here to there, both measured from the middle of the string; equal for a lump. [m]
    """

    mass_kg: float
    near_m: float
    far_m: float


@dataclass(frozen=True, slots=True)
class ShotString:
    """A string as a shot feels it.

    Attributes
    ----------
    stiffness_n : float, > 0
        Pull per strain of the whole string. [N]
    mass_kg : float, > 0
        Spread evenly, nock to nock. [kg]
    added : tuple of AddedMass
    even : bool
        Whether string between tip and nock moves evenly between them, as it does; False puts a third of the mass
        at either end and forgets the rest, for comparison with models that do.
    """

    stiffness_n: float
    mass_kg: float
    added: tuple[AddedMass, ...] = ()
    even: bool = field(default=True, kw_only=True)


@dataclass(frozen=True, slots=True)
class FullDrawState:
    """A bow at full draw.

    Attributes
    ----------
    model : BowModel
        What moves.
    state : list of float
        Where it starts, at rest.
    brace_n, draw_n : float
        String tension braced and drawn. [N]
    energy_j : float
        Stored in limbs and string between brace and full draw. [J]
    """

    model: BowModel
    state: State
    brace_n: float
    draw_n: float
    energy_j: float


def full_draw_state(
    bow: Bow, brace_m: float, draw_m: float, draw_force_n: float, *, string: ShotString, limb_mass_kg: float
) -> FullDrawState:
    """Return a bow at full draw, its limbs as stiff as the draw weight asks.

    Parameters
    ----------
    bow, brace_m, draw_m, draw_force_n
        As for `static_tension`; of recurved tips only the bending part is taken.
    string : ShotString
        The string.
    limb_mass_kg : float, > 0
        Of one working limb. [kg]

    Raises
    ------
    DomainError
        As `static_tension`; ``min`` for masses and stiffness; ``pair`` with reason ``added_far`` for mass beyond the
        end of the string; ``model`` with reason ``string_soft`` for one pulled to twice its length.

    Notes
    -----
    Source: as `shot` (``derived:links``).
    """
    require("limb_mass_kg", limb_mass_kg, low=0.0, open_=True)
    require("draw_force_n", draw_force_n, low=0.0, open_=True)
    require("draw_m", draw_m, low=0.0, open_=True)
    require("stiffness_n", string.stiffness_n, low=0.0, open_=True)
    require("string_mass_kg", string.mass_kg, low=0.0, open_=True)
    string_length(bow, brace_m)
    if draw_m <= brace_m:
        raise DomainError(Problem(field="draw_m", code="pair", other="brace_m", reason="draw_short"))
    unit = bow.limb_m
    ends = (brace_m + bow.handle_proud_m) / unit, (draw_m + bow.handle_proud_m) / unit
    try:
        start, end = _at_rest(bow, *ends, draw_force_n / string.stiffness_n)
    except NoRootError:
        raise DomainError(Problem(field="draw_m", code="pair", other="nock_to_nock_m", reason="draw_long")) from None
    draw_n = draw_force_n / (2.0 * sin(end.pull_rad))
    brace_n = draw_n * start.load / end.load
    if max(brace_n, draw_n) > string.stiffness_n:
        raise DomainError(Problem(field="stiffness_n", code="model", reason="string_soft"))
    half_m = bow.handle_length_m / 2.0 + start.along * unit
    slack_m = half_m / (1.0 + brace_n / string.stiffness_n)
    bending_nm = draw_n / end.load * unit
    model = _model(bow, bending_nm, limb_mass_kg, slack_m, string)
    gained = 2.0 * bending_nm * (end.energy - start.energy)
    stretched = (draw_n**2 - brace_n**2) * slack_m / string.stiffness_n
    state = [*end.angles, draw_m + bow.handle_proud_m, *(0.0 for _ in end.angles), 0.0]
    return FullDrawState(model, state, brace_n, draw_n, gained + stretched)


@lru_cache(maxsize=32)
def _at_rest(bow: Bow, brace: float, draw: float, softness: float) -> tuple[LimbState, LimbState]:
    """Return the limb braced and at full draw; the mass of limbs and string has no part in it."""
    start = braced(limb(bow.shape, 4), rest_angles(bow), brace)
    return start, _stretched(bow, start, draw, softness)


def _stretched(bow: Bow, start: LimbState, draw: float, softness: float) -> LimbState:
    """Return the limb at full draw, on a string that is longer there than braced by what it stretches.

    The string pulls harder braced than drawn on most bows, and is then shorter drawn than braced. What is looked for is
    its length drawn / braced; the first guess and the length that guess asks for lie on either side of it, or, on a bow
    drawn hardly past its brace, the guess and a string that is straight at full draw.
    """
    bent, rest, half_handle = limb(bow.shape, 4), rest_angles(bow), bow.handle_length_m / 2.0 / bow.limb_m
    braced_string = half_handle + start.along
    near = start
    for k in range(1, _STEPS + 1):
        strung = StringHold(bent, rest, half_handle, braced_string)
        near = drawn(strung, start.across + (draw - start.across) * k / _STEPS, near)

    def drawn_by(longer: float) -> LimbState:
        return drawn(StringHold(bent, rest, half_handle, longer * braced_string), draw, near)

    def too_long(longer: float) -> float:
        """Return string there is less string the pull asks for, times the pull's slant."""
        state = drawn_by(longer)
        slant = 2.0 * sin(state.pull_rad)
        return longer * (slant + softness * start.load / state.load) - slant - softness

    slant = 2.0 * sin(near.pull_rad)
    asked = (slant + softness) / (slant + softness * start.load / near.load)
    if abs(asked - 1.0) <= _CLOSED:  # a string too stiff to stretch: both ends of the search are one
        return drawn_by(1.0)
    if asked < 1.0 and (drawn_by(asked).pull_rad <= 0.0 or too_long(asked) > 0.0):
        straight = braced(bent, rest, draw, near)
        asked = (half_handle + straight.along) / braced_string
    return drawn_by(find_root(too_long, *sorted((asked, 1.0)), within=_CLOSED))


def _shares(string: ShotString, half_m: float) -> tuple[float, float, float]:
    """Return the half string's mass in the square of the tip's speed, of the nock's, and in their product [kg]."""
    at_tip = at_nock = string.mass_kg / 6.0
    shared = string.mass_kg / 12.0 if string.even else 0.0
    for each in string.added:
        require("added_kg", each.mass_kg, low=0.0)
        require("added_near_m", each.near_m, low=0.0)
        require("added_far_m", each.far_m, low=each.near_m)
        if each.far_m > half_m:
            raise DomainError(
                Problem(field="added_far_m", code="pair", limit=half_m, other="string", reason="added_far")
            )
        near, far = each.near_m / half_m, each.far_m / half_m
        first, second = (near + far) / 2.0, (near * near + near * far + far * far) / 3.0
        at_tip += each.mass_kg / 2.0 * second
        at_nock += each.mass_kg / 2.0 * (1.0 - 2.0 * first + second)
        shared += each.mass_kg / 2.0 * (first - second)
    return at_tip, at_nock, shared


def _model(bow: Bow, bending_nm: float, limb_mass_kg: float, slack_m: float, string: ShotString) -> BowModel:
    bent, unit = limb(bow.shape, 4), bow.limb_m
    at_tip_kg, at_nock_kg, shared_kg = _shares(string, slack_m)
    heavy = limb_mass_kg * unit**2
    return BowModel(
        reach_m=tuple(unit * each for each in bent.reach),
        base_m=bow.handle_length_m / 2.0 + unit * bent.base,
        rest=rest_angles(bow),
        stiffness_nm=tuple(tuple(bending_nm * each for each in row) for row in bent.stiffness),
        inertia_kg_m2=tuple(tuple(heavy * each for each in row) for row in bent.inertia),
        slack_m=slack_m,
        spring_n_m=string.stiffness_n / slack_m,
        at_tip_kg=at_tip_kg,
        at_nock_kg=at_nock_kg,
        shared_kg=shared_kg,
    )
