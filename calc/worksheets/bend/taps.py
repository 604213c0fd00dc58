"""Points marked in a picture, as text: a line for each part of the bow, each point as `x,y` in pixels."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.errors import DomainError, Problem
from calc.worksheets.core import Lines

if TYPE_CHECKING:
    from calc.geometry.photo import Point

PARTS = ("upper", "lower", "string", "grip", "marks")
_MOST = 40
_LARGEST = 100_000.0
_LINE = re.compile(r"\s*([a-z]+)\s*[:=]?\s*(.*?)\s*", re.IGNORECASE | re.DOTALL)
_POINT = re.compile(r"\(?\s*(-?\d+(?:\.\d+)?)\s*[,;]\s*(-?\d+(?:\.\d+)?)\s*\)?")
_EXAMPLE = """\
upper: 887,319 972,318 1049,324 1133,336 1209,345 1292,368 1371,392 1444,416 1524,448
lower: 709,320 630,326 549,336 470,352 393,370 309,393 233,417 157,445 83,474
string: 808,461
grip: 802,317"""

TAPS = Lines(
    key="taps",
    label="Points in the picture",
    hint="Tap them in the picture above. Or write them, in pixels: a line for each part of the bow.",
    how=(
        "upper and lower: along the belly, from where the limb begins to bend to the nock. Six to twelve points each.",
        "string: where it is drawn, or its middle. With no string on, any place on the belly’s side.",
        "grip: where you measure brace height.",
        "marks: four corners of a rectangle beside the bow, going round. Leave them out if the camera stood square.",
    ),
    group="The picture",
    example=_EXAMPLE,
    most=8,
)


@dataclass(frozen=True, slots=True)
class Taps:
    """What was marked, in pixels.

    Parameters
    ----------
    upper, lower : tuple of points
        Along each limb, from its root to its nock.
    string : (float, float)
        On the string, or on its side.
    grip : (float, float) or None
        Where brace height is measured.
    marks : tuple of points
        Corners of a rectangle; none or more.
    """

    upper: tuple[Point, ...]
    lower: tuple[Point, ...]
    string: Point
    grip: Point | None
    marks: tuple[Point, ...]


def read_taps(text: str) -> Taps:
    r"""Read points of a picture.

    Parameters
    ----------
    text : str
        As `TAPS` tells.

    Returns
    -------
    Taps
        In the order of the text.

    Raises
    ------
    DomainError
        At ``taps``, ``model`` with reason ``part_unknown`` or ``part_twice`` for a line that cannot be read,
        ``point_unread`` for a point, ``points_many`` for more than 40 in a line, ``part_missing`` where a limb or the
        string is not told.

    Examples
    --------
    >>> read_taps("upper: 1,2 3,4\nlower 5,6 7,8\nstring: 9,10").string
    (9.0, 10.0)
    """
    parts: dict[str, tuple[Point, ...]] = {}
    for line in text.splitlines():
        if not line.strip():
            continue
        found = _LINE.fullmatch(line)
        name = found[1].casefold() if found else ""
        if found is None or name not in PARTS:
            raise _fault("part_unknown")
        if name in parts:
            raise _fault("part_twice")
        parts[name] = _points(found[2])
    if not parts.get("upper") or not parts.get("lower") or not parts.get("string"):
        raise _fault("part_missing")
    grip = parts.get("grip")
    return Taps(parts["upper"], parts["lower"], parts["string"][0], grip[0] if grip else None, parts.get("marks", ()))


def _points(text: str) -> tuple[Point, ...]:
    found = tuple((float(x), float(y)) for x, y in _POINT.findall(text))
    if _POINT.sub("", text).strip() or any(abs(each) > _LARGEST for point in found for each in point):
        raise _fault("point_unread")
    if len(found) > _MOST:
        raise _fault("points_many")
    return found


def _fault(reason: str) -> DomainError:
    return DomainError(Problem(field="taps", code="model", reason=reason))
