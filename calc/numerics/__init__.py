"""Numbers alone: roots, sets of equations, stepping through time, spreads."""

from calc.numerics.integrator import Leg, NoStepError, leg, next_leg
from calc.numerics.linear import NoRootError, Residual, newton
from calc.numerics.linear_update import updated
from calc.numerics.roots import crossing
from calc.numerics.spread import Spread, combine, combine_ratios

__all__ = [
    "Leg",
    "NoRootError",
    "NoStepError",
    "Residual",
    "Spread",
    "combine",
    "combine_ratios",
    "crossing",
    "leg",
    "newton",
    "next_leg",
    "updated",
]
