"""What a made string keeps of the strength of its strands, factor by factor."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import atan, cos, pi, sqrt, tan
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import require
from calc.mechanics.fibre.fibres import twist_efficiency
from calc.mechanics.fibre.sharing import sharing_efficiency
from calc.numerics import Spread, combine_ratios

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.data import Fibre

STEEPEST_RAD = 1.5

_HEAVIEST_KG_M = 1e6


def strand_strength(fibre: Fibre, linear_density_kg_m: float) -> Spread:
    """Return what one straight, dry strand holds [N].

    Parameters
    ----------
    fibre : Fibre
        From the fibre table.
    linear_density_kg_m : float, > 0 and up to 1e6
        Of the strand. [kg/m]

    Raises
    ------
    DomainError
        ``min`` or ``max`` for a linear density out of bounds, ``number`` for one that is not finite.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> from calc.data import fibre
    >>> round(strand_strength(fibre("polyester"), 167e-6).value, 1)
    133.6
    """
    require("linear_density_kg_m", linear_density_kg_m, low=0.0, open_=True)
    require("linear_density_kg_m", linear_density_kg_m, high=_HEAVIEST_KG_M)
    return fibre.thread_n_per_kg_m.scaled(linear_density_kg_m)


def wet_strength(fibre: Fibre, linear_density_kg_m: float) -> Spread:
    """Return what one straight strand holds when it is soaked [N].

    Parameters
    ----------
    fibre, linear_density_kg_m
        As for `strand_strength`.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> from calc.data import fibre
    >>> round(wet_strength(fibre("silk"), 1e-3).value)
    146
    """
    return _product(dry=strand_strength(fibre, linear_density_kg_m), wet=fibre.wet_ratio)


def lay_efficiency(lay_rad: float) -> Spread:
    """Return what laying leaves of the strength of its strands.

    Parameters
    ----------
    lay_rad : float, >= 0 and up to `STEEPEST_RAD`
        Lay angle where the whole pull is borne. [rad]

    Raises
    ------
    DomainError
        ``min`` or ``max`` for a lay out of bounds, ``number`` for one that is not finite.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> kept = lay_efficiency(0.3)
    >>> round(kept.low, 3), round(kept.value, 3), round(kept.high, 3)
    (0.826, 0.892, 0.955)
    """
    require("lay_rad", lay_rad, low=0.0, high=STEEPEST_RAD)
    left = practice("twist_left").spread
    along = cos(lay_rad)
    kept = [along * twist_efficiency(atan(share * tan(lay_rad))) for share in (left.high, left.value, left.low)]
    return Spread(*kept)


def loop_efficiency(tip_m: float, cord_m: float, throat_rad: float) -> Spread:
    """Return what a loop round a limb tip holds / what the straight string holds.

    Parameters
    ----------
    tip_m : float, >= cord_m
        Diameter the loop is bent round. [m]
    cord_m : float, > 0
        Diameter of the cord of the loop. [m]
    throat_rad : float, >= 0 and below a right angle twice
        Angle between the legs of the loop. [rad]

    Returns
    -------
    Spread
        Above 1 where the string breaks first. [-]

    Raises
    ------
    DomainError
        ``min`` or ``max`` for figures out of bounds, ``number`` for those not finite.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> round(loop_efficiency(0.012, 0.003, 0.0).value, 2)
    1.5
    """
    require("cord_m", cord_m, low=0.0, open_=True)
    require("tip_m", tip_m, low=cord_m)
    require("throat_rad", throat_rad, low=0.0)
    require("throat_rad", throat_rad, high=pi, open_=True)
    legs, bend, loss = 2.0 * cos(throat_rad / 2.0), sqrt(cord_m / tip_m), practice("bend_loss").spread
    low, value, high = (legs * (1.0 - each * bend) for each in (loss.high, loss.value, loss.low))
    return Spread(low, value, high)


@lru_cache(maxsize=64)
def assembly_efficiency(lay_rad: float, sharing: Spread | None = None) -> Spread:
    """Return the strength of a made string / sum of its strands.

    Parameters
    ----------
    lay_rad : float, >= 0 and up to `STEEPEST_RAD`
        Lay angle where the whole pull is borne. [rad]
    sharing : Spread or None
        From `sharing_efficiency`; None: the trade's constant, whatever the fibre. [-]

    Notes
    -----
    Source: `lay_efficiency` x sharing x what splices leave (``ends`` in the constants), as ratios in quadrature. It
    is not fitted to what broken strings kept (`measured_efficiency`), which lies inside the spread.

    Examples
    --------
    >>> made = assembly_efficiency(0.2)
    >>> made.low < measured_efficiency().value < made.high
    True
    """
    shared = practice("sharing").spread if sharing is None else sharing
    return _product(lay=lay_efficiency(lay_rad), sharing=shared, ends=practice("ends").spread)


@dataclass(frozen=True, slots=True)
class Assembly:
    """What a made string keeps, factor by factor [-].

    Attributes
    ----------
    lay, sharing, ends, loop, efficiency : Spread
        What the lay leaves; what uneven strands leave; what the splices leave; what a loop that breaks before the
        string leaves; what all of them leave together.
    """

    lay: Spread
    sharing: Spread
    ends: Spread
    loop: Spread
    efficiency: Spread


def assembly(fibre: Fibre, strands: int, lay_rad: float, loop: Spread | None = None) -> Assembly:
    """Return the factors of a made string's strength, with the sharing worked out for its fibre and count.

    Parameters
    ----------
    fibre, strands
        As for `sharing_efficiency`.
    lay_rad
        As for `assembly_efficiency`.
    loop : Spread or None
        What `loop_efficiency` leaves; only below 1 does it count. Without it loops count as no weaker than the
        string. [-]

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> from calc.data import fibre
    >>> round(assembly(fibre("linen"), 18, 0.33).efficiency.value, 2)
    0.68
    """
    sharing, laid, ends = sharing_efficiency(fibre, strands), lay_efficiency(lay_rad), practice("ends").spread
    weakest = Spread.exactly(1.0)
    if loop is not None:
        weakest = Spread(min(1.0, loop.low), min(1.0, loop.value), min(1.0, loop.high))
    return Assembly(laid, sharing, ends, weakest, _product(lay=laid, sharing=sharing, ends=ends, loop=weakest))


def measured_efficiency() -> Spread:
    """Return what broken strings kept of the sum of their strands, on the mean [-].

    Notes
    -----
    Source: ``efficiency_ford`` of the constants (``ford-nagler``).
    """
    return practice("efficiency_ford").spread


def breaking_force(fibre: Fibre, linear_density_kg_m: float, efficiency: Spread) -> Spread:
    """Return what a made string holds [N].

    Parameters
    ----------
    fibre : Fibre
        From the fibre table.
    linear_density_kg_m : float, > 0
        Of all strands together. [kg/m]
    efficiency : Spread
        Made string / sum of strands, from `assembly_efficiency`. [-]

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> from calc.data import fibre
    >>> round(breaking_force(fibre("polyester"), 0.002, Spread.exactly(0.5)).value)
    800
    """
    return _product(sum=strand_strength(fibre, linear_density_kg_m), efficiency=efficiency)


def _product(**factors: Spread) -> Spread:
    """Multiply independent spreads."""

    def multiplied(at: Mapping[str, float]) -> dict[str, float]:
        product = 1.0
        for each in at.values():
            product *= each
        return {"product": product}

    return combine_ratios(multiplied, factors)["product"]
