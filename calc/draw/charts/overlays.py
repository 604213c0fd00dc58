"""What lies on a chart's lines: signs, bars of measured points, limits, spreads."""

from __future__ import annotations

from itertools import pairwise
from math import hypot
from typing import TYPE_CHECKING

from calc.draw import Box, Circle, Label, Line, Pen, Polyline

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.draw import Ink, Point, Shape
    from calc.draw.charts.plots import Limit, Mark, Plot, Ribbon, Scatter
    from calc.draw.labels import Free

_SMALL = 12.6
_SIGN = 3.4
_BAR = 3.0
_SIGNS = 5
LIMIT_PEN = Pen("accent", 2.0, dash="long")


def sign(mark: Mark, at: Point, ink: Ink) -> list[Shape]:
    """Return one sign about a point; nothing for a mark without a sign.

    Parameters
    ----------
    mark : Mark
        Which sign.
    at : Point
        Its middle, in drawing units.
    ink : Ink
        Its colour.
    """
    x, y = at
    pen = Pen(ink, 1.5)
    match mark:
        case "dot":
            return [Circle(at, _SIGN, None, "accent" if ink == "accent" else "ink")]
        case "ring":
            return [Circle(at, _SIGN, pen, "ground")]
        case "square":
            corners = tuple((x + _SIGN * i, y + _SIGN * j) for i, j in ((-1, -1), (1, -1), (1, 1), (-1, 1)))
            return [Polyline(corners, pen, "ground", closed=True)]
        case "cross":
            ends = ((-_SIGN, -_SIGN), (-_SIGN, _SIGN))
            return [Line((x + i, y + j), (x - i, y - j), Pen(ink, 2.0)) for i, j in ends]
        case _:
            return []


def signs(mark: Mark, points: Sequence[Point], ink: Ink) -> list[Shape]:
    """Return a sign a few times along a line, spaced evenly over its length on the page.

    Parameters
    ----------
    mark : Mark
        As for `sign`.
    points : sequence of Point
        Of the line, in drawing units.
    ink : Ink
        As for `sign`.
    """
    if not mark:
        return []
    steps = [hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(points)]
    whole = sum(steps)
    if whole == 0.0:
        return sign(mark, points[0], ink)
    found: list[Shape] = []
    for index in range(_SIGNS):
        rest = whole * (index + 0.5) / _SIGNS
        for (a, b), step in zip(pairwise(points), steps, strict=True):
            if step > 0.0 and rest <= step:
                share = rest / step
                found += sign(mark, (a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])), ink)
                break
            rest -= step
    return found


def bars(plot: Plot, cloud: Scatter) -> list[Shape]:
    """Return measured points with their bars; what lies beyond the axes stands at the edge.

    Parameters
    ----------
    plot : Plot
        Where values stand.
    cloud : Scatter
        The points.
    """
    pen = Pen(cloud.ink, 1.0)
    shapes: list[Shape] = []
    for each in cloud.readings:
        x, y = plot.at(each.at)
        if each.y_spread:
            low, high = (plot.y(value) for value in each.y_spread)
            shapes.append(Line((x, low), (x, high), pen))
            shapes += [Line((x - _BAR, end), (x + _BAR, end), pen) for end in (low, high)]
        if each.x_spread:
            left, right = (plot.x(value) for value in each.x_spread)
            shapes.append(Line((left, y), (right, y), pen))
            shapes += [Line((end, y - _BAR), (end, y + _BAR), pen) for end in (left, right)]
        shapes += sign(cloud.mark or "dot", (x, y), cloud.ink)
    return shapes


def cloud_name(plot: Plot, free: Free, cloud: Scatter) -> list[Shape]:
    """Return the name of measured points, beside the last of them.

    Parameters
    ----------
    plot : Plot
        As for `bars`.
    free : Free
        What is taken so far; the name is added to it.
    cloud : Scatter
        As for `bars`.
    """
    if not cloud.words or not cloud.readings:
        return []
    last = max(cloud.readings, key=lambda each: each.at[0])
    return free.words(plot.at(last.at), cloud.words, _SMALL)


def spread(plot: Plot, ribbon: Ribbon) -> Shape:
    """Return the tint between two lines.

    Parameters
    ----------
    plot : Plot
        Where values stand.
    ribbon : Ribbon
        The two lines.
    """
    return Polyline(
        tuple(plot.at(each) for each in (*ribbon.lower, *reversed(ribbon.upper))), None, "tint", closed=True
    )


def spread_name(plot: Plot, free: Free, ribbon: Ribbon) -> list[Shape]:
    """Return the name of a tinted spread, at its middle.

    Parameters
    ----------
    plot : Plot
        As for `spread`.
    free : Free
        As for `cloud_name`.
    ribbon : Ribbon
        As for `spread`.
    """
    if not ribbon.words:
        return []
    low, high = (plot.at(line[len(line) // 2]) for line in (ribbon.lower, ribbon.upper))
    return free.words(((low[0] + high[0]) / 2.0, (low[1] + high[1]) / 2.0), ribbon.words, _SMALL)


def shown(plot: Plot, limits: Sequence[Limit]) -> list[Limit]:
    """Return the limits that lie within their axis.

    Parameters
    ----------
    plot : Plot
        Where values stand.
    limits : sequence of Limit
        Of either axis.
    """
    axes = {"x": plot.x_axis, "y": plot.y_axis}
    return [each for each in limits if axes[each.along].low <= each.at <= axes[each.along].high]


def limit_line(plot: Plot, limit: Limit) -> Line:
    """Return the line of a limit across the field.

    Parameters
    ----------
    plot : Plot
        Where values stand.
    limit : Limit
        Of either axis.
    """
    field = plot.field
    if limit.along == "x":
        x = plot.x(limit.at)
        return Line((x, field.bottom), (x, field.top), LIMIT_PEN)
    y = plot.y(limit.at)
    return Line((field.left, y), (field.right, y), LIMIT_PEN)


def side_limit(plot: Plot, free: Free, limit: Limit) -> list[Shape]:
    """Return the name of a limit of the upright axis: over its line where there is room, under it where there is none.

    Parameters
    ----------
    plot : Plot
        As for `limit_line`.
    free : Free
        As for `cloud_name`.
    limit : Limit
        As for `limit_line`.
    """
    field, y = plot.field, plot.y(limit.at)
    for lift in (-4.0, _SMALL + 2.0):
        label = Label((field.left + 6.0, y + lift), limit.words, _SMALL, ink="accent", bold=True, backed=True)
        if field.holds(label.box()) and not any(label.box().meets(each) for each in free.boxes):
            free.boxes.append(label.box())
            return [label]
    label = Label((field.left + 6.0, y - 4.0), limit.words, _SMALL, ink="accent", bold=True, backed=True)
    free.boxes.append(Box(*label.box()))
    return [label]
