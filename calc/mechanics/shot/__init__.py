"""A shot: motion of limbs, string and arrow."""

from calc.mechanics.shot.full_draw import AddedMass, ShotString
from calc.mechanics.shot.peaks import peak_force_ratio, pipe_limb_mass, usual_limb_mass
from calc.mechanics.shot.shooting import Shot, shot
from calc.mechanics.shot.variants import Variant, dry_fire_peak, strand_string, try_variants

__all__ = [
    "AddedMass",
    "Shot",
    "ShotString",
    "Variant",
    "dry_fire_peak",
    "peak_force_ratio",
    "pipe_limb_mass",
    "shot",
    "strand_string",
    "try_variants",
    "usual_limb_mass",
]
