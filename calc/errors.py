"""What can be wrong with an input, as data: which field, in what way, against which limit.

The rooms above raise these; only worksheets turn them into sentences.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import inf, isfinite
from typing import Literal

Code = Literal[
    "missing",  # nothing was given
    "number",  # not a number, or not finite
    "unit",  # a unit of another quantity, or none that is known
    "ambiguous",  # two readings, both possible: `readings`
    "choice",  # not one of the options
    "min",  # below `limit` (SI)
    "max",  # above `limit` (SI)
    "pair",  # does not go together with the field `other`
    "model",  # outside what the model can answer: `reason` names the sentence
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One thing wrong with one input.

    Attributes
    ----------
    field : str
        Name of the input.
    code : Code
        In what way it is wrong.
    limit : float or None
        What it must not pass, in SI, for ``min`` and ``max``.
    other : str
        The field that it does not go together with, for ``pair``.
    reason : str
        Names the sentence to show, for ``model``.
    readings : tuple of str
        What it may mean, for ``ambiguous``.
    """

    field: str
    code: Code
    limit: float | None = None
    other: str = ""
    reason: str = ""
    readings: tuple[str, ...] = ()


class DomainError(ValueError):
    """Raised for an input outside a function's domain.

    Attributes
    ----------
    problem : Problem
        What is wrong.
    """

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        super().__init__(f"{problem.field}: {problem.reason or problem.code} (limit {problem.limit})")


def require(field: str, value: float, *, low: float = -inf, high: float = inf, open_: bool = False) -> None:
    """Raise unless `value` is finite and within bounds; NaN never passes.

    Parameters
    ----------
    field : str
        Name of the parameter, as the caller knows it.
    value : float
        What was given.
    low, high : float
        Bounds, included unless `open_`.
    open_ : bool
        True when the bounds themselves are outside the domain.

    Raises
    ------
    DomainError
        ``number`` when not finite, ``min`` or ``max`` when out of bounds.

    Examples
    --------
    >>> require("length_m", 1.0, low=0.0, open_=True)
    >>> require("length_m", float("nan"), low=0.0)
    Traceback (most recent call last):
        ...
    calc.errors.DomainError: length_m: number (limit None)
    """
    if low < value < high:
        return
    if not isfinite(value):
        raise DomainError(Problem(field=field, code="number"))
    if value < low or (open_ and value == low):
        raise DomainError(Problem(field=field, code="min", limit=low))
    if value > high or (open_ and value == high):
        raise DomainError(Problem(field=field, code="max", limit=high))
