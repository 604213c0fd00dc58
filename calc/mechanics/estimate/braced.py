"""The pull in a braced string where only the draw weight is known, and the stretch it brings."""

from __future__ import annotations

from math import hypot
from typing import TYPE_CHECKING

from calc.data import practice
from calc.mechanics.fibre import elastic_stretch
from calc.numerics import Spread

if TYPE_CHECKING:
    from collections.abc import Iterable

    from calc.data import Fibre


def braced_pull(draw_weight_n: float, known_n: float | None) -> Spread:
    """Return the pull in the braced string [N].

    Parameters
    ----------
    draw_weight_n : float, > 0
        [N]
    known_n : float or None, > 0
        Where it was worked out for this bow. [N]

    Notes
    -----
    Source: a usual multiple of the draw weight (``brace_pull`` in the constants, ``derived:statics``).

    Examples
    --------
    >>> braced_pull(100.0, 130.0)
    Spread(low=130.0, value=130.0, high=130.0)
    """
    if known_n is not None:
        return Spread.exactly(known_n)
    return practice("brace_pull").spread.scaled(draw_weight_n)


def widened(centre: Spread, ends: Iterable[float]) -> Spread:
    """Return a spread with one more independent cause, told by what it makes of the typical value.

    Parameters
    ----------
    centre : Spread
        With every other cause.
    ends : iterable of float
        The value at the low and at the high of the further cause.

    Notes
    -----
    Source: quadrature, as `calc.numerics.spread.combine` (``jcgm100``).

    Examples
    --------
    >>> widened(Spread(7.0, 10.0, 13.0), (6.0, 14.0))
    Spread(low=5.0, value=10.0, high=15.0)
    """
    moves = [each - centre.value for each in ends]
    below = hypot(centre.value - centre.low, max(0.0, -min(moves, default=0.0)))
    above = hypot(centre.high - centre.value, max(0.0, max(moves, default=0.0)))
    return Spread(centre.value - below, centre.value, centre.value + above)


def braced_stretch(fibre: Fibre, linear_density_kg_m: float, pull_n: Spread, lay_rad: float = 0.0) -> Spread:
    """Return the stretch of a braced string, its pull itself being uncertain.

    Parameters
    ----------
    fibre, linear_density_kg_m
        As for `elastic_stretch`.
    pull_n : Spread
        [N]
    lay_rad : float, 0 to less than pi/2
        Lay of the cord. [rad]

    Returns
    -------
    Spread
        Strain, never below 0. [-]

    Notes
    -----
    Source: `elastic_stretch` at the typical pull, `widened` by that at the ends.
    """
    middle = elastic_stretch(fibre, linear_density_kg_m, pull_n.value, lay_rad)
    if pull_n.low == pull_n.high:
        return middle
    wide = widened(
        middle,
        (elastic_stretch(fibre, linear_density_kg_m, each, lay_rad).value for each in (pull_n.low, pull_n.high)),
    )
    return Spread(max(0.0, wide.low), wide.value, wide.high)
