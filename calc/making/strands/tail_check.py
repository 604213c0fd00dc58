"""Whether tails hold: the friction of their fibre, their wax and their lay against the pull they must let go of."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt
from typing import TYPE_CHECKING, Literal, TypeAlias

from calc.data import practice
from calc.errors import require
from calc.geometry.ends import holding_angle, wrap_angle
from calc.geometry.lay import lay
from calc.numerics import Spread, combine_ratios

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from calc.data import Fibre

Wax: TypeAlias = Literal["beeswax", "none", "slick"]
"""Beeswax, which grips; none; a hard or slippery wax."""
Hold: TypeAlias = Literal["sure", "likely", "doubtful", "slips"]
"""Longer than needed at the worst; than needed as a rule; than needed at the best; shorter than that."""


@dataclass(frozen=True, slots=True)
class TailCheck:
    """Tails held against what they need.

    Attributes
    ----------
    needed : Spread
        Tail that just holds. [m]
    shortest_m : float
        The shortest strand end beyond a loop. [m]
    """

    needed: Spread
    shortest_m: float

    @property
    def hold(self) -> Hold:
        """Whether the shortest of them holds."""
        if self.shortest_m >= self.needed.high:
            return "sure"
        if self.shortest_m >= self.needed.value:
            return "likely"
        return "doubtful" if self.shortest_m >= self.needed.low else "slips"


def tails(may_be: Iterable[Fibre], wax: Wax, bundle_m: float, bundles: int, shortest_m: float) -> TailCheck:
    """Return whether tails hold: their length against what friction asks of them.

    Parameters
    ----------
    may_be : iterable of Fibre
        What they are of; where several fit, the slickest is counted on.
    wax : {"beeswax", "none", "slick"}
        What the tails were rubbed with.
    bundle_m : float, > 0
        Diameter of one bundle without its tails. [m]
    bundles : int, 2 or 3
        Of the string.
    shortest_m : float, >= 0
        The shortest strand end. [m]

    Raises
    ------
    DomainError
        ``min`` and ``number`` for figures out of bounds.

    Notes
    -----
    Source: `holding_length` (``derived:holding``) in a splice of bundles doubled by their tails;
    friction, wax, squeeze and lay are causes of their own, in quadrature as ratios. An estimate: no tail was pulled.

    Examples
    --------
    >>> from calc.data import fibre
    >>> slick, rough = (tails([fibre(key)], "beeswax", 0.001, 2, 0.0508) for key in ("hmpe", "linen"))
    >>> slick.hold, rough.hold
    ('doubtful', 'likely')
    """
    require("shortest_m", shortest_m, low=0.0)
    slickest = min(may_be, key=lambda each: each.friction.value)
    doubled_m = bundle_m * sqrt(2.0)

    def needed(at: Mapping[str, float]) -> dict[str, float]:
        per_m = wrap_angle(1.0, lay(doubled_m, bundles, at["lay"]))
        return {"needed": holding_angle(at["friction"] * at["wax"], at["squeeze"]) / per_m}

    causes = {
        "friction": slickest.friction,
        "wax": _waxed(wax),
        "squeeze": practice("splice_squeeze").spread,
        "lay": practice("lay_splice").spread,
    }
    return TailCheck(combine_ratios(needed, causes)["needed"], shortest_m)


def _waxed(wax: Wax) -> Spread:
    """Return friction with a wax / friction without [-]."""
    if wax == "none":
        return Spread.exactly(1.0)
    return practice("wax_slick" if wax == "slick" else "wax_beeswax").spread
