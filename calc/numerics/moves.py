"""An uncertain quantity, its most likely value and both ends of every independent cause, and the spread of a result."""

from __future__ import annotations

from dataclasses import dataclass, field
from math import exp, hypot, inf, log
from typing import TYPE_CHECKING, Generic, TypeVar

from calc.numerics.spread import Spread

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

T = TypeVar("T")
U = TypeVar("U")


@dataclass(frozen=True, slots=True)
class Moves(Generic[T]):
    """Something of which not all is known.

    Attributes
    ----------
    centre : T
        As it is most likely.
    ends : tuple of (str, T, T)
        Name of each independent cause, with what a low and what a high one makes of it.
    misfit : float
        How far readings and causes are from what fits best, in units of how unsure they are; 0 without readings.
    strayed : mapping of str to float
        How far each cause had to go from where it was, in units of its spread; empty without readings.
    """

    centre: T
    ends: tuple[tuple[str, T, T], ...]
    misfit: float = 0.0
    strayed: Mapping[str, float] = field(default_factory=dict)

    def mapped(self, function: Callable[[T], U]) -> Moves[U]:
        """Return what a function makes of the centre and of every end."""
        ends = tuple((name, function(low), function(high)) for name, low, high in self.ends)
        return Moves(function(self.centre), ends, self.misfit, self.strayed)

    def spreads(self, answer: Callable[[T], Mapping[str, float]]) -> dict[str, Spread]:
        """Return figures with their low and high.

        Parameters
        ----------
        answer : callable
            Gives one number a figure.

        Notes
        -----
        Source: first-order combination of independent uncertainties (``jcgm100``), taken on finite steps so that
        lopsided spreads stay lopsided: moves upward are added in quadrature, and so are moves downward. Leaves out how
        causes act together.

        Examples
        --------
        >>> Moves(10.0, (("a", 7.0, 13.0), ("b", 6.0, 14.0))).spreads(lambda at: {"at": at})["at"]
        Spread(low=5.0, value=10.0, high=15.0)
        """
        middle = answer(self.centre)
        up, down = dict.fromkeys(middle, 0.0), dict.fromkeys(middle, 0.0)
        for _, one, other in self.ends:
            first, second = answer(one), answer(other)
            for key, value in middle.items():
                low, high = first[key], second[key]
                if low > high:
                    low, high = high, low
                if high > value:
                    up[key] = hypot(up[key], high - value)
                if low < value:
                    down[key] = hypot(down[key], value - low)
        return {key: Spread(value - down[key], value, value + up[key]) for key, value in middle.items()}

    def spread(self, answer: Callable[[T], float]) -> Spread:
        """Return one figure with its low and high."""
        return self.spreads(lambda at: {"answer": answer(at)})["answer"]


def moves_of(causes: Mapping[str, Spread]) -> Moves[Mapping[str, float]]:
    """Return independent causes, each moved alone.

    Parameters
    ----------
    causes : mapping of str to Spread

    Examples
    --------
    >>> moves_of({"a": Spread(7, 10, 13), "b": Spread.exactly(2)}).ends
    (('a', {'a': 7, 'b': 2}, {'a': 13, 'b': 2}),)
    """
    centre = {name: cause.value for name, cause in causes.items()}
    ends = tuple(
        (name, {**centre, name: cause.low}, {**centre, name: cause.high})
        for name, cause in causes.items()
        if cause.low != cause.high
    )
    return Moves(centre, ends)


def beside(moves: Moves[Mapping[str, float]], causes: Mapping[str, Spread]) -> Moves[Mapping[str, float]]:
    """Return causes with further ones that have nothing to do with them.

    Parameters
    ----------
    moves : Moves
        Of causes.
    causes : mapping of str to Spread
        The further ones.

    Examples
    --------
    >>> beside(moves_of({"a": Spread(7, 10, 13)}), {"b": Spread(1, 2, 3)}).ends[1]
    ('b', {'a': 10, 'b': 1}, {'a': 10, 'b': 3})
    """
    more = moves_of(causes)
    ends = tuple((name, {**low, **more.centre}, {**high, **more.centre}) for name, low, high in moves.ends)
    others = tuple((name, {**moves.centre, **low}, {**moves.centre, **high}) for name, low, high in more.ends)
    return Moves({**moves.centre, **more.centre}, (*ends, *others), moves.misfit, moves.strayed)


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
    return moves_of(causes).spreads(answer)


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
