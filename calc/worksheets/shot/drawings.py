"""Charts of the shot sheet: the string's pull through the shot, draw force and string tension, another string."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc import units
from calc.draw.charts import Axis, Limit, Marker, MeasuredPoint, Scatter, Series, line_chart
from calc.making.shot import HEAVIER, SOFTER
from calc.worksheets.core import Table
from calc.worksheets.shot.words import speed

if TYPE_CHECKING:
    from calc.draw import Drawing
    from calc.making.shot import ShotResult
    from calc.units import Quantity, System

_MS = 1e3
_SHOWN = 60
"""About as many places of the shot are drawn, and always the hardest."""


def drawings(done: ShotResult, system: System) -> tuple[Drawing, ...]:
    """Return the charts, labelled in the reader's units.

    Parameters
    ----------
    done : ShotResult
        As worked out.
    system : {"inch", "metric"}
        The reader's units.
    """
    return _through(done, system), _drawn(done, system), _another(done, system)


def _number(value: float, quantity: Quantity, system: System) -> float:
    return units.number_in(value, quantity, system)


def _drawn(done: ShotResult, system: System) -> Drawing:
    """Draw force and string tension against draw."""
    unit, force_unit = units.unit_label("length", system), units.unit_label("force", system)
    at = [_number(each.draw_m, "length", system) for each in done.curve]
    forces = [_number(each.force_n, "force", system) for each in done.curve]
    pulls = [_number(each.tension_n, "force", system) for each in done.curve]
    force, brace, drawn = (
        units.show(each, "force", system)
        for each in (done.asked.force_n, done.curve[0].tension_n, done.curve[-1].tension_n)
    )
    return line_chart(
        [
            Series("in the string", tuple(zip(at, pulls, strict=True)), "a", dash=True),
            Series("on the fingers", tuple(zip(at, forces, strict=True))),
        ],
        Axis(f"draw, {unit}", at[0], at[-1]),
        Axis(f"pull, {force_unit}", 0.0, max(*forces, *pulls)),
        key="draw",
        title="Draw force and string tension",
        desc=f"On the fingers from nothing at brace height to {force} at full draw; in the string from {brace} braced "
        f"to {drawn} drawn.",
        clouds=_read(done, system),
    )


def _read(done: ShotResult, system: System) -> tuple[Scatter, ...]:
    """Return the readings of the bow's own table, at brace and beyond full draw left out."""
    table = done.asked.table
    if table is None:
        return ()
    reads = [each for each in zip(table.draws_m, table.forces_n, strict=True) if each[0] <= done.asked.draw_m][1:]
    return (
        Scatter(
            "read",
            tuple(
                MeasuredPoint((_number(at, "length", system), _number(force, "force", system))) for at, force in reads
            ),
        ),
    )


def _through(done: ShotResult, system: System) -> Drawing:
    """Draw the string's pull against time."""
    moments = done.middle.moments
    top = max(range(len(moments)), key=lambda k: moments[k].tension_n)
    step = max(1, len(moments) // _SHOWN)
    kept = [each for k, each in enumerate(moments) if k % step == 0 or k == top or k == len(moments) - 1]
    points = tuple((_MS * each.time_s, _number(each.tension_n, "force", system)) for each in kept)
    hardest, leaves = moments[top], _MS * done.middle.leaves_s
    shown = units.show(hardest.tension_n, "force", system)
    return line_chart(
        [Series("", points)],
        Axis("time since the loose, ms", 0.0, points[-1][0]),
        Axis(f"pull in the string, {units.unit_label('force', system)}", 0.0, max(each[1] for each in points)),
        key="shot",
        title="The string's pull through the shot",
        desc=f"The arrow leaves after {leaves:.1f} ms. The string is pulled hardest, {shown}, after "
        f"{_MS * hardest.time_s:.1f} ms.",
        limits=[Limit("arrow leaves", leaves)],
        markers=[Marker(shown, (_MS * hardest.time_s, _number(hardest.tension_n, "force", system)))],
    )


def _another(done: ShotResult, system: System) -> Drawing:
    """Draw arrow speed against string weight, for the string's stiffness and for half of it."""
    kept, mass_kg = done.causes["kept"].value, done.string.mass_kg
    masses = [mass_kg, HEAVIER * mass_kg]
    one, heavy, soft = (speed(each, kept) for each in (done.middle, done.heavier, done.softer))

    def line(speeds: tuple[float, float]) -> tuple[tuple[float, float], ...]:
        return tuple(
            (_number(mass, "mass", system), _number(each, "speed", system))
            for mass, each in zip(masses, speeds, strict=True)
        )

    as_stiff, half = line((one, heavy)), line((soft, soft + heavy - one))
    speeds = [each[1] for each in (*as_stiff, *half)]
    room = 0.2 * (max(speeds) - min(speeds)) + 1e-6 * max(speeds)
    return line_chart(
        [Series("as stiff", as_stiff), Series("half as stiff", half, dash=True)],
        Axis(f"string, {units.unit_label('mass', system)}", as_stiff[0][0], as_stiff[-1][0]),
        Axis(f"arrow speed, {units.unit_label('speed', system)}", min(speeds) - room, max(speeds) + room),
        key="string",
        title="A heavier or a softer string",
        desc=f"With the string as it is {units.show(one, 'speed', system)}; 1 1/2 times as heavy "
        f"{units.show(heavy, 'speed', system)}; half as stiff {units.show(soft, 'speed', system)}.",
        markers=[Marker("now", as_stiff[0])],
    )


def compared(done: ShotResult, system: System) -> Table:
    """Return the strings that were tried, side by side.

    Parameters
    ----------
    done : ShotResult
        As worked out.
    system : {"inch", "metric"}
        The reader's units.
    """
    kept = done.causes["kept"].value
    mass_kg, stiff_n = done.string.mass_kg, done.string.stiffness_n
    tried = (
        ("as it is", mass_kg, stiff_n, done.middle),
        ("1 1/2 times as heavy", HEAVIER * mass_kg, stiff_n, done.heavier),
        ("half as stiff", mass_kg, SOFTER * stiff_n, done.softer),
    )
    return Table(
        key="strings",
        title="Another string on this bow, the same arrow",
        heads=("String", "Weight", "Stiffness", "Arrow speed", "Hardest pull"),
        cells=tuple(
            (
                name,
                units.show(mass, "mass", system),
                units.show(stiff, "stiffness", system),
                units.show(speed(made, kept), "speed", system),
                units.show(made.peak_n, "force", system),
            )
            for name, mass, stiff, made in tried
        ),
        note="More strands of one fibre make it heavier and stiffer at once: the two changes then add up.",
    )
