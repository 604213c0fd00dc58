"""A bow drawn on a string too long to brace it, as a bowyer tillers: limbs that lag behind those of the braced bow."""

from __future__ import annotations

from math import cos, sin, sqrt
from typing import TYPE_CHECKING

from calc.errors import DomainError, Problem
from calc.mechanics.bow.draw_force import rest_angles
from calc.mechanics.bow.limb_model import limb
from calc.mechanics.bow.statics import LimbState, StringHold, drawn
from calc.numerics import NoRootError

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.mechanics.bow.bow import Bow

_STEPS = 6
_SLACK = 1e-3
"""So near to where a string is just tight the limbs stand as with none. [limb lengths]"""


def drawn_on_long(bow: Bow, string_m: float, draws_m: Sequence[float], back_rad: float = 0.0) -> tuple[LimbState, ...]:
    """Return the limb at every one of several draws on a string that is slack at rest.

    Parameters
    ----------
    bow : Bow
        The bow.
    string_m : float
        Nock to nock along the string; so long that the resting limbs leave it slack. [m]
    draws_m : sequence of float
        From the point where brace height is measured, rising. [m]
    back_rad : float
        Slope of the bending limb's end at which a recurved tip lies along the string. [rad]

    Returns
    -------
    tuple of LimbState
        With no load where the string is still slack.

    Raises
    ------
    DomainError
        ``pair`` with reason ``draw_long`` for a draw that the limbs cannot follow.

    Notes
    -----
    Source: as `static_tension` (``derived:statics``), from the unbent limb on.
    """
    bent, rest, unit = limb(bow.shape, 4), rest_angles(bow), bow.limb_m
    lever = bow.contact_m / unit
    strung = StringHold(bent, rest, bow.handle_length_m / 2.0 / unit, string_m / 2.0 / unit, lever, back_rad)
    free = LimbState(rest, 0.0, 0.0, *_tip(strung), 0.0)
    end = rest[-1] - back_rad
    out, over = strung.half_handle + free.along + lever * cos(end), free.across + lever * sin(end)
    tight = over + sqrt(max(0.0, strung.half_string**2 - out**2))
    found, state, at = [], free, tight
    for draw_m in draws_m:
        to = (draw_m + bow.handle_proud_m) / unit
        if to <= tight + _SLACK:
            found.append(free)
            continue
        try:
            for k in range(1, _STEPS + 1):
                state = drawn(strung, at + (to - at) * k / _STEPS, state)
        except NoRootError:
            raise DomainError(
                Problem(field="draw_m", code="pair", other="nock_to_nock_m", reason="draw_long")
            ) from None
        found.append(state)
        at = to
    return tuple(found)


def _tip(strung: StringHold) -> tuple[float, float]:
    """Return where the unbent limb ends."""
    reach = strung.limb.reach
    along = sum(each * cos(angle) for each, angle in zip(reach, strung.rest, strict=True))
    return strung.limb.base + along, sum(each * sin(angle) for each, angle in zip(reach, strung.rest, strict=True))
