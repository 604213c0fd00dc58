"""How many strands, and what they hold."""

from calc.making.strands.chosen import Chosen, choose
from calc.making.strands.cord_test import CordFindings, UnknownCord, examine_cord
from calc.making.strands.groove import Groove
from calc.making.strands.hardest_pull import ShotFacts, WholeString, limb_of, peak_pull, peak_ratio
from calc.making.strands.speed import speed_kept, usual_arrow
from calc.making.strands.strands import (
    Thickness,
    fitting,
    rolled,
    sold,
    strand_count,
    thick_as_cord,
    thickness,
    unnamed,
)
from calc.making.strands.string_strength import Advice, StringStrength, judged
from calc.making.strands.tail_check import TailCheck, Wax, tails

__all__ = [
    "Advice",
    "Chosen",
    "CordFindings",
    "Groove",
    "ShotFacts",
    "StringStrength",
    "TailCheck",
    "Thickness",
    "UnknownCord",
    "Wax",
    "WholeString",
    "choose",
    "examine_cord",
    "fitting",
    "judged",
    "limb_of",
    "peak_pull",
    "peak_ratio",
    "rolled",
    "sold",
    "speed_kept",
    "strand_count",
    "tails",
    "thick_as_cord",
    "thickness",
    "unnamed",
    "usual_arrow",
]
