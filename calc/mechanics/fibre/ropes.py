"""Cord and rope by its rating: what a printed load means, and how fibres compare by weight and by thickness."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal, TypeAlias

from calc.data import practice, ropes
from calc.errors import DomainError, Problem, require
from calc.numerics import Spread, combine

if TYPE_CHECKING:
    from calc.data import Fibre, Rope

Basis: TypeAlias = Literal["weight", "thickness"]
"""Strands alike in weight for their length, or alike in thickness."""
Rating: TypeAlias = Literal["breaking", "working", "unknown"]
"""What a load on a label means."""


def working_load(strength_n: float, design_factor: float) -> float:
    """Return the load a rope may carry [N].

    Parameters
    ----------
    strength_n : float, >= 0
        Smallest breaking strength. [N]
    design_factor : float, >= 1
        How many times the load the rope must hold. [-]

    Raises
    ------
    DomainError
        ``min`` for figures below their bounds, ``number`` for those not finite.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> working_load(1200.0, 12.0)
    100.0
    """
    require("strength_n", strength_n, low=0.0)
    require("design_factor", design_factor, low=1.0)
    return strength_n / design_factor


def rated_strength(rated_n: float, rating: Rating) -> Spread:
    """Return what a cord with a load on its label breaks at [N].

    Parameters
    ----------
    rated_n : float, > 0
        The load on the label. [N]
    rating : str
        ``breaking`` strength, ``working`` load, or ``unknown``: then the cautious reading is the typical one.

    Raises
    ------
    DomainError
        ``min`` for a load that is not above 0, ``number`` for one that is not finite.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> rated_strength(1000.0, "unknown")
    Spread(low=900.0, value=1000.0, high=12000.0)
    """
    require("rated_n", rated_n, low=0.0, open_=True)
    breaking = practice("rated_break").spread.scaled(rated_n)
    working = practice("design_factor").spread.scaled(rated_n)
    if rating == "unknown":
        return Spread(breaking.low, breaking.value, working.high)
    return breaking if rating == "breaking" else working


def labelled(by_fibre: Spread, rated_n: float, rating: Rating, *, known: bool) -> Spread:
    """Return what one cord holds, its fibre and its label both asked.

    Parameters
    ----------
    by_fibre : Spread
        What a cord of this fibre and size holds. [N]
    rated_n, rating
        As for `rated_strength`.
    known : bool
        Whether somebody knows the fibre, who did not take it from the label.

    Returns
    -------
    Spread
        Never above what the fibre can hold. [N]

    Notes
    -----
    Source: own rule. Of a fibre that is known a breaking strength is believed, up to the most that the fibre can hold.
    Where nobody knows the fibre, or what the load means, a label can only lower the answer: it is no test.

    Examples
    --------
    >>> cord = Spread(400.0, 1000.0, 2000.0)
    >>> labelled(cord, 1500.0, "breaking", known=True)
    Spread(low=1350.0, value=1500.0, high=1950.0)
    >>> labelled(cord, 1800.0, "breaking", known=False) == labelled(cord, 1800.0, "unknown", known=True) == cord
    True
    """
    rated = rated_strength(rated_n, rating)
    if known and rating == "breaking":
        return Spread(*(min(each, by_fibre.high) for each in (rated.low, rated.value, rated.high)))
    return Spread(min(rated.low, by_fibre.low), min(rated.value, by_fibre.value), min(rated.high, by_fibre.high))


def strength_ratio(one: Fibre, other: Fibre, basis: Basis) -> Spread:
    """Return the strength of strands of one fibre / that of strands of another.

    Parameters
    ----------
    one, other : Fibre
        From the fibre table.
    basis : str
        ``weight`` or ``thickness``: the two give different answers; say which is meant.

    Notes
    -----
    Source: ratio of tenacities, times that of densities for strands of one thickness and packing
    (``fibre-table``). Of yarn: rope tables give polypropylene more, see `rope_ratio`.

    Examples
    --------
    >>> from calc.data import fibre
    >>> pair = fibre("polypropylene"), fibre("polyester")
    >>> round(strength_ratio(*pair, "weight").value, 2), round(strength_ratio(*pair, "thickness").value, 2)
    (0.75, 0.49)
    """
    causes = {"one": one.thread_n_per_kg_m, "other": other.thread_n_per_kg_m}
    if basis == "thickness":
        causes |= {"one_density": one.density_kg_m3, "other_density": other.density_kg_m3}
    dense = {"one_density": 1.0, "other_density": 1.0}
    return combine(lambda at: {"ratio": _ratio({**dense, **at})}, causes)["ratio"]


def _ratio(at: dict[str, float]) -> float:
    return at["one"] * at["one_density"] / (at["other"] * at["other_density"])


def rope(fibre_id: str, size_m: float) -> Rope:
    """Return a rope of the table (``ci1301``): ``nylon``, ``polyester`` or ``polypropylene``.

    Parameters
    ----------
    fibre_id : str
        Of the rope's fibre.
    size_m : float
        0.006, 0.008 or 0.010. [m]

    Raises
    ------
    DomainError
        ``choice`` for a rope that is not in the table.

    Notes
    -----
    Source: rope tables (``ci1301``), smallest strengths; only the sizes printed there, nothing between.

    Examples
    --------
    >>> round(rope("polypropylene", 0.006).strength_n)
    5004
    """
    made = [each for each in ropes() if each.fibre == fibre_id]
    if not made:
        raise DomainError(Problem(field="fibre_id", code="choice"))
    for each in made:
        if each.size_m == size_m:
            return each
    raise DomainError(Problem(field="size_m", code="choice"))


def rope_ratio(one: str, other: str, size_m: float, basis: Basis) -> float:
    """Return the strength of a rope of one fibre / that of another of the same size or weight [-].

    Parameters
    ----------
    one, other : str
        As for `rope`.
    size_m : float
        As for `rope`. [m]
    basis : str
        ``thickness``: ropes of that size; ``weight``: strength for their weight.

    Notes
    -----
    Source: smallest strengths of one series of rope tables (``ci1301``). They are a quarter to a half of what the
    yarn holds, so they are not a model of a twisted string.

    Examples
    --------
    >>> pair = "polypropylene", "polyester", 0.006
    >>> round(rope_ratio(*pair, "thickness"), 2), round(rope_ratio(*pair, "weight"), 2)
    (0.86, 1.43)
    """
    first, second = rope(one, size_m), rope(other, size_m)
    ratio = first.strength_n / second.strength_n
    if basis == "thickness":
        return ratio
    return ratio * second.linear_density_kg_m / first.linear_density_kg_m
