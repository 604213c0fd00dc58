"""Charts of the reference pages, drawn from the functions they tell of."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.data import fibre, practice
from calc.draw.charts import Axis, Band, Series, line_chart
from calc.geometry.lay import jam, lay, take_up_curve
from calc.mechanics.fibre import curve

if TYPE_CHECKING:
    from calc.draw import Drawing, Ink

BUNDLE_M = 0.0015
SPAN_M = 0.1
_POINTS = 60
_LINES: tuple[tuple[int, Ink, bool], ...] = ((2, "a", False), (3, "accent", True), (4, "c", False))
_FIBRES: tuple[tuple[str, Ink, bool], ...] = (
    ("hmpe", "ink", False),
    ("linen", "c", True),
    ("nylon", "accent", True),
    ("polyester", "a", False),
    ("polypropylene", "b", False),
)


def take_up() -> Drawing:
    """Draw take-up against turns for 2, 3 and 4 bundles, from a straight lay to the jam."""
    series = [
        Series(
            f"{bundles} bundles",
            tuple(
                (each.turns_per_m * SPAN_M, 100.0 * each.take_up) for each in take_up_curve(BUNDLE_M, bundles, _POINTS)
            ),
            ink,
            dash,
        )
        for bundles, ink, dash in _LINES
    ]
    loosest, tightest = (
        lay(BUNDLE_M, 2, practice(name).spread.value).turns_per_m * SPAN_M for name in ("lay_loosest", "lay_tightest")
    )
    most = jam(2).cord_turns_times_diameter / BUNDLE_M * SPAN_M
    jams = ", ".join(
        f"{bundles} bundles jam at {jam(bundles).cord_turns_times_diameter / BUNDLE_M * SPAN_M:.0f} turns, "
        f"{100 * jam(bundles).take_up:.0f} %"
        for bundles, _, _ in _LINES
    )
    return line_chart(
        series,
        Axis("turns in 100 mm (4 in) of cord", 0.0, 5.0 * (most // 5.0 + 1.0)),
        Axis("take-up, % of the bundle's length", 0.0, 40.0),
        key="take-up",
        title="Take-up against turns",
        desc=f"For bundles of {1000 * BUNDLE_M:g} mm take-up grows ever faster with turns, up to the jam: {jams}.",
        bands=[Band("body, laid by hand", loosest, tightest)],
        height=230.0,
    )


def fibre_curves() -> Drawing:
    """Draw the pull on a fibre against its stretch, up to the break, for fibres that strings are made of."""
    series = []
    for key, ink, dash in _FIBRES:
        known = fibre(key)
        bent = curve(known)
        strains = [bent.break_strain * k / _POINTS for k in range(_POINTS + 1)]
        points = tuple((100.0 * each, bent.stress(each) / 1e6) for each in strains)
        series.append(Series(known.words.partition(" (")[0], points, ink, dash))
    breaks = "; ".join(
        f"{each.words} breaks at {each.points[-1][1]:.2g} N/tex and {each.points[-1][0]:.2g} %" for each in series
    )
    return line_chart(
        series,
        Axis("stretch, %", 0.0, 25.0),
        Axis("pull for the weight, N/tex", 0.0, 3.0),
        key="fibre-curves",
        title="Pull against stretch of five fibres",
        desc=f"Typical curves up to the break: {breaks}.",
        height=230.0,
    )
