"""How many strands, and what they hold."""

from calc.making.strands.chosen import Chosen, choose
from calc.making.strands.cord_test import Examined, Unknown, examined
from calc.making.strands.speed import speed_kept, usual_arrow
from calc.making.strands.strands import Strand, Thick, count, peak_ratio, thick
from calc.making.strands.strength import Advice, Holding, advise, holding, judged

__all__ = [
    "Advice",
    "Chosen",
    "Examined",
    "Holding",
    "Strand",
    "Thick",
    "Unknown",
    "advise",
    "choose",
    "count",
    "examined",
    "holding",
    "judged",
    "peak_ratio",
    "speed_kept",
    "thick",
    "usual_arrow",
]
