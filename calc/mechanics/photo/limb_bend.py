"""How limbs bend as one number, from where along them the bend lies."""

from __future__ import annotations

from math import cos, sin, sqrt
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import DomainError, Problem, require
from calc.mechanics.bow import limb, set_angles
from calc.numerics import NoRootError, Spread, find_roots

if TYPE_CHECKING:
    from calc.mechanics.bow import LimbShape
    from calc.numerics import Residual

_BETWEEN: tuple[LimbShape, ...] = ("tapered", "arc", "uniform")
"""Limbs whose bend lies nearer and nearer to the handle."""
_START = 2.0
_EDGE = 2.0
"""Further from even than this no limb of these shapes is told: it bends by its handle, or by its nock alone. [-]"""


def bend_between(across: float, pull_rad: float, follow: float, bend_at: Spread) -> Spread:
    """Return where limbs lie between tapered ones (-1), even ones (0) and ones alike all along (1) [-].

    Parameters
    ----------
    across : float, > 0
        How far the tips stand off the line of the limbs' roots. [limb lengths]
    pull_rad : float, >= 0
        The string's slope against the line of the tips. [rad]
    follow : float
        Set, negative for reflex. [limb lengths]
    bend_at : Spread
        The middle of the bend along the limb, 0 at its root and 1 at its nock. [-]

    Returns
    -------
    Spread
        With what is known of limbs nobody looked at, ``limb_unknown`` of the constants.

    Raises
    ------
    DomainError
        ``min`` or ``number``; ``model`` with field ``string`` and reason ``bend_unheld`` for limbs that no string holds
        so.

    Notes
    -----
    Source: the middle of the bend of limbs of each shape, held as these are (`middle_of_bend`; ``derived:limbs``),
    and on a straight line between. Two independent tellings are weighed by the squares of their spreads
    (``jcgm100``).
    """
    at = [middle_of_bend(shape, across, pull_rad, follow) for shape in _BETWEEN]
    if not at[0] > at[1] > at[2]:
        raise DomainError(Problem(field="string", code="model", reason="bend_unheld"))

    def told(place: float) -> float:
        known = at[1] - place
        return max(-_EDGE, min(_EDGE, known / (at[1] - at[2]) if known > 0.0 else known / (at[0] - at[1])))

    high, value, low = (told(each) for each in (bend_at.low, bend_at.value, bend_at.high))
    before = practice("limb_unknown").spread
    off, usual = (high - low) / 2.0, (before.high - before.low) / 2.0
    share = usual**2 / (usual**2 + off**2)
    left = sqrt(share) * off
    middle = share * value + (1.0 - share) * before.value
    return Spread(middle - left, middle, middle + left)


def middle_of_bend(shape: LimbShape, across: float, pull_rad: float, follow: float = 0.0) -> float:
    """Return where along a limb the middle of its bend lies, 0 at its root and 1 at its nock [-].

    Parameters
    ----------
    shape : LimbShape
        How it bends.
    across, pull_rad, follow
        As for `bend_between`.

    Raises
    ------
    DomainError
        As `bend_between`.

    Notes
    -----
    Source: the bend of a limb at a place is the string's pull x its distance / the limb's stiffness there
    (``derived:limbs``), solved by Newton's method for the limb whose tip stands off so far.

    Examples
    --------
    An even bend has its middle half-way, and limbs alike all along bend like a quarter of a wave: 1 - 2 / pi.

    >>> round(middle_of_bend("arc", 0.05, 0.0), 2), round(middle_of_bend("uniform", 0.01, 0.0), 3)
    (0.5, 0.363)
    """
    require("across", across, low=0.0, open_=True)
    require("pull_rad", pull_rad)
    bent = limb(shape, 6)
    rest = set_angles(bent.positions, follow)

    def equations(at: list[float]) -> Residual:
        angles, load = at[:-1], at[-1]
        lean = [weight * sin(angle + pull_rad) for weight, angle in zip(bent.reach, angles, strict=True)]
        turn = [weight * cos(angle + pull_rad) for weight, angle in zip(bent.reach, angles, strict=True)]
        off = [angle - free for angle, free in zip(angles, rest, strict=True)]
        wrong = [
            sum(k * each for k, each in zip(row, off, strict=True)) - load * pull
            for row, pull in zip(bent.stiffness, lean, strict=True)
        ]
        slopes = [[*row, -pull] for row, pull in zip(bent.stiffness, lean, strict=True)]
        for i, each in enumerate(turn):
            slopes[i][i] -= load * each
        rises = [weight * sin(angle) for weight, angle in zip(bent.reach, angles, strict=True)]
        climbs = [weight * cos(angle) for weight, angle in zip(bent.reach, angles, strict=True)]
        return [*wrong, sum(rises) - across], [*slopes, [*climbs, 0.0]]

    try:
        found = find_roots(equations, [*(2.0 * across * place for place in bent.positions), _START])
    except NoRootError:
        raise DomainError(Problem(field="string", code="model", reason="bend_unheld")) from None
    return _middle(bent.positions, found[:-1])


def _middle(places: tuple[float, ...], angles: list[float]) -> float:
    """Return the middle of the bend of a limb whose slope is the polynomial through its angles and 0 at its root."""
    knots = ((0.0, 0.0), *zip(places, angles, strict=True))
    steps = 4 * len(places)
    total = 0.0
    for k in range(steps + 1):
        at, slope = k / steps, 0.0
        for place, angle in knots:
            term = angle
            for other, _ in knots:
                if other != place:
                    term *= (at - other) / (place - other)
            slope += term
        total += (1.0 if k in {0, steps} else 4.0 if k % 2 else 2.0) * slope / 3.0 / steps
    return 1.0 - total / angles[-1]
