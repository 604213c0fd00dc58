"""Drawings of the brace sheet: the braced bow, brace height against string length, and the same as a list."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc import units
from calc.draw.charts import Axis, Band, Marker, Ribbon, Series, line_chart
from calc.draw.string import braced_bow
from calc.mechanics.bow import limb_outline
from calc.units import INCH
from calc.worksheets.core import Table

if TYPE_CHECKING:
    from calc.draw import Drawing
    from calc.making.tuning import Braced
    from calc.numerics import Spread
    from calc.units import System

_PLACES = 12
_BEYOND_M = 0.010
_STEP_M = {"inch": INCH / 4.0, "metric": 0.005}
_LINES = 4
_SEEN_M = 1e-3
"""A handle no longer than this is not drawn. [m]"""


def drawings(found: Braced, system: System) -> tuple[Drawing, ...]:
    """Return the braced bow and the chart, labelled in the reader's units.

    Parameters
    ----------
    found : Braced
        As worked out.
    system : {"inch", "metric"}
        The reader's units.
    """
    return _bow(found, system), _chart(found, system)


def _bow(found: Braced, system: System) -> Drawing:
    bow = found.bow.middle.bow()
    brace_m, string_m = (found.figures[key].value for key in ("brace_height", "string_length"))
    ends = (found.figures["brace_low"].value, found.figures["brace_high"].value)
    reached = [each for each in ends if 0.0 < each <= found.bow.middle.highest_m]
    stiff_m = bow.handle_length_m if bow.handle_length_m > _SEEN_M else 0.0
    return braced_bow(
        limb_outline(bow, brace_m),
        f"brace {units.show(brace_m, 'length', system)}",
        f"string {units.show(string_m, 'length', system)}",
        f"nock to nock {units.show(bow.nock_to_nock_m, 'length', system)}",
        handle_length_m=stiff_m,
        handle_text=f"stiff {units.show(stiff_m, 'length', system)}" if stiff_m else "",
        proud_m=bow.handle_proud_m,
        beside=tuple(limb_outline(bow, each) for each in reached),
        beside_text="dashed: braced at " + " and ".join(units.show(each, "length", system) for each in reached)
        if reached
        else "",
    )


def _chart(found: Braced, system: System) -> Drawing:
    held = found.bow.middle
    figures = found.figures
    low_m = max(0.0, figures["brace_low"].value - _BEYOND_M)
    high_m = min(figures["brace_high"].value + _BEYOND_M, held.highest_m)
    braces = [low_m + (high_m - low_m) * k / _PLACES for k in range(_PLACES, -1, -1)]
    line = [(held.string_m(each), each) for each in braces if each > 0.0]

    def at(string_m: float, brace_m: float) -> tuple[float, float]:
        return units.number_in(string_m, "length", system), units.number_in(brace_m, "length", system)

    points = tuple(at(*each) for each in line)
    spreads = found.heights([each[0] for each in line])
    texts = tuple(tuple(units.show(value, "length", system) for value in each) for each in line)
    unit = units.unit_label("length", system)
    brace = figures["brace_height"].value
    return line_chart(
        [Series("", points, texts=tuple((f"{string} of string", brace) for string, brace in texts))],
        Axis(f"string on the braced bow, {unit}", points[0][0], points[-1][0]),
        Axis(f"brace height, {unit}", points[-1][1], points[0][1]),
        key="chart",
        title="Brace height against string length",
        desc="The longer the string, the lower the brace height. "
        f"{units.show(figures['string_length'].value, 'length', system)} of string braces at "
        f"{units.show(brace, 'length', system)}; turns alone reach from "
        f"{units.show(figures['brace_low'].value, 'length', system)} to "
        f"{units.show(figures['brace_high'].value, 'length', system)}.",
        bands=[
            Band(
                "by turns alone",
                units.number_in(figures["string_shortest"].value, "length", system),
                units.number_in(figures["string_longest"].value, "length", system),
            )
        ],
        ribbons=[
            Ribbon(
                "",
                tuple(at(each[0], spread.low) for each, spread in zip(line, spreads, strict=True)),
                tuple(at(each[0], spread.high) for each, spread in zip(line, spreads, strict=True)),
            )
        ],
        markers=[
            Marker(units.show(brace, "length", system), at(figures["string_length"].value, brace)),
        ],
    )


def ladder(found: Braced, system: System) -> Table:
    """Return brace heights for strings a little shorter and longer.

    Parameters
    ----------
    found : Braced
        As worked out.
    system : {"inch", "metric"}
        The reader's units.
    """
    step_m = _STEP_M[system]
    middle = round(found.figures["string_length"].value / step_m)
    strings = [(middle + k) * step_m for k in range(-_LINES, _LINES + 1)]

    heights = found.heights(strings)
    lines = zip(strings, heights, strict=True)
    return Table(
        key="ladder",
        title="Brace height for each string length",
        heads=("String", "Brace height", "Between"),
        cells=tuple(_line(string_m, brace, system) for string_m, brace in lines),
        note="The string is measured on the braced bow, nock to nock.",
    )


def _line(string_m: float, brace: Spread, system: System) -> tuple[str, str, str]:
    string, low, middle, high = (
        units.show(each, "length", system) for each in (string_m, brace.low, brace.value, brace.high)
    )
    if brace.value <= 0.0:
        return string, "too long", ""
    return string, middle, f"{low} to {high}"
