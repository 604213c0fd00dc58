"""A string from end to end: what to cut, where to mark it, how often to turn it."""

from calc.making.chosen import Chosen, choose
from calc.making.cuts import Cuts, cuts
from calc.making.endless import Winding, Wound, endless
from calc.making.order import End, Fit, Order
from calc.making.plan import Plan, Room, plan_string
from calc.making.strands import Strand, Thick, count, peak_ratio, thick
from calc.making.strength import Advice, Holding, advise, holding, judged
from calc.making.turns import plied, raw_for
from calc.making.twisting import Twisted, twisted_to_turns, widest_bundle

__all__ = [
    "Advice",
    "Chosen",
    "Cuts",
    "End",
    "Fit",
    "Holding",
    "Order",
    "Plan",
    "Room",
    "Strand",
    "Thick",
    "Twisted",
    "Winding",
    "Wound",
    "advise",
    "choose",
    "count",
    "cuts",
    "endless",
    "holding",
    "judged",
    "peak_ratio",
    "plan_string",
    "plied",
    "raw_for",
    "thick",
    "twisted_to_turns",
    "widest_bundle",
]
