"""The bow under its string: brace height against string length, and the string's pull at rest."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import asin, atan2, cos, hypot, pi, sin, sqrt
from typing import Literal, TypeAlias, get_args

from calc.errors import DomainError, Problem, require
from calc.mechanics import elastica
from calc.roots import crossing

Shape: TypeAlias = Literal["arc", "hinged", "tapered", "uniform"]
SHAPES: tuple[Shape, ...] = get_args(Shape)
HINGE_ARM = 0.75
"""A rigid limb on a hinge behaves like a bent one when its arm is 3/4 of the limb (Hickman 1937, ``hickman1937``)."""
_NUDGE = 1e-5
_OUTLINE = 24


@dataclass(frozen=True, slots=True)
class Bow:
    """A straight-limbed bow without set.

    Parameters
    ----------
    nock_to_nock_m : float, > 0
        Along the belly. [m]
    handle_m : float, >= 0
        Whole stiff length in the middle. [m]
    shape : Shape
        How the limbs bend: an even ``arc``; ``hinged`` by the handle; as stiffness falling to the tip
        (``tapered``) or the same all along (``uniform``) makes them.
    """

    nock_to_nock_m: float
    handle_m: float
    shape: Shape

    def __post_init__(self) -> None:
        require("nock_to_nock_m", self.nock_to_nock_m, low=0.0, open_=True)
        require("handle_m", self.handle_m, low=0.0)
        if self.handle_m >= self.nock_to_nock_m:
            raise DomainError(Problem(field="handle_m", code="pair", other="nock_to_nock_m", reason="handle_long"))

    @property
    def limb_m(self) -> float:
        """Working length of one limb [m]."""
        return (self.nock_to_nock_m - self.handle_m) / 2.0


def brace_limit(bow: Bow) -> float:
    """Return the highest brace height the limb shapes are worked out for [m]."""
    return elastica.HIGHEST * bow.limb_m


def _arc(bend_rad: float) -> tuple[float, float]:
    """Return the tip of a limb of unit length bent to an arc: along, across."""
    if bend_rad < _NUDGE:
        return 1.0 - bend_rad**2 / 6.0, bend_rad / 2.0
    return sin(bend_rad) / bend_rad, (1.0 - cos(bend_rad)) / bend_rad


def _hinge(bend_rad: float) -> tuple[float, float]:
    return 1.0 - HINGE_ARM + HINGE_ARM * cos(bend_rad), HINGE_ARM * sin(bend_rad)


def _along(shape: Shape, across: float) -> float:
    """Return how far along a limb of unit length reaches when its tip stands off by `across`."""
    if shape == "hinged":
        return 1.0 - HINGE_ARM + sqrt(HINGE_ARM**2 - across**2)
    if shape == "arc":
        return _arc(_arc_for(across))[0]
    return elastica.along(shape, across)


@lru_cache(maxsize=256)
def _arc_for(across: float) -> float:
    return crossing(lambda bend_rad: _arc(bend_rad)[1] - across, 0.0, pi / 2.0)


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
        [m]

    Raises
    ------
    DomainError
        ``max`` with the limit for a brace height the bow cannot take, ``min`` or ``number`` otherwise.

    Notes
    -----
    Source: own geometry (``derived:limbs``). Leaves out set, recurve, and a handle that stands proud of the belly.

    Examples
    --------
    A 60 in bow with 8 in of handle, braced at 6 in, in inches for once:

    >>> [round(string_length(Bow(60, 8, shape), 6), 2) for shape in SHAPES]
    [58.11, 58.11, 57.94, 58.26]
    """
    require("brace_m", brace_m, low=0.0, open_=True)
    require("brace_m", brace_m, high=brace_limit(bow))
    return bow.handle_m + 2.0 * bow.limb_m * _along(bow.shape, brace_m / bow.limb_m)


def brace_height(bow: Bow, string_m: float) -> float:
    """Return the brace height a string of known length gives; the inverse of `string_length` [m].

    Raises
    ------
    DomainError
        ``pair`` with reason ``string_long`` when it is too long to brace the bow, ``min`` with the shortest
        string as limit when it would need more than `brace_limit`.
    """
    require("string_m", string_m, low=0.0, open_=True)
    if string_m >= bow.nock_to_nock_m:
        raise DomainError(Problem(field="string_m", code="pair", other="nock_to_nock_m", reason="string_long"))
    shortest_m = string_length(bow, brace_limit(bow))
    require("string_m", string_m, low=shortest_m)
    reach = (string_m - bow.handle_m) / (2.0 * bow.limb_m)
    across = crossing(lambda y: _along(bow.shape, y) - reach, 0.0, elastica.HIGHEST, within=1e-13)
    return across * bow.limb_m


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

    Notes
    -----
    Central difference of `string_length`, 1e-5 of the limb each way.
    """
    step_m = _NUDGE * bow.limb_m
    low_m, high_m = max(brace_m - step_m, step_m / 2.0), min(brace_m + step_m, brace_limit(bow))
    return (high_m - low_m) / (string_length(bow, high_m) - string_length(bow, low_m))


@dataclass(frozen=True, slots=True)
class Tension:
    """The string's pull at rest.

    Attributes
    ----------
    brace_n, draw_n : float
        Braced; at full draw. [N]
    angle_rad : float
        Between the half string at full draw and the line of the tips. [rad]
    """

    brace_n: float
    draw_n: float
    angle_rad: float


def static_tension(bow: Bow, brace_m: float, draw_m: float, draw_force_n: float) -> Tension:
    """Return the string's pull braced and at full draw.

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
        ``pair`` with reason ``draw_short`` for a draw not above the brace height, ``draw_long`` for one that
        would pull the string straight or the limbs round.

    Notes
    -----
    Source: force = 2 x tension x sine of the string's angle (``derived:statics``). Tapered and uniform limbs by
    the elastica; the arc and the hinge as one-parameter limbs with a spring. Leaves out set, which lowers the
    tension at brace, and stretch of the string.

    Examples
    --------
    >>> at = static_tension(Bow(68, 8, "tapered"), 6, 28, 100)
    >>> round(at.brace_n), round(at.draw_n)
    (151, 111)
    """
    require("draw_force_n", draw_force_n, low=0.0, open_=True)
    require("draw_m", draw_m, low=0.0, open_=True)
    if draw_m <= brace_m:
        raise DomainError(Problem(field="draw_m", code="pair", other="brace_m", reason="draw_short"))
    half_m = string_length(bow, brace_m) / 2.0
    if draw_m >= _farthest(bow, half_m):
        raise DomainError(Problem(field="draw_m", code="pair", other="nock_to_nock_m", reason="draw_long"))
    unit = bow.limb_m
    at = (bow.handle_m / 2.0 / unit, half_m / unit, brace_m / unit, draw_m / unit)
    ratio, angle_rad = _one_spring(bow.shape, *at) if bow.shape in {"arc", "hinged"} else _elastic(bow.shape, *at)
    draw_n = draw_force_n / (2.0 * sin(angle_rad))
    return Tension(ratio * draw_n, draw_n, angle_rad)


def _farthest(bow: Bow, half_m: float) -> float:
    """Return a draw that no shape here can follow: limbs bent square, string pulled near straight [m]."""
    inner_m = bow.handle_m / 2.0 + (1.0 - HINGE_ARM) * bow.limb_m
    if half_m <= inner_m:
        return 0.0
    return HINGE_ARM * bow.limb_m * 0.8 + 0.85 * sqrt(half_m**2 - inner_m**2)


def _elastic(shape: Shape, half_handle: float, half_string: float, brace: float, draw: float) -> tuple[float, float]:
    assert shape in {"tapered", "uniform"}
    stiffness: elastica.Stiffness = "tapered" if shape == "tapered" else "uniform"
    limb, angle_rad = elastica.drawn(stiffness, half_handle, half_string, draw)
    return elastica.braced(stiffness, brace).load / limb.load, angle_rad


def _one_spring(shape: Shape, half_handle: float, half_string: float, brace: float, draw: float) -> tuple[float, float]:
    """Return tension braced / drawn, and the string's angle, for limbs of one freedom and a spring."""
    tip = _arc if shape == "arc" else _hinge
    start = _arc_for(brace) if shape == "arc" else asin(brace / HINGE_ARM)

    def short(bend_rad: float) -> float:
        along, across = tip(bend_rad)
        return hypot(draw - across, along + half_handle) - half_string

    bend_rad = crossing(short, start, 2.6)
    along, across = tip(bend_rad)
    angle_rad = atan2(draw - across, along + half_handle)

    def torque(at_rad: float, angle: float) -> float:
        (x1, y1), (x2, y2) = tip(at_rad - _NUDGE), tip(at_rad + _NUDGE)
        return ((y2 - y1) * sin(angle) - (x2 - x1) * cos(angle)) / (2.0 * _NUDGE)

    return (start / torque(start, 0.0)) / (bend_rad / torque(bend_rad, angle_rad)), angle_rad


def limb_outline(bow: Bow, brace_m: float) -> tuple[tuple[float, float], ...]:
    """Return the upper limb of the braced bow for drawing: along, across from the middle of the handle. [m].

    Parameters
    ----------
    bow, brace_m
        As for `string_length`.
    """
    across, unit, half_m = brace_m / bow.limb_m, bow.limb_m, bow.handle_m / 2.0
    if bow.shape in {"tapered", "uniform"}:
        limb = elastica.braced("tapered" if bow.shape == "tapered" else "uniform", across)
        curve = [(limb.along - x, limb.across - y) for x, y in reversed(limb.path)]
    elif bow.shape == "arc":
        bend_rad = _arc_for(across)
        turns = [(k / _OUTLINE, _arc(bend_rad * k / _OUTLINE)) for k in range(_OUTLINE + 1)]
        curve = [(share * x, share * y) for share, (x, y) in turns]
    else:
        curve = [(0.0, 0.0), (1.0 - HINGE_ARM, 0.0), (_along("hinged", across), across)]
    return ((0.0, 0.0), *((half_m + x * unit, y * unit) for x, y in curve))
