"""A line chart with words at its lines: no legend, no box."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from calc.draw import HAIR, LINE, PHONE, Box, Circle, Drawing, Group, Label, Line, Pen, Polyline, text_width, wrapped
from calc.draw.charts.overlays import bars, cloud_name, limit_line, shown, side_limit, signs, spread, spread_name
from calc.draw.charts.plots import Plot
from calc.draw.charts.read_values import readout
from calc.draw.labels import Free, Seat, Tag, Tags, Words, place_labels

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.draw import Shape
    from calc.draw.charts.axes import Axis
    from calc.draw.charts.plots import Band, Limit, Marker, Ribbon, Scatter, Series

_EDGE = 4.5
_TICK, _SMALL = 12.6, 12.6
_GRID = Pen("quiet", 0.4)
_AIR = 6.0
_LINE = 14.0
_NAMES = 92.0
_TICK_ROOM = 46.0
_MOST_TICKS = 9


def line_chart(
    series: Sequence[Series],
    x_axis: Axis,
    y_axis: Axis,
    *,
    key: str,
    title: str,
    desc: str,
    bands: Sequence[Band] = (),
    ribbons: Sequence[Ribbon] = (),
    limits: Sequence[Limit] = (),
    clouds: Sequence[Scatter] = (),
    markers: Sequence[Marker] = (),
    height: float = 190.0,
) -> Drawing:
    """Return a chart of lines over two axes; all values in the reader's units.

    Parameters
    ----------
    series : sequence of Series
        Names stand at the right end of each line, where there are any.
    x_axis, y_axis : Axis
        What is shown; what lies beyond stands at the edge.
    key, title, desc : str
        Of the drawing.
    bands, ribbons, limits, clouds, markers : sequence
        Named stretches of an axis, spreads between two lines, values not to pass, measured points with their
        bars, single points.
    height : float
        Of the field, in drawing units.

    Notes
    -----
    Lines part by dash and mark, never by ink alone. The drawing carries its numbers for a page script in the
    form told in ``calc.draw.readouts``.
    """
    outer = [wrapped(each.words, _NAMES, _SMALL) if each.points[-1][0] >= x_axis.high else () for each in series]
    field = _field(x_axis, y_axis, outer, height)
    plot = Plot(x_axis, y_axis, field)
    held = shown(plot, limits)
    tags, top = _names_above(plot, bands, held)
    free = _taken(plot, series, clouds, markers, held)
    shapes: list[Shape] = [
        *(_tint(plot, each) for each in bands),
        *(spread(plot, each) for each in ribbons),
        *_grid(plot),
        *(Group(f"limit-{at}", (limit_line(plot, each),)) for at, each in enumerate(held)),
        *(_line(at, one, plot) for at, one in enumerate(series)),
        *_names(plot, series, outer),
        *(shape for one, lines in zip(series, outer, strict=True) if not lines for shape in _near(plot, free, one)),
        *tags,
        *(shape for each in held if each.along == "y" for shape in side_limit(plot, free, each)),
        *(Group(f"cloud-{at}", tuple(bars(plot, each))) for at, each in enumerate(clouds) if each.readings),
        *(shape for each in clouds for shape in cloud_name(plot, free, each)),
        *(shape for each in ribbons for shape in spread_name(plot, free, each)),
        *(shape for each in bands if each.along == "y" for shape in _side_name(plot, free, each)),
        *(shape for each in markers for shape in _spot(plot, free, each)),
        Label((_EDGE, top - 2.0 * _AIR), y_axis.words, _SMALL, ink="quiet"),
        Label((field.right, field.bottom + 36.0), x_axis.words, _SMALL, "end", "quiet"),
        readout(plot, series, clouds, markers),
    ]
    return Drawing(key=key, title=title, desc=desc, shapes=tuple(shapes))


def _taken(
    plot: Plot, series: Sequence[Series], clouds: Sequence[Scatter], markers: Sequence[Marker], limits: Sequence[Limit]
) -> Free:
    """Return the field with everything that words had better keep off."""
    free = Free(plot.field, runs=[tuple(plot.at(each) for each in one.points) for one in series])
    free.runs += [(each.start, each.end) for each in (limit_line(plot, one) for one in limits)]
    spots = [each.at for each in markers] + [each.at for one in clouds for each in one.readings]
    free.boxes += [Box.of([plot.at(each)]).grown(5.0) for each in spots]
    return free


def _field(x_axis: Axis, y_axis: Axis, names: Sequence[tuple[str, ...]], height: float) -> Box:
    """Return the field that leaves room for ticks at its left and names at its right."""
    ticks = max(text_width(text, _TICK) for _, text in y_axis.marked(round(height / _TICK_ROOM) + 1))
    widest = max((text_width(line, _SMALL) for lines in names for line in lines), default=0.0)
    last = max(text_width(text, _TICK) for _, text in x_axis.marked(2)) / 2.0
    return Box(_EDGE + ticks + _AIR, 0.0, PHONE - _EDGE - max(widest + _AIR if widest else 0.0, last), height)


def _grid(plot: Plot) -> list[Shape]:
    """Draw both axes with their ticks; hairlines across only for the upright one."""
    field = plot.field
    shapes: list[Shape] = []
    for value, text in plot.y_axis.marked(round(field.height / _TICK_ROOM) + 1):
        y = plot.y(value)
        shapes.append(Line((field.left, y), (field.right, y), _GRID))
        shapes.append(Label((field.left - _AIR, y + 0.36 * _TICK), text, _TICK, "end", "quiet"))
    for value, text in _roomy(plot.x_axis, field.width):
        x = plot.x(value)
        shapes.append(Line((x, field.bottom), (x, field.bottom + 4.0), HAIR))
        shapes.append(Label((x, field.bottom + 18.5), text, _TICK, "middle", "quiet"))
    shapes.append(Line((field.left, field.bottom), (field.right, field.bottom), LINE))
    shapes.append(Line((field.left, field.top), (field.left, field.bottom), LINE))
    return shapes


def _roomy(axis: Axis, width: float) -> tuple[tuple[float, str], ...]:
    """Return as many ticks as stand clear of each other over a width."""
    for most in range(_MOST_TICKS, 2, -1):
        ticks = axis.marked(most)
        apart = width * min((axis.share(b[0]) - axis.share(a[0]) for a, b in pairwise(ticks)), default=1.0)
        if apart >= max(text_width(text, _TICK) for _, text in ticks) + 12.0:
            return ticks
    return axis.marked(2)


def _line(at: int, one: Series, plot: Plot) -> Shape:
    points = tuple(plot.at(each) for each in one.points)
    line = Polyline(points, Pen(one.ink, 2.0, dash=one.dash))
    return Group(f"series-{at}", (line, *signs(one.mark, points, one.ink)))


def _names(plot: Plot, series: Sequence[Series], names: Sequence[tuple[str, ...]]) -> list[Shape]:
    """Write names to the right of the lines' ends, pushed apart where ends are close."""
    field = plot.field
    ends = [plot.at(one.points[-1]) for one in series]
    named = sorted((at for at, lines in enumerate(names) if lines), key=lambda at: ends[at][1])
    seats = [Seat(ends[at][1], _LINE * len(names[at])) for at in named]
    shapes: list[Shape] = []
    for at, place in zip(named, place_labels(seats, field.top - _LINE, field.bottom + _LINE, 1.0, most=1), strict=True):
        x, y = ends[at]
        if abs(place.middle - y) > 1.0:
            shapes.append(Line((x, y), (field.right + 3.0, place.middle), HAIR))
        first = place.middle - _LINE * len(names[at]) / 2.0
        ink = series[at].ink
        shapes += [
            Label((field.right + _AIR, first + _LINE * row + 10.5), line, _SMALL, ink="ink" if ink == "b" else ink)
            for row, line in enumerate(names[at])
        ]
    return shapes


def _near(plot: Plot, free: Free, one: Series) -> list[Shape]:
    """Name a line that ends within the field, at its end."""
    return free.words(plot.at(one.points[-1]), one.words, _SMALL) if one.words else []


def _names_above(plot: Plot, bands: Sequence[Band], limits: Sequence[Limit]) -> tuple[list[Shape], float]:
    """Name upright bands and limits over the field; return the words with the top of everything."""
    field = plot.field
    tags = [_over(plot, each) for each in bands if each.along == "x"]
    tags += [
        Tag(plot.x(each.at), (Words(each.words, _SMALL, "accent", bold=True),)) for each in limits if each.along == "x"
    ]
    if not tags:
        return [], field.top
    row = Tags.seated(tuple(sorted(tags, key=lambda each: each.at)), _EDGE, PHONE - _EDGE, -1.0)
    return list(row.shapes(field.top)), field.top - row.height


def _over(plot: Plot, band: Band) -> Tag:
    left, right = plot.x(band.low), plot.x(band.high)
    return Tag((left + right) / 2.0, (Words(band.words, _SMALL),), room=(right - left) / 2.0)


def _tint(plot: Plot, band: Band) -> Shape:
    field = plot.field
    box = (
        Box(plot.x(band.low), field.top, plot.x(band.high), field.bottom)
        if band.along == "x"
        else Box(field.left, plot.y(band.high), field.right, plot.y(band.low))
    )
    corners = ((box.left, box.top), (box.right, box.top), (box.right, box.bottom), (box.left, box.bottom))
    return Polyline(corners, None, "tint", closed=True)


def _side_name(plot: Plot, free: Free, band: Band) -> list[Shape]:
    middle = plot.y((band.low + band.high) / 2.0)
    return free.words((plot.field.left + 4.0, middle), band.words, _SMALL)


def _spot(plot: Plot, free: Free, marker: Marker) -> list[Shape]:
    at = plot.at(marker.at)
    return [*free.words(at, marker.words, _SMALL), Circle(at, 3.5, Pen("accent", 2.0), "ground")]
