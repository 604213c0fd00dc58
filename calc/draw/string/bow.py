"""The braced bow from the side, lying along the page with its string below."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from math import hypot
from typing import TYPE_CHECKING

from calc.draw import FIRM, HAIR, LINE, PHONE, Circle, Dim, Drawing, Group, Label, Line, Pen, Polyline, arrow_head

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.draw import Point, Shape

_OTHER = Pen("quiet", 1.0, dash=True)
_EDGE = 4.5
_MIDDLE = PHONE / 2.0
_SMALL, _SIZE = 12.6, 13.0
_GRIP, _TIP = 9.0, 3.0
_AWAY = 26.0
_HANDLE_AWAY, _HANDLE_LINE = 11.0, 24.0
_AIR = 6.0
_LINE = 16.0
_ON = 1e-6
"""Points nearer to each other than this share of the bow lie on each other."""


def braced_bow(
    outline: Sequence[Point],
    brace_text: str,
    string_text: str,
    bow_text: str,
    *,
    handle_length_m: float = 0.0,
    handle_text: str = "",
    proud_m: float = 0.0,
    beside: Sequence[Sequence[Point]] = (),
    beside_text: str = "",
) -> Drawing:
    """Return a drawing of a braced bow to scale; only the wood's and the string's thickness is not.

    Parameters
    ----------
    outline : sequence of (along, across)
        Belly of the upper limb from the middle of the handle at 0, 0 to where the string leaves it; `across`
        grows towards the string. The lower limb is its mirror image. [m]
    brace_text, string_text, bow_text : str
        What stands at the brace height, the string's length and the belly from nock to nock.
    handle_length_m : float, >= 0
        Stiff length in the middle; 0 to leave it undrawn. [m]
    handle_text : str
        What stands at the stiff handle; empty to leave it unsaid.
    proud_m : float, >= 0
        How far the handle stands proud of the belly; brace height is drawn from there. [m]
    beside : sequence of outlines
        The same bow braced lower or higher, each drawn as a dashed belly and string. [m]
    beside_text : str
        What stands beneath for them.
    """
    away = _AWAY + (_HANDLE_LINE if handle_text else 0.0)
    scale = min(_scale(each, away) for each in (outline, *beside))
    left = [(_MIDDLE - x * scale, y * scale) for x, y in _apart(outline)]
    nock, other, proud = left[-1], _over(left[-1]), proud_m * scale
    inside = _inside(left, proud, brace_text)
    others = [[(_MIDDLE - x * scale, y * scale) for x, y in _apart(each)] for each in beside]
    shapes: tuple[Shape, ...] = (
        *(Group(f"beside-{at}", _dashed(each)) for at, each in enumerate(others)),
        Group("wood", (_wood(left), *_grip(handle_length_m * scale, proud))),
        Group("string", (Line(nock, other, FIRM), *(Circle(each, 2.5, FIRM, "ground") for each in (nock, other)))),
        *_handle(handle_length_m * scale, handle_text),
        *_along_belly(left, away, bow_text),
        *_brace(proud, nock[1], brace_text, inside=inside),
        *_below(nock, "" if inside else brace_text, string_text),
    )
    if beside_text:
        foot = max(each.box().bottom for each in shapes) + _SMALL
        shapes += (Label((_MIDDLE, foot), beside_text, _SMALL, "middle", "quiet"),)
    said = "; ".join(each for each in (bow_text, handle_text, brace_text, string_text, beside_text) if each)
    return Drawing(key="bow", title="The braced bow from the side", desc=f"{said}. To scale.", shapes=shapes)


def _dashed(left: Sequence[Point]) -> tuple[Polyline, ...]:
    """Draw belly and string of a bow that is braced otherwise."""
    whole = (*reversed(left), *(_over(each) for each in left[1:]))
    return (Polyline((*whole, left[-1]), _OTHER),)


def _apart(outline: Sequence[Point]) -> list[Point]:
    """Return the outline without points that lie on the one before."""
    size = max(max(abs(x), abs(y)) for x, y in outline)
    kept = [outline[0]]
    for each in outline[1:]:
        if hypot(each[0] - kept[-1][0], each[1] - kept[-1][1]) > _ON * size:
            kept.append(each)
    return kept


def _over(point: Point) -> Point:
    return PHONE - point[0], point[1]


def _scale(outline: Sequence[Point], away: float) -> float:
    """Return the scale at which a line this far outside the bow still fits."""
    (x1, y1), (x2, y2) = _apart(outline)[-2:]
    overshoot = away * (y2 - y1) / hypot(x2 - x1, y2 - y1)
    return (_MIDDLE - 2.0 * _EDGE - max(0.0, overshoot)) / outline[-1][0]


def _offset(points: Sequence[Point], by: Sequence[float]) -> list[Point]:
    """Return the points moved outwards, square to the belly."""
    moved = []
    for index, (x, y) in enumerate(points):
        (x1, y1), (x2, y2) = points[max(0, index - 1)], points[min(len(points) - 1, index + 1)]
        size = hypot(x2 - x1, y2 - y1)
        moved.append((x - by[index] * (y2 - y1) / size, y - by[index] * abs(x2 - x1) / size))
    return moved


def _wood(left: Sequence[Point]) -> Polyline:
    """Draw the wood, its thickness falling evenly from the middle to the nocks."""
    reach = left[0][0] - left[-1][0]
    back = _offset(left, [_TIP + (_GRIP - _TIP) * (x - left[-1][0]) / reach for x, _ in left])
    upper = [*back, *reversed(left[1:])]
    return Polyline((*upper, *(_over(each) for each in reversed(upper))), LINE, "tint", closed=True)


def _grip(wide: float, proud: float) -> list[Polyline]:
    if wide <= 0.0:
        return []
    left, right = _MIDDLE - wide / 2.0, _MIDDLE + wide / 2.0
    corners = ((left, -_GRIP), (right, -_GRIP), (right, proud), (left, proud))
    return [Polyline(corners, LINE, "tint", closed=True)]


def _handle(wide: float, text: str) -> list[Shape]:
    if not text or wide <= 0.0:
        return []
    dim = Dim((_MIDDLE - wide / 2.0, -_GRIP), (_MIDDLE + wide / 2.0, -_GRIP), offset=-_HANDLE_AWAY)
    return [dim, Label((_MIDDLE, -_GRIP - _HANDLE_AWAY - _AIR - 1.5), text, _SIZE, "middle")]


def _along_belly(left: list[Point], away: float, text: str) -> list[Shape]:
    """Draw a dimension line that follows the bow from nock to nock, outside the wood."""
    line = _offset(left, [away] * len(left))
    shapes: list[Shape] = [Polyline((*reversed(line), *(_over(each) for each in line[1:])), HAIR)]
    toward = line[-1][0] - line[-2][0], line[-1][1] - line[-2][1]
    for nock, tip, way in (
        (left[-1], line[-1], toward),
        (_over(left[-1]), _over(line[-1]), (-toward[0], toward[1])),
    ):
        shapes += [Line(nock, tip, HAIR), arrow_head(tip, way)]
    return [*shapes, Label((_MIDDLE, line[0][1] - _AIR), text, _SIZE, "middle", bold=True)]


def _inside(left: list[Point], proud: float, text: str) -> bool:
    """Tell whether the words of the brace height fit between belly and string."""
    box = _brace_label(proud, left[-1][1], text).box()
    right = [_over(each) for each in left]
    lowest = [max(a[1], b[1]) for a, b in pairwise(right) if a[0] <= box.right]
    return right[-1][0] > box.right and box.top > max([proud, *lowest]) + _AIR and box.bottom < left[-1][1] - 2.0


def _brace_label(proud: float, brace: float, text: str) -> Label:
    return Label((_MIDDLE + 7.0, (proud + brace) / 2.0 + 5.0), text, _SIZE, bold=True)


def _brace(proud: float, brace: float, text: str, *, inside: bool) -> list[Shape]:
    shapes: list[Shape] = [Dim((_MIDDLE, proud), (_MIDDLE, brace), offset=0.0)]
    if inside:
        shapes.append(_brace_label(proud, brace, text))
    belly = Label((_MIDDLE - 7.0, proud + 4.0 + 0.82 * _SMALL), "belly", _SMALL, "end", "quiet")
    return [*shapes, belly] if belly.box().bottom < brace - 2.0 else shapes


def _below(nock: Point, brace_text: str, string_text: str) -> list[Shape]:
    """Name the nocks, say the brace height where it found no room, and put a dimension under the string."""
    other, foot = _over(nock), nock[1] + _AIR + _SMALL
    ends = [
        Label((nock[0] + _AIR, foot), "upper nock", _SMALL, "start", "quiet"),
        Label((other[0] - _AIR, foot), "lower nock", _SMALL, "end", "quiet"),
    ]
    if not brace_text:
        return [*ends, Dim(nock, other, string_text, offset=foot - nock[1] + _AIR)]
    brace = Label((_MIDDLE, foot), brace_text, _SIZE, "middle", bold=True)
    if any(brace.box().grown(2.0).meets(each.box()) for each in ends):
        brace = replace(brace, at=(_MIDDLE, foot + _LINE))
    lead = Line((_MIDDLE, nock[1]), (_MIDDLE, brace.box().top - 1.0), HAIR)
    return [*ends, lead, brace, Dim(nock, other, string_text, offset=brace.at[1] - nock[1] + _AIR + 1.0)]
