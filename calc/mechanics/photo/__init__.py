"""A bow as it was photographed: where and how much its limbs bend, and how sure the taps on the picture make that."""

from calc.mechanics.photo.figures import LIMBS, PLACES
from calc.mechanics.photo.limb_bend import bend_between, middle_of_bend
from calc.mechanics.photo.seeing import Photo, SeenBow, even, seen

__all__ = ["LIMBS", "PLACES", "Photo", "SeenBow", "bend_between", "even", "middle_of_bend", "seen"]
