"""Many strings at once: what each is cut to, what to buy for all, what to cut in which order, how long it takes."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import groupby
from math import fsum
from typing import TYPE_CHECKING

from calc.data import practice
from calc.making.string import (
    braces_made,
    chosen_for,
    cut,
    edges,
    lengths,
    measured,
    moves_at,
    serve,
)
from calc.numerics import Spread, combine

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from calc.making.strands import StringStrength
    from calc.making.string import Cuts, Order

FIGURES = (
    "string_length", "cord_diameter", "loop_upper", "loop_lower", "body_raw", "cut_length", "cord_total", "turns_body",
    "turns_loop", "turns_loop_lower", "counter_twist_body",
)  # fmt: skip
"""What a string of a list is told; the same names and numbers as in `Plan`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedString:
    """One string of a list: as much of its plan as buying, cutting and its card need.

    Attributes
    ----------
    strands : int
        In the whole string.
    figures : mapping of str to float
        By the names in `FIGURES`, in SI.
    cut_m, cord_m, cord_diameter_m : Spread
        Each strand's length, all strands together, the plied body. [m]
    cuts : Cuts
    strength : StringStrength
        What it holds, and what the shot asks of it.
    brace_low_m, brace_high_m : float
        Brace heights that turns alone reach, when all turns out as typical. [m]
    """

    strands: int
    figures: Mapping[str, float]
    cut_m: Spread
    cord_m: Spread
    cord_diameter_m: Spread
    cuts: Cuts
    strength: StringStrength
    brace_low_m: float
    brace_high_m: float


@lru_cache(maxsize=4096)
def list_string(order: Order) -> PlannedString:
    """Work out one string of a list: the numbers of `plan_string`, without what only the bench sheet shows.

    Parameters
    ----------
    order : Order

    Returns
    -------
    PlannedString

    Raises
    ------
    DomainError
        As `plan_string`.

    Notes
    -----
    Source: as `plan_string`; remembered, so that a list worked out in parts is worked out once.
    """
    loosest, tightest = (practice(name).spread.value for name in ("lay_loosest", "lay_tightest"))
    chosen = chosen_for(order)
    strands = chosen.strands
    moves = moves_at(order, strands)
    centre = moves.centre
    made = lengths(order, strands, centre)
    window = edges(order, made, loosest, tightest)
    low_m, high_m = braces_made(order, made, strands, centre, (window.loose.turns, window.tight.turns))

    def answer(at: Mapping[str, float]) -> dict[str, float]:
        found = lengths(order, strands, at)
        return {"cut": cut(order, strands, found).cut_m, "diameter": found.lays.body.cord_diameter_m}

    spreads = moves.spreads(answer)
    every = measured(order, strands, centre)
    return PlannedString(
        strands=strands,
        figures={name: every[name] for name in FIGURES},
        cut_m=spreads["cut"],
        cord_m=spreads["cut"].scaled(strands),
        cord_diameter_m=spreads["diameter"],
        cuts=cut(order, strands, made),
        strength=chosen.strength,
        brace_low_m=low_m,
        brace_high_m=high_m,
    )


@lru_cache(maxsize=256)
def thread_for(cord: Spread, thread_m: float, served_m: float) -> Spread:
    """Return the serving thread to cut for one string [m].

    Parameters
    ----------
    cord : Spread
        Diameter of the cord. [m]
    thread_m, served_m : float, > 0
        Diameter of the thread; served length. [m]

    Raises
    ------
    DomainError
        As `serve`.

    Notes
    -----
    Source: `serve` and what its ends take (``common-practice``), with the spreads of the serving worksheet.
    """
    serve(cord.value, thread_m, served_m)

    def answer(at: Mapping[str, float]) -> dict[str, float]:
        thin_m = min(thread_m * (1.0 + at["thread"]), at["cord"])
        return {"cut": serve(at["cord"], thin_m, served_m, at["press"]).thread_m + at["ends"]}

    causes = {
        "cord": cord,
        "thread": practice("thickness_reading").spread,
        "press": practice("thread_press").spread,
        "ends": practice("serving_ends").spread,
    }
    return combine(answer, causes)["cut"]


@dataclass(frozen=True, slots=True, kw_only=True)
class StringsWanted:
    """Strings all alike that somebody wants.

    Attributes
    ----------
    name : str
        Whose, or for which bow.
    colours : tuple of str
        Of the bundles in turn, repeated when there are more bundles; empty when colour does not matter.
    strings : int, >= 1
    order : Order
    """

    name: str
    colours: tuple[str, ...]
    strings: int
    order: Order


@dataclass(frozen=True, slots=True, order=True)
class CordKind:
    """What is bought by name.

    Attributes
    ----------
    fibre : str
        Its id.
    yarn_kg_m : float
        Size of the strand. [kg/m]
    colour : str
        As the list has it.
    """

    fibre: str
    yarn_kg_m: float
    colour: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CordPiece:
    """Strands of one cord to cut to one length, and for whom.

    Attributes
    ----------
    cord : CordKind
        What they are cut from.
    length_m : float
        Cut length of each. [m]
    count : int
        How many.
    names : tuple of str
        Whose strings they are for.
    """

    cord: CordKind
    length_m: float
    count: int
    names: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bought:
    """One cord to buy.

    Attributes
    ----------
    cord : CordKind
        Which.
    net_m, bought_m : Spread
        Without and with waste. [m]
    bought_kg : Spread
        Its weight with waste. [kg]
    strands : int
        To cut from it.
    """

    cord: CordKind
    net_m: Spread
    bought_m: Spread
    bought_kg: Spread
    strands: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Club:
    """A list of strings summed up.

    Attributes
    ----------
    strings, strands : int
        How many, in all.
    bought : tuple of Bought
        What to buy, cord by cord.
    pieces : tuple of CordPiece
        What to cut.
    net_m, bought_m : Spread
        All cords, without and with waste. [m]
    bought_kg : Spread
        All cords with waste. [kg]
    """

    strings: int
    strands: int
    bought: tuple[Bought, ...]
    pieces: tuple[CordPiece, ...]
    net_m: Spread
    bought_m: Spread
    bought_kg: Spread


def sum_up(wanted: Sequence[tuple[StringsWanted, PlannedString]], waste: float) -> Club:
    """Sum up strings that are worked out.

    Parameters
    ----------
    wanted : sequence of (StringsWanted, PlannedString)
        In the order of the list.
    waste : float, >= 0
        Bought over what is cut, as a share of it. [-]

    Returns
    -------
    Club
        ``pieces`` by cord, longest first; pieces of one length stand together.

    Notes
    -----
    Source: sums (``derived:cut``). Lows and highs are added as if all went the same way, which never promises too
    little spread: fibre and way of working are the same for all. Leaves out hanks that are too short to cut from.
    """
    shares = [(_cord(want, k), want, listed) for want, listed in wanted for k in range(want.order.bundles)]
    shares.sort(key=lambda share: (share[0], -share[2].cuts.cut_m))
    bought, pieces = [], []
    for cord, group in groupby(shares, key=lambda share: share[0]):
        found = list(group)
        nets = [listed.cord_m.scaled(want.strings / want.order.bundles) for _, want, listed in found]
        net, strands = sum_spreads(nets), sum(_count(want, listed) for _, want, listed in found)
        more = net.scaled(1.0 + waste)
        bought.append(
            Bought(cord=cord, net_m=net, bought_m=more, bought_kg=more.scaled(cord.yarn_kg_m), strands=strands)
        )
        pieces += _pieces(cord, found)
    return Club(
        strings=sum(want.strings for want, _ in wanted),
        strands=sum(each.strands for each in bought),
        bought=tuple(bought),
        pieces=tuple(pieces),
        net_m=sum_spreads(each.net_m for each in bought),
        bought_m=sum_spreads(each.bought_m for each in bought),
        bought_kg=sum_spreads(each.bought_kg for each in bought),
    )


def _cord(want: StringsWanted, bundle: int) -> CordKind:
    colour = want.colours[bundle % len(want.colours)] if want.colours else ""
    return CordKind(want.order.cord.words, want.order.yarn_kg_m, colour)


def _count(want: StringsWanted, listed: PlannedString) -> int:
    """Return the strands one bundle of every string takes."""
    return want.strings * listed.strands // want.order.bundles


def _pieces(cord: CordKind, found: Iterable[tuple[CordKind, StringsWanted, PlannedString]]) -> list[CordPiece]:
    pieces = []
    for length_m, group in groupby(found, key=lambda share: share[2].cuts.cut_m):
        alike = [(want.name, _count(want, listed)) for _, want, listed in group]
        names = tuple(dict.fromkeys(name for name, _ in alike))
        pieces.append(CordPiece(cord=cord, length_m=length_m, count=sum(count for _, count in alike), names=names))
    return pieces


def sum_spreads(spreads: Iterable[Spread]) -> Spread:
    """Return the sum of spreads, of their lows and highs too.

    Parameters
    ----------
    spreads : iterable of Spread
        In one unit.
    """
    found = list(spreads)
    return Spread(*(fsum(getattr(each, end) for each in found) for end in ("low", "value", "high")))
