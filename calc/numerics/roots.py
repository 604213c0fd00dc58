"""Where a function of one number crosses zero."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

_ROUNDS = 200
_LEAST_SHARE = 0.01
"""Of the way between the ends, at the first step."""


def find_root(function: Callable[[float], float], low: float, high: float, *, within: float = 1e-15) -> float:
    """Return a root between two ends at which the function differs in sign.

    Parameters
    ----------
    function : callable
        Continuous between the ends.
    low, high : float
        Ends; at an end where the function is zero, that end is the answer.
    within : float
        Width to stop at, relative to the larger end.

    Returns
    -------
    float
        The root. [unit of the ends]

    Raises
    ------
    ValueError
        When both ends have the same sign.

    Notes
    -----
    The parabola through three points taken the other way about, where it can be trusted, and halving where not
    (T. R. Chandrupatla, Advances in Engineering Software 28 (1997) 145, from memory); the first step is a secant, and
    no step is shorter than half of `within`.

    Examples
    --------
    >>> round(find_root(lambda x: x * x - 2.0, 0.0, 2.0), 12)
    1.414213562373
    """
    at_low, at_high = function(low), function(high)
    if at_low == 0.0 or at_high == 0.0:
        return low if at_low == 0.0 else high
    if (at_low < 0.0) == (at_high < 0.0):
        msg = f"find_root: got {at_low} and {at_high} at the ends, expected different signs"
        raise ValueError(msg)
    new, at_new, old, at_old = high, at_high, low, at_low
    share = min(max(at_new / (at_new - at_old), _LEAST_SHARE), 1.0 - _LEAST_SHARE)
    for _ in range(_ROUNDS):
        guess = new + share * (old - new)
        value = function(guess)
        if value == 0.0:
            return guess
        if (value < 0.0) == (at_new < 0.0):
            gone, at_gone = new, at_new
        else:
            gone, at_gone, old, at_old = old, at_old, new, at_new
        new, at_new = guess, value
        least = within * max(abs(new), abs(old))
        width = abs(old - new)
        if width <= least:
            break
        share = _share((new, at_new), (old, at_old), (gone, at_gone))
        edge = min(0.5 * least / width, 0.5)
        share = min(max(share, edge), 1.0 - edge)
    return new if abs(at_new) < abs(at_old) else old


def _share(new: tuple[float, float], old: tuple[float, float], gone: tuple[float, float]) -> float:
    """Return how far to go from the newest point towards the other end, as a share of the way between them."""
    (a, at_a), (b, at_b), (c, at_c) = new, old, gone
    place, rise = (a - b) / (c - b), (at_a - at_b) / (at_c - at_b)
    if rise * rise >= place or (1.0 - rise) ** 2 >= 1.0 - place:
        return 0.5
    far = (c - a) / (b - a)
    return at_a / (at_b - at_a) * at_c / (at_b - at_c) + far * at_a / (at_c - at_a) * at_b / (at_c - at_b)
