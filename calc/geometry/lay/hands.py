"""Which way it turns: S and Z."""

from __future__ import annotations

from typing import Literal, TypeAlias

from calc.errors import DomainError, Problem, require

Hand: TypeAlias = Literal["S", "Z"]


def signed(turns: float, hand: Hand) -> float:
    """Return turns with the sign of their hand: Z positive, S negative.

    Parameters
    ----------
    turns : float
        [turn]
    hand : str
        ``S`` or ``Z``: which middle stroke the turns slope like when the cord hangs.

    Returns
    -------
    float
        [turn]

    Raises
    ------
    DomainError
        ``choice`` for another hand, ``number`` for turns that are not finite.

    Notes
    -----
    Source: ``iso2``.

    Examples
    --------
    >>> signed(3.0, "S"), signed(3.0, "Z")
    (-3.0, 3.0)
    """
    require("turns", turns)
    if hand not in {"S", "Z"}:
        raise DomainError(Problem(field="hand", code="choice"))
    return turns if hand == "Z" else -turns


def hand_of(turns: float) -> Hand:
    """Return the hand of signed turns; none at all count as Z.

    Parameters
    ----------
    turns : float
        Signed. [turn]

    Raises
    ------
    DomainError
        ``number`` when not finite.

    Notes
    -----
    Source: ``iso2``.

    Examples
    --------
    >>> hand_of(-2.5), hand_of(1.0)
    ('S', 'Z')
    """
    require("turns", turns)
    return "S" if turns < 0.0 else "Z"
