"""A string on its bow: bracing, tuning, settling."""

from calc.making.tuning.bracing import STEP_M, Braced, brace_for, string_for
from calc.making.tuning.settling import HEAVY_SHARE, SETTLING_TIMES_S, Fresh, OnBow, Settled, heaviest_n, settled
from calc.making.tuning.tuning import Reading, Tuned, Tuning, tune

__all__ = [
    "HEAVY_SHARE",
    "SETTLING_TIMES_S",
    "STEP_M",
    "Braced",
    "Fresh",
    "OnBow",
    "Reading",
    "Settled",
    "Tuned",
    "Tuning",
    "brace_for",
    "heaviest_n",
    "settled",
    "string_for",
    "tune",
]
