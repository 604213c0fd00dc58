"""A shot: motion of limbs, string and arrow."""

from calc.mechanics.shot.full_draw import Added, ShotString
from calc.mechanics.shot.peaks import peak_force_ratio, pipe_limb_mass, usual_limb_mass
from calc.mechanics.shot.shooting import Shot, shot
from calc.mechanics.shot.variants import Tried, dry_fire_peak, scan, strand_string

__all__ = [
    "Added",
    "Shot",
    "ShotString",
    "Tried",
    "dry_fire_peak",
    "peak_force_ratio",
    "pipe_limb_mass",
    "scan",
    "shot",
    "strand_string",
    "usual_limb_mass",
]
