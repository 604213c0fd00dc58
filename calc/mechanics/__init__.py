"""Forces: bows, fibres under load, the string between them."""

from calc.mechanics.bow import CENTRAL, SHAPES, Bow, over_shapes
from calc.mechanics.brace import brace_after, brace_height, brace_limit, brace_per_length, string_length
from calc.mechanics.draw_force import DrawCurve, DrawPoint, Tension, draw_curve, static_tension
from calc.mechanics.fibres import (
    Curve,
    HeatLimit,
    curve,
    fibre_strain,
    heat_limit,
    stress_pa,
    string_stiffness,
    twist_efficiency,
)
from calc.mechanics.limb import Shape
from calc.mechanics.loaded import Added, ShotString
from calc.mechanics.outline import limb_outline
from calc.mechanics.peaks import peak_force_ratio
from calc.mechanics.ropes import (
    Basis,
    Rating,
    rated_strength,
    rope,
    rope_ratio,
    strength_ratio,
    working_load,
)
from calc.mechanics.sharing import expected_worst, sharing_efficiency
from calc.mechanics.shot import Shot, shot
from calc.mechanics.strength import (
    Assembly,
    assembly,
    assembly_efficiency,
    breaking_force,
    lay_efficiency,
    loop_efficiency,
    measured_efficiency,
    strand_strength,
    wet_strength,
)
from calc.mechanics.stretch import Load, Settling, creep, elastic_stretch, settle, usual_settling
from calc.mechanics.unknown_cord import (
    Against,
    CordVerdict,
    Findings,
    Match,
    Trust,
    fill,
    judge,
    rolled,
    weighed,
)

__all__ = [
    "CENTRAL",
    "SHAPES",
    "Added",
    "Against",
    "Assembly",
    "Basis",
    "Bow",
    "CordVerdict",
    "Curve",
    "DrawCurve",
    "DrawPoint",
    "Findings",
    "HeatLimit",
    "Load",
    "Match",
    "Rating",
    "Settling",
    "Shape",
    "Shot",
    "ShotString",
    "Tension",
    "Trust",
    "assembly",
    "assembly_efficiency",
    "brace_after",
    "brace_height",
    "brace_limit",
    "brace_per_length",
    "breaking_force",
    "creep",
    "curve",
    "draw_curve",
    "elastic_stretch",
    "expected_worst",
    "fibre_strain",
    "fill",
    "heat_limit",
    "judge",
    "lay_efficiency",
    "limb_outline",
    "loop_efficiency",
    "measured_efficiency",
    "over_shapes",
    "peak_force_ratio",
    "rated_strength",
    "rolled",
    "rope",
    "rope_ratio",
    "settle",
    "sharing_efficiency",
    "shot",
    "static_tension",
    "strand_strength",
    "strength_ratio",
    "stress_pa",
    "string_length",
    "string_stiffness",
    "twist_efficiency",
    "usual_settling",
    "weighed",
    "wet_strength",
    "working_load",
]
