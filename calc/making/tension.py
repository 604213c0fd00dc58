"""How hard the bow pulls on the string, across the limb shapes that may be there."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.data import practice
from calc.mechanics import Bow, end_tension
from calc.spread import Spread

if TYPE_CHECKING:
    from calc.making.order import Order
    from calc.mechanics import Shape


@dataclass(frozen=True, slots=True)
class Pull:
    """String tension at rest, braced and at full draw [N]."""

    brace_n: Spread
    draw_n: Spread


def pull(order: Order) -> Pull:
    """Return the tension of the braced and the fully drawn string.

    Notes
    -----
    Source: `end_tension` for the shape that was told, low and high over all shapes the limbs may be.
    Leaves out string follow, which lowers the tension at brace.
    """
    handle_m = practice("handle_usual").spread.value if order.handle_m is None else order.handle_m

    def at(shape: Shape) -> tuple[float, float]:
        bow = Bow(nock_to_nock_m=order.nock_to_nock_m, handle_m=handle_m, shape=shape)
        return end_tension(bow, order.brace_m, order.draw_m, order.draw_weight_n)

    middle = at(order.shape or "arc")
    others = [middle, at("tapered"), at("uniform")]
    brace, draw = zip(*others, strict=True)
    return Pull(Spread(min(brace), middle[0], max(brace)), Spread(min(draw), middle[1], max(draw)))
