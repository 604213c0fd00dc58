"""The chart of the twist worksheet: what twisting takes up, turn by turn, to the jam."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc import units
from calc.draw.charts import Axis, Band, Limit, Marker, Series, line_chart
from calc.geometry.lay import jam, lay

if TYPE_CHECKING:
    from calc.draw import Drawing
    from calc.making.string import Twisted
    from calc.units import System

_POINTS = 32
_ROOM = 1.06


def drawings(made: Twisted, loosest_rad: float, tightest_rad: float, system: System) -> tuple[Drawing, ...]:
    """Return take-up against turns for this length of bundle, with the window of use and the jam.

    Parameters
    ----------
    made : Twisted
        As worked out.
    loosest_rad : float
        Loosest lay of use. [rad]
    tightest_rad : float
        Tightest lay of use. [rad]
    system : {"inch", "metric"}
        The reader's units.
    """
    bundles, diameter_m = made.shape.bundles, made.shape.diameter_m
    steepest = jam(bundles).lay_rad
    shapes = [lay(diameter_m, bundles, steepest * at / (_POINTS - 1)) for at in range(_POINTS)]
    points = tuple((each.turns_per_strand_m * made.bundle_m, 100.0 * each.take_up) for each in shapes)
    here = (made.turns, 100.0 * made.take_up)
    now = (units.show(made.turns, "turns", system), units.show(made.take_up, "fraction", system))
    most = units.show(made.jam_turns, "turns", system)
    window = made.turns_at(loosest_rad), made.turns_at(tightest_rad)
    title = "What twisting takes up, turn by turn"
    said = units.show(window[0], "turns", system), units.show(window[1], "turns", system)
    chart = line_chart(
        (Series("taken up", points),),
        Axis(f"turns in {units.show(made.bundle_m, 'length', system)} of bundle", 0.0, points[-1][0] * _ROOM),
        Axis("taken up, %", 0.0, 5.0 * (points[-1][1] // 5.0 + 1.0)),
        key="take-up",
        title=title,
        desc=f"{title}: {now[0]} turns take up {now[1]}. A body lies well from {said[0]} to {said[1]} turns; "
        f"the cord jams at {most}.",
        bands=(Band("lies well", *window),),
        limits=(Limit(f"jams at {most}", points[-1][0]),),
        markers=(Marker(f"{now[0]} turns, {now[1]}", here),),
    )
    return (chart,)
