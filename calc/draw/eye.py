"""A loop round its limb tip, to scale."""

from __future__ import annotations

from math import asin, atan2, cos, hypot, sin
from typing import TYPE_CHECKING

from calc.draw.dims import Dim
from calc.draw.drawing import Drawing
from calc.draw.shapes import FIRM, HAIR, LINE, Circle, Group, Label, Line, Path, Pen
from calc.draw.steps import Arc, Curve, To
from calc.draw.tags import Tag, Tags, Words

if TYPE_CHECKING:
    from calc.draw.frames import Point
    from calc.draw.shapes import Shape
    from calc.draw.steps import Step
    from calc.geometry import Loop, Section

_WIDE, _HIGH = 338.0, 190.0
_STUB = 52.0
_SIZE, _SMALL = 13.0, 12.0
_THIN = 1e-9
_CENTRE = Pen("quiet", 1.0, dash=True)


def loop_round_tip(
    section: Section,
    loop: Loop,
    cord_m: float,
    *,
    throat_text: str,
    loop_text: str = "",
    tip_text: str = "",
    key: str = "loop",
    title: str = "The loop round its limb tip",
) -> Drawing:
    """Draw a loop round its tip as it closes, everything to scale; the string runs off to the right.

    Parameters
    ----------
    section : Section
        The tip cut across, its width up and down the page.
    loop : Loop
        The loop's centre line, as solved for this section and cord.
    cord_m : float, > 0
        Cord diameter. [m]
    throat_text, loop_text, tip_text : str
        What stands at the distance to the throat, at the loop and at the tip.
    key, title : str
        Of the drawing, to tell two ends apart.
    """
    tall_m = section.width_m + 2.0 * cord_m
    long_m = loop.throat_m + section.depth_m / 2.0 + cord_m
    scale = min((_WIDE - _STUB) / long_m, _HIGH / tall_m)
    start, steps = centre_line(section, loop, cord_m, scale)
    throat, band, half = loop.throat_m * scale, cord_m * scale, tall_m * scale / 2.0
    leg = steps[-2].end
    shapes: tuple[Shape, ...] = (
        Group("tip", (_tip(section, scale),)),
        _cord(start, steps, throat + _STUB, band),
        Group("centre-line", (Path(start, steps, _CENTRE),)),
        _break(throat + _STUB, band),
        Line((0.0, 0.0), (0.0, half + 3.0), _CENTRE),
        Line((throat, 0.0), (throat, half + 3.0), _CENTRE),
        Dim((0.0, half + 6.0), (throat, half + 6.0), throat_text, 12.0, size=_SIZE),
        Label((throat + _STUB + 2.0, band + 20.0), "string", _SMALL, "end", "quiet"),
        *_words(
            (-section.depth_m * scale / 8.0, -section.width_m * scale / 5.0),
            ((leg[0] + throat) / 2.0, (leg[1] - start[1]) / 2.0),
            -half - 4.0,
            (tip_text, loop_text),
        ),
    )
    said = "; ".join(each for each in (tip_text, loop_text, throat_text) if each)
    return Drawing(key=key, title=title, desc=f"{said}. To scale.", shapes=shapes)


def centre_line(section: Section, loop: Loop, cord_m: float, scale: float) -> tuple[Point, tuple[Step, ...]]:
    """Return the loop's centre line about the middle of the tip, from throat to throat, in drawing units.

    The same tangents as ``loop_of_throat``: straight legs, round the corners half a cord off, straight sides.
    """
    corner, half = section.corner_m, cord_m / 2.0
    rise = corner + half
    along, across = section.depth_m / 2.0 - corner, section.width_m / 2.0 - corner
    away = hypot(across - half, loop.throat_m - along)
    lean = atan2(across - half, loop.throat_m - along) + asin(min(1.0, rise / away))
    touch = (along + rise * sin(lean), across + rise * cos(lean))
    side = [(along, across + rise), (-along, across + rise), (-along - rise, across)]
    points = [touch, *side]
    below: list[Step] = [
        To(_scaled(touch, scale)),
        Arc(_scaled(points[1], scale), rise * scale, clockwise=True),
        To(_scaled(points[2], scale)),
        Arc(_scaled(points[3], scale), rise * scale, clockwise=True),
    ]
    over = [(x, -y) for x, y in reversed(points)]
    above: list[Step] = [
        To(_scaled(over[0], scale)),
        Arc(_scaled(over[1], scale), rise * scale, clockwise=True),
        To(_scaled(over[2], scale)),
        Arc(_scaled(over[3], scale), rise * scale, clockwise=True),
        To(_scaled((loop.throat_m, -half), scale)),
    ]
    return _scaled((loop.throat_m, half), scale), (*below, *above)


def _cord(start: Point, steps: tuple[Step, ...], end: float, band: float) -> Group:
    """Draw the cord as a band: a broad line under a less broad one."""
    whole = (To(start), *steps, To((end, -start[1])))
    broad = (Pen("ink", band, cap="butt"), Pen("ground", max(band - 3.0, band / 3.0), cap="butt"))
    return Group("cord", tuple(Path((end, start[1]), whole, pen) for pen in broad))


def _scaled(point: Point, scale: float) -> Point:
    return point[0] * scale, point[1] * scale


def _tip(section: Section, scale: float) -> Path:
    x, y = section.depth_m / 2.0 * scale, section.width_m / 2.0 * scale
    r = section.corner_m * scale
    ends = [
        ((x, y - r), (x - r, y)),
        ((-x + r, y), (-x, y - r)),
        ((-x, -y + r), (-x + r, -y)),
        ((x - r, -y), (x, -y + r)),
    ]
    steps: list[Step] = []
    for before, after in ends:
        steps.append(To(before))
        if r > _THIN:
            steps.append(Arc(after, r, clockwise=True))
    return Path((x, -y + r), tuple(steps), FIRM, "tint", closed=True)


def _break(x: float, band: float) -> Path:
    top, third = -band - 5.0, (2.0 * band + 10.0) / 3.0
    return Path((x, top), (Curve((x - 5.0, top + third), (x + 5.0, -top - third), (x, -top)),), LINE)


def _words(tip: Point, leg: Point, top: float, texts: tuple[str, str]) -> list[Shape]:
    """Put words over the loop, led to the tip and to a leg."""
    tags = tuple(Tag(x, (Words(text, _SIZE),)) for (x, _), text in zip((tip, leg), texts, strict=True) if text)
    ends = [end for end, text in zip((tip, leg), texts, strict=True) if text]
    if not tags:
        return []
    left = tip[0] - _WIDE / 3.0
    row = Tags.seated(tags, left, left + _WIDE, -1.0)
    leads = [Line((x, top), (x, y), HAIR) for x, y in ends]
    return [*leads, *(Circle(each, 1.6, None, "quiet") for each in ends), *row.shapes(top)]
