"""Shapes of bundles, lays, loops and splices: lengths and angles only, no forces."""

from calc.geometry.bundles import bundle_diameter, envelope_ratio
from calc.geometry.lay import Jam, Lay, jam, jam_turns, lay, lay_of_cord_turns, lay_of_turns
from calc.geometry.loops import Loop, loop_nocked, loop_of_length, loop_of_throat, loop_sliding
from calc.geometry.sections import FlatTip, RoundTip, Section, flattened, perimeter, pipe
from calc.geometry.splices import holding_ratio, stagger, wrap_angle
from calc.geometry.twist import (
    balanced_twist,
    residual_twist,
    retraction,
    surface_angle,
    torque_free_ratio,
)

__all__ = [
    "FlatTip",
    "Jam",
    "Lay",
    "Loop",
    "RoundTip",
    "Section",
    "balanced_twist",
    "bundle_diameter",
    "envelope_ratio",
    "flattened",
    "holding_ratio",
    "jam",
    "jam_turns",
    "lay",
    "lay_of_cord_turns",
    "lay_of_turns",
    "loop_nocked",
    "loop_of_length",
    "loop_of_throat",
    "loop_sliding",
    "perimeter",
    "pipe",
    "residual_twist",
    "retraction",
    "stagger",
    "surface_angle",
    "torque_free_ratio",
    "wrap_angle",
]
