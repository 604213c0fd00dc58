"""Forces: bows, fibres under load, the string between them."""

from calc.mechanics.bow import (
    SHAPES,
    Bow,
    Shape,
    Tension,
    brace_height,
    brace_limit,
    brace_per_length,
    static_tension,
    string_length,
)
from calc.mechanics.fibres import assembly_efficiency, elastic_stretch, strand_strength
from calc.mechanics.shot import peak_force_ratio

__all__ = [
    "SHAPES",
    "Bow",
    "Shape",
    "Tension",
    "assembly_efficiency",
    "brace_height",
    "brace_limit",
    "brace_per_length",
    "elastic_stretch",
    "peak_force_ratio",
    "static_tension",
    "strand_strength",
    "string_length",
]
