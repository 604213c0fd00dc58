"""Short tables with one source for all their rows: circles in a circle, pipes, peaks of a shot."""

from __future__ import annotations

from functools import cache

from calc.data.facts import UNITS, table


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
def peak_ratios() -> tuple[tuple[float, float], ...]:
    """Return rows of grains of arrow per pound of draw weight, and hardest pull / draw weight."""
    return tuple((row["grains_per_pound"], row["ratio"]) for row in table("peaks")["row"])


def table_sources() -> tuple[str, ...]:
    """Return the source keys of the tables that carry one for all their rows."""
    return tuple(table(name)["source"] for name in ("packing", "peaks", "pipes"))
