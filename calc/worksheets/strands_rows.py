"""The numbers of the strand sheet and how each is worked."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from calc.data import practice
from calc.worksheets.rows import table
from calc.worksheets.schema import Told

if TYPE_CHECKING:
    from calc.making import Chosen, Strand
    from calc.spread import Spread

TOLD = (
    Told(
        key="strand_thickness", symbol="", words="One strand, rolled round", quantity="thickness",
        working="its weight over the density of the fibre, a share of it filled; or as measured",
        source="derived:packing",
    ),
    Told(
        key="together", symbol="", words="All strands rolled together", quantity="thickness",
        working="{strands} strands of {strand_thickness} in one round", source="derived:packing",
    ),
    Told(
        key="times", symbol="", words="Strands added up ÷ draw weight", quantity="ratio",
        working="{strands} × {strand_strength} ÷ {draw_weight}", source="derived:strength",
    ),
    Told(
        key="times_asked", symbol="", words="What the sum of the strands must be, in draw weights", quantity="ratio",
        working="{peak_ratio} × {margin} ÷ {efficiency}", source="derived:strength",
    ),
    Told(
        key="rated", symbol="", words="Load on the label", quantity="force", working="as told", source="input",
        kind="measured",
    ),
    Told(
        key="keeps", symbol="", words="What cord keeps of the strength of its yarn", quantity="fraction",
        working="rope tables at the low end, braid at the high", source="ci1301", kind="measured",
    ),
    Told(
        key="fill", symbol="", words="How much of one cord's round is fibre", quantity="fraction",
        working="as small cords are", source="fibre-reviews", kind="practice",
    ),
)  # fmt: skip
_LABELLED = "the label says {rated}; that is the breaking strength, or a working load of which it is a multiple"


def numbers(chosen: Chosen) -> dict[str, Spread | float]:
    """Return every number the working shows, by row key."""
    held, strand = chosen.held, chosen.strand
    margin = practice("working_margin").spread
    shown: dict[str, Spread | float] = {
        "strands": chosen.strands,
        "breaking_force": held.breaking_n,
        "tension_peak": held.peak_n,
        "safety_factor": held.safety,
        "bundle_diameter": chosen.thick.bundle_m,
        "cord_diameter": chosen.thick.cord_m,
        "together": chosen.thick.together_m,
        "strand_thickness": chosen.found["thickness"],
        "strand_strength": held.strand_n,
        "yarn": chosen.found["linear"],
        "efficiency": held.efficiency,
        "peak_ratio": held.peak_ratio,
        "margin": margin,
        "times": chosen.times,
        "times_asked": chosen.times_asked,
        "for_strength": chosen.advice.for_strength,
        "for_thickness": chosen.advice.for_thickness,
        "thinnest": practice("cord_thinnest").spread,
        "draw_weight": chosen.draw_weight_n,
        "body_lay": chosen.lay_rad,
        "lay_loosest": practice("lay_loosest").spread,
        "lay_tightest": practice("lay_tightest").spread,
    }
    if strand.rated_n is not None:
        shown["rated"] = strand.rated_n
    if strand.laid:
        keeps = {} if strand.rated_n is not None else {"keeps": practice("cord_keeps").spread}
        return shown | keeps | {"fill": practice("cord_fill").spread}
    each = chosen.found["linear"].scaled(chosen.strands // chosen.bundles)
    density = strand.fibre.density_kg_m3.scaled(1e-3)
    return shown | {"bundle_density": each, "density": density, "packing": strand.fibre.packing}


def own(strand: Strand) -> tuple[Told, ...]:
    """Return the rows of this sheet, worked as this strand is."""
    known, made = table(), list(TOLD)
    if strand.rated_n is not None:
        made.append(replace(known["strand_strength"], working=_LABELLED, source="ci1401"))
    elif strand.laid:
        made.append(replace(known["strand_strength"], working="{yarn} × strength of the fibre × {keeps}"))
    if strand.yarn_kg_m is None:
        filled = "{fill}" if strand.laid else "{packing}"
        made.append(
            replace(known["yarn"], working=f"{{strand_thickness}} across, {filled} of it fibre", kind="derived",
                    source="derived:packing")
        )  # fmt: skip
    if strand.laid:
        made.append(replace(known["bundle_diameter"], words="One bundle of cords, each round by itself",
                           working="{strands} cords of {strand_thickness} shared out, packed in a round",
                           source="graham1998"))  # fmt: skip
    return tuple(made)
