"""A cord that nobody can name: what it may be, what it holds, and how many of it make a string."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import require
from calc.geometry.lay import linear_density, wound_diameter
from calc.making.strands.chosen import choose
from calc.making.strands.strands import Strand
from calc.mechanics.fibre import Findings, judge
from calc.mechanics.fibre import fill as filled
from calc.numerics import Spread, combine

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from calc.making.strands.chosen import Chosen
    from calc.mechanics.fibre import Match, Rating, Trust

_NOT_SOLD = {"sinew"}
"""Fibres of the table that nobody meets as a nameless cord."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Unknown:
    """What was done with a cord.

    Parameters
    ----------
    mass_kg, length_m : float
        Of a weighed length; the mass above what a scale may be off. [kg], [m]
    floats : bool or None
        None: not tried.
    roll_m : float or None, > 0
        Width of `wraps` turns side by side; None: not tried. [m]
    wraps : int, >= 1
    held_n, rated_n : float or None
        A weight one cord carried; the load on its label. [N]
    rating : str
        What that load is said to be.

    Raises
    ------
    DomainError
        ``min``, ``max`` and ``number`` for figures out of bounds.
    """

    mass_kg: float
    length_m: float
    floats: bool | None
    roll_m: float | None
    wraps: int
    held_n: float | None
    rated_n: float | None
    rating: Rating

    def __post_init__(self) -> None:
        require("mass_kg", self.mass_kg, low=practice("scale_reading").spread.high, open_=True)
        require("length_m", self.length_m, low=practice("tape_reading").spread.high, open_=True)
        if self.roll_m is not None:
            require("roll_m", self.roll_m, low=practice("tape_reading").spread.high, open_=True)

    def weight(self) -> Spread:
        """Return its linear density [kg/m]."""
        causes = {"scale": practice("scale_reading").spread, "tape": practice("tape_reading").spread}

        def weighed(at: Mapping[str, float]) -> dict[str, float]:
            return {"linear": linear_density(self.mass_kg + at["scale"], self.length_m + at["tape"])}

        return combine(weighed, causes)["linear"]

    def thickness(self) -> Spread | None:
        """Return its thickness by the roll-up [m]."""
        if self.roll_m is None:
            return None
        tape = practice("tape_reading").spread
        ends = (wound_diameter(self.roll_m + each, self.wraps) for each in (tape.low, tape.value, tape.high))
        return Spread(*ends)


@dataclass(frozen=True, slots=True, kw_only=True)
class Examined:
    """What a cord turned out to be.

    Attributes
    ----------
    weight : Spread
        [kg/m]
    thickness : Spread or None
        As rolled up. [m]
    matches : tuple of Match
        Every fibre; those that fit first.
    fits : int
        How many fit.
    trust : Trust
    strength : Spread
        What one cord holds; where nothing fits, from nothing to the most of any fibre. [N]
    chosen : Chosen or None
        The string it makes; None where nothing fits.
    """

    weight: Spread
    thickness: Spread | None
    matches: tuple[Match, ...]
    fits: int
    trust: Trust
    strength: Spread
    chosen: Chosen | None


def examined(cord: Unknown, draw_weight_n: float, bundles: int) -> Examined:
    """Hold a cord against every fibre, and count strands of it on the weakest that fits.

    Parameters
    ----------
    cord : Unknown
    draw_weight_n : float, > 0
        [N]
    bundles : int
        2 or 3.

    Raises
    ------
    DomainError
        As `choose`.

    Notes
    -----
    Source: `judge` (``derived:cord-test``), asked three times: as read, and with scale and tape off both
    ways, so that no fibre is ruled out by a reading; the strength is that of the weakest that fits. Leaves out what
    `judge` leaves out.
    """
    weight, thickness = cord.weight(), cord.thickness()
    ends = ((weight.value, "value"), (weight.low, "high"), (weight.high, "low"))
    readings = [
        _sold(
            Findings(
                linear_density_kg_m=line,
                floats=cord.floats,
                thickness_m=None if thickness is None else getattr(thickness, side),
                held_n=cord.held_n,
                rated_n=cord.rated_n,
                rating=cord.rating,
            )
        )
        for line, side in ends
    ]
    matches = _merged(readings)
    fitting = [each for each in matches if not each.against]
    strength = _strength(readings, cord.held_n)
    trust: Trust = "none" if not fitting else "consistent" if len(fitting) == 1 else "many"
    chosen = None
    if fitting:
        weakest = min(fitting, key=lambda each: each.strength_n.value).fibre
        across = None if thickness is None else thickness.value
        if across is not None and filled(weakest.density_kg_m3.value, weight.value, across) > 1.0:
            across = None
        strand = Strand(fibre=weakest, laid=True, yarn_kg_m=weight.value, thickness_m=across, tested_n=strength)
        chosen = choose(strand, None, bundles, draw_weight_n)
    return Examined(
        weight=weight,
        thickness=thickness,
        matches=matches,
        fits=len(fitting),
        trust=trust,
        strength=strength,
        chosen=chosen,
    )


def _sold(found: Findings) -> tuple[Match, ...]:
    """Return how every fibre that is sold as cord stands to what was found."""
    return tuple(each for each in judge(found).matches if each.fibre.id not in _NOT_SOLD)


def _merged(readings: Iterable[tuple[Match, ...]]) -> tuple[Match, ...]:
    """Return every fibre as it was read, or as it fits where another reading lets it fit."""
    seen: dict[str, Match] = {}
    for reading in readings:
        for each in reading:
            before = seen.get(each.fibre.id)
            if before is None or (before.against and not each.against):
                seen[each.fibre.id] = each
    return tuple(sorted(seen.values(), key=lambda each: (len(each.against) > 0, each.fibre.words)))


def _strength(readings: Iterable[tuple[Match, ...]], held_n: float | None) -> Spread:
    """Return what one cord holds over all that fit, typical of the weakest and no less than it carried."""
    least = held_n or 0.0
    known = [each.strength_n for reading in readings for each in reading if not each.against]
    if not known:
        every = [each.strength_n.high for reading in readings for each in reading]
        return Spread(0.0, least, max(least, *every))
    low, value = (max(least, min(getattr(each, end) for each in known)) for end in ("low", "value"))
    return Spread(low, max(low, value), max(value, *(each.high for each in known)))
