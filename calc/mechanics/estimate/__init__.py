"""A bow, a cord and a hand of which not everything is known, and what readings teach about them."""

from calc.mechanics.estimate.bow_estimate import BowEstimate
from calc.mechanics.estimate.braced import braced_pull, braced_stretch, widened
from calc.mechanics.estimate.cord_estimate import CordEstimate
from calc.mechanics.estimate.hand_estimate import HandEstimate
from calc.mechanics.estimate.limb_test import LimbTest
from calc.mechanics.estimate.readings import Drawn, ForceRead, StringRead
from calc.mechanics.estimate.state import BowState
from calc.mechanics.estimate.unit_pulls import Seen, full_force, pulls

__all__ = [
    "BowEstimate",
    "BowState",
    "CordEstimate",
    "Drawn",
    "ForceRead",
    "HandEstimate",
    "LimbTest",
    "Seen",
    "StringRead",
    "braced_pull",
    "braced_stretch",
    "full_force",
    "pulls",
    "widened",
]
