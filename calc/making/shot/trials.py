"""Trial shots near the one asked about, and what is interpolated between them."""

from __future__ import annotations

from math import sqrt
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.mechanics.shot import Shot


def figures_of(made: Shot) -> dict[str, float]:
    """Return the figures of one shot, by row key.

    Parameters
    ----------
    made : Shot
        As worked out.
    """
    return {
        "stored_energy": made.energy_j,
        "arrow_speed": made.speed_m_s,
        "efficiency": made.efficiency,
        "tension_brace": made.brace_n,
        "tension_draw": made.draw_n,
        "tension_peak_before": made.peak_before_n,
        "tension_peak_after": made.peak_after_n,
    }


class Trials:
    """Figures along straight lines through shots, one line to each side of the middle of every cause."""

    def __init__(self, middle: Shot) -> None:
        self._middle = figures_of(middle)
        self._ends: dict[str, list[tuple[float, float, dict[str, float]]]] = {}

    def add(self, cause: str, middle: float, end: float, made: Shot) -> None:
        """Take in a shot with one cause moved to an end."""
        self._ends.setdefault(cause, []).append((middle, end, figures_of(made)))

    def at(self, causes: Mapping[str, float]) -> dict[str, float]:
        """Return every figure at one set of causes.

        A bow that is stronger by some share does, off a string that is stiffer by as much, all that this one does:
        energy and pulls by that share more, speeds by its root. So one that is stronger off the same string is looked
        up where the string is softer.
        """
        found, strong = dict(self._middle), causes["strength"]
        for cause, ends in self._ends.items():
            here = causes[cause] / strong if cause == "string_stiffness" else causes[cause]
            middle, end, there = next((one for one in ends if (one[1] - one[0]) * (here - one[0]) > 0.0), ends[0])
            share = (here - middle) / (end - middle)
            for key, value in self._middle.items():
                found[key] += share * (there[key] - value)
        found["arrow_speed"] *= sqrt(causes["kept"] * causes["energy"] * strong)
        found["efficiency"] *= causes["kept"]
        found["stored_energy"] *= causes["energy"] * strong
        for key in ("tension_brace", "tension_draw", "tension_peak_before", "tension_peak_after"):
            found[key] *= strong
        return {key: max(0.0, value) for key, value in found.items()}
