"""The numbers of settling and how each is worked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.data import practice, rule
from calc.making.tuning import heaviest_n
from calc.numerics import Spread

if TYPE_CHECKING:
    from calc.making.tuning import Settled

_OWN = "derived:settling"


def numbers(made: Settled, draw_weight_n: float) -> dict[str, Spread | float]:
    """Return every number the working shows, by row key.

    Parameters
    ----------
    made : Settled
        As worked out.
    draw_weight_n : float
        As told. [N]
    """
    fresh, held = made.fresh, made.figures["breaking_force"]
    tuned = fresh.tuned()
    return {
        **made.figures,
        "string_length": fresh.string_m,
        "hanging_weight": made.hang_n,
        "hang_time": made.hang_s,
        "work_time": fresh.work_s,
        "night": practice("braced_night").spread,
        "hour": practice("settle_time").spread,
        "weight_advised": fresh.advised_n,
        "weight_usual": rule("settling").figure("weight").spread,
        "weight_most": heaviest_n(),
        "brace_wanted": fresh.on_bow.brace_m,
        "bow_length": tuned.bow.nock_to_nock_m,
        "bundle_diameter": tuned.bundle_m or 0.0,
        "temperature": fresh.temperature_k,
        "weight_share": Spread(made.hang_n / held.high, made.hang_n / held.value, made.hang_n / held.low),
        "strands": fresh.strands,
        "yarn": fresh.yarn_kg_m,
        "tension_brace": fresh.brace_n,
        "brace_share": practice("brace_pull").spread,
        "draw_weight": draw_weight_n,
        "bedding": practice("bedding").spread,
        "creep_decade": fresh.fibre.creep_decade,
    }
