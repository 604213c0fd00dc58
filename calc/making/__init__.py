"""A string from end to end: what to cut, where to mark it, how often to turn it."""

from calc.making.braced import braced_pull
from calc.making.bracing import Braced, brace_for, string_for
from calc.making.chosen import Chosen, choose
from calc.making.club import Club, Listed, Wanted, added, list_string, sum_up, thread_for
from calc.making.cuts import Cuts, cuts
from calc.making.cutting import CutOrder, CutPlan, Method, cut_plan
from calc.making.endless import Winding, Wound, endless
from calc.making.examined import Examined, Unknown, examined
from calc.making.looping import FitLoop, fit_loop, moved_tip
from calc.making.loosing import Loose, Loosed
from calc.making.order import End, Fit, Order
from calc.making.plan import Plan, Room, plan_string
from calc.making.serving import Served, core_of_strands, serve
from calc.making.settled import HEAVY_SHARE, SETTLING_TIMES_S, Fresh, OnBow, Settled, heaviest_n, settled
from calc.making.shooting import loose
from calc.making.speed import speed_kept, usual_arrow
from calc.making.stave import Held, Stave
from calc.making.strands import Strand, Thick, count, peak_ratio, thick
from calc.making.strength import Advice, Holding, advise, holding, judged
from calc.making.tuning import Reading, Tuned, Tuning, tune
from calc.making.turns import plied, raw_for
from calc.making.twisting import Twisted, twisted_to_turns, widest_bundle
from calc.making.weights import Weights

__all__ = [
    "HEAVY_SHARE",
    "SETTLING_TIMES_S",
    "Advice",
    "Braced",
    "Chosen",
    "Club",
    "CutOrder",
    "CutPlan",
    "Cuts",
    "End",
    "Examined",
    "Fit",
    "FitLoop",
    "Fresh",
    "Held",
    "Holding",
    "Listed",
    "Loose",
    "Loosed",
    "Method",
    "OnBow",
    "Order",
    "Plan",
    "Reading",
    "Room",
    "Served",
    "Settled",
    "Stave",
    "Strand",
    "Thick",
    "Tuned",
    "Tuning",
    "Twisted",
    "Unknown",
    "Wanted",
    "Weights",
    "Winding",
    "Wound",
    "added",
    "advise",
    "brace_for",
    "braced_pull",
    "choose",
    "core_of_strands",
    "count",
    "cut_plan",
    "cuts",
    "endless",
    "examined",
    "fit_loop",
    "heaviest_n",
    "holding",
    "judged",
    "list_string",
    "loose",
    "moved_tip",
    "peak_ratio",
    "plan_string",
    "plied",
    "raw_for",
    "serve",
    "settled",
    "speed_kept",
    "string_for",
    "sum_up",
    "thick",
    "thread_for",
    "tune",
    "twisted_to_turns",
    "usual_arrow",
    "widest_bundle",
]
