"""One bow worked through the formulas of the reference page."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from calc.data import fibre
from calc.mechanics.bow import SHAPES, Bow, Tension, brace_after, static_tension, string_length
from calc.mechanics.shot import dry_fire_peak, shot, strand_string, usual_limb_mass
from calc.units import GRAIN, INCH, POUND_FORCE, show
from site_build.pages.reference.tables import table

if TYPE_CHECKING:
    from calc.mechanics.bow import LimbShape
    from site_build.pages.reference.citations import Citing

BOW = Bow(nock_to_nock_m=66 * INCH, handle_length_m=8 * INCH, shape="arc")
BRACE_M, DRAW_M, DRAW_N = 6.5 * INCH, 26 * INCH, 40 * POUND_FORCE
ARROW_KG, YARN_KG_M, STRANDS = 400 * GRAIN, 111e-6, 14
OFF_M = -0.25 * INCH
_LIMBS: dict[LimbShape, str] = {
    "arc": "bend to an arc",
    "hinged": "bend by the handle",
    "tapered": "stiffness falls evenly to the tip",
    "uniform": "stiffness the same all along",
}


def short_rule(bow: Bow, brace_m: float) -> float:
    """Return the string's length by the rule for a notebook [m]: the bow less 4 x brace height^2 / (3 x limb)."""
    return bow.nock_to_nock_m - 4.0 * brace_m**2 / (3.0 * bow.limb_m)


def short_lift(bow: Bow, brace_m: float, off_m: float) -> float:
    """Return what the brace height gains [m] where the string loses so much [m, below 0], by the short rule's slope."""
    return -3.0 * bow.limb_m / (8.0 * brace_m) * off_m


def strings(_: Citing) -> str:
    """Return the string of the bow for each way its limbs may bend, by the formulas and by the short rule."""
    rows = []
    for shape in SHAPES:
        bow = replace(BOW, shape=shape)
        lifted_m = brace_after(bow, BRACE_M, OFF_M) - BRACE_M
        rows.append((_LIMBS[shape], _long(string_length(bow, BRACE_M)), _long(lifted_m)))
    lifted_m = short_lift(BOW, BRACE_M, OFF_M)
    rows.append(("any, by the short rules", _long(short_rule(BOW, BRACE_M)), _long(lifted_m)))
    return (
        "The short rules are string = bow − 4 × brace height<sup>2</sup> / (3 × limb), and "
        "lift = 3 × limb / (8 × brace height) × what is taken off. The bow of every table on this page: "
        f"{_both(BOW.nock_to_nock_m)} from nock to nock, {_both(BOW.handle_length_m)} of it stiff, straight, "
        f"braced at {_both(BRACE_M)}.\n\n"
        + table(("Limbs", "String", f"{_both(-OFF_M)} off it lifts the brace height by"), rows)
    )


def tension(shape: LimbShape) -> Tension:
    """Return the pulls of the bow, its limbs bending so."""
    return static_tension(replace(BOW, shape=shape), BRACE_M, DRAW_M, DRAW_N)


def pulls(_: Citing) -> str:
    """Return the string's pull braced, drawn and least, and the energy, for each way the limbs may bend."""
    rows = []
    for shape in SHAPES:
        at = tension(shape)
        ways = (at.brace_n / DRAW_N, at.draw_n / DRAW_N, at.least_n / DRAW_N)
        rows.append((_LIMBS[shape], *(f"{each:.2f}" for each in ways), f"{at.energy_j / DRAW_N / DRAW_M:.3f}"))
    heads = ("Limbs", "Braced", "Drawn", "Least", "Stored energy / (draw weight × full draw)")
    return (
        f"The same bow, {_force(DRAW_N)} at {_both(DRAW_M)}. Pulls are in draw weights: 2 is twice the draw weight.\n\n"
        + table(heads, rows)
    )


def one_shot(_: Citing) -> str:
    """Return one shot of the bow with light, usual and heavy limbs."""
    string = strand_string(fibre("polyester"), YARN_KG_M, STRANDS, string_length(BOW, BRACE_M))
    limbs = usual_limb_mass(BRACE_M, DRAW_M, DRAW_N)
    rows = []
    for words, limb_kg in (("light", limbs.low), ("usual", limbs.value), ("heavy", limbs.high)):
        made = shot(BOW, BRACE_M, DRAW_M, DRAW_N, arrow_kg=ARROW_KG, string=string, limb_mass_kg=limb_kg)
        dry_n = dry_fire_peak(BOW, BRACE_M, DRAW_M, DRAW_N, string=string, limb_mass_kg=limb_kg)
        rows.append(
            (
                f"{words}, {1000 * limb_kg:.0f} g each",
                _kept(show(made.speed_m_s, "speed", "inch"), show(made.speed_m_s, "speed", "metric")),
                f"{made.efficiency:.2f}",
                f"{made.peak_n / DRAW_N:.1f}",
                f"{dry_n / DRAW_N:.1f}",
            )
        )
    heads = ("Limbs", "Arrow speed", "Efficiency", "Hardest pull", "With no arrow (never do it)")
    return (
        f"The same bow with limbs that bend to an arc, an arrow of "
        f"{_kept(show(ARROW_KG, 'mass', 'inch'), show(ARROW_KG, 'mass', 'metric'))} and a string of {STRANDS} "
        "polyester strands of "
        f"{show(YARN_KG_M, 'linear_density', 'metric')}. Pulls are in draw weights.\n\n" + table(heads, rows)
    )


def _long(length_m: float) -> str:
    return _kept(f"{length_m / INCH:.2f} in", f"{1000 * length_m:.1f} mm")


def _both(length_m: float) -> str:
    return _kept(show(length_m, "length", "inch"), show(length_m, "length", "metric"))


def _force(force_n: float) -> str:
    return _kept(show(force_n, "force", "inch"), show(force_n, "force", "metric"))


def _kept(one: str, other: str) -> str:
    """Return an amount in two units as HTML, each on one line."""
    return f'<span class="pt-kept">{one}</span> <span class="pt-kept">({other})</span>'
