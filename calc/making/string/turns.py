"""Turns: how a bundle shortens as it is plied, and what its own twist does meanwhile."""

from __future__ import annotations

from functools import lru_cache
from math import cos, pi, sqrt
from typing import TYPE_CHECKING, NamedTuple

from calc.data import practice
from calc.errors import DomainError, Problem
from calc.geometry.lay import lay, lay_of_turns, retraction, surface_angle, torque_free_ratio
from calc.numerics import fixed_point

if TYPE_CHECKING:
    from calc.geometry.lay import Lay

_SETTLED = 1e-12
"""The last round changes a bundle's length by less than this share. [-]"""


class Plied(NamedTuple):
    """A length of bundle after plying.

    Attributes
    ----------
    raw_m : float
        Bundle length laid flat, before any twist. [m]
    cord_m : float
        Length along the cord's axis. [m]
    turns : float
        Turns of lay over it. [turn]
    counter : float
        Turns put into each bundle beforehand, the other way. [turn]
    take_up : float
        ``1 - cord_m / raw_m``. [-]
    """

    raw_m: float
    cord_m: float
    turns: float
    counter: float
    take_up: float


def counter_each(lay_rad: float) -> float:
    """Return the counter-twist for each turn of lay that leaves the cord at rest when it hangs free [-].

    Parameters
    ----------
    lay_rad : float, > 0
        Helix angle. [rad]

    Notes
    -----
    Source: `torque_free_ratio` at the middle of its band (``thompson2002``). More of it, up to twice the lay's turns,
    lays the surface fibres straight, but then turning the string out no longer lengthens it.
    """
    return 1.0 / torque_free_ratio(lay_rad, practice("spring").spread.value)


def plied(raw_m: float, diameter_m: float, bundles: int, lay_rad: float, held: float = 1.0) -> Plied:
    """Return a bundle plied at a lay angle with the counter-twist that leaves the cord at rest, or more of it.

    Parameters
    ----------
    raw_m : float, > 0
        Bundle length laid flat. [m]
    diameter_m : float, > 0
        Bundle diameter. [m]
    bundles : int
        2, 3 or 4.
    lay_rad : float, > 0
        Lay angle from the cord's axis. [rad]
    held : float, >= 0
        Twist held in the bundles / twist that a cord at rest keeps. [-]

    Notes
    -----
    Source: ``derived:unroll`` for the lay; a bundle also gives up ``tan^2(angle / 2)`` of its length to the twist that
    plying leaves in it (``hearle1969``). Leaves out flattening and any change of diameter under load.
    """
    shape, each, kept = _plied_at(diameter_m, bundles, lay_rad, held)
    turns = raw_m * kept * shape.turns_per_strand_m
    cord_m = raw_m * kept * (1.0 - shape.take_up)
    return Plied(raw_m, cord_m, turns, turns * each, 1.0 - cord_m / raw_m)


@lru_cache(maxsize=512)
def _plied_at(diameter_m: float, bundles: int, lay_rad: float, held: float) -> tuple[Lay, float, float]:
    """Return the lay, its counter-twist for each turn, and what a bundle's own twist leaves of its length."""
    shape = lay(diameter_m, bundles, lay_rad)
    along = cos(lay_rad)
    left = held * (counter_each(lay_rad) - along)
    left_per_m = left * shape.turns_per_strand_m
    return shape, along + left, 1.0 - retraction(surface_angle(diameter_m, max(0.0, left_per_m)))


def turned_to_lay(start: Plied, diameter_m: float, bundles: int, lay_rad: float) -> Plied:
    """Return the same bundles brought to another lay angle by turning the whole end.

    The counter-twist stays what it was put in as, so the bundles' own twist changes with the lay: each turn
    of the end takes ``cos(lay)`` turns out of every bundle.

    Parameters
    ----------
    start : Plied
        As first made.
    diameter_m, bundles, lay_rad
        As for `plied`.

    Raises
    ------
    DomainError
        ``model`` with reason ``overtwisted`` for bundles that would give up all their length.

    Notes
    -----
    Source: twist accounting of a helix (``white1969``); own retraction as for `plied`. What a bundle gives up and the
    twist that takes it depend on each other: with ``t = tan(angle / 2)``, of which it gives up the square, both are
    ``t = k (counter - laid (1 - t^2))`` (``derived:flat-twist``), where ``k`` is ``pi x diameter / (2 x raw)`` and
    ``laid`` the turns that the lay would take out of a bundle which gave up nothing.
    """
    shape = lay(diameter_m, bundles, lay_rad)
    each = pi * diameter_m / (2.0 * start.raw_m)
    laid = start.raw_m * shape.turns_per_strand_m * (1.0 - shape.take_up)
    over = each * (start.counter - laid)
    root = 1.0 - 4.0 * each * laid * over
    if root < 0.0:
        raise DomainError(Problem(field="turns", code="model", reason="overtwisted"))
    kept = 1.0 - (2.0 * over / (1.0 + sqrt(root))) ** 2
    return _made(start, shape, kept, start.raw_m * kept * shape.turns_per_strand_m)


@lru_cache(maxsize=256)
def turned_to_count(start: Plied, diameter_m: float, bundles: int, turns: float) -> Plied:
    """Return the same bundles brought to another count of turns; see `turned_to_lay`.

    Parameters
    ----------
    start : Plied
        As plied.
    diameter_m : float
        Bundle diameter. [m]
    bundles : int, 2 to 4
        Laid together.
    turns : float, > 0
        In the cord. [turn]

    Raises
    ------
    DomainError
        ``model`` with reason ``jam`` when the lay cannot hold so many turns.
    """

    def laid(own: float) -> Lay:
        return lay_of_turns(diameter_m, bundles, turns, start.raw_m * (1.0 - own))

    def own_twist(own: float) -> float:
        left = start.counter - turns * (1.0 - laid(own).take_up)
        return retraction(surface_angle(diameter_m, abs(left) / (start.raw_m * (1.0 - own))))

    own = fixed_point(own_twist, 0.0, within=_SETTLED)
    return _made(start, laid(own), 1.0 - own, turns)


def _made(start: Plied, shape: Lay, kept: float, turns: float) -> Plied:
    """Return a turned bundle that keeps this share of its length under its own twist."""
    cord_m = start.raw_m * kept * (1.0 - shape.take_up)
    return Plied(start.raw_m, cord_m, turns, start.counter, 1.0 - cord_m / start.raw_m)


def raw_for(cord_m: float, diameter_m: float, bundles: int, lay_rad: float, held: float = 1.0) -> Plied:
    """Return the plying that ends at a given cord length: `plied`, the other way about.

    Parameters
    ----------
    cord_m : float, > 0
        Wanted. [m]
    diameter_m, bundles, lay_rad, held
        As for `plied`.
    """
    per_metre = plied(1.0, diameter_m, bundles, lay_rad, held)
    return plied(cord_m / per_metre.cord_m, diameter_m, bundles, lay_rad, held)
