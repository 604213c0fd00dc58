"""A string from end to end: what to cut, where to mark it, how often to turn it."""

from calc.making.chosen import Chosen, choose
from calc.making.club import Club, Listed, Wanted, added, list_string, sum_up, thread_for
from calc.making.cuts import Cuts, cuts
from calc.making.endless import Winding, Wound, endless
from calc.making.looping import FitLoop, fit_loop, moved_tip
from calc.making.order import End, Fit, Order
from calc.making.plan import Plan, Room, plan_string
from calc.making.serving import Served, core_of_strands, serve
from calc.making.strands import Strand, Thick, count, peak_ratio, thick
from calc.making.strength import Advice, Holding, advise, holding, judged
from calc.making.turns import plied, raw_for
from calc.making.twisting import Twisted, twisted_to_turns, widest_bundle

__all__ = [
    "Advice",
    "Chosen",
    "Club",
    "Cuts",
    "End",
    "Fit",
    "FitLoop",
    "Holding",
    "Listed",
    "Order",
    "Plan",
    "Room",
    "Served",
    "Strand",
    "Thick",
    "Twisted",
    "Wanted",
    "Winding",
    "Wound",
    "added",
    "advise",
    "choose",
    "core_of_strands",
    "count",
    "cuts",
    "endless",
    "fit_loop",
    "holding",
    "judged",
    "list_string",
    "moved_tip",
    "peak_ratio",
    "plan_string",
    "plied",
    "raw_for",
    "serve",
    "sum_up",
    "thick",
    "thread_for",
    "twisted_to_turns",
    "widest_bundle",
]
