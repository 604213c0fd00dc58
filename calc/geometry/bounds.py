"""Lengths that the geometry takes: no other number can make an answer that is not finite."""

from __future__ import annotations

from calc.errors import require

_FINEST_M = 1e-15
_FARTHEST_M = 1e9


def require_length(field: str, value_m: float) -> None:
    """Raise unless a length is finite, above zero and neither below nor beyond all sense.

    Parameters
    ----------
    field : str
        Name of the parameter, as the caller knows it.
    value_m : float
        What was given. [m]

    Raises
    ------
    DomainError
        ``number`` when not finite; ``min`` with limit 0 at or below zero; ``min`` or ``max`` beyond 1e-15 m
        and 1e9 m.

    Examples
    --------
    >>> require_length("diameter_m", 0.002)
    >>> require_length("diameter_m", 0.0)
    Traceback (most recent call last):
        ...
    calc.errors.DomainError: diameter_m: min (limit 0.0)
    """
    require(field, value_m, low=0.0, open_=True)
    require(field, value_m, low=_FINEST_M, high=_FARTHEST_M)
