"""Many strings at once: how twist shortens them, how a loop lies on its tip, how a pull stretches them.

Written for the experiment alone: it takes nothing from `calc`.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

_ROUNDS = 60
_PLACES = 9


@cache
def _triple() -> tuple[Array, Array]:
    """Lay angle of three round bundles in touch, and how far their middles lie off the axis, in diameters."""
    apart = 2.0 * np.pi / 3.0
    steps = np.linspace(0.0, apart, 4001)
    lays, radii = [], []
    for steep in np.linspace(0.0, 0.75, 76):
        # bundle middles run on helices of unit radius that climb 1 / tan(lay) a radian
        climb = 1.0 / np.tan(steep) if steep else 1e6
        gap = np.sqrt(np.min(2.0 * (1.0 - np.cos(steps - apart)) + (climb * steps) ** 2))
        lays.append(steep)
        radii.append(1.0 / gap)
    return np.array(lays), np.array(radii)


def off_axis(bundles: Array, lay_rad: Array) -> Array:
    """Return how far the middles of laid bundles lie off the axis, in bundle diameters: two touch on the axis."""
    return np.where(bundles == 2, 0.5, np.interp(lay_rad, *_triple()))


def fibre_path(surface: Array) -> Array:
    """Return mean length of the fibres of a twisted bundle / its length; `surface` is the tangent at its surface.

    The mean over the section of ``sqrt(1 + (surface x share of the radius)^2)``.
    """
    square = np.maximum(surface**2, 1e-12)
    return np.where(surface**2 < 1e-6, 1.0 + square / 4.0, 2.0 / 3.0 * ((1.0 + square) ** 1.5 - 1.0) / square)


@dataclass(frozen=True)
class Piece:
    """A length of plied cord: along its axis [m], turns, lay [rad], tangent of its bundles' own surface angle."""

    cord_m: Array
    turns: Array
    lay_rad: Array
    surface: Array


def by_turns(raw_m: Array, bundle_m: Array, bundles: Array, turns: Array, counter: Array) -> Piece:
    """Ply flat bundles with a count of turns, each bundle having been rolled the other way first."""
    bundle_axis_m, lay = raw_m.copy(), np.full_like(raw_m, 0.2)
    surface = np.zeros_like(raw_m)
    for _ in range(_ROUNDS):
        surface = np.pi * bundle_m * np.abs(counter - turns * np.cos(lay)) / bundle_axis_m
        bundle_axis_m = raw_m / fibre_path(surface)
        steep = 2.0 * np.pi * off_axis(bundles, lay) * bundle_m * turns / bundle_axis_m
        lay = np.arcsin(np.minimum(steep, 0.9))
    return Piece(bundle_axis_m * np.cos(lay), turns, lay, surface)


def by_lay(raw_m: Array, bundle_m: Array, bundles: Array, lay_rad: Array, left: Array) -> Piece:
    """Ply flat bundles by hand at a lay; `left` is what twist stays in them / twist that lays fibres along the cord."""
    surface = left * np.tan(lay_rad)
    bundle_axis_m = raw_m / fibre_path(surface)
    turns = bundle_axis_m * np.sin(lay_rad) / (2.0 * np.pi * off_axis(bundles, lay_rad) * bundle_m)
    return Piece(bundle_axis_m * np.cos(lay_rad), turns, lay_rad, surface)


def over_all(bundle_m: Array, bundles: Array, lay_rad: Array) -> Array:
    """Return the thickness of the plied cord [m]."""
    return bundle_m * (2.0 * off_axis(bundles, lay_rad) + 1.0)


def throat(loop_m: Array, tip_m: Array, cord_m: Array) -> Array:
    """Return how far the throat of a loop stands from the middle of a round tip [m].

    The legs leave a circle of half the tip and half a cord, and meet where their middles are one cord apart.
    """
    radius, half = (tip_m + cord_m) / 2.0, cord_m / 2.0

    def length(opening: Array) -> tuple[Array, Array]:
        away = (radius - half * np.cos(opening)) / np.sin(opening)
        leg = np.sqrt(np.maximum(away**2 + half**2 - radius**2, 0.0))
        return 2.0 * leg + radius * (np.pi + 2.0 * opening), away

    low, high = np.full_like(loop_m, 1e-3), np.full_like(loop_m, np.pi / 2.0)
    for _ in range(_ROUNDS):
        middle = (low + high) / 2.0
        long = length(middle)[0] > loop_m  # a wider opening takes a shorter loop
        low, high = np.where(long, middle, low), np.where(long, high, middle)
    return length(high)[1]


@dataclass(frozen=True)
class Fibres:
    """Load against stretch of fibres, one entry a string; stresses by weight [N/(kg/m)]."""

    stiffness: Array
    strength: Array
    break_strain: Array
    knee: Array

    def strain(self, stress: Array) -> Array:
        """Return the stretch at a pull: straight to the knee and on to the break, or one even bend to it."""
        at_knee = self.knee / self.stiffness
        rest = (self.break_strain - at_knee) / np.maximum(self.strength - self.knee, 1.0)
        kneed = np.where(stress <= self.knee, stress / self.stiffness, at_knee + (stress - self.knee) * rest)
        softer = (self.stiffness * self.break_strain / self.strength - 1.0) / self.break_strain
        evenly = stress / np.maximum(self.stiffness - softer * stress, 0.02 * self.stiffness)
        return np.where(self.knee > 0.0, kneed, evenly)


def stretch(fibres: Fibres, piece: Piece, load_n: Array, each_kg_m: Array, bundles: Array) -> Array:
    """Return how much a plied piece grows under a pull, at once [-].

    Every bundle bears its part along its own slant; its fibres run slanted again. Thickness is taken to stay.
    """
    along = np.cos(piece.lay_rad)
    square = np.maximum(piece.surface**2, 1e-9)
    mean_square = np.log1p(square) / square  # of the cosine squared, over the section
    mean = 2.0 * (np.sqrt(1.0 + square) - 1.0) / square  # of the cosine
    stress = load_n / (bundles * along) / (each_kg_m * mean)
    grown: Array = fibres.strain(stress) / mean_square / along**2
    return grown


def splice_stretch(
    fibres: Fibres, piece: Piece, load_n: Array, each_kg_m: Array, bundles: Array, *, held: Array
) -> Array:
    """Return the growth of a splice: tails take nothing at their ends and `held` of the pull at the throat [-]."""
    total = np.zeros_like(load_n)
    for place in (np.arange(_PLACES) + 0.5) / _PLACES:
        total += stretch(fibres, piece, load_n * (1.0 - held * place), each_kg_m, bundles)
    return total / _PLACES


def crept(decade: Array, power: Array, share: Array, time_s: Array, start_s: Array) -> Array:
    """Return the creep of fibres under a share of their strength for a time [-]."""
    return decade * (np.maximum(share, 1e-9) / 0.3) ** power * np.log10(1.0 + time_s / start_s)
