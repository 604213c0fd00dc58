"""Figures of a bow from the lines of its limbs in a picture."""

from __future__ import annotations

from math import asin, exp, hypot
from typing import TYPE_CHECKING

from calc.geometry.photo import bend_of, end_of, slope_of

if TYPE_CHECKING:
    from calc.geometry.photo import Plane, Point
    from calc.mechanics.photo.seeing import Photo

LIMBS = ("upper", "lower")
PLACES = 12
"""The bend is told at so many even steps along each limb, both ends too."""
_STEPS = 24


def figures(
    photo: Photo, plane: Plane, told: tuple[tuple[float, ...], tuple[float, ...]], *, tape_m: float = 0.0
) -> dict[str, float]:
    """Return every figure of the bow with its limbs as told; the keys are those of `SeenBow`.

    Parameters
    ----------
    photo : Photo
        What was marked.
    plane : Plane
        From the picture to the plane of the bow.
    told : (tuple of float, tuple of float)
        Both limbs, as `BentLine` tells them.
    tape_m : float
        How far the tape was off. [m]

    Notes
    -----
    Source: plane geometry (``derived:photo``). Beside what `SeenBow` tells there is ``pull``, the string's slope to
    the line of the tips [rad], and ``bend_at``, the middle of the bend along the limb: 0 at its root, 1 at its nock.
    """
    ends, starts = [end_of(each) for each in told], [(each[0], each[1]) for each in told]
    middle = (starts[0][0] + starts[1][0]) / 2.0, (starts[0][1] + starts[1][1]) / 2.0
    string, grip = plane.at(photo.string), plane.at(photo.grip) if photo.grip else middle
    handle = _apart(starts[0], starts[1])
    lengths = [exp(each[2]) for each in told]
    unit_m = (photo.nock_to_nock_m + tape_m) / (sum(lengths) + handle)
    chord = _apart(ends[0], ends[1])
    across = -(ends[0][1] - ends[1][1]) / chord, (ends[0][0] - ends[1][0]) / chord
    side = 1.0 if _along(across, middle, string) > 0.0 else -1.0
    found = {"handle": unit_m * handle, "off": unit_m * side * _along(across, middle, ends[0])}
    if photo.hold == "braced":
        found |= {"string": unit_m * chord, "reach": unit_m * side * _along(across, grip, ends[0])}
    if photo.hold == "drawn":
        over = side * _along(across, ends[0], string)
        found["pull"] = asin(max(-1.0, min(1.0, 2.0 * over / (_apart(ends[0], string) + _apart(string, ends[1])))))
        found |= {
            "string": unit_m * (_apart(ends[0], string) + _apart(string, ends[1])),
            "reach": unit_m * _apart(grip, string),
        }
    bends, moments = [], []
    for name, each, sign, long in zip(LIMBS, told, (side, -side), lengths, strict=True):
        slopes = [sign * slope_of(each, k / _STEPS) for k in range(_STEPS + 1)]
        bend = slopes[-1] - slopes[0]
        mean = (
            sum((1.0 if k in {0, _STEPS} else 4.0 if k % 2 else 2.0) * at for k, at in enumerate(slopes)) / 3.0 / _STEPS
        )
        bends.append(bend)
        moments.append(slopes[-1] - mean)
        found[f"bend_{name}"] = bend
        third = _STEPS // 3
        found |= {f"{name}_{k}": slopes[(k + 1) * third] - slopes[k * third] for k in range(3)}
        found |= {f"over_{name}_{k}": found[f"{name}_{k}"] - bend / 3.0 for k in range(3)}
        found |= {f"curve_{name}_{k}": sign * bend_of(each, k / PLACES) / long / unit_m for k in range(PLACES + 1)}
    found["more"] = bends[0] - bends[1]
    found["balance"] = bends[0] / bends[1] - 1.0 if bends[1] else 0.0
    found["bend_at"] = sum(moments) / sum(bends) if sum(bends) else 0.0
    return found


def _apart(one: Point, other: Point) -> float:
    return hypot(other[0] - one[0], other[1] - one[1])


def _along(way: Point, one: Point, other: Point) -> float:
    return way[0] * (other[0] - one[0]) + way[1] * (other[1] - one[1])
