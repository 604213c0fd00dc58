"""The tuning window: which brace heights a string, once cut, can be brought to by turns alone."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import sqrt
from typing import TYPE_CHECKING

from calc.geometry.ends import loop_of_length, shortest_loop
from calc.making.string.raw_lengths import lays_at, reach_m
from calc.making.string.tension import splice_share
from calc.making.string.turns import plied, turned_to_count, turned_to_lay

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from calc.making.string.order import Order
    from calc.making.string.raw_lengths import Lays, Lengths, Looped
    from calc.making.string.turns import Plied

_of_length = lru_cache(maxsize=256)(loop_of_length)
_shortest = lru_cache(maxsize=256)(shortest_loop)


@dataclass(frozen=True, slots=True)
class Edges:
    """The body at both ends of the window.

    Parameters
    ----------
    loose : Plied
        At the loosest lay that holds.
    tight : Plied
        At the tightest lay that is of use.
    """

    loose: Plied
    tight: Plied


def edges(order: Order, made: Lengths, loosest_rad: float, tightest_rad: float) -> Edges:
    """Return both ends of the window for a string as planned.

    Parameters
    ----------
    order : Order
        What was planned.
    made : Lengths
        The string as planned.
    loosest_rad, tightest_rad : float
        Lays at the ends. [rad]
    """
    bundle_m = made.lays.bundle_m
    return Edges(
        turned_to_lay(made.middle, bundle_m, order.bundles, loosest_rad),
        turned_to_lay(made.middle, bundle_m, order.bundles, tightest_rad),
    )


def braces_made(
    order: Order, made: Lengths, strands: int, at: Mapping[str, float], counts: Iterable[float]
) -> tuple[float, ...]:
    """Return the brace heights a string that is already cut gives at counts of body turns. [m].

    Parameters
    ----------
    order, made, strands
        The string as planned: its raw lengths, loop and splice lays are kept.
    at : mapping of str to float
        What the causes turn out to be, as for `lengths`.
    counts : iterable of float, >= 0
        Turns in the body between the splices. [turn]

    Returns
    -------
    tuple of float
        0 where the string is too long to brace the bow.

    Notes
    -----
    Source: own composition. Leaves out the change of stretch with brace height.
    """
    bow = order.bow.state(at)
    return tuple(bow.brace_m(each) for each in strings_made(order, made, strands, at, counts))


def strings_made(
    order: Order, made: Lengths, strands: int, at: Mapping[str, float], counts: Iterable[float]
) -> tuple[float, ...]:
    """Return how long a string that is already cut is on the braced bow, nock to nock, at counts of body turns [m].

    Parameters
    ----------
    order, made, strands, at, counts
        As for `braces_made`.
    """
    shape = lays_at(order, strands, at)
    ends_m = sum(_reach(order, end, shape, at) for end in (made.upper, made.lower))
    splice = plied(order.tail_m, shape.bundle_m * sqrt(2.0), order.bundles, at["splice_lay"], at["twist_held"])
    splice_m = 2.0 * splice.cord_m * (1.0 + at["strain"] * splice_share(at))
    grown = (1.0 + at["bedding"]) * (1.0 + at["creep"])
    found = []
    for turns in counts:
        middle = turned_to_count(made.middle, shape.bundle_m, order.bundles, turns)
        stretched_m = middle.cord_m * (1.0 + at["strain"]) + splice_m
        found.append(stretched_m * grown + ends_m + at["alike"])
    return tuple(found)


def _reach(order: Order, end: Looped, shape: Lays, at: Mapping[str, float]) -> float:
    """Return a made loop's reach: its raw bundle is fixed, its take-up is not."""
    made = plied(end.raw.raw_m, shape.bundle_m, order.bundles, at["loop_lay"], at["twist_held"])
    cord_m = shape.loop.cord_diameter_m
    least_m = _shortest(end.section, cord_m).length_m
    loop = _of_length(end.section, cord_m, max(made.cord_m, least_m))
    return reach_m(end.section, loop, at["seat"])
