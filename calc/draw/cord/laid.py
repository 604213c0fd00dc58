"""Bundles laid round each other along a line: where each runs and how deep, from the same geometry as the numbers."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass, field
from functools import lru_cache
from math import ceil, cos, hypot, inf, pi, sin, tan
from typing import TYPE_CHECKING, Literal, TypeAlias

from calc.geometry.lay import radius_ratio

if TYPE_CHECKING:
    from calc.draw import Point
    from calc.draw.cord.way import Way

Name: TypeAlias = Literal["a", "b", "c"]
NAMES: tuple[Name, ...] = ("a", "b", "c")
_GRID = 0.5
_HALF = 0.05
_BEYOND = 0.02
"""A spread runs on a little past its last station, so that a cut end stands square to its bundle."""


@dataclass(frozen=True, slots=True)
class CordStation:
    """What a cord is like at a running length; between two stations everything changes evenly.

    Parameters
    ----------
    at : float
        Running length, in drawing units.
    bundle : float, > 0
        Diameter of one bundle, in drawing units.
    lay_rad : float
        Helix angle; positive is Z, negative is S. [rad]
    spread : float, >= 1
        How many times as far from the axis as when they touch.
    own_rad : float or None
        Angle of the strands within a bundle, positive is Z; None for as much as the lay, the other way, which is
        how they lie in a cord at rest. [rad]
    eased : bool
        Whether the spread leaves this station, and reaches the next, without a bend.
    """

    at: float
    bundle: float
    lay_rad: float = 0.0
    spread: float = 1.0
    own_rad: float | None = None
    eased: bool = False

    @property
    def own(self) -> float:
        """Angle of the strands within a bundle, told or worked out [rad]."""
        return -self.lay_rad if self.own_rad is None else self.own_rad


@dataclass(frozen=True, slots=True)
class Here:
    """A cord at one running length.

    Parameters
    ----------
    bundle : float
        Diameter of one bundle, in drawing units.
    radius : float
        From the cord's axis to the axis of a bundle.
    lay_rad : float
        Helix angle of the bundles; positive is Z. [rad]
    own_rad : float
        Angle of the strands within a bundle; positive is Z. [rad]
    """

    bundle: float
    radius: float
    lay_rad: float
    own_rad: float


@lru_cache(maxsize=4096)
def _ratio(bundles: int, lay_rad: float) -> float:
    """Return how far a bundle's axis lies from the cord's, in bundle diameters."""
    return 0.0 if bundles == 1 else radius_ratio(bundles, abs(lay_rad))


@dataclass(frozen=True)
class Laid:
    """One to three bundles laid along a way.

    Parameters
    ----------
    way : Way
        The cord's axis.
    stations : tuple of CordStation
        In order, at least one.
    bundles : int, 1 to 3
    names : tuple of Name
        Which look each bundle has, from the one that is uppermost where the phase is 0.
    zero_at : float
        Running length at which the phase is `zero_rad`.
    zero_rad : float
        0 for the first bundle to the left of the way, two in the page; a quarter turn for the first bundle on top of
        the way, which is how three lie apart. [rad]
    """

    way: Way
    stations: tuple[CordStation, ...]
    bundles: int = 2
    names: tuple[Name, ...] = NAMES
    zero_at: float = 0.0
    zero_rad: float = 0.0
    _phases: tuple[tuple[float, float], ...] = field(init=False, repr=False)
    _first: float = field(init=False, repr=False)
    _even: Here = field(init=False, repr=False)
    _stops: tuple[float, ...] = field(init=False, repr=False)

    def __post_init__(self) -> None:
        if not 1 <= self.bundles <= 3 or not self.stations:
            msg = f"Laid: got {self.bundles} bundles, {len(self.stations)} stations, expected 1 to 3 and at least one"
            raise ValueError(msg)
        one = self.stations[0]
        radius = one.bundle * _ratio(self.bundles, one.lay_rad) * one.spread
        object.__setattr__(self, "_even", Here(one.bundle, radius, one.lay_rad, one.own))
        object.__setattr__(self, "_stops", tuple(each.at for each in self.stations))
        object.__setattr__(self, "_first", min(0.0, self.zero_at))
        object.__setattr__(self, "_phases", self._summed())
        lay, own = self._raw(self.zero_at)
        moved = tuple((a - lay + self.zero_rad, b - own) for a, b in self._phases)
        object.__setattr__(self, "_phases", moved)

    def here(self, at: float) -> Here:
        """Return size and angles at a running length."""
        if len(self.stations) == 1:
            return self._even
        index = min(max(1, bisect_right(self._stops, at)), len(self.stations) - 1)
        low, high = self.stations[index - 1], self.stations[index]
        beyond = (at - low.at) / (high.at - low.at) if high.at > low.at else 0.0
        share = min(1.0, max(0.0, beyond))
        lay = low.lay_rad + share * (high.lay_rad - low.lay_rad)
        own = low.own + share * (high.own - low.own)
        bundle = low.bundle + share * (high.bundle - low.bundle)
        part = share * share * (3.0 - 2.0 * share) if low.eased else min(1.0 + _BEYOND, max(-_BEYOND, beyond))
        wide = low.spread + part * (high.spread - low.spread)
        return Here(bundle, bundle * _ratio(self.bundles, lay) * wide, lay, own)

    def _summed(self) -> tuple[tuple[float, float], ...]:
        """Sum the turning of the lay and of the strands along the way, by the middle of each short step."""
        count = max(1, ceil((self.way.length - self._first) / _GRID))
        sums, lay, own = [(0.0, 0.0)], 0.0, 0.0
        for index in range(count):
            here = self.here(self._first + (index + 0.5) * _GRID)
            if here.radius > 0.0:
                lay += _GRID * tan(here.lay_rad) / here.radius
            own += _GRID * tan(here.own_rad) / (here.bundle / 2.0)
            sums.append((lay, own))
        return tuple(sums)

    def _raw(self, at: float) -> tuple[float, float]:
        place = (at - self._first) / _GRID
        index = min(max(0, int(place)), len(self._phases) - 2)
        (a, b), (c, d) = self._phases[index : index + 2]
        return a + (place - index) * (c - a), b + (place - index) * (d - b)

    def phase(self, at: float, bundle: int) -> float:
        """Return where round the axis a bundle is: 0 to the left, a quarter turn on is on top [rad]."""
        return self._raw(at)[0] + 2.0 * pi * bundle / self.bundles

    def strand(self, at: float) -> float:
        """Return how far the strands have turned round their bundle [rad]."""
        return self._raw(at)[1]

    def axis(self, at: float, bundle: int) -> Point:
        """Return the middle of a bundle on the page."""
        return self.way.aside(at, self.here(at).radius * cos(self.phase(at, bundle)))

    def depth(self, at: float, bundle: int) -> float:
        """Return how far a bundle stands above the page's plane, below it when negative."""
        return self.here(at).radius * sin(self.phase(at, bundle)) if self.bundles > 1 else 0.0

    def beside(self, at: float, bundle: int, share: float) -> Point:
        """Return a point across a bundle: `share` 1 at its left side, -1 at its right side."""
        (x1, y1), (x2, y2) = self.axis(at - _HALF, bundle), self.axis(at + _HALF, bundle)
        size = hypot(x2 - x1, y2 - y1) or inf
        x, y = self.axis(at, bundle)
        off = share * self.here(at).bundle / 2.0
        return x + off * (y2 - y1) / size, y - off * (x2 - x1) / size

    def layer(self, at: float, bundle: int) -> int:
        """Return how high a bundle lies among the others, 0 the lowest."""
        if self.bundles == 1:
            return 0
        height = sin(self.phase(at, bundle))
        if self.bundles == 2:
            return int(height >= -1e-6)
        return int(height >= -0.5 - 1e-6) + int(height >= 0.5 - 1e-6)

    @property
    def thickness(self) -> float:
        """Over all bundles where they are thickest and touch."""
        return max((2.0 * _ratio(self.bundles, each.lay_rad) + 1.0) * each.bundle for each in self.stations)


def even(way: Way, bundle: float, lay_rad: float, *, bundles: int = 2, names: tuple[Name, ...] = NAMES) -> Laid:
    """Return a cord that is alike all along.

    Parameters
    ----------
    way : Way
        The cord's axis.
    bundle : float
        Diameter of one bundle, in drawing units.
    lay_rad : float
        Helix angle; positive is Z. [rad]
    bundles : int, 1 to 3
        How many are laid together.
    names : tuple of Name
        As for `Laid`.
    """
    return Laid(way, (CordStation(0.0, bundle, lay_rad),), bundles, names)
