"""Strands, bundles and the lay of a cord."""

from calc.geometry.lay.approach import radius_ratio
from calc.geometry.lay.balance import (
    Transfer,
    balanced_twist,
    counter_twist,
    finger_turns,
    residual_twist,
    torque_free_band,
    torque_free_ratio,
    transferred,
)
from calc.geometry.lay.bundles import (
    CLOSEST_PACKING,
    LOOSE_PACKING,
    Pressed,
    bundle_diameter,
    envelope_ratio,
    pressed,
    rolled_diameter,
    waxed_diameter,
)
from calc.geometry.lay.curves import Point, take_up_curve
from calc.geometry.lay.flattening import closed, closing_up
from calc.geometry.lay.hands import Hand, hand_of, signed
from calc.geometry.lay.helical_lay import Lay, bundle_of_laid, lay, lay_of_cord_turns, lay_of_turns, middle_lay
from calc.geometry.lay.jam_limit import Jam, jam, jam_turns, warn_lay
from calc.geometry.lay.measured_cord import bulk_density, linear_density, packing_of, wound_diameter
from calc.geometry.lay.twist import (
    bundle_of_cord,
    cord_of_bundle,
    flat_surface_angle,
    modulus_ratio,
    retraction,
    surface_angle,
    twist_of_angle,
)
from calc.geometry.lay.wetting import wet_length

__all__ = [
    "CLOSEST_PACKING",
    "LOOSE_PACKING",
    "Hand",
    "Jam",
    "Lay",
    "Point",
    "Pressed",
    "Transfer",
    "balanced_twist",
    "bulk_density",
    "bundle_diameter",
    "bundle_of_cord",
    "bundle_of_laid",
    "closed",
    "closing_up",
    "cord_of_bundle",
    "counter_twist",
    "envelope_ratio",
    "finger_turns",
    "flat_surface_angle",
    "hand_of",
    "jam",
    "jam_turns",
    "lay",
    "lay_of_cord_turns",
    "lay_of_turns",
    "linear_density",
    "middle_lay",
    "modulus_ratio",
    "packing_of",
    "pressed",
    "radius_ratio",
    "residual_twist",
    "retraction",
    "rolled_diameter",
    "signed",
    "surface_angle",
    "take_up_curve",
    "torque_free_band",
    "torque_free_ratio",
    "transferred",
    "twist_of_angle",
    "warn_lay",
    "waxed_diameter",
    "wet_length",
    "wound_diameter",
]
