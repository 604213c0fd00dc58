"""Made-up bows, and the forces a scale would read on them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from calc.mechanics.bow import SHAPES, Bow, draw_curve, string_length
from calc.mechanics.estimate import BowEstimate, StringRead

if TYPE_CHECKING:
    from calc.numerics import Spread


def force(bow: Bow, brace_m: float, draw_m: float, weight_n: float, at_m: float) -> float:
    """Return the force at a draw below full draw, by the limbs that hold the braced string alike at both."""
    far, near = (draw_curve(bow, brace_m, to_m, 1.0).points[0].tension_n for to_m in (draw_m, at_m))
    return weight_n * far / near


def unknown(nock_m: float) -> BowEstimate:
    return BowEstimate(nock_to_nock_m=nock_m)


def told(bow: Bow, *, shape_told: bool = True) -> BowEstimate:
    """Return a bow of which everything was told, or all but how its limbs bend."""
    return BowEstimate(
        nock_to_nock_m=bow.nock_to_nock_m,
        handle_length_m=bow.handle_length_m,
        shape=bow.shape if shape_told else None,
        handle_proud_m=bow.handle_proud_m,
        string_follow_m=bow.string_follow_m,
        contact_m=bow.contact_m,
    )


def read(bow: Bow, brace_m: float) -> StringRead:
    """Return a string that was read on a bow without any error."""
    return StringRead(string_length(bow, brace_m), brace_m)


def cases(count: int) -> list[tuple[Bow, float, float, float, float]]:
    """Return made-up bows with brace height, full draw, draw weight and the draw at which it is weighed."""
    rng = np.random.default_rng(11)
    found = []
    for k in range(count):
        nock_m = float(rng.uniform(1.25, 1.85))
        bow = Bow(nock_m, float(rng.uniform(0.08, 0.29)), SHAPES[k % 4])
        brace_m, draw_m = float(rng.uniform(0.13, 0.18)), 0.38 * nock_m
        at_m = brace_m + float(rng.uniform(0.35, 0.7)) * (draw_m - brace_m)
        found.append((bow, brace_m, draw_m, float(rng.uniform(60.0, 250.0)), at_m))
    return found


def figures(bow: BowEstimate, brace_m: float) -> dict[str, Spread]:
    """Return draw weight, pulls braced and at full draw, stored energy and the string for a brace height."""
    return bow.drawn(brace_m=brace_m).spreads(
        lambda each: {
            "weight": each.weight_n,
            "brace": each.brace_n,
            "draw": each.draw_n,
            "energy": each.energy_j,
            "string": each.state.string_m(each.brace_m),
        }
    )
