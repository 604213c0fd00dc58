"""One string, whole: from the order to cut lengths, turns, strength and the tuning window."""

from __future__ import annotations

from dataclasses import dataclass
from math import erfc, inf, sqrt
from typing import TYPE_CHECKING

from calc.data import practice
from calc.making.strands import Chosen, TailCheck, choose, tails
from calc.making.string.figures import causes_of, cut, measured, moves_at
from calc.making.string.next_reading import next_readings
from calc.making.string.raw_lengths import lengths
from calc.making.string.tension import Pull, pull
from calc.making.string.window import Edges, braces_made, edges, strings_made
from calc.numerics import Spread

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from typing import TypeAlias

    from calc.making.string.cutting import Cuts
    from calc.making.string.next_reading import NextReading
    from calc.making.string.order import Order
    from calc.making.string.raw_lengths import Lengths
    from calc.numerics import Moves

    _Answer: TypeAlias = Callable[[Mapping[str, float]], Mapping[str, float]]


_NINE_IN_TEN = 1.6448536269514722
"""Standard deviations from the middle of a bell to the twentieth at its end."""
_RARE = 0.1


@dataclass(frozen=True, slots=True)
class Room:
    """Whether turns can make good what is uncertain.

    Attributes
    ----------
    longer, shorter : float
        Room in the window / what the causes may ask, in brace height: 1 is just enough. [-]
    """

    longer: float
    shorter: float

    @property
    def least(self) -> float:
        """The scanter of both [-]."""
        return min(self.longer, self.shorter)

    @property
    def chance(self) -> float:
        """Share of such strings that turns alone do not bring to the brace height wanted [-].

        Notes
        -----
        Source: a stated range leaves one in twenty beyond either end; between and beyond, each side is half a bell.
        """
        return sum(erfc(_NINE_IN_TEN * max(0.0, each) / sqrt(2.0)) / 2.0 for each in (self.longer, self.shorter))

    @property
    def enough(self) -> bool:
        """True when turns bring in at least nine such strings in ten."""
        return self.chance <= _RARE


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """A planned string.

    Parameters
    ----------
    order : Order
        What was wanted.
    strands : int
        In the whole string.
    chosen : Chosen
        Size and strength of the strands.
    causes : mapping of str to Spread
        What may come out otherwise, each with its low and high.
    lengths : Lengths
        With every cause at its typical value.
    cuts : Cuts
        How its strands are cut and marked.
    edges : Edges
        Ends of its tuning window.
    pull : Pull
        Of the bow, on the string.
    tails : TailCheck
        Whether its tails hold.
    room : Room
        Whether turns make good what is uncertain.
    moves : Moves
        All that string and bow may be.
    next_readings : tuple of NextReading
        What would narrow the brace height, least effort first.
    unread : Plan or None
        The same string planned without what was read off bow, cord or earlier strings; None where nothing was.
    figures : mapping of str to Spread
        The public numbers, in SI, by key.
    """

    order: Order
    strands: int
    chosen: Chosen
    causes: Mapping[str, Spread]
    lengths: Lengths
    cuts: Cuts
    edges: Edges
    pull: Pull
    tails: TailCheck
    room: Room
    moves: Moves[Mapping[str, float]]
    next_readings: tuple[NextReading, ...]
    unread: Plan | None
    figures: Mapping[str, Spread]


def plan_string(order: Order) -> Plan:
    """Plan one string.

    Parameters
    ----------
    order : Order
        Bow, ends, cord and method.

    Returns
    -------
    Plan

    Raises
    ------
    DomainError
        For a bow the geometry cannot brace so, or ends that leave no body.

    Notes
    -----
    The one rule that decides the cut: it comes to the brace height wanted at the lay half-way between the
    loosest that holds and the tightest of use, and that window must be wider, on both sides, than everything
    that is uncertain (`Room`). Source: own rule.
    """
    chosen = chosen_for(order)
    strands = chosen.strands
    tight = pull(order)
    causes = causes_of(order, strands)
    moves = moves_at(order, strands)
    made = lengths(order, strands, moves.centre)
    window = edges(order, made, *(practice(name).spread.value for name in ("lay_loosest", "lay_tightest")))
    cuts = cut(order, strands, made)
    braced = _remembered(lambda at: _braced(order, made, window, strands, at))
    figures = moves.spreads(lambda at: measured(order, strands, at))
    figures |= moves.spreads(braced)
    return Plan(
        order=order,
        strands=strands,
        chosen=chosen,
        causes=order.bow.causes | causes,
        lengths=made,
        cuts=cuts,
        edges=window,
        pull=tight,
        tails=tails(
            order.cord.fits or (order.fibre,), order.wax, made.lays.bundle_m, order.bundles, cuts.shortest_tail_m
        ),
        room=_room(figures),
        moves=moves,
        next_readings=next_readings(
            order,
            moves,
            lambda at: braced(at)["brace_height"],
            lambda at: order.bow.state(at).string_m(order.brace_m),
            lambda at: strings_made(order, made, strands, at, (made.middle.turns,))[0],
        ),
        unread=None if order == order.unread else plan_string(order.unread),
        figures=figures
        | {
            "strands": Spread.exactly(strands),
            "tension_brace": tight.brace_n,
            "tension_draw": tight.draw_n,
            "breaking_force": chosen.strength.breaking_n,
            "safety_factor": chosen.strength.safety,
        },
    )


def chosen_for(order: Order) -> Chosen:
    """Return the count of strands for an order, and what the string holds.

    Parameters
    ----------
    order : Order
        What is wanted.
    """
    return choose(
        order.cord,
        order.strands,
        order.bundles,
        order.draw_weight_n,
        arrow_kg=order.arrow_kg,
        shape=order.bow.shape,
        limbs=order.limbs,
        limb=order.limb,
    )


def _braced(order: Order, made: Lengths, window: Edges, strands: int, at: Mapping[str, float]) -> dict[str, float]:
    """Return what the string, cut as planned, braces at: as first made, loosest and tightest."""
    counts = (made.middle.turns, window.loose.turns, window.tight.turns)
    found = braces_made(order, made, strands, at, counts)
    return dict(zip(("brace_height", "brace_low", "brace_high"), found, strict=True))


def _remembered(answer: _Answer) -> _Answer:
    """Return an answer that works each set of causes out once."""
    known: dict[tuple[float, ...], Mapping[str, float]] = {}

    def again(at: Mapping[str, float]) -> Mapping[str, float]:
        key = tuple(at.values())
        if key not in known:
            known[key] = answer(at)
        return known[key]

    return again


def _room(figures: Mapping[str, Spread]) -> Room:
    """Hold the window against how far off the brace height may turn out before tuning."""
    brace = figures["brace_height"]
    too_high, too_low = brace.high - brace.value, brace.value - brace.low
    return Room(
        longer=(brace.value - figures["brace_low"].value) / too_high if too_high else inf,
        shorter=(figures["brace_high"].value - brace.value) / too_low if too_low else inf,
    )
