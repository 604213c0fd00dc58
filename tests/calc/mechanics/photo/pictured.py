"""Known bows and cameras to look at them: an elastica solved by scipy, and a pinhole anywhere."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, hypot, sin
from typing import TYPE_CHECKING, Any, TypeAlias

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import fsolve

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

Point: TypeAlias = tuple[float, float]
STIFF: dict[str, Callable[[float], float]] = {
    "tapered": lambda s: 1.0 - s,
    "arc": lambda s: 1.0 - s * s,
    "uniform": lambda _: 1.0,
}
"""Bending stiffness from root to nock."""


def weak(at: float, by: float) -> Callable[[float], float]:
    """Return the stiffness of an even limb that is weaker about a place."""
    return lambda s: (1.0 - s * s) * (1.0 - by * np.exp(-(((s - at) / 0.15) ** 2)))


@dataclass(frozen=True)
class Bent:
    """A limb from its root, along and off the handle's line, and its slope there; places from 0 to 1."""

    stiff: Callable[[float], float]
    across: float
    pull_rad: float
    at: Callable[[float], Any]

    def point(self, place: float) -> Point:
        """Return where a place of a limb of unit length is."""
        x, y, _ = self.at(place)
        return float(x), float(y)

    def slope(self, place: float) -> float:
        """Return its slope [rad]."""
        return float(self.at(place)[2])


def bent(stiff: Callable[[float], float], across: float, pull_rad: float = 0.0) -> Bent:
    """Return the elastica that a string holds, its nock standing off so far: shot for from the nock inwards."""

    def inwards(load: float, tip_rad: float) -> Callable[[float], Any]:
        def grows(left: float, at: np.ndarray) -> list[float]:
            x, y, slope = at  # from the nock; the string pulls along -x, turned by pull_rad
            arm = y * cos(pull_rad) + x * sin(pull_rad)
            return [-cos(slope), -sin(slope), load * arm / stiff(1.0 - left)]

        near = 1e-4  # a taper ends in nothing
        first = [-near * cos(tip_rad), -near * sin(tip_rad), tip_rad]
        sol = solve_ivp(grows, (near, 1.0), first, rtol=1e-9, atol=1e-11, dense_output=True).sol
        assert sol is not None
        return sol

    def wrong(at: np.ndarray) -> list[float]:
        _, y, slope = inwards(*at)(1.0)
        return [-y - across, slope]

    (load, tip_rad), _, done, why = fsolve(wrong, [2.0, 2.0 * across], full_output=True, xtol=1e-10)
    assert done == 1, why
    found = inwards(load, tip_rad)
    x1, y1, turned = found(1.0)

    def at(place: float) -> Any:  # noqa: ANN401 - scipy's own array
        left = max(1.0 - place, 1e-4)
        return found(left) - np.array([x1, y1, turned])

    return Bent(stiff, across, pull_rad, at)


@dataclass(frozen=True, kw_only=True)
class Camera:
    """A pinhole: how it is turned [rad], how far off [m], how large a metre is there [px]."""

    yaw: float = 0.0
    pitch: float = 0.0
    roll: float = 0.0
    far_m: float = 5.0
    px_m: float = 460.0

    def sees(self, point: Point) -> Point:
        """Return where a point of the bow's plane is in the picture [px]."""
        x, y, z = point[0], point[1], 0.0
        x, y = x * cos(self.roll) - y * sin(self.roll), x * sin(self.roll) + y * cos(self.roll)
        x, z = x * cos(self.yaw), z + x * sin(self.yaw)
        y, z = y * cos(self.pitch) - z * sin(self.pitch), y * sin(self.pitch) + z * cos(self.pitch)
        near = self.far_m / (self.far_m + z)
        return 400.0 + self.px_m * near * x, 300.0 - self.px_m * near * y


@dataclass(frozen=True)
class Pictured:
    """A whole bow of two limbs, its handle along the x axis, the string below."""

    upper: Bent
    lower: Bent
    limb_m: float
    handle_m: float

    @property
    def long_m(self) -> float:
        """Nock to nock along the belly [m]."""
        return 2.0 * self.limb_m + self.handle_m

    def place(self, side: int, place: float) -> Point:
        """Return a place of the upper limb (1) or the lower (-1) [m]."""
        x, y = (self.upper if side > 0 else self.lower).point(place)
        return side * (self.handle_m / 2.0 + x * self.limb_m), -y * self.limb_m

    def figures(self) -> dict[str, float]:
        """Return what is true of it."""
        (x0, y0), (x1, y1) = self.place(1, 1.0), self.place(-1, 1.0)
        found = {
            "reach": abs(y0 * x1 - y1 * x0) / hypot(x1 - x0, y1 - y0),
            "string": hypot(x1 - x0, y1 - y0),
            "handle": self.handle_m,
        }
        for name, limb in (("upper", self.upper), ("lower", self.lower)):
            found[f"bend_{name}"] = limb.slope(1.0) - limb.slope(0.0)
            found |= {f"{name}_{k}": limb.slope((k + 1) / 3) - limb.slope(k / 3) for k in range(3)}
        found["balance"] = found["bend_upper"] / found["bend_lower"] - 1.0
        return found


def tapped(
    bow: Pictured, camera: Camera, count: int, off: Callable[[], float]
) -> tuple[tuple[list[Point], list[Point]], Point, Point]:
    """Return taps along both limbs, on the string and on the grip, each off by hand [px]."""

    def hand(point: Point) -> Point:
        x, y = camera.sees(point)
        return x + off(), y + off()

    limbs = tuple([hand(bow.place(side, k / (count - 1))) for k in range(count)] for side in (1, -1))
    (x0, y0), (x1, y1) = bow.place(1, 1.0), bow.place(-1, 1.0)
    return (limbs[0], limbs[1]), hand(((x0 + x1) / 2.0, (y0 + y1) / 2.0)), hand((0.0, 0.0))


def corners(camera: Camera, wide_m: float, high_m: float, off: Callable[[], float]) -> Sequence[Point]:
    """Return the corners of a rectangle about the bow's middle, going round, each off by hand [px]."""
    half, up = wide_m / 2.0, high_m / 2.0
    seen = [camera.sees(each) for each in ((-half, -up - 0.1), (half, -up - 0.1), (half, up - 0.1), (-half, up - 0.1))]
    return [(x + off(), y + off()) for x, y in seen]
