"""What the shot sheet asks and says of silencers, beads, bands and a heavier serving."""

from __future__ import annotations

from math import sqrt
from typing import TYPE_CHECKING

from calc import units
from calc.draw.charts import Axis, Marker, Ribbon, Series, line_chart
from calc.making.shot import OnString, laden_shot
from calc.numerics import Spread
from calc.units import GRAIN, INCH
from calc.worksheets.core import Number, Sentence, Table

if TYPE_CHECKING:
    from calc.draw import Drawing
    from calc.making.shot import Laden, ShotResult
    from calc.units import System

GROUP = "More on the string"
_NOTHING = "nothing"
FIELDS = (
    Number(
        key="silencer_mass",
        label="Silencers, both together",
        hint="Wool, fur, beads, one on either half. The string's weight above is without them.",
        group=GROUP,
        example=_NOTHING,
        absent=_NOTHING,
        quantity="mass",
        low=0.1 * GRAIN,
        high=500 * GRAIN,
    ),
    Number(
        key="silencer_place",
        label="Each from its limb's nock",
        hint="Along the string. Leave empty for a quarter of the string.",
        group=GROUP,
        example="a quarter",
        absent="a quarter",
        quantity="length",
        low=0.0,
        high=50 * INCH,
    ),
    Number(
        key="middle_mass",
        label="In the middle besides",
        hint="Bands, beads, and what the serving weighs more than a usual one. The serving sheet weighs it.",
        group=GROUP,
        example=_NOTHING,
        absent=_NOTHING,
        quantity="mass",
        low=0.1 * GRAIN,
        high=500 * GRAIN,
    ),
)
BLAMES = {"from_tip_m": "silencer_place"}
_SHOWN_NAMES = ("in the middle", "", "a quarter of the string", "", "beside the loop")


def weights(silencers_kg: float | None, from_tip_m: float | None, middle_kg: float | None) -> OnString | None:
    """Return what hangs on the string; None where it is nothing.

    Parameters
    ----------
    silencers_kg : float or None
        Both together. [kg]
    from_tip_m : float or None
        Each from its limb's nock. [m]
    middle_kg : float or None
        What is in the middle. [kg]
    """
    if silencers_kg is None and middle_kg is None:
        return None
    return OnString(silencers_kg=silencers_kg or 0.0, from_tip_m=from_tip_m, middle_kg=middle_kg or 0.0)


def laden(done: ShotResult, on_string: OnString | None) -> Laden | None:
    """Return the shot with what hangs on the string; None where it is nothing.

    Parameters
    ----------
    done : ShotResult
        With the string alone.
    on_string : OnString or None
        As told.

    Raises
    ------
    DomainError
        As `laden_shot`.
    """
    return None if on_string is None else laden_shot(done, on_string)


def numbers(done: ShotResult, found: Laden | None) -> dict[str, Spread | float]:
    """Return the numbers of it, by row key.

    Parameters
    ----------
    done : ShotResult
        With the string alone.
    found : Laden or None
        With what hangs on it.
    """
    if found is None:
        return {}
    bare = done.figures["arrow_speed"]
    lost = _speeds(done, found.lost)
    return {
        "on_string": found.told.all_kg,
        "silencer_place": found.from_tip_m,
        "speed_lost": lost,
        "speed_laden": Spread(
            bare.low * (1.0 - found.lost.high),
            bare.value * (1.0 - found.lost.value),
            bare.high * (1.0 - found.lost.low),
        ),
        "counts_as": found.counts_kg,
        "harder_by": found.harder - 1.0,
        "peak_laden": done.figures["tension_peak"].scaled(found.harder),
    }


def _speeds(done: ShotResult, lost: Spread) -> Spread:
    """Return a share of the arrow's speed as a speed; what is uncertain of the speed itself hardly moves it."""
    speed = done.middle.speed_m_s * sqrt(done.causes["kept"].value)
    return Spread(lost.low * speed, lost.value * speed, lost.high * speed)


def headlines(found: Laden | None) -> tuple[Sentence, ...]:
    """Return what it costs, in words.

    Parameters
    ----------
    found : Laden or None
        With what hangs on the string.
    """
    if found is None:
        return ()
    return (
        Sentence(
            level="answer",
            lead="With what hangs on it",
            text="{speed_laden}: {speed_lost} less, as if the arrow weighed {counts_as} more",
            span="{speed_lost.low} to {speed_lost.high} less; a minus is a gain",
        ),
        Sentence(
            level="answer",
            lead="And the string",
            text="is pulled {harder_by} harder: {peak_laden} in place of {tension_peak}",
        ),
    )


def cautions(found: Laden | None) -> tuple[Sentence, ...]:
    """Return where to put it and how, in words.

    Parameters
    ----------
    found : Laden or None
        With what hangs on the string.
    """
    if found is None:
        return ()
    return (
        Sentence(
            text="Silencers work by ear: move them an inch, shoot three arrows, listen. Keep both halves alike, and "
            "tie them so that they cannot slide or fly off."
        ),
        Sentence(
            level="caution",
            text="The sheets that choose strands do not know of it. A string must hold {peak_laden.high}, if much goes "
            "the wrong way.",
        ),
        Sentence(
            level="caution",
            text="Unbrace the bow to tie anything into the string, and look at the strands there before each session.",
        ),
    )


def table(found: Laden | None, system: System) -> tuple[Table, ...]:
    """Return what all of it costs at one place after another.

    Parameters
    ----------
    found : Laden or None
        With what hangs on it.
    system : {"inch", "metric"}
        The reader's units.
    """
    if found is None:
        return ()
    cells = []
    for each, name in zip(found.places, _SHOWN_NAMES, strict=True):
        low, value, high = (
            units.show(share, "fraction", system) for share in (each.lost.low, each.lost.value, each.lost.high)
        )
        place = units.show(each.from_tip_m, "length", system)
        cells.append(
            (
                f"{place}, {name}" if name else place,
                value,
                f"{low} to {high}" if low != high else "",
                units.show(each.arrow_share * found.told.all_kg, "mass", system),
            )
        )
    return (
        Table(
            key="places",
            title="The same weight elsewhere on the string",
            heads=("From the limb's nock", "Costs of the speed", "Between", "Counts as, on the arrow"),
            cells=tuple(cells),
            note="All of {on_string}, half of it on either side. Between middle and tip the string's own waves add or "
            "take some.",
        ),
    )


def drawings(done: ShotResult, found: Laden | None, system: System) -> tuple[Drawing, ...]:
    """Return what it costs against its place, as a chart.

    Parameters
    ----------
    done : ShotResult
        With the string alone.
    found : Laden or None
        With what hangs on it.
    system : {"inch", "metric"}
        The reader's units.
    """
    if found is None:
        return ()

    def at(from_tip_m: float, share: float) -> tuple[float, float]:
        speed = _speeds(done, Spread.exactly(share)).value
        return units.number_in(from_tip_m, "length", system), units.number_in(speed, "speed", system)

    ends = sorted(found.places, key=lambda each: each.from_tip_m)
    line, low, high = (
        tuple(at(each.from_tip_m, getattr(each.lost, name)) for each in ends) for name in ("value", "low", "high")
    )
    top, foot = max(each[1] for each in high), min(0.0, *(each[1] for each in low))
    weight, middle = units.show(found.told.all_kg, "mass", system), found.places[0]
    costs = units.show(_speeds(done, middle.lost).value, "speed", system)
    return (
        line_chart(
            [Series("", line)],
            Axis(f"from the limb's nock, {units.unit_label('length', system)}", line[0][0], line[-1][0]),
            Axis(f"costs, {units.unit_label('speed', system)}", foot, 1.1 * top),
            key="places",
            title="What a weight costs, by its place on the string",
            desc=f"{weight} costs {costs} in the middle, and less the nearer it is to the limb tips.",
            ribbons=[Ribbon("low to high", low, high)],
            markers=[Marker("middle", line[-1])],
        ),
    )
