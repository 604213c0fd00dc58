"""A laid cord that closes up: its bundles press each other flat, come nearer to the axis and take up less."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import require
from calc.geometry.lay.helical_lay import lay_of_turns
from calc.numerics import Spread

if TYPE_CHECKING:
    from calc.geometry.lay.helical_lay import Lay


def closed(shape: Lay, squeeze: float) -> Lay:
    """Return the lay that is left when a pull has pressed its bundles flat against each other.

    Parameters
    ----------
    shape : Lay
        Unloaded, of round bundles.
    squeeze : float, >= 0.01 and <= 1
        Thickness under load / diameter, as for `pressed`. [-]

    Returns
    -------
    Lay
        Its ``diameter_m`` is the thickness that is left between neighbours.

    Raises
    ------
    DomainError
        ``number``, ``min`` or ``max`` for the squeeze.

    Notes
    -----
    Source: own derivation (``derived:closing``): length of bundle and turns stay, the distance between the
    bundles' axes falls to the thickness. Leaves out stretch of the fibres.

    Examples
    --------
    >>> from calc.geometry.lay.helical_lay import lay
    >>> round(closed(lay(0.002, 2, 0.3), 0.5).lay_rad, 4)
    0.1483
    """
    require("squeeze", squeeze, low=0.01, high=1.0)
    if squeeze == 1.0:
        return shape
    return lay_of_turns(shape.diameter_m * squeeze, shape.bundles, shape.turns_per_strand_m, 1.0)


def closing_up(shape: Lay) -> Spread:
    """Return how much longer a fresh cord grows when a pull presses its bundles flat: an estimate.

    Parameters
    ----------
    shape : Lay
        As laid by hand, of round bundles; the squeeze is ``bundle_squeeze`` of the constants.

    Returns
    -------
    Spread
        Strain of the cord; low where the bundles stay round. [-]

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> from calc.geometry.lay.helical_lay import lay
    >>> grown = closing_up(lay(0.0015, 2, 0.33))
    >>> [round(100 * each, 2) for each in (grown.low, grown.value, grown.high)]
    [0.0, 1.11, 2.09]
    """
    squeeze = practice("bundle_squeeze").spread
    low, value, high = (
        closed(shape, each).ratio / shape.ratio - 1.0 for each in (squeeze.high, squeeze.value, squeeze.low)
    )
    return Spread(low, value, high)
