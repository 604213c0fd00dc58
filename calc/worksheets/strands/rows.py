"""The numbers of the strand sheet and how each is worked."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from calc.data import practice
from calc.numerics import Spread
from calc.worksheets.core import Told, table

if TYPE_CHECKING:
    from calc.making.strands import Chosen, Strand

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
        key="string_mass", symbol="m", words="Strands from nock to nock weigh", quantity="mass",
        working="{strands} × {yarn} × {nock_to_nock}", source="derived:cut",
    ),
    Told(
        key="arrow", symbol="M", words="Arrow", quantity="mass", working="as told, or 9 grains for each pound",
        source="common-practice", kind="practice",
    ),
    Told(
        key="speed_cost", symbol="", words="Twice the strands would cost of the arrow's speed", quantity="fraction",
        working="{string_share} of {string_mass} more rides with an arrow of {arrow}, which takes {arrow_share} of the "
        "energy", source="hickman-kibbe",
    ),
    Told(
        key="string_share", symbol="", words="Share of the string's weight that moves like the arrow",
        quantity="fraction", working="as measured on three bows", source="hickman-kibbe", kind="measured",
    ),
    Told(
        key="arrow_share", symbol="", words="Share of the energy that the arrow takes with it", quantity="fraction",
        working="as measured on three bows", source="hickman-kibbe", kind="measured",
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


def numbers(chosen: Chosen, string_m: float) -> dict[str, Spread | float]:
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
        "nock_to_nock": string_m,
        "string_mass": chosen.mass_kg(string_m, chosen.strands),
        "arrow": chosen.arrow_kg,
        "speed_cost": _cost(chosen.speed_at(string_m, 2 * chosen.strands)),
        "string_share": practice("string_share").spread,
        "arrow_share": practice("arrow_share").spread,
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


def _cost(kept: Spread) -> Spread:
    return Spread(1.0 - kept.high, 1.0 - kept.value, 1.0 - kept.low)
