"""How hard the bow pulls on the string, with its range, and how much the string grows under that pull."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from math import cos, exp, log
from typing import TYPE_CHECKING

from calc.data import practice
from calc.geometry.lay import middle_lay
from calc.mechanics.fibre import Load, creep, elastic_stretch, strand_strength, twist_efficiency
from calc.numerics import Spread

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.making.string.order import Order
    from calc.mechanics.estimate import BowEstimate


@dataclass(frozen=True, slots=True)
class Pull:
    """String tension at rest.

    Parameters
    ----------
    brace_n, draw_n : Spread
        Braced, and at full draw. [N]
    """

    brace_n: Spread
    draw_n: Spread


def pull(order: Order) -> Pull:
    """Return the tension of the braced and the fully drawn string.

    Parameters
    ----------
    order : Order
        What was planned.

    Raises
    ------
    DomainError
        As `BowEstimate.drawn`.

    Notes
    -----
    Source: `BowEstimate.drawn` (``derived:statics``), over everything that the bow may be.
    """
    found = order.bow.drawn(brace_m=order.brace_m).spreads(lambda at: {"brace": at.brace_n, "draw": at.draw_n})
    return Pull(found["brace"], found["draw"])


def body_lay() -> float:
    """Return the lay of a body half-way between the loosest that holds and the tightest of use [rad]."""
    return middle_lay(*(practice(name).spread.value for name in ("lay_loosest", "lay_tightest")))


def growth(order: Order, strands: int) -> dict[str, Spread]:
    """Return how much a string grows under the braced pull: ``strain`` at once, ``creep`` while it settles [-].

    Parameters
    ----------
    order : Order
        What was planned.
    strands : int
        In the whole string.

    Raises
    ------
    DomainError
        As `pull`.

    Notes
    -----
    Source: `elastic_stretch` at the lay of the body, `creep` over a usual settling (``settle_time``); what another
    bow pulls is `pull_share`.
    """
    line_kg_m = strands * order.yarn_kg_m
    pull_n = order.bow.drawn(brace_m=order.brace_m).centre.brace_n
    held_n = strand_strength(order.fibre, line_kg_m).value
    crept = creep(order.fibre, line_kg_m, Load(min(pull_n, held_n), practice("settle_time").spread.value))
    return {
        "strain": elastic_stretch(order.fibre, line_kg_m, pull_n, body_lay()),
        "creep": Spread(max(0.0, crept.low), crept.value, crept.high),
    }


def splice_share(at: Mapping[str, float]) -> float:
    """Return stretch of a splice / stretch of the body [-].

    Parameters
    ----------
    at : mapping of str to float
        With ``body_lay``, ``splice_lay`` [rad], ``tails_take`` [-].

    Notes
    -----
    Source: tails take over a share of the pull at the throat and nothing at their ends, evenly between; each cord
    stretches by ``1 / cos^3(lay)`` and what twist leaves of its stiffness (`twist_efficiency`).
    """
    return (1.0 - at["tails_take"] / 2.0) * _soft(at["splice_lay"]) / _soft(at["body_lay"])


def _soft(lay_rad: float) -> float:
    return 1.0 / (cos(lay_rad) ** 3 * twist_efficiency(lay_rad))


def pull_share(order: Order, at: Mapping[str, float]) -> float:
    """Return the braced pull of a bow at one set of causes / that of the bow as it is most likely [-].

    Parameters
    ----------
    order : Order
        What was planned.
    at : mapping of str to float
        One number for each cause of the bow.

    Notes
    -----
    Source: `BowEstimate.drawn` with each cause moved alone; ratios multiply. Stretch goes with it.
    """
    return exp(_off(order.bow, order.brace_m, at) - _off(order.bow, order.brace_m, order.bow.moves.centre))


def _off(bow: BowEstimate, brace_m: float, at: Mapping[str, float]) -> float:
    total = 0.0
    for name, (low, value, high), (below, above) in _slopes(bow, brace_m):
        by = at[name] - value
        total += by / (high - value) * above if by > 0.0 < high - value else 0.0
        total += by / (value - low) * -below if by < 0.0 < value - low else 0.0
    return total


@lru_cache(maxsize=64)
def _slopes(
    bow: BowEstimate, brace_m: float
) -> tuple[tuple[str, tuple[float, float, float], tuple[float, float]], ...]:
    """Return for each cause its low, value and high, and the logarithms of what its ends make of the braced pull."""
    plain = replace(bow, strings=(), forces=(), thread_gap_m=None)
    drawn, causes = plain.drawn(brace_m=brace_m), plain.moves
    middle_n = drawn.centre.brace_n
    return tuple(
        (
            name,
            (low[name], causes.centre[name], high[name]),
            (log(less.brace_n / middle_n), log(more.brace_n / middle_n)),
        )
        for (name, low, high), (_, less, more) in zip(causes.ends, drawn.ends, strict=True)
    )
