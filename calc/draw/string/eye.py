"""A loop round its limb tip, to scale."""

from __future__ import annotations

from dataclasses import replace
from math import cos, hypot, pi, sin
from typing import TYPE_CHECKING

from calc.draw import FIRM, HAIR, LINE, Arc, Circle, CubicTo, Dim, Drawing, Group, Label, Line, Path, Pen, To
from calc.draw.labels import Tag, Tags, Words
from calc.geometry.ends import EllipseTip

if TYPE_CHECKING:
    from calc.draw import PathStep, Point, Shape
    from calc.geometry.ends import Loop, Section

_WIDE, _HIGH = 338.0, 190.0
_STUB = 52.0
_SIZE, _SMALL = 13.0, 12.6
_FACETS = 60
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
    """Return a drawing of a loop closed round its tip, to scale; the string runs off to the right.

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
    start, steps = _centre_line(section, loop, cord_m, scale)
    throat, band, half = loop.throat_m * scale, cord_m * scale, tall_m * scale / 2.0
    leg = steps[0].end[0], -steps[0].end[1]
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


def _centre_line(section: Section, loop: Loop, cord_m: float, scale: float) -> tuple[Point, tuple[PathStep, ...]]:
    """Return the loop's centre line about the middle of the tip, from throat to throat, in drawing units.

    The same tangents as in ``calc.geometry``: straight legs, then round the section half a cord off it. Round
    corners are drawn as arcs, an ellipse by short straight lines.
    """
    start = _scaled((loop.throat_m, cord_m / 2.0), scale)
    below = _outline(section, cord_m / 2.0, loop.opening_rad / 2.0, scale)
    points = [start, *(each.end for each in below)]
    return start, (*below, *_there_and_back(points, below))


def _outline(section: Section, off_m: float, lean_rad: float, scale: float) -> list[PathStep]:
    """Return the steps round half a section, from a normal's direction over the side to the middle of the back."""
    if isinstance(section, EllipseTip):
        angles = [lean_rad - (lean_rad + pi / 2.0) * index / _FACETS for index in range(_FACETS + 1)]
        return [To(_scaled(_on_ellipse(section, off_m, angle), scale)) for angle in angles]
    rise_m = section.corner_m + off_m
    along_m, across_m = section.depth_m / 2.0 - section.corner_m, section.width_m / 2.0 - section.corner_m
    touching = along_m + rise_m * sin(lean_rad), across_m + rise_m * cos(lean_rad)
    ends = [touching, (along_m, across_m + rise_m), (-along_m, across_m + rise_m), (-along_m - rise_m, across_m)]
    first, second, third, fourth = (_scaled(each, scale) for each in ends)
    radius = rise_m * scale
    steps: list[PathStep] = [
        To(first),
        Arc(second, radius, clockwise=True),
        To(third),
        Arc(fourth, radius, clockwise=True),
    ]
    return [*steps, To((fourth[0], 0.0))]


def _on_ellipse(section: EllipseTip, off_m: float, angle: float) -> Point:
    """Return the point off an ellipse whose normal turns from the side to the belly, or back for a negative angle."""
    half_m, deep_m = section.width_m / 2.0, section.depth_m / 2.0
    reach_m = hypot(half_m * cos(angle), deep_m * sin(angle))
    return (deep_m**2 / reach_m + off_m) * sin(angle), (half_m**2 / reach_m + off_m) * cos(angle)


def _cord(start: Point, steps: tuple[PathStep, ...], end: float, band: float) -> Group:
    """Draw the cord as a band: a broad line under a less broad one."""
    whole = (To(start), *steps, To((end, -start[1])))
    broad = (Pen("ink", band, cap="butt"), Pen("ground", max(band - 3.0, band / 3.0), cap="butt"))
    return Group("cord", tuple(Path((end, start[1]), whole, pen) for pen in broad))


def _scaled(point: Point, scale: float) -> Point:
    return point[0] * scale, point[1] * scale


def _tip(section: Section, scale: float) -> Path:
    """Draw the tip itself: the outline that stands off nothing, there and back."""
    first, *rest = _outline(section, 0.0, pi / 2.0, scale)
    points = [first.end, *(each.end for each in rest)]
    above = _there_and_back(points, rest)
    return Path(first.end, (*rest, *above), FIRM, "tint", closed=True)


def _there_and_back(points: list[Point], steps: list[PathStep]) -> list[PathStep]:
    """Return the mirror image of steps through some points, walked the other way."""
    return [replace(step, end=(points[at][0], -points[at][1])) for at, step in reversed(list(enumerate(steps)))]


def _break(x: float, band: float) -> Path:
    top, third = -band - 5.0, (2.0 * band + 10.0) / 3.0
    return Path((x, top), (CubicTo((x - 5.0, top + third), (x + 5.0, -top - third), (x, -top)),), LINE)


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
