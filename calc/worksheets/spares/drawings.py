"""Drawing of the spares: which lengths each bow takes, and the strings that meet them all."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc import units
from calc.draw import FIRM, HAIR, PHONE, Drawing, Label, Line, Pen, text_width

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.draw import Shape
    from calc.making.club import Serves
    from calc.units import System

_LEFT, _RIGHT = 160.0, PHONE - 10.0
_NAME, _SIZE = 8.0, 13.0
_ROW, _GROUP, _TICK = 24.0, 20.0, 5.0
_MOST = 40
"""So many bows are drawn: a longer drawing nobody reads."""
_LEAST_M = 0.001
_SPARE = Pen("accent", 2.0, dash=True)


def spans(
    bows: Sequence[tuple[str, Serves]], spares: Sequence[tuple[float, tuple[int, ...]]], system: System
) -> Drawing:
    """Return each bow's span of lengths as a bar, and each spare as a line through the bars of its bows.

    Parameters
    ----------
    bows : sequence of (str, Serves)
        What a bow is called, and what it takes; at least one.
    spares : sequence of (float, tuple of int)
        As `fewest_lengths` gives them. [m], [-]
    system : {"inch", "metric"}
        The reader's units.
    """
    low_m = min(each.low_m for _, each in bows)
    wide_m = max(_LEAST_M, max(each.high_m for _, each in bows) - low_m)

    def x(length_m: float) -> float:
        return _LEFT + (_RIGHT - _LEFT) * (length_m - low_m) / wide_m

    shapes: list[Shape] = []
    y, room = 0.0, _MOST
    for k, (string_m, held) in enumerate(spares, start=1):
        shown = held[:room]
        room -= len(shown)
        if not shown:
            break
        shapes.append(Label((x(string_m), y), str(k), _SIZE, "middle", "accent", bold=True))
        top, y = y + 5.0, y + _GROUP
        for at in shown:
            name, takes = bows[at]
            ends = x(takes.low_m), x(takes.high_m)
            shapes += [Line((ends[0], y), (ends[1], y), FIRM)] if takes.sure else []
            shapes += [Line((end, y - _TICK), (end, y + _TICK), HAIR) for end in ends]
            shapes.append(Label((_NAME, y + 4.5), _short(name), _SIZE))
            y += _ROW
        shapes.append(Line((x(string_m), top), (x(string_m), y - _ROW + _TICK + 4.0), _SPARE))
        y += _SIZE
    low, high = (units.show(each, "length", system) for each in (low_m, low_m + wide_m))
    said = f"{len(spares)} lengths for {len(bows)} bows, between {low} and {high}"
    left = f". The first {_MOST} bows are drawn" if len(bows) > _MOST else ""
    return Drawing(
        key="spans",
        title="The lengths that each bow takes, and the spares that meet them",
        desc=f"{said}: each bar reaches from the shortest string that turns bring to a bow's brace height to the "
        f"longest; a dashed line is a spare{left}.",
        shapes=tuple(shapes),
    )


def _short(name: str) -> str:
    """Return a name cut to its column."""
    most = _LEFT - _NAME - 2.0 * _TICK
    if text_width(name, _SIZE) <= most:
        return name
    return next(f"{name[:k]}…" for k in range(len(name), -1, -1) if text_width(f"{name[:k]}…", _SIZE) <= most)
