"""The braced bow from the side, lying along the page with its string below."""

from __future__ import annotations

from math import hypot
from typing import TYPE_CHECKING

from calc.draw.dims import Dim, arrow_head
from calc.draw.drawing import PHONE, Drawing
from calc.draw.shapes import FIRM, HAIR, LINE, Circle, Group, Label, Line, Polyline
from calc.draw.tags import KNEE, Tag, Tags, Words

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.draw.frames import Point
    from calc.draw.shapes import Shape

_EDGE = 4.5
_MIDDLE = PHONE / 2.0
_SMALL, _SIZE = 12.0, 13.0
_GRIP, _TIP = 9.0, 3.0
_AWAY = 26.0
_HANDLE_AWAY, _HANDLE_LINE = 11.0, 24.0
_AIR = 6.0


def braced_bow(
    outline: Sequence[Point], brace_text: str, string_text: str, bow_text: str, *, handle_text: str = ""
) -> Drawing:
    """Draw a braced bow to scale; only the wood's and the string's thickness is not.

    Parameters
    ----------
    outline : sequence of (along, across)
        Belly of the upper limb: the middle of the handle at 0, 0, the end of the stiff handle, and on to the
        nock; `across` grows towards the string. The lower limb is its mirror image. [m]
    brace_text, string_text, bow_text : str
        What stands at the brace height, the string's length and the belly from nock to nock.
    handle_text : str
        What stands at the stiff handle; empty to leave it unsaid.
    """
    away = _AWAY + (_HANDLE_LINE if handle_text else 0.0)
    left = _on_page(outline, away)
    nock, other = left[-1], _over(left[-1])
    held = len([y for _, y in left if y == 0.0])
    back = _offset(left, _thickness(left, held))
    inside = _inside(left, brace_text)
    shapes: tuple[Shape, ...] = (
        Group("wood", (_wood(left, back), _wood(left[:held], back[:held]))),
        Group(
            "string", (Line(nock, other, FIRM), Circle(nock, 2.5, FIRM, "ground"), Circle(other, 2.5, FIRM, "ground"))
        ),
        *_handle(left[held - 1], back[0][1], handle_text),
        *_along_belly(left, away, bow_text),
        *_brace(nock[1], brace_text, inside=inside),
        *_below(nock, "" if inside else brace_text, string_text),
    )
    said = "; ".join(each for each in (bow_text, handle_text, brace_text, string_text) if each)
    return Drawing(key="bow", title="The braced bow from the side", desc=f"{said}. To scale.", shapes=shapes)


def _over(point: Point) -> Point:
    return PHONE - point[0], point[1]


def _on_page(outline: Sequence[Point], away: float) -> list[Point]:
    """Return the belly of the limb that lies to the left, so large that a line this far outside still fits."""
    points = list(dict.fromkeys(outline))
    (x1, y1), (x2, y2) = points[-2:]
    overshoot = away * abs(y2 - y1) / hypot(x2 - x1, y2 - y1)
    scale = (_MIDDLE - 2.0 * _EDGE - overshoot) / points[-1][0]
    return [(_MIDDLE - x * scale, y * scale) for x, y in points]


def _thickness(left: list[Point], held: int) -> list[float]:
    """Return the wood's thickness at every point: even in the handle, falling evenly towards the nock."""
    reach = left[held - 1][0] - left[-1][0]
    return [_GRIP] * held + [_TIP + (_GRIP - _TIP) * (x - left[-1][0]) / reach for x, _ in left[held:]]


def _offset(points: Sequence[Point], by: Sequence[float]) -> list[Point]:
    """Return the points moved outwards, square to the belly."""
    moved = []
    for index, (x, y) in enumerate(points):
        (x1, y1), (x2, y2) = points[max(0, index - 1)], points[min(len(points) - 1, index + 1)]
        size = hypot(x2 - x1, y2 - y1)
        moved.append((x - by[index] * (y2 - y1) / size, y - by[index] * abs(x2 - x1) / size))
    return moved


def _wood(left: Sequence[Point], back: Sequence[Point]) -> Polyline:
    upper = [*back, *reversed(left[1:])] if left[0] != left[-1] else [*back]
    return Polyline((*upper, *(_over(each) for each in reversed(upper))), LINE, "tint", closed=True)


def _handle(end: Point, top: float, text: str) -> list[Shape]:
    if not text:
        return []
    dim = Dim((end[0], top), (_over(end)[0], top), offset=-_HANDLE_AWAY)
    return [dim, Label((_MIDDLE, top - _HANDLE_AWAY - _AIR - 1.5), text, _SIZE, "middle")]


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


def _inside(left: list[Point], text: str) -> bool:
    """Tell whether the words of the brace height fit between belly and string."""
    label = _brace_label(left[-1][1], text)
    right = label.box.right
    outer = [y for x, y in (_over(each) for each in left) if x <= right]
    beyond = [y for x, y in (_over(each) for each in left) if x > right]
    return bool(beyond) and label.box.top > max(outer[-1], beyond[0]) + _AIR and label.box.bottom < left[-1][1] - 2.0


def _brace_label(brace: float, text: str) -> Label:
    return Label((_MIDDLE + 7.0, 0.5 * brace + 5.0), text, _SIZE, bold=True)


def _brace(brace: float, text: str, *, inside: bool) -> list[Shape]:
    shapes: list[Shape] = [Dim((_MIDDLE, 0.0), (_MIDDLE, brace), offset=0.0)]
    if inside:
        shapes.append(_brace_label(brace, text))
    belly = Label((_MIDDLE - 7.0, 4.0 + 0.82 * _SMALL), "belly", _SMALL, "end", "quiet")
    return [*shapes, belly] if belly.box.bottom < brace - 2.0 else shapes


def _below(nock: Point, brace_text: str, string_text: str) -> list[Shape]:
    """Name the nocks, say the brace height where it found no room, and put a dimension under the string."""
    other = _over(nock)
    tags = [
        Tag(nock[0], (Words("upper nock", _SMALL, "quiet"),), None),
        Tag(other[0], (Words("lower nock", _SMALL, "quiet"),), None),
    ]
    if brace_text:
        tags.insert(1, Tag(_MIDDLE, (Words(brace_text, _SIZE, bold=True),), HAIR))
    row = Tags.seated(tuple(tags), nock[0] + _AIR, other[0] - _AIR, 1.0)
    away = max(KNEE + 13.0, row.height) + _AIR
    return [*row.shapes(nock[1]), Dim(nock, other, string_text, offset=away)]
