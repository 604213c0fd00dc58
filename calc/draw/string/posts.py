"""An endless string on its posts: wind it, turn the posts and serve, close the loop."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.draw import (
    HAIR,
    LINE,
    PHONE,
    Arc,
    Circle,
    CubicTo,
    Dim,
    Drawing,
    Group,
    Label,
    Line,
    Many,
    Path,
    Pen,
    To,
    wrapped,
)
from calc.draw.cord import Way, served

if TYPE_CHECKING:
    from calc.draw import PathStep, Point, Shape

_SMALL, _SIZE = 12.6, 13.0
_LEFT, _RIGHT = 44.0, PHONE - 44.0
_POST = 9.0
_MOST = 5
_APART = 2.6
_STRAND = Pen("a", 1.5, cap="butt")
_ARM = 40.0


def endless_posts(
    wraps: int,
    *,
    spacing_text: str,
    serve_text: str,
    bound_text: str,
    wraps_text: str,
) -> Drawing:
    """Return a drawing of the three stages of an endless string; not to scale, its measures are said.

    Parameters
    ----------
    wraps : int, >= 1
        Times round the posts; at most five are drawn.
    spacing_text : str
        What stands between the outer sides of the two posts, where the string lies.
    serve_text : str
        What stands at the stretch served for a loop.
    bound_text : str
        What stands where both legs are bound to close the loop.
    wraps_text : str
        How many times round, in words.
    """
    drawn = min(wraps, _MOST)
    first, low = _wind(drawn, spacing_text, wraps_text)
    second, lower = _serve(drawn, low + 34.0, serve_text)
    third = _close(lower + 34.0, bound_text)
    said = f"Wind {wraps_text} round two posts, {spacing_text}. Turn the posts, serve {serve_text}. Bind {bound_text}."
    return Drawing(
        key="posts", title="An endless string on its posts", desc=said, shapes=(*first, *second, *third)
    )  # fmt: skip


def racetrack(ends: tuple[Point, Point], radius: float, wraps: int) -> Many:
    """Return strands wound round two posts that stand level, one outside the other.

    Parameters
    ----------
    ends : (Point, Point)
        Middles of the left and of the right post, at one height.
    radius : float
        Of a post, in drawing units.
    wraps : int
        Strands to draw.
    """
    (x1, y), (x2, _) = ends
    parts: list[tuple[Point, tuple[PathStep, ...]]] = []
    for index in range(wraps):
        r = radius + _APART * (index + 0.5)
        arcs = (To((x2, y - r)), Arc((x2, y + r), r, clockwise=True), To((x1, y + r)))
        parts.append(((x1, y - r), (*arcs, Arc((x1, y - r), r, clockwise=True))))
    return Many(tuple(parts), _STRAND)


def post(at: Point, radius: float = _POST) -> tuple[Shape, ...]:
    """Return a post seen from above.

    Parameters
    ----------
    at : Point
        Its middle.
    radius : float
        In drawing units.
    """
    x, y = at
    ends = ((-3.0, 0.0), (0.0, -3.0))
    return Circle(at, radius, LINE, "tint"), *(Line((x + i, y + j), (x - i, y - j), HAIR) for i, j in ends)


def _heading(number: int, text: str, top: float) -> list[Shape]:
    lines = wrapped(text, PHONE - 40.0, _SIZE)
    shapes: list[Shape] = [Label((4.5, top + _SIZE), str(number), 17.0, bold=True)]
    return [*shapes, *(Label((24.0, top + _SIZE + 16.0 * row), line, _SIZE) for row, line in enumerate(lines))]


def _wind(wraps: int, spacing_text: str, wraps_text: str) -> tuple[list[Shape], float]:
    head = _heading(1, f"Wind {wraps_text} round two posts, evenly, without crossing", 0.0)
    y = max(each.box().bottom for each in head) + 28.0
    ends = (_LEFT, y), (_RIGHT, y)
    reach = _POST + _APART * wraps
    knot = (_LEFT + 26.0, y + reach)
    shapes: list[Shape] = [
        *head,
        Group("wound", (racetrack(ends, _POST, wraps),)),
        *(shape for each in ends for shape in post(each)),
        Path((knot[0] - 5.0, knot[1] + 1.0), (CubicTo((knot[0], knot[1] + 11.0), (knot[0] + 6.0, knot[1] + 9.0),
                                                    (knot[0] + 5.0, knot[1] - 1.0)),), _STRAND),
        Label((knot[0] + 12.0, knot[1] + 15.0), "ends meet by a post", _SMALL, ink="quiet"),
        Dim((_LEFT - reach, y), (_RIGHT + reach, y), spacing_text, reach + 34.0, size=_SIZE),
    ]  # fmt: skip
    return shapes, max(each.box().bottom for each in shapes)


def _serve(wraps: int, top: float, serve_text: str) -> tuple[list[Shape], float]:
    """Draw both pairs of posts turned crosswise, the loop's stretch between the close ones."""
    head = _heading(2, "Turn each pair of posts crosswise and serve what lies between them", top)
    y = max(each.box().bottom for each in head) + 30.0 + _ARM
    x1, x2, reach = _LEFT + 4.0, _RIGHT - 4.0, _POST + _APART * wraps
    parts: list[tuple[Point, tuple[PathStep, ...]]] = []
    for index in range(wraps):
        r = _POST + _APART * (index + 0.5)
        up, down = y - _ARM, y + _ARM
        corners: tuple[PathStep, ...] = (
            To((x2, up - r)), Arc((x2 + r, up), r, clockwise=True), To((x2 + r, down)),
            Arc((x2, down + r), r, clockwise=True), To((x1, down + r)), Arc((x1 - r, down), r, clockwise=True),
            To((x1 - r, up)), Arc((x1, up - r), r, clockwise=True),
        )  # fmt: skip
        parts.append(((x1, up - r), corners))
    wide = _APART * wraps + 5.0
    shapes: list[Shape] = [*head, Group("turned", (Many(tuple(parts), _STRAND),))]
    for x, way in ((x1 - (_POST + reach) / 2.0, 1.0), (x2 + (_POST + reach) / 2.0, -1.0)):
        shapes += served(Way([(x, y + _ARM), (x, y - _ARM)]), 4.0, 2.0 * _ARM - 4.0, width=wide, pitch=3.6)
        base = x1 if way > 0.0 else x2
        shapes += [shape for side in (-1.0, 1.0) for shape in post((base, y + side * _ARM))]
        shapes.append(Line((base, y - _ARM + _POST), (base, y + _ARM - _POST), Pen("quiet", 4.0)))
    at = x1 + 26.0
    shapes.append(Dim((at, y + _ARM - 4.0), (at, y - _ARM + 4.0), "", 0.0))
    shapes += [
        Label((at + 8.0, y + 4.0 + 16.0 * row), line, _SIZE)
        for row, line in enumerate(wrapped(f"serve {serve_text}", x2 - at - 40.0, _SIZE))
    ]
    return shapes, max(each.box().bottom for each in shapes)


def _close(top: float, bound_text: str) -> list[Shape]:
    """Draw the served stretch brought round one post and both legs bound."""
    head = _heading(3, "Bring the served stretch round one post and bind both legs together", top)
    y = max(each.box().bottom for each in head) + 40.0
    x, r = _LEFT + 20.0, _POST + 6.0
    throat = x + 74.0
    wide = 9.0
    half, near, far = wide / 2.0, x + 24.0, throat - 24.0
    there = CubicTo((far, y + half), (near, y + r), (x, y + r))
    home = CubicTo((near, y - r), (far, y - half), (throat, y - half))
    loop = Way.along((throat, y + half), there, Arc((x, y - r), r, clockwise=True), home)
    end = throat + 112.0
    strands = tuple(((end - 6.0, y + off), (To((PHONE - 30.0, y + off)),)) for off in (-5.0, -2.5, 0.0, 2.5, 5.0))
    bind = Way([(throat - 6.0, y), (end, y)])
    shapes: list[Shape] = [*head, *post((x, y)), Many(strands, _STRAND)]
    shapes += served(loop, 0.0, loop.length, width=wide, pitch=3.6)
    shapes += served(bind, 0.0, bind.length, width=2.0 * wide + 3.0, pitch=3.6)
    shapes.append(Dim((throat - 6.0, y + wide + 4.0), (end, y + wide + 4.0), f"bind {bound_text}", 14.0, size=_SIZE))
    return shapes
