"""The numbers of the strand sheet and how each is worked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.data import practice
from calc.numerics import Spread
from calc.worksheets.core import RowText, cords

if TYPE_CHECKING:
    from calc.making.strands import Chosen
    from calc.mechanics.estimate import CordEstimate

TOLD = (
    RowText(
        key="together", symbol="", words="All strands rolled together", quantity="thickness",
        working="{strands} strands of {strand_thickness} in one round", source="derived:packing",
    ),
    RowText(
        key="times", symbol="", words="Strands added up ÷ draw weight", quantity="ratio",
        working="{strands} × {strand_strength} ÷ {draw_weight}", source="derived:strength",
    ),
    RowText(
        key="times_asked", symbol="", words="What the sum of the strands must be, in draw weights", quantity="ratio",
        working="{peak_ratio} × {margin} ÷ {efficiency}", source="derived:strength",
    ),
    RowText(
        key="string_mass", symbol="m", words="Strands from nock to nock weigh", quantity="mass",
        working="{strands} × {yarn} × {nock_to_nock}", source="derived:cut",
    ),
    RowText(
        key="speed_cost", symbol="", words="Twice the strands would cost of the arrow's speed", quantity="fraction",
        working="{string_share} of {string_mass} more rides with an arrow of {arrow}, which takes {arrow_share} of the "
        "energy", source="hickman-kibbe",
    ),
    RowText(
        key="string_share", symbol="", words="Share of the string's weight that moves like the arrow",
        quantity="fraction", working="as measured on three bows", source="hickman-kibbe", kind="measured",
    ),
    RowText(
        key="arrow_share", symbol="", words="Share of the energy that the arrow takes with it", quantity="fraction",
        working="as measured on three bows", source="hickman-kibbe", kind="measured",
    ),
)  # fmt: skip


def numbers(chosen: Chosen, string_m: float) -> dict[str, Spread | float]:
    """Return every number the working shows, by row key."""
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


def own(strand: CordEstimate) -> tuple[RowText, ...]:
    """Return the rows of the strand sheet."""
    return (*TOLD, *cords.of_strand(strand))


def _cost(kept: Spread) -> Spread:
    return Spread(1.0 - kept.high, 1.0 - kept.value, 1.0 - kept.low)
