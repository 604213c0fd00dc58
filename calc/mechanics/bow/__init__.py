"""A bow at rest: limbs, brace height, draw force."""

from calc.mechanics.bow.bow import CENTRAL, HIGHEST, SHAPES, Bow, over_shapes
from calc.mechanics.bow.brace import along, brace_after, brace_height, brace_limit, brace_per_length, string_length
from calc.mechanics.bow.draw_force import (
    DrawCurve,
    DrawPoint,
    Tension,
    draw_curve,
    end_tension,
    held_near,
    rest_angles,
    static_tension,
)
from calc.mechanics.bow.force_table_text import read_force_table
from calc.mechanics.bow.limb_model import Matrix, Row, Shape, limb
from calc.mechanics.bow.measured_forces import ForceTable, MeasuredCurve, force_table, measured_curve
from calc.mechanics.bow.outline import limb_outline
from calc.mechanics.bow.statics import Held, Strung, braced, drawn

__all__ = [
    "CENTRAL",
    "HIGHEST",
    "SHAPES",
    "Bow",
    "DrawCurve",
    "DrawPoint",
    "ForceTable",
    "Held",
    "Matrix",
    "MeasuredCurve",
    "Row",
    "Shape",
    "Strung",
    "Tension",
    "along",
    "brace_after",
    "brace_height",
    "brace_limit",
    "brace_per_length",
    "braced",
    "draw_curve",
    "drawn",
    "end_tension",
    "force_table",
    "held_near",
    "limb",
    "limb_outline",
    "measured_curve",
    "over_shapes",
    "read_force_table",
    "rest_angles",
    "static_tension",
    "string_length",
]
