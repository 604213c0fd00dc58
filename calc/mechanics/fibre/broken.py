"""One strand that was pulled until it broke: what the others of its kind hold."""

from __future__ import annotations

from math import exp, hypot, log
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import DomainError, Problem, require
from calc.numerics import Spread, conditioned

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.numerics import Moves

_NINETY = 1.6448536269514722
"""Standard deviations from the middle of a bell to the twentieth at its end."""
_APART = 2.0
"""A break further off from what was known, in units of how unsure both are, does not go with it."""


def broken_strength(known: Spread, broken_n: float) -> Spread:
    """Return what one strand holds, now that one was broken on a scale.

    Parameters
    ----------
    known : Spread, > 0
        What fibre, size and label say. [N]
    broken_n : float, > 0
        The pull at which it broke. [N]

    Returns
    -------
    Spread
        [N]

    Raises
    ------
    DomainError
        ``model`` with field ``broken_n`` and reason ``broke_strong`` where no strand like that holds so much; ``min``
        or ``number``.

    Notes
    -----
    Source: `conditioned` (``derived:estimate``) of the logarithms: strands differ (``strand_scatter`` of the
    constants), a scale is off (``weight_reading``), and a strand breaks early where it is held (``grip_kept``). Where
    one broke at so little that this does not go together, the break alone counts: own rule, the weaker is the safer.

    Examples
    --------
    >>> told = broken_strength(Spread(80.0, 130.0, 160.0), 120.0)
    >>> round(told.low), round(told.value), round(told.high)
    (116, 127, 141)
    >>> broken_strength(Spread(80.0, 130.0, 160.0), 30.0).value
    30.0
    """
    found = _fitted(known, broken_n)
    if found.misfit <= _APART:
        told = found.spread(lambda at: at["strength"])
        return Spread(*(known.value * exp(each) for each in (told.low, told.value, told.high)))
    if broken_n > known.value:
        raise DomainError(Problem(field="broken_n", code="model", limit=known.high, reason="broke_strong"))
    return Spread(broken_n * exp(-_unsure()), broken_n, broken_n * exp(_unsure()))


def broke_early(known: Spread, broken_n: float) -> bool:
    """Return whether a strand broke at less than any like it holds: it was nicked, knotted, or of something else.

    Parameters
    ----------
    known, broken_n
        As for `broken_strength`. [N]

    Notes
    -----
    Source: own rule, as `broken_strength`.

    Examples
    --------
    >>> broke_early(Spread(80.0, 130.0, 160.0), 30.0), broke_early(Spread(80.0, 130.0, 160.0), 120.0)
    (True, False)
    """
    return broken_n < known.value and _fitted(known, broken_n).misfit > _APART


def _unsure() -> float:
    """Return how far off one break is, as a logarithm: strands differ, and so do scales [-]."""
    return hypot(_NINETY * practice("strand_scatter").spread.value, practice("weight_reading").spread.high)


def _fitted(known: Spread, broken_n: float) -> Moves[Mapping[str, float]]:
    """Return the logarithm of a strand's strength / what was known, and what its grip left of it."""
    require("broken_n", broken_n, low=0.0, open_=True)
    causes = {"strength": _logs(known, known.value), "grip": _logs(practice("grip_kept").spread, 1.0)}

    def off(at: Mapping[str, float]) -> list[float]:
        return [(at["strength"] + at["grip"] - log(broken_n / known.value)) / _unsure()]

    return conditioned(causes, off)


def _logs(each: Spread, middle: float) -> Spread:
    return Spread(*(log(end / middle) for end in (each.low, each.value, each.high)))
