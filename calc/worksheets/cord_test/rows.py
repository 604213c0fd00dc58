"""The numbers of the cord test and how each is worked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.data import practice
from calc.worksheets.core import RowText, cords

if TYPE_CHECKING:
    from calc.making.strands import CordFindings, UnknownCord
    from calc.numerics import Spread

_OWN = "derived:cord-test"
TOLD = (
    RowText(
        key="yarn", symbol="", words="One cord weighs", quantity="linear_density",
        working="{weighed_mass} ÷ {weighed_length}, a scale of whole grams", source="iso1144", kind="measured",
    ),
    RowText(
        key="weighed_mass", symbol="", words="Its weight", quantity="weighed", working="as weighed", source="input",
        kind="measured",
    ),
    RowText(
        key="weighed_length", symbol="", words="Length weighed", quantity="length", working="as measured",
        source="input", kind="measured",
    ),
    RowText(
        key="fits", symbol="", words="Fibres of the table that fit", quantity="count",
        working="none of the tests speaks against them, even with scale and tape off", source=_OWN,
    ),
    RowText(
        key="cord_strength", symbol="", words="One cord holds", quantity="force",
        working="{yarn} × strength of the fibre × {keeps}, the weakest that fits; less where its label says less, and "
        "no less than it carried", source=_OWN,
    ),
    RowText(
        key="roll_thickness", symbol="", words="One cord across", quantity="thickness",
        working="{roll_width} ÷ {roll_turns} turns", source="derived:wound", kind="measured",
    ),
    RowText(
        key="roll_width", symbol="", words="Width of the roll-up", quantity="length", working="as measured",
        source="input", kind="measured",
    ),
    RowText(
        key="roll_turns", symbol="", words="Turns in the roll-up", quantity="count", working="as counted",
        source="input", kind="exact",
    ),
    RowText(
        key="fill", symbol="", words="How much of a small cord's round is fibre", quantity="fraction",
        working="outside of this a fibre is ruled out", source="fibre-reviews", kind="practice",
    ),
    RowText(
        key="held", symbol="", words="It carried", quantity="force", working="as tried", source="input",
        kind="measured",
    ),
    RowText(
        key="breaking_force", symbol="", words="The made string breaks at", quantity="force",
        working="{strands} × {cord_strength} × {efficiency}", source="derived:strength",
    ),
    RowText(
        key="strands", symbol="k", words="Cords in the whole string, 0 where none fits", quantity="count",
        working="enough for the hardest pull of a shot, and thick enough to hold", source="derived:strength",
    ),
    RowText(
        key="for_strength", symbol="", words="Cords that strength asks", quantity="count",
        working="{tension_peak} × {margin} ÷ ({cord_strength} × {efficiency}); or more, until the low end of the range "
        "holds the hardest pull too; a whole number in each bundle",
        source="derived:strength",
    ),
    RowText(
        key="safety_factor", symbol="", words="Strength ÷ hardest pull of a shot, 0 where none fits", quantity="ratio",
        working="what the made string holds ÷ the hardest pull of a shot", source="derived:strength",
    ),
    RowText(
        key="cord_diameter", symbol="d", words="The plied body", quantity="thickness",
        working="bundles of cords, each round by itself, laid round each other", source="derived:lay",
    ),
)  # fmt: skip


def numbers(cord: UnknownCord, made: CordFindings, draw_weight_n: float) -> dict[str, Spread | float]:
    """Return every number the working shows, by row key; what was not tried is left out."""
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
