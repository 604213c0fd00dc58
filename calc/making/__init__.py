"""A string from end to end: what to cut, where to mark it, how often to turn it."""

from calc.making.cuts import Cuts, cuts
from calc.making.order import End, Fit, Order
from calc.making.plan import Plan, Room, plan_string
from calc.making.strength import Advice, Holding, advise, holding

__all__ = [
    "Advice",
    "Cuts",
    "End",
    "Fit",
    "Holding",
    "Order",
    "Plan",
    "Room",
    "advise",
    "cuts",
    "holding",
    "plan_string",
]
