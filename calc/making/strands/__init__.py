"""How many strands, and what they hold."""

from calc.making.strands.chosen import Chosen, choose
from calc.making.strands.cord_test import Examined, Unknown, examined
from calc.making.strands.speed import speed_kept, usual_arrow
from calc.making.strands.strands import Strand, Thick, count, fitting, peak_ratio, rolled, sold, thick, unnamed
from calc.making.strands.strength import Advice, Holding, judged
from calc.making.strands.tail_friction import Tails, Wax, tails

__all__ = [
    "Advice",
    "Chosen",
    "Examined",
    "Holding",
    "Strand",
    "Tails",
    "Thick",
    "Unknown",
    "Wax",
    "choose",
    "count",
    "examined",
    "fitting",
    "judged",
    "peak_ratio",
    "rolled",
    "sold",
    "speed_kept",
    "tails",
    "thick",
    "unnamed",
    "usual_arrow",
]
