"""A string from end to end: what to cut, where to mark it, how often to turn it."""

from calc.making.cuts import Cuts, cuts
from calc.making.looping import FitLoop, fit_loop, moved_tip
from calc.making.order import End, Fit, Order
from calc.making.plan import Plan, Room, plan_string
from calc.making.serving import Served, core_of_strands, serve
from calc.making.strength import Advice, Holding, advise, holding
from calc.making.turns import plied, raw_for
from calc.making.twisting import Twisted, twisted_to_turns, widest_bundle

__all__ = [
    "Advice",
    "Cuts",
    "End",
    "Fit",
    "FitLoop",
    "Holding",
    "Order",
    "Plan",
    "Room",
    "Served",
    "Twisted",
    "advise",
    "core_of_strands",
    "cuts",
    "fit_loop",
    "holding",
    "moved_tip",
    "plan_string",
    "plied",
    "raw_for",
    "serve",
    "twisted_to_turns",
    "widest_bundle",
]
