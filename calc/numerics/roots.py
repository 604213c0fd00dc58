"""Where a function of one number is zero, and where it gives back what it was given."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

_ROUNDS = 200
_FEW_ROUNDS = 40
_LEAST_SHARE = 0.01
"""Of the way between the ends, at the first step."""


class NoRootError(ArithmeticError):
    """A search did not come to its end."""


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


def find_root_near(
    function: Callable[[float], float],
    known: tuple[float, float],
    guess: float,
    low: float,
    high: float,
    *,
    close: float,
) -> float:
    """Return a root of a nearly straight function, in about half the calls that `find_root` makes.

    Parameters
    ----------
    function : callable
        Continuous between the ends.
    known : tuple of float
        A point between the ends, and what the function is there.
    guess : float
        Where the root may be.
    low, high : float
        Ends; ``low < high``.
    close : float
        How near to zero the function must come. [unit of the function]

    Returns
    -------
    float
        The root; the end nearer to zero where the function has one sign at both. [unit of the ends]

    Notes
    -----
    Source: the secant method, kept between the ends; where it stops before the root, `find_root`.

    Examples
    --------
    >>> round(find_root_near(lambda x: x * x - 2.0, (2.0, 2.0), 1.5, 0.0, 2.0, close=1e-12), 12)
    1.414213562373
    >>> find_root_near(lambda x: x * x - 9.0, (2.0, -5.0), 1.5, 0.0, 2.0, close=1e-12)
    2.0
    """
    at, value = known
    if abs(value) <= close:
        return at
    for _ in range(_FEW_ROUNDS):
        guess = min(max(guess, low), high)
        if guess == at:
            break
        here = function(guess)
        if abs(here) <= close:
            return guess
        if here == value:
            break
        at, value, guess = guess, here, guess - here * (guess - at) / (here - value)
    at_low, at_high = function(low), function(high)
    if (at_low < 0.0) == (at_high < 0.0):
        return low if abs(at_low) < abs(at_high) else high
    return find_root(function, low, high)


def newton(function: Callable[[float], tuple[float, float]], start: float, *, within: float) -> float:
    """Return a root by Newton's method.

    Parameters
    ----------
    function : callable
        Gives value and slope.
    start : float
        Where to begin.
    within : float
        The last step is shorter than this. [unit of `start`]

    Returns
    -------
    float
        The root. [unit of `start`]

    Raises
    ------
    NoRootError
        When 40 steps were not enough.

    Examples
    --------
    >>> newton(lambda x: (x * x - 4.0, 2.0 * x), 3.0, within=1e-9)
    2.0
    """
    at = start
    for _ in range(_FEW_ROUNDS):
        value, slope = function(at)
        step = value / slope
        at -= step
        if abs(step) < within:
            return at
    msg = f"newton: still moving by {step}"
    raise NoRootError(msg)


def fixed_point(function: Callable[[float], float], start: float, *, within: float) -> float:
    """Return the number that a function gives back unchanged, by giving it its own answer again and again.

    Parameters
    ----------
    function : callable
        Its slope must be well below 1 in size.
    start : float
        Where to begin.
    within : float
        The last answer is no further than this from what was given. [unit of `start`]

    Returns
    -------
    float
        The number. [unit of `start`]

    Raises
    ------
    NoRootError
        When 40 answers were not enough.

    Examples
    --------
    >>> from math import cos
    >>> round(fixed_point(lambda x: cos(x) / 2.0, 0.0, within=1e-12), 9)
    0.450183611
    """
    at = start
    for _ in range(_FEW_ROUNDS):
        before, at = at, function(at)
        if abs(at - before) <= within:
            return at
    msg = f"fixed_point: still moving by {at - before}"
    raise NoRootError(msg)
