"""The numbers of the cord test and how each is worked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.data import practice
from calc.worksheets.core import cords

if TYPE_CHECKING:
    from calc.making.strands import CordFindings, UnknownCord
    from calc.numerics import Spread

_OWN = "derived:cord-test"


def numbers(cord: UnknownCord, made: CordFindings, draw_weight_n: float) -> dict[str, Spread | float]:
    """Return every number the working shows, by row key; what was not tried is left out.

    Parameters
    ----------
    cord : UnknownCord
        With its tests.
    made : CordFindings
        As worked out.
    draw_weight_n : float
        As told. [N]
    """
    shown: dict[str, Spread | float] = {
        "yarn": made.weight,
        "weighed_mass": cord.mass_kg,
        "weighed_length": cord.length_m,
        "fits": made.fits,
        "cord_strength": made.strength,
        "keeps": practice("cord_keeps").spread,
        "draw_weight": draw_weight_n,
        "strands": 0.0,
        "safety_factor": 0.0,
    }
    if made.thickness is not None and cord.roll_m is not None:
        shown |= {"roll_thickness": made.thickness, "roll_width": cord.roll_m, "roll_turns": cord.wraps,
                  "fill": practice("cord_fill").spread}  # fmt: skip
    if cord.held_n is not None:
        shown["held"] = cord.held_n
    if cord.broken_n is not None:
        shown["broken"] = cord.broken_n
    if cord.rated_n is not None:
        shown["rated"] = cord.rated_n
    if made.chosen is None:
        return shown
    found = cords.holding(made.chosen)
    del found["strand_strength"]  # told as what one cord holds
    return (
        shown
        | found
        | {
            "strands": made.chosen.strands,
            "safety_factor": made.chosen.strength.safety,
            "breaking_force": made.chosen.strength.breaking_n,
            "cord_diameter": made.chosen.thick.cord_m,
        }
    )
