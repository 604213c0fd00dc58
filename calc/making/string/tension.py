"""How hard the bow pulls on the string, across the limb shapes that may be there."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from calc.mechanics.bow import end_tension
from calc.numerics import Spread

if TYPE_CHECKING:
    from calc.making.string.order import Order
    from calc.mechanics.bow import LimbShape

_SURE_DRAW = 1.4
"""Draw over working limb up to which a string and limbs of every shape can follow. [-]"""


@dataclass(frozen=True, slots=True)
class Pull:
    """String tension at rest, braced and at full draw [N]."""

    brace_n: Spread
    draw_n: Spread


def pull_at_brace(order: Order) -> float:
    """Return the tension of the braced string for the shape that was told, or a middle one [N].

    Raises
    ------
    DomainError
        As `pull`.

    Notes
    -----
    Source: the value of `pull`, without its spread. A draw that no shape could fail to follow is worked out for
    one shape alone; the first shapes fail at 1.55 working limbs.
    """
    if order.draw_m > _SURE_DRAW * order.bow.middle.limb_m:
        return pull(order).brace_n.value
    return _pulled(order, order.bow.bow.shape)[0]


def pull(order: Order) -> Pull:
    """Return the tension of the braced and the fully drawn string.

    Notes
    -----
    Source: `end_tension` for the shape that was told, low and high over all shapes the limbs may be.
    Leaves out string follow, which lowers the tension at brace.
    """
    middle = _pulled(order, order.bow.bow.shape)
    others = [middle, _pulled(order, "tapered"), _pulled(order, "uniform")]
    brace, draw = zip(*others, strict=True)
    return Pull(Spread(min(brace), middle[0], max(brace)), Spread(min(draw), middle[1], max(draw)))


def _pulled(order: Order, shape: LimbShape) -> tuple[float, float]:
    return end_tension(replace(order.bow.bow, shape=shape), order.brace_m, order.draw_m, order.draw_weight_n)
