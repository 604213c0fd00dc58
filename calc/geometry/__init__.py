"""Shapes of bundles, lays, loops, splices and servings: lengths and angles only, no forces."""

from calc.geometry.approach import radius_ratio
from calc.geometry.balance import (
    Transfer,
    balanced_twist,
    counter_twist,
    finger_turns,
    residual_twist,
    torque_free_band,
    torque_free_ratio,
    transferred,
)
from calc.geometry.bundles import (
    CLOSEST_PACKING,
    LOOSE_PACKING,
    Pressed,
    bundle_diameter,
    envelope_ratio,
    pressed,
    rolled_diameter,
    waxed_diameter,
)
from calc.geometry.closing import closed, closing_up
from calc.geometry.cords import bulk_density, linear_density, packing_of, wound_diameter
from calc.geometry.curves import Point, take_up_curve
from calc.geometry.fits import loop_of_length, loop_of_throat, loop_sliding
from calc.geometry.hands import Hand, hand_of, signed
from calc.geometry.holding import holding_angle, holding_length, holding_ratio, wrap_angle
from calc.geometry.jam import Jam, jam, jam_turns, warn_lay
from calc.geometry.lay import Lay, lay, lay_of_cord_turns, lay_of_turns
from calc.geometry.loops import Loop, loop_nocked, shortest_loop, widest_opening
from calc.geometry.pipes import flattened, pipe
from calc.geometry.sections import EllipseTip, FlatTip, RoundTip, Section, perimeter
from calc.geometry.servings import Coil, ServedLoop, coil, served_loop
from calc.geometry.splices import Splice, Station, splice, stagger
from calc.geometry.twist import (
    bundle_of_cord,
    cord_of_bundle,
    flat_surface_angle,
    modulus_ratio,
    retraction,
    surface_angle,
    twist_of_angle,
)

__all__ = [
    "CLOSEST_PACKING",
    "LOOSE_PACKING",
    "Coil",
    "EllipseTip",
    "FlatTip",
    "Hand",
    "Jam",
    "Lay",
    "Loop",
    "Point",
    "Pressed",
    "RoundTip",
    "Section",
    "ServedLoop",
    "Splice",
    "Station",
    "Transfer",
    "balanced_twist",
    "bulk_density",
    "bundle_diameter",
    "bundle_of_cord",
    "closed",
    "closing_up",
    "coil",
    "cord_of_bundle",
    "counter_twist",
    "envelope_ratio",
    "finger_turns",
    "flat_surface_angle",
    "flattened",
    "hand_of",
    "holding_angle",
    "holding_length",
    "holding_ratio",
    "jam",
    "jam_turns",
    "lay",
    "lay_of_cord_turns",
    "lay_of_turns",
    "linear_density",
    "loop_nocked",
    "loop_of_length",
    "loop_of_throat",
    "loop_sliding",
    "modulus_ratio",
    "packing_of",
    "perimeter",
    "pipe",
    "pressed",
    "radius_ratio",
    "residual_twist",
    "retraction",
    "rolled_diameter",
    "served_loop",
    "shortest_loop",
    "signed",
    "splice",
    "stagger",
    "surface_angle",
    "take_up_curve",
    "torque_free_band",
    "torque_free_ratio",
    "transferred",
    "twist_of_angle",
    "warn_lay",
    "waxed_diameter",
    "widest_opening",
    "wound_diameter",
    "wrap_angle",
]
