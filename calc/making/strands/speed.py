"""What the weight of a string costs in arrow speed."""

from __future__ import annotations

from math import sqrt
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import require
from calc.numerics import Spread, combine
from calc.units import GRAIN, POUND_FORCE

if TYPE_CHECKING:
    from collections.abc import Mapping


def usual_arrow(draw_weight_n: float) -> Spread:
    """Return the weight of an arrow usual for a wooden bow [kg].

    Parameters
    ----------
    draw_weight_n : float, > 0
        [N]

    Notes
    -----
    Source: grains for each pound of draw weight, as the trade has it (``arrow_least`` in the constants).

    Examples
    --------
    >>> round(usual_arrow(40 * POUND_FORCE).value / GRAIN)
    360
    """
    return practice("arrow_least").spread.scaled(GRAIN * draw_weight_n / POUND_FORCE)


def speed_kept(arrow_kg: float, string_kg: float, other_kg: float) -> Spread:
    """Return the arrow's speed off a string of another weight / its speed off this one.

    Parameters
    ----------
    arrow_kg, string_kg : float, > 0
        [kg]
    other_kg : float, >= 0
        Weight of the other string, as stiff as this one. [kg]

    Returns
    -------
    Spread
        Below 1 where the other is heavier. [-]

    Raises
    ------
    DomainError
        ``min`` for weights below their bounds, ``number`` for those not finite.

    Notes
    -----
    Source: a share of the string's weight moves like the arrow, a third if its parts move evenly
    (``hickman-kibbe``: ``string_share`` and ``arrow_share`` in the constants), and the same energy moves all of it.
    Leaves out that more strands are stiffer, which gives a little of it back.

    Examples
    --------
    >>> speed_kept(0.025, 0.004, 0.004)
    Spread(low=1.0, value=1.0, high=1.0)
    >>> round(speed_kept(0.025, 0.004, 0.008).value, 3)
    0.983
    """
    require("arrow_kg", arrow_kg, low=0.0, open_=True)
    require("string_kg", string_kg, low=0.0, open_=True)
    require("other_kg", other_kg, low=0.0)

    def kept(at: Mapping[str, float]) -> dict[str, float]:
        moving = max(arrow_kg / at["arrow"], arrow_kg + at["string"] * string_kg)
        return {"kept": sqrt(moving / (moving + at["string"] * (other_kg - string_kg)))}

    causes = {"arrow": practice("arrow_share").spread, "string": practice("string_share").spread}
    return combine(kept, causes)["kept"]
