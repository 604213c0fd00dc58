"""Collects the values of a chart for its readout."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.draw.readouts import Readout

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.draw.boxes import Point
    from calc.draw.charts.plots import Marker, Plot, Scatter, Series
    from calc.draw.shapes import Entry


def readout(plot: Plot, series: Sequence[Series], clouds: Sequence[Scatter], markers: Sequence[Marker]) -> Readout:
    """Return every line, measured point and marker of a chart, for its readout.

    Parameters
    ----------
    plot : Plot
        Where values stand.
    series, clouds, markers : sequence
        In the order they are drawn in.
    """

    def entry(at: Point, texts: tuple[str, str] | None) -> Entry:
        return *plot.at(at), *(texts or (plot.x_axis.text(at[0]), plot.y_axis.text(at[1])))

    entries = [
        (one.words, tuple(entry(at, one.texts[index] if one.texts else None) for index, at in enumerate(one.points)))
        for one in series
    ]
    entries += [(one.words, tuple(entry(each.at, each.texts) for each in one.readings)) for one in clouds]
    entries += [(one.words, (entry(one.at, None),)) for one in markers]
    return Readout(plot.field, plot.x_axis.words, plot.y_axis.words, tuple(entries))
