"""Numbers alone: roots, sets of equations, stepping through time, spreads."""

from calc.numerics.conditioning import conditioned
from calc.numerics.integrator import NoStepError, Step, next_step, step
from calc.numerics.linear import Residual, find_roots, solve_linear
from calc.numerics.moves import Moves, beside, combine, combine_ratios, moves_of
from calc.numerics.roots import NoRootError, find_root, find_root_near, fixed_point, newton
from calc.numerics.spread import Spread

__all__ = [
    "Moves",
    "NoRootError",
    "NoStepError",
    "Residual",
    "Spread",
    "Step",
    "beside",
    "combine",
    "combine_ratios",
    "conditioned",
    "find_root",
    "find_root_near",
    "find_roots",
    "fixed_point",
    "moves_of",
    "newton",
    "next_step",
    "solve_linear",
    "step",
]
