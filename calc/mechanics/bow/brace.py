"""Brace height against string length: geometry alone, for every limb shape."""

from __future__ import annotations

from functools import lru_cache
from math import copysign, cos, pi, sin, sqrt
from typing import TYPE_CHECKING

from calc.errors import DomainError, Problem, require
from calc.mechanics.bow.bow import HIGHEST
from calc.mechanics.bow.limb_model import HINGE_ARM, SMALL_RAD, arc_across, arc_bend, limb
from calc.mechanics.bow.statics import braced
from calc.numerics import find_root_near

if TYPE_CHECKING:
    from calc.mechanics.bow.bow import Bow
    from calc.mechanics.bow.limb_model import LimbShape

_NODES = 11
_NUDGE = 1e-4
_USUAL = (0.2, 0.4)
_FOLLOW_STEP, _NOTHING = 0.01, 1e-9
"""Tables of bent limbs stand so far apart in set. [limb lengths]"""
_CLOSED = 1e-14
"""How far off a reach may be. [limb lengths]"""


def brace_limit(bow: Bow) -> float:
    """Return the highest brace height the limb shapes are worked out for [m].

    Parameters
    ----------
    bow : Bow
        The bow.

    Notes
    -----
    Source: own limit, `HIGHEST`.

    Examples
    --------
    >>> from calc.mechanics.bow.bow import Bow
    >>> round(brace_limit(Bow(1.6, 0.2, "arc")), 9)
    0.42
    """
    return HIGHEST * bow.limb_m - bow.handle_proud_m


def string_length(bow: Bow, brace_m: float) -> float:
    """Return the braced string's length, nock to nock, for a brace height.

    Parameters
    ----------
    bow : Bow
        The bow.
    brace_m : float
        Above 0, up to `brace_limit`. [m]

    Returns
    -------
    float
        Along the string, with what lies against recurved tips. [m]

    Raises
    ------
    DomainError
        ``max`` with the limit for a brace height the bow cannot take; ``pair`` with reason ``follow_high`` for one
        not above what the tips follow or are reflexed; ``min`` or ``number`` otherwise.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    A 60 in bow with 8 in of handle, braced at 6 in, in inches for once:

    >>> from calc.mechanics.bow.bow import SHAPES, Bow
    >>> [round(string_length(Bow(60, 8, shape), 6), 2) for shape in SHAPES]
    [58.11, 58.11, 57.94, 58.26]
    """
    require("brace_m", brace_m, low=0.0, open_=True)
    require("brace_m", brace_m, high=brace_limit(bow))
    across = (brace_m + bow.handle_proud_m) / bow.limb_m
    if across <= abs(bow.follow):
        limit_m = abs(bow.string_follow_m) - bow.handle_proud_m
        raise DomainError(
            Problem(field="brace_m", code="pair", limit=limit_m, other="string_follow_m", reason="follow_high")
        )
    return _string_m(bow, across)


def brace_height(bow: Bow, string_m: float) -> float:
    """Return the brace height a string of known length gives; the inverse of `string_length`.

    Parameters
    ----------
    bow : Bow
        The bow.
    string_m : float
        The whole string as it is on the braced bow. [m]

    Returns
    -------
    float
        [m]

    Raises
    ------
    DomainError
        ``pair`` with reason ``string_long`` when it is too long to brace the bow, ``min`` with the shortest
        string as limit when it would need more than `brace_limit`.

    Notes
    -----
    Source: `string_length`, solved for the brace height.

    Examples
    --------
    >>> from calc.mechanics.bow.bow import Bow
    >>> round(brace_height(Bow(60, 8, "hinged"), 58.108), 2)
    6.0
    """
    require("string_m", string_m, low=0.0, open_=True)
    lowest = max(bow.handle_proud_m / bow.limb_m, abs(bow.follow))
    longest_m = _string_m(bow, lowest) if lowest else max(bow.nock_to_nock_m, _string_m(bow, 0.0))
    if string_m >= longest_m:
        raise DomainError(
            Problem(field="string_m", code="pair", limit=longest_m, other="nock_to_nock_m", reason="string_long")
        )
    require(
        "string_m",
        string_m,
        low=bow.handle_length_m + 2.0 * (bow.limb_m * _shortest(bow.shape, bow.follow) + bow.contact_m),
    )
    reach = ((string_m - bow.handle_length_m) / 2.0 - bow.contact_m) / bow.limb_m
    return min(_across(bow, reach, lowest) * bow.limb_m - bow.handle_proud_m, brace_limit(bow))


def _across(bow: Bow, reach: float, lowest: float) -> float:
    """Return how far off the tip of a limb of unit length stands that reaches so far: the inverse of `limb_reach`."""
    reach = min(reach, 1.0)
    if bow.shape == "hinged":
        return sqrt(HINGE_ARM**2 - (reach - 1.0 + HINGE_ARM) ** 2)
    if bow.shape == "arc":
        return arc_across(reach)

    def over(z: float) -> float:
        return limb_reach(bow.shape, sqrt(z), bow.follow) - reach

    falls, more = _early(bow.shape, bow.follow)
    least, most = lowest**2, HIGHEST**2
    before = min(max((1.0 - reach) / (falls + more * (1.0 - reach) / falls), least), most)
    at_before = over(before)
    guess = before + at_before / (falls + 2.0 * more * before)
    return sqrt(find_root_near(over, (before, at_before), guess, least, most, close=_CLOSED))


@lru_cache(maxsize=64)
def _shortest(shape: LimbShape, follow: float) -> float:
    """Return the reach of a limb of unit length at the highest brace."""
    return limb_reach(shape, HIGHEST, follow)


@lru_cache(maxsize=64)
def _early(shape: LimbShape, follow: float) -> tuple[float, float]:
    """Return how a limb falls short: about ``z x (first + second x z)`` with z = across^2."""
    low, high = ((1.0 - limb_reach(shape, across, follow)) / across**2 for across in _USUAL)
    second = (high - low) / (_USUAL[1] ** 2 - _USUAL[0] ** 2)
    return low - second * _USUAL[0] ** 2, second


def _string_m(bow: Bow, across: float) -> float:
    return bow.handle_length_m + 2.0 * (bow.limb_m * limb_reach(bow.shape, across, bow.follow) + bow.contact_m)


def brace_per_length(bow: Bow, brace_m: float) -> float:
    """Return the change of brace height for a change of string length, negative.

    Parameters
    ----------
    bow, brace_m
        As for `string_length`.

    Returns
    -------
    float
        dH/dS, of the whole string. [-]

    Raises
    ------
    DomainError
        As `string_length`.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> from calc.mechanics.bow.bow import Bow
    >>> round(brace_per_length(Bow(60, 8, "hinged"), 6), 3)
    -1.546
    """
    string_length(bow, brace_m)
    across = (brace_m + bow.handle_proud_m) / bow.limb_m
    low, high = max(across - _NUDGE, abs(bow.follow)), min(across + _NUDGE, HIGHEST)
    return (high - low) * bow.limb_m / (_string_m(bow, high) - _string_m(bow, low))


def brace_after(bow: Bow, brace_m: float, longer_m: float) -> float:
    """Return the brace height when the string of a braced bow is made longer, shorter when negative [m].

    Parameters
    ----------
    bow, brace_m
        As for `string_length`.
    longer_m : float
        Change of the whole string. [m]

    Raises
    ------
    DomainError
        As `string_length` and `brace_height`.

    Notes
    -----
    Source: `string_length` and `brace_height`.

    Examples
    --------
    An inch off the string of a 66 in bow:

    >>> from calc.mechanics.bow.bow import Bow
    >>> round(brace_after(Bow(66, 8, "arc"), 6.0, -1.0), 2)
    7.52
    """
    return brace_height(bow, string_length(bow, brace_m) + longer_m)


def limb_reach(shape: LimbShape, across: float, follow: float = 0.0) -> float:
    """Return how far along a limb of unit length reaches when it is braced [limb lengths].

    Parameters
    ----------
    shape : LimbShape
        How it bends.
    across : float
        Where its tip stands off, from above the size of `follow` to `HIGHEST`. [limb lengths]
    follow : float
        Set, negative for reflex. [limb lengths]

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> round(limb_reach("hinged", 0.45), 12)
    0.85
    """
    if shape == "hinged":
        return 1.0 - HINGE_ARM + sqrt(HINGE_ARM**2 - across**2)
    if shape == "arc":
        bend_rad = arc_bend(across)
        return 1.0 - bend_rad**2 / 6.0 if bend_rad < SMALL_RAD else sin(bend_rad) / bend_rad
    near = round(follow / _FOLLOW_STEP)
    by = follow / _FOLLOW_STEP - near
    middle = _reach_at(shape, across, near * _FOLLOW_STEP)
    if abs(by) < _NOTHING:
        return middle
    less, more = (_reach_at(shape, across, (near + side) * _FOLLOW_STEP) for side in (-1, 1))
    return middle + by * (more - less) / 2.0 + by * by * ((more + less) / 2.0 - middle)


def _reach_at(shape: LimbShape, across: float, follow: float) -> float:
    """Return the reach of limbs with one of the sets that there is a table for."""
    top, bottom, (at, scale) = 0.0, 0.0, _keyed(across, follow)
    for node, value, weight in _bent(shape, follow):
        if at == node:
            return 1.0 - value * scale
        part = weight / (at - node)
        top += part * value
        bottom += part
    return 1.0 - scale * top / bottom


def _keyed(across: float, follow: float) -> tuple[float, float]:
    """Return what the table of bent limbs is smooth in, and what its values are to be multiplied by."""
    return (across * across, across * across) if follow == 0.0 else (across, 1.0)


@lru_cache(maxsize=64)
def _bent(shape: LimbShape, follow: float) -> tuple[tuple[float, float, float], ...]:
    """Return (key, shortening / scale, weight) at Chebyshev's nodes, for the barycentric formula.

    Between the sets of two tables reach is taken along a parabola, which is right to 0.001 mm on a long bow.
    """
    found = limb(shape, 6)
    rest = set_angles(found.positions, follow)
    (low, _), (high, _) = _keyed(abs(follow), follow), _keyed(HIGHEST, follow)
    rows = []
    for k in range(_NODES):
        turn = (2 * k + 1) * pi / (2 * _NODES)
        key = (low + high) / 2.0 + (high - low) / 2.0 * cos(turn)
        across = sqrt(key) if follow == 0.0 else key
        short = 1.0 - braced(found, rest, across).along
        rows.append((key, short / _keyed(across, follow)[1], (-1.0) ** k * sin(turn)))
    return tuple(rows)


def set_angles(places: tuple[float, ...], follow: float) -> tuple[float, ...]:
    """Return a limb's angles when set is spread evenly along it [rad].

    Parameters
    ----------
    places : tuple of float
        Along the limb, 0 at the handle and 1 at the tip. [limb lengths]
    follow : float
        Set, negative for reflex. [limb lengths]

    Notes
    -----
    Source: `arc_bend`: a limb with even set is an arc.
    """
    return tuple(copysign(arc_bend(abs(follow)) * place, follow) for place in places)
