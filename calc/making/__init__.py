"""A string from end to end: what to cut, where to mark it, how often to turn it."""

from calc.making.braced import braced_pull
from calc.making.chosen import Chosen, choose
from calc.making.cuts import Cuts, cuts
from calc.making.endless import Winding, Wound, endless
from calc.making.examined import Examined, Unknown, examined
from calc.making.order import End, Fit, Order
from calc.making.plan import Plan, Room, plan_string
from calc.making.settled import SETTLING_TIMES_S, Fresh, Settled, settled
from calc.making.speed import speed_kept, usual_arrow
from calc.making.strands import Strand, Thick, count, peak_ratio, thick
from calc.making.strength import Advice, Holding, advise, holding, judged

__all__ = [
    "SETTLING_TIMES_S",
    "Advice",
    "Chosen",
    "Cuts",
    "End",
    "Examined",
    "Fit",
    "Fresh",
    "Holding",
    "Order",
    "Plan",
    "Room",
    "Settled",
    "Strand",
    "Thick",
    "Unknown",
    "Winding",
    "Wound",
    "advise",
    "braced_pull",
    "choose",
    "count",
    "cuts",
    "endless",
    "examined",
    "holding",
    "judged",
    "peak_ratio",
    "plan_string",
    "settled",
    "speed_kept",
    "thick",
    "usual_arrow",
]
