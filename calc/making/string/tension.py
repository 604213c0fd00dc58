"""How hard the bow pulls on the string, across the limb shapes that may be there."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.data import practice
from calc.mechanics.bow import Bow, end_tension
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
    handle_length_m = _handle(order)
    if order.draw_m > _SURE_DRAW * (order.nock_to_nock_m - handle_length_m) / 2.0:
        return pull(order).brace_n.value
    return _pulled(order, order.shape or "arc")[0]


def pull(order: Order) -> Pull:
    """Return the tension of the braced and the fully drawn string.

    Notes
    -----
    Source: `end_tension` for the shape that was told, low and high over all shapes the limbs may be.
    Leaves out string follow, which lowers the tension at brace.
    """
    middle = _pulled(order, order.shape or "arc")
    others = [middle, _pulled(order, "tapered"), _pulled(order, "uniform")]
    brace, draw = zip(*others, strict=True)
    return Pull(Spread(min(brace), middle[0], max(brace)), Spread(min(draw), middle[1], max(draw)))


def _pulled(order: Order, shape: LimbShape) -> tuple[float, float]:
    bow = Bow(nock_to_nock_m=order.nock_to_nock_m, handle_length_m=_handle(order), shape=shape)
    return end_tension(bow, order.brace_m, order.draw_m, order.draw_weight_n)


def _handle(order: Order) -> float:
    return practice("handle_usual").spread.value if order.handle_length_m is None else order.handle_length_m
