"""The numbers of the endless string and how each is worked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.data import practice
from calc.numerics import Spread

if TYPE_CHECKING:
    from calc.making.string import Wound

_OWN = "derived:endless"


def numbers(made: Wound, draw_weight_n: float) -> dict[str, Spread | float]:
    """Return every number the working shows, by row key.

    Parameters
    ----------
    made : Wound
        As worked out.
    draw_weight_n : float
        As told. [N]
    """
    winding, causes = made.winding, made.causes
    share = practice("winding_pull").spread
    pull = Spread.exactly(winding.pull_n)
    if winding.winding_n is None:
        pull = share.scaled(winding.pull_n / share.value)
    return {
        **made.figures,
        "string_length": winding.string_m,
        "post_diameter": winding.post_m,
        "wraps": winding.wraps,
        "strands": winding.strands,
        "winding_strain": causes["wound"],
        "winding_pull": pull,
        "winding_share": share,
        "posts_pull": pull.scaled(winding.strands),
        "uneven": causes["wound"].scaled(0.5),
        "tie_off": practice("tie_off").spread,
        "pitch": causes["pitch"],
        "loop_bound": causes["bound"],
        "thread": winding.thread_m,
        "tension_brace": winding.brace_n,
        "brace_share": practice("brace_pull").spread,
        "draw_weight": draw_weight_n,
        "strain": causes["strain"],
        "bedding": causes["bedding"],
        "yarn": winding.yarn_kg_m,
        "density": winding.fibre.density_kg_m3.scaled(1e-3),
        "packing": causes["packing"],
        "lay_tightest": causes["tightest"],
        "endless_kept": practice("endless_kept").spread,
    }
