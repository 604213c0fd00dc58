"""A chart's numbers for a readout that follows a finger or the arrow keys.

The writer puts one element into the chart::

    <g class="readout-points" data-readout='{"field":[left,top,right,bottom],"x":"words of the axis","y":"…",
       "series":[{"name":"words of the line","points":[[x,y,"x text","y text"],…]},…]}'></g>

``field`` and ``x``, ``y`` of a point are drawing units, the same as the viewBox; texts are ready to show, in the
reader's units. Points stand in the order they are drawn in. The element itself draws nothing.
"""

from __future__ import annotations

import json
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from calc.draw.shapes import mirror_point

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.draw.frames import Box, Point
    from calc.draw.plots import Marker, Plot, Scatter, Series
    from calc.draw.shapes import Entry


@dataclass(frozen=True, slots=True)
class Readout:
    """What a page script needs to read a chart aloud; draws nothing."""

    field: Box
    x_words: str
    y_words: str
    entries: tuple[tuple[str, tuple[Entry, ...]], ...]

    def box(self) -> Box:
        """Return the field of the chart."""
        return self.field

    def mirrored(self, axis: float) -> Readout:
        """Return it with its points turned over, its texts as they are."""
        turned = tuple(
            (name, tuple((*mirror_point((x, y), axis), a, b) for x, y, a, b in points)) for name, points in self.entries
        )
        field = self.field._replace(left=2.0 * axis - self.field.right, right=2.0 * axis - self.field.left)
        return replace(self, field=field, entries=turned)

    def json(self) -> str:
        """Return the text of the attribute, not yet escaped."""
        series = [
            {"name": name, "points": [[round(x, 1), round(y, 1), a, b] for x, y, a, b in points]}
            for name, points in self.entries
        ]
        field = [round(each, 1) for each in self.field]
        held = {"field": field, "x": self.x_words, "y": self.y_words, "series": series}
        return json.dumps(held, ensure_ascii=False, separators=(",", ":"))


def readout(plot: Plot, series: Sequence[Series], clouds: Sequence[Scatter], markers: Sequence[Marker]) -> Readout:
    """Collect every line, measured point and marker of a chart."""

    def entry(at: Point, texts: tuple[str, str] | None) -> Entry:
        return *plot.at(at), *(texts or (plot.x_axis.text(at[0]), plot.y_axis.text(at[1])))

    entries = [
        (one.words, tuple(entry(at, one.texts[index] if one.texts else None) for index, at in enumerate(one.points)))
        for one in series
    ]
    entries += [(one.words, tuple(entry(each.at, each.texts) for each in one.readings)) for one in clouds]
    entries += [(one.words, (entry(one.at, None),)) for one in markers]
    return Readout(plot.field, plot.x_axis.words, plot.y_axis.words, tuple(entries))
