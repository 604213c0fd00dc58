"""The numbers of the strand sheet and how each is worked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.data import practice
from calc.numerics import Spread
from calc.worksheets.core import cords

if TYPE_CHECKING:
    from calc.making.strands import Chosen


def numbers(chosen: Chosen, string_m: float) -> dict[str, Spread | float]:
    """Return every number the working shows, by row key.

    Parameters
    ----------
    chosen : Chosen
        The string's strands.
    string_m : float
        How long the string is. [m]
    """
    return {
        "strands": chosen.strands,
        "breaking_force": chosen.strength.breaking_n,
        "safety_factor": chosen.strength.safety,
        "bundle_diameter": chosen.thick.bundle_m,
        "cord_diameter": chosen.thick.cord_m,
        "together": chosen.thick.together_m,
        "times": chosen.times,
        "times_asked": chosen.times_asked,
        "draw_weight": chosen.draw_weight_n,
        "body_lay": chosen.lay_rad,
        "nock_to_nock": string_m,
        "string_mass": chosen.mass_kg(string_m, chosen.strands),
        "speed_cost": _cost(chosen.speed_at(string_m, 2 * chosen.strands)),
        "string_share": practice("string_share").spread,
        "arrow_share": practice("arrow_share").spread,
        "lay_loosest": practice("lay_loosest").spread,
        "lay_tightest": practice("lay_tightest").spread,
        **cords.holding(chosen),
        **cords.size(chosen),
    }


def _cost(kept: Spread) -> Spread:
    return Spread(1.0 - kept.high, 1.0 - kept.value, 1.0 - kept.low)
