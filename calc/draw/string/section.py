"""A cord cut across: bundles, and the strands within them."""

from __future__ import annotations

from math import cos, pi, sin
from typing import TYPE_CHECKING, Literal

from calc.draw import FIRM, HAIR, PHONE, Arc, Circle, Dim, Drawing, Group, Label, Path, Pen, arrow_head, wrapped
from calc.draw.string.packing import packed

if TYPE_CHECKING:
    from calc.draw import Ink, Point, Shape
    from calc.geometry.lay import Hand

_CORD = 180.0
_LETTER = 17.0
_AWAY = 14.0
_SMALL, _SIZE = 12.6, 13.0
_NAMES: tuple[Literal["a", "b", "c"], ...] = ("a", "b", "c")
_PLACES: dict[int, tuple[float, ...]] = {1: (0.0,), 2: (180.0, 0.0), 3: (150.0, -90.0, 30.0)}
_LETTERS: dict[int, tuple[float, ...]] = {2: (180.0, 0.0), 3: (150.0, -128.0, 30.0)}
_ARROWS: dict[int, tuple[float, ...]] = {1: (-45.0,), 2: (-45.0, 135.0), 3: (-35.0, 90.0)}
_MEASURED = {1: 0, 2: 0, 3: 1}
"""Which bundle carries the dimension."""
_TURNS: dict[Hand, str] = {"Z": "clockwise", "S": "anticlockwise"}


def bundle_section(
    bundles: int,
    strands: int,
    *,
    bundle_m: float,
    cord_m: float,
    radius_m: float,
    bundle_text: str,
    cord_text: str,
    hand: Hand | None = None,
) -> Drawing:
    """Return a drawing of a cord cut across, each bundle as if cut square across itself.

    Parameters
    ----------
    bundles : int, 1 to 3
        In the cord.
    strands : int, >= 1
        In each bundle.
    bundle_m, cord_m : float, > 0
        Diameters. [m]
    radius_m : float, >= 0
        From the cord's axis to a bundle's axis. [m]
    bundle_text, cord_text : str
        What stands at the diameters.
    hand : {"S", "Z"} or None
        Twist of the cord, shown by arrows; mirrors the drawing, not its words.

    Notes
    -----
    Strands are drawn round and in rings (`packed`); in a real bundle they lie less tidily.
    """
    scale = _CORD / cord_m
    shapes: list[Shape] = []
    for name, angle in zip(_NAMES, _PLACES[bundles], strict=False):
        middle = _polar(radius_m * scale, angle)
        shapes += _bundle(name, middle, bundle_m * scale, strands)
    if bundles > 1:
        shapes += [_letter(name.upper(), at) for name, at in zip(_NAMES, _LETTERS[bundles], strict=False)]
        shapes.append(Circle((0.0, 0.0), _CORD / 2.0, Pen("quiet", 1.0, dash=True)))
    shapes += _dimensions(bundles, radius_m * scale, bundle_m * scale, (bundle_text, cord_text))
    if hand:
        shapes += [shape for angle in _ARROWS[bundles] for shape in _arrow(angle)]
    if hand == "S":
        shapes = [each.mirrored(0.0) for each in shapes]
    return _drawing(shapes, bundles, strands, hand, (bundle_text, cord_text))


def _polar(radius: float, degrees: float) -> Point:
    """Return a point about the middle; angles grow clockwise on the page, from the right."""
    return radius * cos(degrees * pi / 180.0), radius * sin(degrees * pi / 180.0)


def _bundle(name: Literal["a", "b", "c"], middle: Point, wide: float, strands: int) -> list[Shape]:
    ratio, places = packed(strands)
    across = wide / ratio
    rim: Ink = "ground" if name == "a" else name
    circles = tuple(
        Circle((middle[0] + x * across, middle[1] + y * across), across / 2.0 - 0.5, Pen(rim, 1.0), name)
        for x, y in places
    )
    return [Group(f"bundle-{name}", circles), Circle(middle, wide / 2.0, HAIR)]


def _letter(text: str, degrees: float) -> Label:
    x, y = _polar(_CORD / 2.0 + 15.0, degrees)
    return Label((x, y + 0.36 * _LETTER), text, _LETTER, "middle", bold=True)


def _arrow(degrees: float) -> list[Shape]:
    """Draw a turn to the right round the cord."""
    radius, half = _CORD / 2.0 + 11.0, 24.0
    start, tip = _polar(radius, degrees - half), _polar(radius, degrees + half)
    return [
        Path(start, (Arc(tip, radius, clockwise=True),), FIRM),
        arrow_head(tip, _polar(1.0, degrees + half + 84.0), FIRM),
    ]


def _dimensions(bundles: int, radius: float, wide: float, texts: tuple[str, str]) -> list[Shape]:
    """Put the diameter of a bundle above, that of the cord beneath."""
    rim = _CORD / 2.0
    x, y = _polar(radius, _PLACES[bundles][_MEASURED[bundles]])
    top = y - wide / 2.0 - 2.0
    above = Dim((x - wide / 2.0, top), (x + wide / 2.0, top), texts[0], -(rim + top + _AWAY), size=_SIZE)
    if bundles == 1:
        return [above]
    return [above, Dim((-rim, rim + 2.0), (rim, rim + 2.0), texts[1], _AWAY + 10.0, size=_SIZE)]


def _drawing(shapes: list[Shape], bundles: int, strands: int, hand: Hand | None, texts: tuple[str, str]) -> Drawing:
    noun = "strand" if strands == 1 else "strands"
    words = f"{strands} {noun} in {'each' if bundles > 1 else 'one'} bundle."
    if hand:
        words += f" Seen end on: going away from you, the bundles turn {_TURNS[hand]}, {hand}\u00a0twist."
    bottom = max(each.box().bottom for each in shapes)
    caption = [
        Label((0.0, bottom + 18.0 + 16.0 * index), line, _SMALL, "middle", "quiet")
        for index, line in enumerate(wrapped(words, PHONE - 16.0, _SMALL))
    ]
    return Drawing(
        key="section", title="The cord cut across", desc=f"{words} {'; '.join(texts)}.", shapes=(*shapes, *caption)
    )
