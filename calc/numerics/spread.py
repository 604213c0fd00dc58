"""A number with its low and high, and how uncertain inputs spread to a result."""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, hypot, inf, log
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping


@dataclass(frozen=True, slots=True)
class Spread:
    """A typical value between a low and a high; the unit is that of its owner.

    Attributes
    ----------
    low, value, high : float
        In this order, or two of them alike.

    Examples
    --------
    >>> Spread(1.0, 2.0, 4.0).value
    2.0
    >>> Spread(3.0, 2.0, 4.0)
    Traceback (most recent call last):
        ...
    ValueError: Spread: got 3.0, 2.0, 4.0, expected low <= value <= high
    """

    low: float
    value: float
    high: float

    def __post_init__(self) -> None:
        if not self.low <= self.value <= self.high:
            msg = f"Spread: got {self.low}, {self.value}, {self.high}, expected low <= value <= high"
            raise ValueError(msg)

    @classmethod
    def exactly(cls, value: float) -> Spread:
        """Return a value with no spread."""
        return cls(value, value, value)

    def shifted(self, by: float) -> Spread:
        """Return the spread with a number added.

        >>> Spread(-1.0, 0.0, 2.0).shifted(10.0)
        Spread(low=9.0, value=10.0, high=12.0)
        """
        return Spread(self.low + by, self.value + by, self.high + by)

    def scaled(self, factor: float) -> Spread:
        """Return the spread times a factor that is not negative.

        >>> Spread(1.0, 2.0, 4.0).scaled(2.0)
        Spread(low=2.0, value=4.0, high=8.0)
        """
        return Spread(self.low * factor, self.value * factor, self.high * factor)


def combine(
    answer: Callable[[Mapping[str, float]], Mapping[str, float]], causes: Mapping[str, Spread]
) -> dict[str, Spread]:
    """Carry the spread of independent causes to every figure of an answer.

    Each cause is moved alone to its low and its high; for each figure the moves upward are added in
    quadrature, and so are the moves downward.

    Parameters
    ----------
    answer : callable
        Takes one number a cause, gives one number a figure; called 1 + 2 x (causes with a spread) times.
    causes : mapping of str to Spread
        The uncertain inputs.

    Returns
    -------
    dict of str to Spread
        Keys of the answer; ``low <= value <= high`` always.

    Notes
    -----
    Source: first-order combination of independent uncertainties (``jcgm100``), taken on finite steps so that
    lopsided spreads stay lopsided. Leaves out how causes act together.

    Examples
    --------
    >>> out = combine(lambda c: {"sum": c["a"] + c["b"]}, {"a": Spread(7, 10, 13), "b": Spread(16, 20, 24)})
    >>> out["sum"]
    Spread(low=25.0, value=30, high=35.0)
    """
    centre = {name: cause.value for name, cause in causes.items()}
    middle = answer(centre)
    up = dict.fromkeys(middle, 0.0)
    down = dict.fromkeys(middle, 0.0)
    for name, cause in causes.items():
        if cause.low == cause.high:
            continue
        first, second = (answer({**centre, name: end}) for end in (cause.low, cause.high))
        for key, value in middle.items():
            low, high = first[key], second[key]
            if low > high:
                low, high = high, low
            if high > value:
                up[key] = hypot(up[key], high - value)
            if low < value:
                down[key] = hypot(down[key], value - low)
    return {key: Spread(value - down[key], value, value + up[key]) for key, value in middle.items()}


def combine_ratios(
    answer: Callable[[Mapping[str, float]], Mapping[str, float]], causes: Mapping[str, Spread]
) -> dict[str, Spread]:
    """Carry the spread of independent causes to figures that are products and quotients of them.

    As `combine`, with every move told as a ratio to the typical value: half as much and twice as much are alike far.

    Parameters
    ----------
    answer : callable
        As for `combine`; every figure above 0.
    causes : mapping of str to Spread

    Returns
    -------
    dict of str to Spread
        Keys of the answer; ``0 < low <= value <= high`` always.

    Notes
    -----
    Source: first-order combination of independent uncertainties (``jcgm100``) of the logarithms.

    Examples
    --------
    >>> out = combine_ratios(lambda c: {"area": c["a"] * c["b"]}, {"a": Spread(1, 2, 4), "b": Spread.exactly(3.0)})
    >>> [round(each, 9) for each in (out["area"].low, out["area"].value, out["area"].high)]
    [3.0, 6.0, 12.0]
    """
    middle = answer({name: cause.value for name, cause in causes.items()})
    if not all(middle.values()):  # too small for a computer to tell from 0, which has no ratio
        return combine(answer, causes)
    logs = combine(lambda at: {key: _log(value) - _log(middle[key]) for key, value in answer(at).items()}, causes)
    return {
        key: Spread(value * exp(logs[key].low), value, value * exp(logs[key].high)) for key, value in middle.items()
    }


def _log(value: float) -> float:
    return log(value) if value else -inf
