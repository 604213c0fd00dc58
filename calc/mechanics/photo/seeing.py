"""A bow in a picture: how its limbs bend, and how far it is braced or drawn, by points that were marked on it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from math import atan2, cos, hypot, pi, remainder, sin, sqrt
from typing import TYPE_CHECKING, Literal, TypeAlias

from calc.data import practice
from calc.errors import DomainError, Problem, require
from calc.geometry.photo import Marked, fit_line, leaning, plane_of, square_on
from calc.mechanics.photo.figures import LIMBS, figures
from calc.mechanics.photo.limb_bend import bend_between
from calc.numerics import Spread

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from calc.geometry.photo import BentLine, Plane, Point

Hold: TypeAlias = Literal["unbraced", "braced", "drawn"]
_SURE = 1.8
"""Nine readings in ten lie within so many standard deviations, where a dozen taps tell how far taps are off (Student's
table: 1.73 for 19 taps more than needed, 1.86 for 8). [-]"""
_FEWEST = 4
_CORNERS = 4
_ALONG = 24
_FAR = 2.5
"""A camera that nobody measured stands so many bow lengths off, for what a slant does. [-]"""
_TRUST = 4.0
"""How many taps the error that was told beforehand counts for, beside what the taps themselves show."""
_CLEAR = 0.01
"""A string nearer to the limbs' roots does not show on which side it is. [bow lengths]"""
_STRAIGHT_RAD = 0.1
"""Limbs bent less do not show how they share the bend. [rad]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Photo:
    """What was marked in a picture, all in pixels; x to the right and y down or up, as long as it is one of them.

    Parameters
    ----------
    limbs : (sequence of points, sequence of points)
        Along the belly of the upper limb and of the lower, each from where the limb begins to bend to the nock; at
        least 4.
    string : (float, float)
        On the string: where it is drawn, or its middle; of an unbraced bow any place on the belly's side.
    grip : (float, float), optional
        Where brace height is measured; between the limbs where it is not told.
    marks : sequence of four points
        Corners of a rectangle beside the bow, going round; none where the camera stood square.
    sides_m : (float, float), optional
        Of that rectangle: between its first two marks, and between the next two. [m]
    nock_to_nock_m : float, > 0
        Along the belly, by a tape. [m]
    hold : {"unbraced", "braced", "drawn"}
        What the bow does in the picture.
    string_follow_m : float
        Set, where it was measured; negative for reflex. [m]

    Raises
    ------
    DomainError
        ``min`` with field ``upper`` or ``lower`` and reason ``taps_few``; ``pair`` with reason ``marks_four`` for other
        than four marks; ``missing`` with field ``mark_wide`` for marks without sides; ``min`` or ``number`` otherwise.
    """

    limbs: tuple[Sequence[Point], Sequence[Point]]
    string: Point
    nock_to_nock_m: float
    hold: Hold
    grip: Point | None = None
    marks: Sequence[Point] = ()
    sides_m: Point | None = None
    string_follow_m: float = 0.0

    def __post_init__(self) -> None:
        require("nock_to_nock_m", self.nock_to_nock_m, low=0.0, open_=True)
        for name, taps in zip(LIMBS, self.limbs, strict=True):
            if len(taps) < _FEWEST:
                raise DomainError(Problem(field=name, code="min", limit=_FEWEST, reason="taps_few"))
        if self.marks and len(self.marks) != _CORNERS:
            raise DomainError(Problem(field="marks", code="pair", reason="marks_four"))
        if self.marks and self.sides_m is None:
            raise DomainError(Problem(field="mark_wide", code="missing", reason="mark_sides"))

    @property
    def size_px(self) -> float:
        """How long the bow is in the picture, along the taps [px]."""
        upper, lower = self.limbs
        whole = [*reversed(upper), *lower]
        return sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(whole))

    @property
    def off_px(self) -> float:
        """How far a tap may be off, as a standard deviation [px]."""
        return practice("tap_reading").spread.value * self.size_px


@dataclass(frozen=True, slots=True)
class SeenBow:
    """A picture as it was worked out.

    Attributes
    ----------
    photo : Photo
        What was marked.
    plane : Plane
        From the picture to the plane of the bow.
    lines : (BentLine, BentLine)
        The upper limb and the lower, in that plane.
    off_px : float
        How far taps are off, as a standard deviation. [px]
    found : dict of str to Spread
        Nine times in ten the bow lies within. ``handle`` [m]; ``off``: how far the tips stand off the line of the
        limbs' roots towards the string [m]; where it has a string ``string`` and ``reach`` (brace height, or the draw)
        [m]; ``bend_upper``, ``bend_lower`` [rad] and their thirds ``upper_0`` to ``lower_2`` [rad]; ``over_upper_0``
        and on: what these are over a third of the limb's bend [rad]; ``more``: the upper limb's bend less the lower's
        [rad]; ``balance``: the one over the other, less one [-]; ``curve_upper_0`` and on: the bend at 13 even places
        [rad/m]; ``limb_bend``: 0 for an even bend, -1 for limbs that taper to nothing, 1 for limbs alike all along [-].
    """

    photo: Photo
    plane: Plane
    lines: tuple[BentLine, BentLine]
    off_px: float
    found: Mapping[str, Spread]


def seen(photo: Photo) -> SeenBow:
    """Return how the bow in a picture bends.

    Parameters
    ----------
    photo : Photo
        What was marked.

    Raises
    ------
    DomainError
        As `plane_of` and `fit_line`; ``model`` with field ``string`` and reason ``string_within`` for a string that
        lies in the line of the limbs' roots, or ``string_back`` for one on the back's side of a bow that has it on.

    Notes
    -----
    Source: smooth lines through the taps (`fit_line`); the tape from nock to nock gives the scale, four corners of
    a rectangle the slant (`plane_of`; ``derived:photo``). The spread is what taps, corners and tape are off, or the
    slant of a camera that was put up by eye. Leaves out the bulge of a lens, and a bow that does not lie in one plane.
    """
    _check_string(photo)
    plane = plane_of(photo.marks, *photo.sides_m) if photo.marks and photo.sides_m else square_on()
    lines, off = _learnt(photo, plane)
    told = (lines[0].told, lines[1].told)
    values = figures(photo, plane, told)
    if photo.hold != "unbraced" and values["off"] <= 0.0:
        raise DomainError(Problem(field="string", code="model", reason="string_back"))
    variance = dict.fromkeys(values, 0.0)

    def add(other: Mapping[str, float], weight: float = 1.0) -> None:
        for key, value in other.items():
            variance[key] += weight * (value - values[key]) ** 2

    for k, line in enumerate(lines):
        for key, (_, more) in line.variances(
            lambda at, k=k: figures(photo, plane, (at, told[1]) if k == 0 else (told[0], at))  # type: ignore[misc]
        ).items():
            variance[key] += more
    tape_m = practice("tape_reading").spread.high / _SURE
    add(figures(photo, plane, told, tape_m=tape_m))
    for moved in _nudged(photo, off):
        add(figures(moved, plane, told))
    for other_plane in _aslant(photo, off):
        others = _lines(photo, other_plane, off, lines)
        add(figures(photo, other_plane, (others[0].told, others[1].told)))
    found = {key: _around(value, _SURE * sqrt(variance[key])) for key, value in values.items()}
    if photo.hold != "unbraced" and min(found["bend_upper"].value, found["bend_lower"].value) > _STRAIGHT_RAD:
        limb_m = (photo.nock_to_nock_m - values["handle"]) / 2.0
        found["limb_bend"] = bend_between(
            values["off"] / limb_m, values.get("pull", 0.0), photo.string_follow_m / limb_m, found["bend_at"]
        )
    return SeenBow(photo, plane, lines, off, found)


def _check_string(photo: Photo) -> None:
    """Raise unless the string stands clear of the line through the limbs' roots that lies as the nocks do."""
    (x0, y0), (x1, y1) = photo.limbs[0][0], photo.limbs[1][0]
    (u0, v0), (u1, v1) = photo.limbs[0][-1], photo.limbs[1][-1]
    x, y = photo.string[0] - (x0 + x1) / 2.0, photo.string[1] - (y0 + y1) / 2.0
    chord = hypot(u1 - u0, v1 - v0)
    if not abs(x * (v1 - v0) - y * (u1 - u0)) > _CLEAR * photo.size_px * chord:
        raise DomainError(Problem(field="string", code="model", reason="string_within"))


def _around(value: float, off: float) -> Spread:
    return Spread(value - off, value, value + off)


def _learnt(photo: Photo, plane: Plane) -> tuple[tuple[BentLine, BentLine], float]:
    """Return both limbs in the plane, and how far taps are off [px]: as told, and as those of both limbs show."""
    first = _lines(photo, plane, photo.off_px)
    square, free = (sum(getattr(each, name) for each in first) for name in ("square", "free"))
    off = photo.off_px * sqrt((_TRUST + square) / (_TRUST + free))
    return _lines(photo, plane, off, first), off


def _lines(
    photo: Photo, plane: Plane, off: float, near: tuple[BentLine, BentLine] | None = None
) -> tuple[BentLine, BentLine]:
    """Return both limbs in the plane, of taps that are so far off [px]."""
    found = []
    for k, taps in enumerate(photo.limbs):
        try:
            marked = [Marked(plane.at(each), off * plane.size_at(each)) for each in taps]
            found.append(fit_line(marked, near[k] if near else None))
        except DomainError as error:
            if error.problem.field != "taps":
                raise
            raise DomainError(Problem(field=LIMBS[k], code="model", reason=error.problem.reason)) from None
    return found[0], found[1]


def _nudged(photo: Photo, off: float) -> list[Photo]:
    """Return the picture with the string's tap and the grip's off, one way at a time."""
    ways = ((off, 0.0), (0.0, off))
    moved = [replace(photo, string=(photo.string[0] + x, photo.string[1] + y)) for x, y in ways]
    if photo.grip:
        moved += [replace(photo, grip=(photo.grip[0] + x, photo.grip[1] + y)) for x, y in ways]
    return moved


def _aslant(photo: Photo, off: float) -> list[Plane]:
    """Return the planes that the picture may show as well: corners off one at a time, or a camera not square."""
    if photo.marks and photo.sides_m:
        planes = []
        for k in range(_CORNERS):
            for way in ((off, 0.0), (0.0, off)):
                corners = [(x + way[0], y + way[1]) if i == k else (x, y) for i, (x, y) in enumerate(photo.marks)]
                planes.append(plane_of(corners, *photo.sides_m))
        return planes
    slant_rad = practice("camera_slant").spread.high / _SURE
    (x0, y0), (x1, y1) = photo.limbs[0][0], photo.limbs[1][0]
    about = (x0 + x1) / 2.0, (y0 + y1) / 2.0
    far_px = _FAR * photo.size_px
    return [leaning(about, far_px, slants) for slants in ((slant_rad, 0.0), (0.0, slant_rad))]


def even(line: BentLine) -> tuple[Point, ...]:
    """Return the arc that leaves a limb's root as the limb does and ends at its nock.

    Parameters
    ----------
    line : BentLine
        A limb.

    Notes
    -----
    Source: an arc's chord leaves it at half its whole bend.
    """
    (x0, y0), (x1, y1) = line.points(1)
    start_rad = line.slope(0.0)
    chord, half_rad = hypot(x1 - x0, y1 - y0), remainder(atan2(y1 - y0, x1 - x0) - start_rad, 2.0 * pi)
    found = []
    for k in range(_ALONG + 1):
        turn_rad = half_rad * k / _ALONG
        long = chord * (sin(turn_rad) / sin(half_rad) if half_rad else k / _ALONG)
        found.append((x0 + long * cos(start_rad + turn_rad), y0 + long * sin(start_rad + turn_rad)))
    return tuple(found)
