"""Numbers alone: roots, sets of equations, stepping through time, spreads."""

from calc.numerics.integrator import NoStepError, Step, next_step, step
from calc.numerics.linear import NoRootError, Residual, find_roots
from calc.numerics.linear_update import update
from calc.numerics.roots import find_root
from calc.numerics.spread import Spread, combine, combine_ratios

__all__ = [
    "NoRootError",
    "NoStepError",
    "Residual",
    "Spread",
    "Step",
    "combine",
    "combine_ratios",
    "find_root",
    "find_roots",
    "next_step",
    "step",
    "update",
]
