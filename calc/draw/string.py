"""Drawings of one string: the bundle laid flat with its marks, and the braced bow."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.draw.drawing import Drawing
from calc.draw.shapes import FIRM, HAIR, HEAVY, LINE, Fill, Label, Line, Polyline

if TYPE_CHECKING:
    from calc.draw.frames import Point
    from calc.draw.shapes import Shape

WIDTH = 340.0
"""Drawing width: one unit is about one pixel on a phone."""
_BAND = 10.0


@dataclass(frozen=True, slots=True)
class Zone:
    """One zone of a bundle laid flat: what it is, how long, and the words to print."""

    name: str
    length_m: float
    length_text: str
    mark_text: str


def string_layout(zones: tuple[Zone, ...], step_m: float, strands: int, splice_m: float) -> Drawing:
    """Draw one bundle laid flat, to scale along its length.

    Parameters
    ----------
    zones : tuple of Zone
        Tail, loop, body, loop, tail; `mark_text` is the running measure at the end of each.
    step_m : float
        Between neighbouring strand ends. [m]
    strands : int
        In the bundle.
    splice_m : float
        How far each tail lies back along the body. [m]
    """
    total = sum(zone.length_m for zone in zones)
    scale = WIDTH / total
    shapes: list[Shape] = _strands(step_m * scale, strands)
    edge, edges = 0.0, [0.0]
    for index, zone in enumerate(zones):
        width = zone.length_m * scale
        if zone.name == "loop":
            shapes.append(_bar(edge, width, "b"))
        if zone.name == "body":
            shapes.extend(_bar(at, splice_m * scale, "tint") for at in (edge, edge + width - splice_m * scale))
        shapes += _named(zone, edge + width / 2.0, index)
        edge += width
        edges.append(edge)
    shapes += _marks(zones, edges)
    words = ", ".join(f"{zone.name} {zone.length_text}" for zone in zones)
    return Drawing(
        key="layout",
        title="One bundle laid flat, with its marks",
        desc=f"To scale along its length: {words}.",
        shapes=tuple(shapes),
    )


def _bar(left: float, width: float, fill: Fill) -> Polyline:
    corners: tuple[Point, ...] = ((left, 0.0), (left + width, 0.0), (left + width, _BAND), (left, _BAND))
    return Polyline(corners, None, fill, closed=True)


def _strands(step: float, strands: int) -> list[Shape]:
    """Draw each strand of the bundle behind the last; thickness is not to scale."""
    taper = step * (strands - 1)
    return [
        Line((i * step, (i + 0.5) * _BAND / strands), (WIDTH - taper + i * step, (i + 0.5) * _BAND / strands), HAIR)
        for i in range(strands)
    ]


def _named(zone: Zone, middle: float, index: int) -> list[Shape]:
    """Put name and length over a zone; loops are narrow, so theirs stand one row higher on a leader."""
    top = -34.0 if index % 2 else -8.0
    shapes: list[Shape] = [
        Label((_held(middle, zone.name), top - 12.0), zone.name, 12.0, "middle"),
        Label((_held(middle, zone.length_text), top), zone.length_text, 12.0, "middle"),
    ]
    if index % 2:
        shapes.append(Line((middle, top + 4.0), (middle, -1.0), HAIR))
    return shapes


def _held(middle: float, text: str) -> float:
    """Keep a label's middle so far from both ends that it fits the width."""
    half = Label((0.0, 0.0), text, 12.0, "middle").box.right
    return min(max(middle, half), WIDTH - half)


def _marks(zones: tuple[Zone, ...], edges: list[float]) -> list[Shape]:
    """Print the running measure at each mark, on three rows so that near marks do not touch."""
    shapes: list[Shape] = []
    for index, (zone, edge) in enumerate(zip(zones, edges[1:], strict=True)):
        row = 30.0 + 15.0 * (index % 3)
        shapes.append(Line((edge, -2.0), (edge, row - 11.0), LINE))
        shapes.append(Label((_held(edge, zone.mark_text), row), zone.mark_text, 12.0, "middle"))
    return shapes


def braced_bow(outline: tuple[tuple[float, float], ...], brace_text: str, string_text: str, bow_text: str) -> Drawing:
    """Draw a braced bow from the side, lying along the page.

    Parameters
    ----------
    outline : tuple of (along, across)
        Upper limb from the middle of the handle to the tip. [m]
    brace_text, string_text, bow_text : str
        Words of the three measures.
    """
    tip_along, tip_across = outline[-1]
    scale = WIDTH / (2.0 * tip_along)
    right = [(WIDTH / 2.0 + along * scale, -across * scale) for along, across in outline]
    left = [(WIDTH - x, y) for x, y in reversed(right)]
    level = -tip_across * scale
    middle = WIDTH / 2.0
    shapes: tuple[Shape, ...] = (
        Polyline(tuple(left + right), HEAVY),
        Line((0.0, level), (WIDTH, level), FIRM),
        Line((middle, level), (middle, 0.0), HAIR),
        Label((middle + 5.0, level / 2.0 + 4.0), brace_text, 12.0),
        Label((middle, level - 8.0), string_text, 12.0, "middle"),
        Label((middle, 20.0), bow_text, 12.0, "middle"),
    )
    return Drawing(key="bow", title="The braced bow", desc=f"{bow_text}; {string_text}; {brace_text}.", shapes=shapes)
