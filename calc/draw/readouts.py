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
    from calc.draw.boxes import Box
    from calc.draw.shapes import Entry


_NUDGE = 1e-6


@dataclass(frozen=True, slots=True)
class Readout:
    """What a page script needs to read a chart aloud; draws nothing.

    Parameters
    ----------
    field : Box
        Where the chart's values stand on the page.
    x_words, y_words : str
        What runs along each axis, with its unit.
    entries : tuple of (str, tuple of Entry)
        Name and points of each line.
    """

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
            {"name": name, "points": [[_tenth(x), _tenth(y), a, b] for x, y, a, b in points]}
            for name, points in self.entries
        ]
        field = [round(each, 1) for each in self.field]
        held = {"field": field, "x": self.x_words, "y": self.y_words, "series": series}
        return json.dumps(held, ensure_ascii=False, separators=(",", ":"))


def _tenth(place: float) -> float:
    """Round to a tenth; half-way between two it is the upper, whatever the last digits of the place.

    >>> _tenth(247.85 - 1e-12), _tenth(247.85 + 1e-12)
    (247.9, 247.9)
    """
    return round(place + _NUDGE, 1)
