"""Made-up bows, and the forces a scale would read on them."""

from __future__ import annotations

import numpy as np

from calc.mechanics.bow import CENTRAL, SHAPES, Bow, draw_curve
from calc.mechanics.estimate import Known


def force(bow: Bow, brace_m: float, draw_m: float, weight_n: float, at_m: float) -> float:
    """Return the force at a draw below full draw, by the limbs that hold the braced string alike at both."""
    far, near = (draw_curve(bow, brace_m, to_m, 1.0).points[0].tension_n for to_m in (draw_m, at_m))
    return weight_n * far / near


def unknown(nock_m: float) -> Known:
    return Known(Bow(nock_m, 0.2032, CENTRAL), handle_told=False)


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
