"""Short tables with one source for all their rows: circles in a circle, pipes, peaks of a shot, ropes."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from math import log, pi
from typing import TYPE_CHECKING, Literal

from calc.data.facts import UNITS, table
from calc.numerics import Spread

if TYPE_CHECKING:
    from collections.abc import Mapping


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
class PeakMiddle:
    """The shot in the middle of the table of peaks.

    Attributes
    ----------
    limb, string : float
        One limb and the string, in weights of the arrow. [-]
    stiffness : float
        Pull that would stretch the string by its own length / draw weight. [-]
    """

    limb: float
    stiffness: float
    string: float


PEAK_TERMS = (
    "middle", "limb", "stiffness", "string", "limb_limb", "stiffness_stiffness", "string_string", "limb_stiffness",
    "limb_string", "stiffness_string",
)  # fmt: skip
"""What the logarithm of a peak is made of: a constant, three logarithms, their squares and their products."""


def peak_terms(middle: PeakMiddle, *, limb: float, stiffness: float, string: float) -> tuple[float, ...]:
    """Return the terms of a shot, as `PEAK_TERMS` has them.

    Parameters
    ----------
    middle : PeakMiddle
    limb, stiffness, string : float, > 0
        Of the shot, as in `PeakMiddle`. [-]

    >>> peak_terms(PeakMiddle(8.0, 200.0, 0.3), limb=8.0, stiffness=200.0, string=0.3)[:4]
    (1.0, 0.0, 0.0, 0.0)
    """
    a, b, c = log(limb / middle.limb), log(stiffness / middle.stiffness), log(string / middle.string)
    return 1.0, a, b, c, a * a, b * b, c * c, a * b, a * c, b * c


@dataclass(frozen=True, slots=True)
class PeakRow:
    """Hardest pull of a shot / draw weight, for one limb shape.

    Attributes
    ----------
    shape : str
        Of the limbs.
    powers : tuple of float
        What each of `PEAK_TERMS` counts in the logarithm of the ratio. [-]
    rest : Spread
        What the terms leave of the shots, as a factor. [-]
    """

    shape: str
    powers: tuple[float, ...]
    rest: Spread


@dataclass(frozen=True, slots=True)
class PeakTable:
    """The table of peaks.

    Attributes
    ----------
    middle : PeakMiddle
    ends : mapping of str to tuple of float
        Least and most of limb, stiffness and string that were shot. [-]
    usual : mapping of str to Spread
        One limb of ``wood`` and of ``pipe`` for each newton of draw weight [kg/N]; the ``string`` nock to nock [m].
    rows : mapping of str to PeakRow
        By limb shape.
    """

    middle: PeakMiddle
    ends: Mapping[str, tuple[float, float]]
    usual: Mapping[str, Spread]
    rows: Mapping[str, PeakRow]


@cache
def peak_table() -> PeakTable:
    """Return the table of peaks.

    >>> sorted(peak_table().rows)
    ['arc', 'tapered', 'uniform']
    """
    found = table("bow")
    rows = {}
    for row in found["peak"]:
        powers = (log(row["middle"]), *(row[name] for name in PEAK_TERMS[1:]))
        rows[row["shape"]] = PeakRow(row["shape"], powers, Spread(row["rest"][0], 1.0, row["rest"][1]))
    return PeakTable(
        PeakMiddle(**found["middle"]),
        {name: (low, high) for name, (low, high) in found["ends"].items()},
        {name: Spread(*each) for name, each in found["usual"].items()},
        rows,
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


@dataclass(frozen=True, slots=True)
class Wood:
    """How hard one kind of wood is.

    Attributes
    ----------
    id, words : str
    hardness_n : Spread
        Load that presses the ball by half into a side face, green: the softer face, the middle, the harder. [N]
    """

    id: str
    words: str
    hardness_n: Spread


@cache
def woods() -> tuple[Wood, ...]:
    """Return the table of woods, the hardest first.

    >>> woods()[0].words, round(woods()[-1].hardness_n.value)
    ('Osage orange', 1813)
    """
    rows = table("woods")
    force, _ = UNITS[rows["unit"]]
    found = []
    for name, row in rows["woods"].items():
        low, high = sorted((row["radial"] * force, row["tangential"] * force))
        found.append(Wood(name, row["words"], Spread(low, (low + high) / 2.0, high)))
    return tuple(sorted(found, key=lambda each: -each.hardness_n.value))


def ball_area() -> float:
    """Return the area that the ball of the hardness test covers when it is in by half [m^2].

    >>> round(1e6 * ball_area(), 1)
    99.9
    """
    ball_m = float(table("woods")["ball_in"]) * UNITS["in"][0]
    return pi * ball_m**2 / 4.0


def table_sources() -> tuple[str, ...]:
    """Return the source keys of the tables that carry one for all their rows."""
    return tuple(table(name)["source"] for name in ("bow", "packing", "pipes", "ropes", "woods"))
