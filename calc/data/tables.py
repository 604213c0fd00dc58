"""Short tables with one source for all their rows: circles in a circle, pipes, peaks of a shot, ropes."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal

from calc.data.facts import UNITS, table
from calc.numerics import Spread


@cache
def packing_ratios() -> dict[int, float]:
    """Return envelope / circle diameter for small numbers of circles."""
    return {int(count): ratio for count, ratio in table("packing")["ratios"].items()}


@cache
def pipe_diameters() -> dict[str, float]:
    """Return outside diameters by nominal size and by metric name [m]."""
    rows = table("pipes")
    factor, _ = UNITS[rows["unit"]]
    sizes = {size: value * factor for size, value in rows["diameters"].items()}
    return sizes | {name: sizes[size] for name, size in rows["metric_names"].items()}


@cache
def pipe_walls() -> dict[str, dict[float, float]]:
    """Return the thinnest wall that passes, by schedule and outside diameter [m].

    >>> round(pipe_walls()["40"][pipe_diameters()["3/4"]] / 0.0254, 3)
    0.113
    """
    rows = table("pipes")
    factor, _ = UNITS[rows["unit"]]
    across = pipe_diameters()
    return {
        schedule: {across[size]: wall * factor for size, wall in walls.items()}
        for schedule, walls in rows["walls"].items()
    }


Limbs = Literal["wood", "pipe"]
"""What the limbs of a bow are of."""


@dataclass(frozen=True, slots=True)
class PeakRow:
    """Hardest pull of a shot / draw weight, for one limb shape and weight of arrow.

    Attributes
    ----------
    limbs : {"wood", "pipe"}
        What they are of: limbs of pipe are heavier.
    shape : str
        Of the limbs.
    grains_per_pound : float
        Arrow for the draw weight. [grains per pound-force]
    ratio : Spread
        Over bows, strings and limbs. [-]
    """

    limbs: Limbs
    shape: str
    grains_per_pound: float
    ratio: Spread


@cache
def peak_rows() -> tuple[PeakRow, ...]:
    """Return the table of peaks, sorted by limbs, shape and arrow.

    >>> peak_rows()[0].shape
    'arc'
    """
    return tuple(
        PeakRow(row["limbs"], row["shape"], row["grains_per_pound"], Spread(row["low"], row["value"], row["high"]))
        for row in table("bow")["peak"]
    )


@dataclass(frozen=True, slots=True)
class Rope:
    """A new 3-strand rope by its table.

    Attributes
    ----------
    fibre : str
        Id of the fibre.
    size_m : float
        Nominal diameter. [m]
    strength_n : float
        Smallest strength. [N]
    linear_density_kg_m : float
        [kg/m]
    """

    fibre: str
    size_m: float
    strength_n: float
    linear_density_kg_m: float


@cache
def ropes() -> tuple[Rope, ...]:
    """Return the rope table.

    >>> round(ropes()[0].strength_n)
    6610
    """
    rows = table("ropes")
    force, _ = UNITS[rows["force_unit"]]
    weight, _ = UNITS[rows["weight_unit"]]
    return tuple(
        Rope(row["fibre"], row["size_mm"] / 1000.0, row["force"] * force, row["weight"] * weight) for row in rows["row"]
    )


def table_sources() -> tuple[str, ...]:
    """Return the source keys of the tables that carry one for all their rows."""
    return tuple(table(name)["source"] for name in ("bow", "packing", "pipes", "ropes"))
