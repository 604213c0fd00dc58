"""Forces: bows, fibres under load, the string between them."""

from calc.mechanics.bow import (
    SHAPES,
    Bow,
    Shape,
    Tension,
    brace_height,
    brace_limit,
    brace_per_length,
    limb_outline,
    static_tension,
    string_length,
)
from calc.mechanics.fibres import (
    HeatLimit,
    assembly_efficiency,
    breaking_force,
    elastic_stretch,
    heat_limit,
    strand_strength,
    string_stiffness,
)
from calc.mechanics.shot import peak_force_ratio

__all__ = [
    "SHAPES",
    "Bow",
    "HeatLimit",
    "Shape",
    "Tension",
    "assembly_efficiency",
    "brace_height",
    "brace_limit",
    "brace_per_length",
    "breaking_force",
    "elastic_stretch",
    "heat_limit",
    "limb_outline",
    "peak_force_ratio",
    "static_tension",
    "strand_strength",
    "string_length",
    "string_stiffness",
]
