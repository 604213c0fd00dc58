"""The hardest pull of a shot."""

from __future__ import annotations

from calc.data import peak_ratios
from calc.spread import Spread


def peak_force_ratio() -> Spread:
    """Return the hardest pull in the string / draw weight, over arrows from light to heavy.

    Notes
    -----
    Source: a chain of rigid links for each limb with an elastic, massive string (``derived:links``,
    ``calc/data/peaks.toml``): low and high over 5 to 15 grains of arrow per pound of draw weight, typical at 9.
    Leaves out a shot without an arrow, which pulls harder still.

    Examples
    --------
    >>> peak_force_ratio().low < peak_force_ratio().value < peak_force_ratio().high
    True
    """
    rows = peak_ratios()
    usual = next(peak for grains_per_pound, peak in rows if grains_per_pound == _USUAL)
    peaks = [peak for _, peak in rows]
    return Spread(min(peaks), usual, max(peaks))


_USUAL = 9.0
"""Grains of arrow per pound of draw weight, in the middle of common practice for wooden bows (8 to 10)."""
