"""A shot: motion of limbs, string and arrow."""

from calc.mechanics.shot.full_draw import AddedMass, ShotString
from calc.mechanics.shot.peaks import (
    ShotLoad,
    peak_force_ratio,
    pipe_limb_mass,
    usual_limb_mass,
    usual_limb_share,
    usual_string_length,
)
from calc.mechanics.shot.shooting import Shot, shot
from calc.mechanics.shot.variants import Variant, dry_fire_peak, strand_string, try_variants

__all__ = [
    "AddedMass",
    "Shot",
    "ShotLoad",
    "ShotString",
    "Variant",
    "dry_fire_peak",
    "peak_force_ratio",
    "pipe_limb_mass",
    "shot",
    "strand_string",
    "try_variants",
    "usual_limb_mass",
    "usual_limb_share",
    "usual_string_length",
]
