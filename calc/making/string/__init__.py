"""One string from the order to cut lengths and turns."""

from calc.making.string.body import Body, Turned, body_of
from calc.making.string.cutting import CutOrder, CutPlan, Cuts, Method, cut_between, cut_plan, cuts
from calc.making.string.endless_string import Winding, Wound, endless
from calc.making.string.figures import causes_of, cut, measured, moves_at
from calc.making.string.loop_fit import FitLoop, fit_loop, moved_tip, resting_place, thicker_where_it_rests
from calc.making.string.next_reading import NextReading
from calc.making.string.order import End, Fit, MadeBefore, Order, Trial
from calc.making.string.plan import Plan, Room, chosen_for, plan_string
from calc.making.string.raw_lengths import lengths
from calc.making.string.serving import Served, core_of_strands, serve
from calc.making.string.tension import body_lay
from calc.making.string.turns import plied, raw_for, turned_to_lay
from calc.making.string.twisting import Twisted, twisted_to_turns, widest_bundle
from calc.making.string.window import braces_made, edges

__all__ = [
    "Body",
    "CutOrder",
    "CutPlan",
    "Cuts",
    "End",
    "Fit",
    "FitLoop",
    "MadeBefore",
    "Method",
    "NextReading",
    "Order",
    "Plan",
    "Room",
    "Served",
    "Trial",
    "Turned",
    "Twisted",
    "Winding",
    "Wound",
    "body_lay",
    "body_of",
    "braces_made",
    "causes_of",
    "chosen_for",
    "core_of_strands",
    "cut",
    "cut_between",
    "cut_plan",
    "cuts",
    "edges",
    "endless",
    "fit_loop",
    "lengths",
    "measured",
    "moved_tip",
    "moves_at",
    "plan_string",
    "plied",
    "raw_for",
    "resting_place",
    "serve",
    "thicker_where_it_rests",
    "turned_to_lay",
    "twisted_to_turns",
    "widest_bundle",
]
