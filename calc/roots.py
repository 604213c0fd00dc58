"""Where a function of one number crosses zero."""

from __future__ import annotations

from math import copysign
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

_ROUNDS = 200


def crossing(function: Callable[[float], float], low: float, high: float, *, within: float = 1e-15) -> float:
    """Return a root between two ends at which the function differs in sign.

    Parameters
    ----------
    function : callable
        Continuous between the ends.
    low, high : float
        Ends; at an end where the function is zero, that end is the answer.
    within : float
        Width to stop at, relative to the larger end.

    Raises
    ------
    ValueError
        When both ends have the same sign.

    Notes
    -----
    False position that halves the weight of a stuck end (the Illinois rule: Dowell and Jarratt, BIT 11 (1971)
    168, from memory), with a bisection every third step and no step shorter than `within`.

    Examples
    --------
    >>> round(crossing(lambda x: x * x - 2.0, 0.0, 2.0), 12)
    1.414213562373
    """
    at_low, at_high = function(low), function(high)
    if at_low == 0.0 or at_high == 0.0:
        return low if at_low == 0.0 else high
    if (at_low < 0.0) == (at_high < 0.0):
        msg = f"crossing: got {at_low} and {at_high} at the ends, expected different signs"
        raise ValueError(msg)
    for turn in range(_ROUNDS):
        least = within * max(abs(low), abs(high))
        if abs(high - low) <= least:
            break
        step = at_high / (at_high - at_low) * (low - high)
        guess = (low + high) / 2.0 if turn % 3 == 2 else high + copysign(max(abs(step), least), low - high)
        value = function(guess)
        if value == 0.0:
            return guess
        if (value < 0.0) == (at_high < 0.0):
            at_low /= 2.0
        else:
            low, at_low = high, at_high
        high, at_high = guess, value
    return high
