"""Many bows at once, each half of it a chain of stiff links with springs between them: braced, and drawn.

Written for the experiment alone: it takes nothing from `calc`, so that what it says is a second opinion.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

LINKS = 20
_BENDS = 28
_LEAST_BEND, _MOST_BEND = 0.06, 1.35
"""Tip angles over which a braced limb is worked out, beyond its rest [rad]."""
_LOADS = np.linspace(0.1, 8.0, 60)
_HALVINGS = 36
_DRAW_STEPS, _NEWTON = 12, 8


@dataclass(frozen=True)
class Limbs:
    """Bows as they are, one entry each.

    Attributes
    ----------
    limb_m, half_handle_m : array
        Working limb, half of the stiff middle. [m]
    taper : array
        Stiffness of the limb falls as ``(1 - place) ** taper`` to its tip: 0 for uniform, 1 for tapered. [-]
    set_m : array
        How far the tips of the unstrung bow stand off towards the string. [m]
    proud_m : array
        How far the handle stands out from the line of the belly. [m]
    links : int
        How many for each limb.
    """

    limb_m: Array
    half_handle_m: Array
    taper: Array
    set_m: Array
    proud_m: Array
    links: int = LINKS

    @cached_property
    def springs(self) -> Array:
        """Stiffness of each joint of a limb of unit length and unit stiffness at the handle, a row a bow."""
        places = np.arange(self.links) / self.links
        springs: Array = (1.0 - places[None, :]) ** self.taper[:, None] * self.links
        springs[:, 0] *= 2.0
        return springs

    @cached_property
    def rest(self) -> Array:
        """Angle of each joint of the unstrung limb, a row a bow [rad]: set spread evenly."""
        turned = 2.0 * (self.set_m / self.limb_m)[:, None] / self.links * np.ones((1, self.links))
        turned[:, 0] *= 0.5
        return turned

    def shoot(self, tip_rad: Array, load: Array, pull_rad: Array) -> tuple[Array, Array, Array]:
        """Go from the tip to the handle: the angle left over there, and where the tip is, along and across.

        Parameters
        ----------
        tip_rad, load, pull_rad : array
            Angle of the last link, pull of the string in units of stiffness / limb^2, and the angle of that pull to
            the line of the handle; bows lie along the last axis.
        """
        angle, along, across = tip_rad, np.zeros_like(tip_rad), np.zeros_like(tip_rad)
        sine, cosine = np.sin(pull_rad), np.cos(pull_rad)
        for joint in range(self.links - 1, -1, -1):
            along = along + np.cos(angle) / self.links
            across = across + np.sin(angle) / self.links
            couple = load * (along * sine + across * cosine)
            angle = angle - self.rest[:, joint] - couple / self.springs[:, joint]
        return angle, along, across

    def angles(self, tip_rad: Array, load: Array, pull_rad: Array) -> Array:
        """Return the angle of every link to the line of the handle, a row a bow [rad]."""
        found = [tip_rad]
        along, across = np.cos(tip_rad) / self.links, np.sin(tip_rad) / self.links
        for joint in range(self.links - 1, 0, -1):
            couple = load * (along * np.sin(pull_rad) + across * np.cos(pull_rad))
            found.append(found[-1] - self.rest[:, joint] - couple / self.springs[:, joint])
            along, across = along + np.cos(found[-1]) / self.links, across + np.sin(found[-1]) / self.links
        return np.array(found[::-1]).T

    @cached_property
    def braced(self) -> Braced:
        """Every bow braced over a row of heights."""
        slack = self.rest.sum(axis=1)
        tips = slack[None, :] + np.linspace(_LEAST_BEND, _MOST_BEND, _BENDS)[:, None]
        still = np.zeros_like(tips)
        low, high = still.copy(), np.full_like(tips, np.nan)
        for load in _LOADS:  # the lowest load that holds the limb so
            over = self.shoot(tips, np.full_like(tips, load), still)[0] > 0.0
            unknown = np.isnan(high)
            low = np.where(unknown & over, load, low)
            high = np.where(unknown & ~over, load, high)
        for _ in range(_HALVINGS):
            middle = (low + high) / 2.0
            over = self.shoot(tips, middle, still)[0] > 0.0
            low, high = np.where(over, middle, low), np.where(over, high, middle)
        _, along, across = self.shoot(tips, high, still)
        return Braced(
            height_m=across * self.limb_m - self.proud_m,
            string_m=2.0 * (self.half_handle_m + along * self.limb_m),
            load=high,
            tip_rad=tips,
        )


@dataclass(frozen=True)
class Braced:
    """Bows braced over a row of heights: a row a height, a column a bow; the pull in units of stiffness / limb^2."""

    height_m: Array
    string_m: Array
    load: Array
    tip_rad: Array

    def at(self, height_m: Array, what: Array) -> Array:
        """Return a figure at a brace height of each bow, by a cubic through the row."""
        return between(self.height_m, what, height_m)


def between(rows: Array, values: Array, wanted: Array) -> Array:
    """Return a figure between rows, each column by itself, by a cubic through four neighbours; a line beyond them."""
    found = np.empty_like(wanted)
    for k in range(len(wanted)):
        at = rows[:, k]
        values_k = values[:, k]
        if at[0] > at[-1]:
            at, values_k = at[::-1], values_k[::-1]
        i = int(np.clip(np.searchsorted(at, wanted[k]) - 2, 0, len(at) - 4))
        near, high = at[i : i + 4], values_k[i : i + 4]
        total = 0.0
        for a in range(4):
            weight = 1.0
            for b in range(4):
                if a != b:
                    weight *= (wanted[k] - near[b]) / (near[a] - near[b])
            total += weight * high[a]
        found[k] = total
    return found


@dataclass(frozen=True)
class Drawn:
    """Bows at full draw: pull in the string and on the fingers in units of stiffness / limb^2, and the tip."""

    load: Array
    force: Array
    tip_rad: Array
    pull_rad: Array


def drawn(bows: Limbs, brace_m: Array, draw_m: Array) -> Drawn:
    """Draw bows with a string that does not stretch, from a brace height to a draw; NaN where they cannot follow.

    Parameters
    ----------
    brace_m, draw_m : array
        Both from the handle, where brace height is measured. [m]
    """
    unit = bows.limb_m
    half, brace, full = bows.half_handle_m / unit, brace_m + bows.proud_m, (draw_m + bows.proud_m) / unit
    string = bows.braced.at(brace_m, bows.braced.string_m) / 2.0 / unit
    at = np.array([
        bows.braced.at(brace_m, bows.braced.tip_rad),
        bows.braced.at(brace_m, bows.braced.load),
        np.full_like(unit, 1e-3),
    ])  # fmt: skip
    brace = brace / unit

    def wrong(at: Array, draw: Array) -> Array:
        left, along, across = bows.shoot(at[0], at[1], at[2])
        out = half + along
        return np.array([left, out / np.cos(at[2]) - string, across + out * np.tan(at[2]) - draw])

    for step in range(1, _DRAW_STEPS + 1):
        draw = brace + (full - brace) * step / _DRAW_STEPS
        for _ in range(_NEWTON):
            here = wrong(at, draw)
            slopes = np.empty((len(unit), 3, 3))
            for k in range(3):
                moved = at.copy()
                moved[k] += 1e-6
                slopes[:, :, k] = ((wrong(moved, draw) - here) / 1e-6).T
            at = at - np.linalg.solve(slopes, here.T[:, :, None])[:, :, 0].T
    bad = np.abs(wrong(at, full)).max(axis=0) > 1e-6
    at = np.where(bad[None, :], np.nan, at)
    return Drawn(at[1], 2.0 * at[1] * np.sin(at[2]), at[0], at[2])
