"""A bow of which not everything is known, and what readings teach about it."""

from calc.mechanics.estimate.braced import braced_pull, braced_stretch, widened
from calc.mechanics.estimate.calibration import Calibration, Pair, calibrate
from calc.mechanics.estimate.forms import Form, Guessed
from calc.mechanics.estimate.known import Known, strayed
from calc.mechanics.estimate.limbs import Limbs
from calc.mechanics.estimate.ranges import (
    TensionRange,
    after_range,
    brace_range,
    draw_weight_from,
    slope_range,
    string_range,
    tension_range,
)
from calc.mechanics.estimate.readings import Drawn, ForceRead, FullDraw
from calc.mechanics.estimate.stave import Held, Stave, brace_on
from calc.mechanics.estimate.weighing import Weighing, weigh
from calc.mechanics.estimate.weights import Learnt, Weights, learn

__all__ = [
    "Calibration",
    "Drawn",
    "ForceRead",
    "Form",
    "FullDraw",
    "Guessed",
    "Held",
    "Known",
    "Learnt",
    "Limbs",
    "Pair",
    "Stave",
    "TensionRange",
    "Weighing",
    "Weights",
    "after_range",
    "brace_on",
    "brace_range",
    "braced_pull",
    "braced_stretch",
    "calibrate",
    "draw_weight_from",
    "learn",
    "slope_range",
    "strayed",
    "string_range",
    "tension_range",
    "weigh",
    "widened",
]
