"""The hardest pull of a shot before anything is known of the string, and the limbs' mass nobody has weighed."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from calc.data import peak_rows, practice
from calc.errors import DomainError, Problem, require
from calc.numerics import Spread

if TYPE_CHECKING:
    from calc.mechanics.bow import Shape

_USUAL = 9.0
"""Grains of arrow per pound of draw weight, in the middle of common practice for wooden bows (8 to 10)."""
_MIDDLE: Shape = "arc"


def peak_force_ratio(shape: Shape | None = None, grains: float | None = None) -> Spread:
    """Return the hardest pull in the string of a shot / draw weight [-].

    Parameters
    ----------
    shape : Shape, optional
        Of the limbs; over all shapes when nobody has looked. Limbs that bend by the handle are taken for an arc.
    grains : float, optional
        Grains of arrow per pound of draw weight, 5 to 15; over all of these, typical at 9, when it is not known.

    Raises
    ------
    DomainError
        ``min`` or ``max`` for an arrow outside the table.

    Notes
    -----
    Source: shots of many bows with many strings (``derived:links``), typical at the middle of
    them, low and high with five of a hundred beyond. `shot` answers for one bow. Leaves out a shot without an arrow,
    which pulls harder still.

    Examples
    --------
    >>> peak_force_ratio("tapered", 9.0).value < peak_force_ratio().value < peak_force_ratio("uniform", 9.0).value
    True
    """
    if shape is not None:
        return _over_arrows(_MIDDLE if shape == "hinged" else shape, grains)
    each = [_over_arrows(one, grains) for one in _shapes()]
    return Spread(min(one.low for one in each), _over_arrows(_MIDDLE, grains).value, max(one.high for one in each))


def _shapes() -> tuple[Shape, ...]:
    return ("arc", "tapered", "uniform")


def _over_arrows(shape: Shape, grains: float | None) -> Spread:
    rows = [(row.grains_per_pound, row.ratio) for row in peak_rows() if row.shape == shape]
    if grains is not None:
        return _between(rows, grains)
    return Spread(min(one.low for _, one in rows), _between(rows, _USUAL).value, max(one.high for _, one in rows))


def _between(rows: list[tuple[float, Spread]], grains: float) -> Spread:
    """Return the row of an arrow, on the straight line between its neighbours."""
    require("grains", grains, low=rows[0][0], high=rows[-1][0])
    (before, one), (after, other) = next(pair for pair in pairwise(rows) if grains <= pair[1][0])
    part = (grains - before) / (after - before)
    ends = ((one.low, other.low), (one.value, other.value), (one.high, other.high))
    return Spread(*(a + part * (b - a) for a, b in ends))


def usual_limb_mass(brace_m: float, draw_m: float, draw_force_n: float) -> Spread:
    """Return what one working limb may weigh when nobody has weighed it [kg].

    Parameters
    ----------
    brace_m, draw_m : float, > 0
        Brace height; full draw, from the same point. [m]
    draw_force_n : float, > 0
        Draw weight. [N]

    Raises
    ------
    DomainError
        ``min`` or ``number``; ``pair`` with reason ``draw_short``.

    Notes
    -----
    Formula: ``usual_limb_mass = limb_mass * draw_force_n * (draw_m - brace_m)``.

    Source: limbs of one kind of wood weigh as the energy they store; the figure is that of one recalled bow
    (``kooi1983``, ``limb_mass`` of the constants), low and high a guess around it. Weigh the limb, or a piece of it,
    where the speed matters.

    Examples
    --------
    >>> round(usual_limb_mass(0.1524, 0.7112, 152.297).value, 3)
    0.162
    """
    require("brace_m", brace_m, low=0.0)
    require("draw_m", draw_m, low=0.0, open_=True)
    require("draw_force_n", draw_force_n, low=0.0, open_=True)
    if draw_m <= brace_m:
        raise DomainError(Problem(field="draw_m", code="pair", other="brace_m", reason="draw_short"))
    return practice("limb_mass").spread.scaled(draw_force_n * (draw_m - brace_m))
