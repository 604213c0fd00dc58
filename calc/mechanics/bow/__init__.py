"""A bow at rest: limbs, brace height, draw force."""

from calc.mechanics.bow.bow import CENTRAL, HIGHEST, MOST_FOLLOW, SHAPES, Bow, over_shapes
from calc.mechanics.bow.brace import (
    brace_after,
    brace_height,
    brace_limit,
    brace_per_length,
    limb_reach,
    set_angles,
    string_length,
)
from calc.mechanics.bow.draw_force import (
    DrawCurve,
    DrawPoint,
    Tension,
    draw_curve,
    end_tension,
    limb_state_near,
    rest_angles,
    static_tension,
)
from calc.mechanics.bow.force_table_text import read_force_table
from calc.mechanics.bow.limb_model import LimbShape, Matrix, Vector, limb
from calc.mechanics.bow.long_string import drawn_on_long
from calc.mechanics.bow.measured_forces import ForceTable, MeasuredCurve, force_table, measured_curve
from calc.mechanics.bow.outline import hung_outline, limb_outline
from calc.mechanics.bow.statics import LimbState, StringHold, braced, drawn
from calc.mechanics.bow.weighed_limb import hung_limb

__all__ = [
    "CENTRAL",
    "HIGHEST",
    "MOST_FOLLOW",
    "SHAPES",
    "Bow",
    "DrawCurve",
    "DrawPoint",
    "ForceTable",
    "LimbShape",
    "LimbState",
    "Matrix",
    "MeasuredCurve",
    "StringHold",
    "Tension",
    "Vector",
    "brace_after",
    "brace_height",
    "brace_limit",
    "brace_per_length",
    "braced",
    "draw_curve",
    "drawn",
    "drawn_on_long",
    "end_tension",
    "force_table",
    "hung_limb",
    "hung_outline",
    "limb",
    "limb_outline",
    "limb_reach",
    "limb_state_near",
    "measured_curve",
    "over_shapes",
    "read_force_table",
    "rest_angles",
    "set_angles",
    "static_tension",
    "string_length",
]
