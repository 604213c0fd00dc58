"""The free body of a string on a bow: turned in or out at its ends, its bundles kept."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property, lru_cache
from math import asin, cos, sin, sqrt
from typing import NamedTuple, TypeAlias

from calc.data import practice
from calc.geometry.lay import bundle_of_laid, jam, lay, lay_of_cord_turns, radius_ratio, retraction, surface_angle
from calc.making.string.turns import Plied, turned_to_lay
from calc.making.string.twisting import counter_at
from calc.numerics import find_root_near

_Pair: TypeAlias = tuple[float, float]
_CLOSE_M = 1e-11
_SAME = 1e-10
_STEEP = 0.7
"""The sine of a lay to seek from is no more than this. [-]"""


class Turned(NamedTuple):
    """A body at one lay.

    Parameters
    ----------
    turns : float
        Of the lay. [turn]
    lay_rad : float
        Helix angle. [rad]
    cord_m : float
        Its length. [m]
    """

    turns: float
    lay_rad: float
    cord_m: float


class Ends(NamedTuple):
    """The ends of what a body can be brought to by turns.

    Parameters
    ----------
    loose, tight : Turned
        At the loosest lay that holds; at the tightest that is of use.
    jam : Turned
        Where it takes no more turns.
    slack : Turned
        Where letting out turns lengthens it no more.
    """

    loose: Turned
    tight: Turned
    jam: Turned
    slack: Turned


@dataclass(frozen=True)
class Body:
    """A free body as it is.

    Attributes
    ----------
    made : Plied
        Its bundles' length laid flat and their counter-twist, its length and turns now.
    bundle_m : float
        Bundle diameter. [m]
    bundles : int
    lay_rad : float
        Now. [rad]
    """

    made: Plied
    bundle_m: float
    bundles: int
    lay_rad: float

    @property
    def raw_m(self) -> float:
        """Bundle length laid flat [m]."""
        return self.made.raw_m

    @property
    def cord_m(self) -> float:
        """Length now [m]."""
        return self.made.cord_m

    @property
    def turns(self) -> float:
        """Turns now [turn]."""
        return self.made.turns

    @property
    def now(self) -> Turned:
        """Return it as it is."""
        return Turned(self.turns, self.lay_rad, self.cord_m)

    @cached_property
    def ends(self) -> Ends:
        """Return the body at its ends."""
        loosest, tightest = (practice(name).spread.value for name in ("lay_loosest", "lay_tightest"))
        ratio = radius_ratio(self.bundles, loosest)
        slack = self.at_turns(min(self.made.counter / (1.0 + 8.0 * ratio**2), self.turns))
        return Ends(self.at_lay(loosest), self.at_lay(tightest), self._jammed, slack)

    @cached_property
    def taken_per_turn(self) -> float:
        """How much shorter one turn more makes it, here [m]."""
        less, more = (self.at_lay(self.lay_rad + step) for step in (-1e-4, 1e-4))
        return -(more.cord_m - less.cord_m) / (more.turns - less.turns)

    def at_lay(self, lay_rad: float) -> Turned:
        """Return it turned to another lay."""
        lay_rad = min(max(lay_rad, 0.0), jam(self.bundles).lay_rad)
        made = turned_to_lay(self.made, self.bundle_m, self.bundles, lay_rad)
        return Turned(made.turns, lay_rad, made.cord_m)

    def at_turns(self, turns: float) -> Turned:
        """Return it with another count of turns, jammed where it cannot hold so many.

        Notes
        -----
        Source: search over the lay, with which turns grow nearly evenly, but for the last of them before the jam.
        """
        if turns >= self._jammed.turns:
            return self._jammed
        known, close = (self.lay_rad, self.turns - turns), _SAME * max(turns, 1.0)

        def over(lay_rad: float) -> float:
            return self.at_lay(lay_rad).turns - turns

        return self.at_lay(find_root_near(over, known, self._guessed(turns), 0.0, self._jammed.lay_rad, close=close))

    def _guessed(self, turns: float) -> float:
        """Return about the lay with a count of turns: its sine grows with them [rad]."""
        if self.turns < 1.0:
            return 0.9 * self.lay_rad + 0.01
        return asin(min(sin(self.lay_rad) * turns / self.turns, _STEEP))

    def cord_of_turns(self, turns: float) -> float:
        """Return its length at a count of turns, none at the least [m]."""
        return self.at_turns(max(turns, 0.0)).cord_m

    @cached_property
    def _jammed(self) -> Turned:
        return self.at_lay(jam(self.bundles).lay_rad)

    def of_cord(self, cord_m: float) -> Turned:
        """Return it turned until it is as long as this, or to the end that comes nearest.

        Notes
        -----
        Source: search over the square of the lay beyond the slackest, in which length is nearly straight.
        """
        slack, most = self.ends.slack, self.ends.jam
        if cord_m >= slack.cord_m:
            return slack
        if cord_m <= most.cord_m:
            return most
        if cord_m == self.cord_m:
            return self.now
        widest = (most.lay_rad - slack.lay_rad) ** 2
        square = (self.lay_rad - slack.lay_rad) ** 2
        guess = _through((slack.cord_m, 0.0), (self.cord_m, square), (most.cord_m, widest), cord_m)

        def longer_m(square: float) -> float:
            return self.at_lay(slack.lay_rad + sqrt(square)).cord_m - cord_m

        known = (square, self.cord_m - cord_m)
        return self.at_lay(slack.lay_rad + sqrt(find_root_near(longer_m, known, guess, 0.0, widest, close=_CLOSE_M)))


def _through(one: _Pair, two: _Pair, three: _Pair, at: float) -> float:
    """Return the parabola's height over a place, through three pairs; the line's through the outer two if two meet."""
    (a, x), (b, y), (c, z) = one, two, three
    outer = x + (z - x) * (at - a) / (c - a)
    if b in {a, c}:
        return outer
    bent = (y - x - (z - x) * (b - a) / (c - a)) / ((b - a) * (b - c))
    return outer + bent * (at - a) * (at - c)


@lru_cache(maxsize=64)
def body_of(
    *,
    cord_m: float,
    bundles: int,
    bundle_m: float | None,
    over_m: float | None,
    turns: float | None,
    lay_rad: float,
    spring: float,
    loose: bool = False,
) -> Body:
    """Return a free body from what can be measured on the bow.

    Parameters
    ----------
    cord_m : float, > 0
        Its length. [m]
    bundles : int
        2 or 3.
    bundle_m, over_m : float or None
        Bundle diameter, or that over the plied body; the bundle's is taken where both are known. [m]
    turns : float or None
        Counted; None: laid at `lay_rad`. [turn]
    lay_rad : float
        Used where turns were not counted. [rad]
    spring : float
        Bending / torsion stiffness of a bundle, which sets its counter-twist at rest. [-]
    loose : bool
        True to take the jam for more turns than it can hold, which is otherwise refused.

    Raises
    ------
    DomainError
        ``model`` with reason ``jam`` and the most turns as limit.

    Notes
    -----
    Source: lay from turns and length (``derived:unroll``); counter-twist of a cord at rest (``thompson2002``), the
    bundles' own retraction from what of it is left (``hearle1969``).
    """
    each_m = bundle_m if bundle_m is not None else _bundle_of(over_m or 0.0, bundles, turns, cord_m, lay_rad)
    if turns is None:
        shape = lay(each_m, bundles, lay_rad)
        turns = shape.turns_per_m * cord_m
    else:
        most = jam(bundles).cord_turns_times_diameter * cord_m / each_m
        turns = min(turns, most) if loose else turns
        shape = lay_of_cord_turns(each_m, bundles, turns, cord_m)
    counter = turns * counter_at(shape, spring) if turns > 0.0 else 0.0
    twisted_m = cord_m / shape.ratio
    left = counter - turns * cos(shape.lay_rad)
    raw_m = twisted_m / (1.0 - retraction(surface_angle(each_m, left / twisted_m)))
    return Body(Plied(raw_m, cord_m, turns, counter, 1.0 - cord_m / raw_m), each_m, bundles, shape.lay_rad)


def _bundle_of(over_m: float, bundles: int, turns: float | None, cord_m: float, lay_rad: float) -> float:
    """Return the bundle diameter of a plied body that measures so much over everything [m]."""
    if turns is None:
        return over_m / (2.0 * radius_ratio(bundles, lay_rad) + 1.0)
    return bundle_of_laid(over_m, bundles, turns, cord_m)
