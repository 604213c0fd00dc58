"""Typed text carried over to the other units and back, without drift.

The steps of both systems stand on one ladder, each at most half as large as the one before, the systems in
turn: 1/64 in, 0.1 mm, 0.001 in, 0.01 mm, ... Every number that can be typed is a point on one of them. Points
pair off from the coarsest step down: a point that no coarser point of the other system has taken takes the
nearest one of the next step. Pairs are for good, so going there and back is the identity, and a partner is
never further away than a step of the ladder: 0.1 mm for what is read off a tape.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from math import floor
from typing import TYPE_CHECKING

from calc.units.reading import understand, within
from calc.units.showing import decimal, in_unit, mixed, trimmed
from calc.units.tables import STYLES, Quantity, System, usual_unit, with_unit

if TYPE_CHECKING:
    from calc.units.tables import Unit

_TAPE = Fraction(1, 64)
_FIRST: dict[Quantity, Fraction] = {"length": _TAPE, "thickness": Fraction(1, 10**4)}
"""Coarsest step that must survive, in the reader's inch unit; where not told, the step in which it is shown."""
_RUNGS = 14
_NEWTON = "N"
"""No scale shows it: what was typed in newtons stays so in either system."""


@dataclass(frozen=True, slots=True)
class _Rung:
    """One step of the ladder: the grid of numbers in one unit."""

    system: System
    unit: Unit
    step: Fraction

    @property
    def size(self) -> Fraction:
        """Width of the step in SI."""
        return self.step * self.unit.factor

    def nearest(self, value: Fraction, off: int = 0) -> Fraction:
        """Return the nearest point, or one `off` from it, in SI."""
        count = floor(in_unit(value, self.unit) / self.step + Fraction(1, 2)) + off
        return count * self.step * self.unit.factor + self.unit.offset

    def holds(self, value: Fraction) -> bool:
        """Tell whether a value is on the grid."""
        return (in_unit(value, self.unit) / self.step).denominator == 1


@cache
def _ladder(quantity: Quantity) -> tuple[_Rung, ...]:
    units: dict[System, Unit] = {
        "inch": usual_unit(quantity, "inch"),
        "metric": usual_unit(quantity, "metric"),
    }
    rungs = [_Rung("inch", units["inch"], _FIRST.get(quantity, STYLES[quantity]["inch"].step))]
    while len(rungs) < _RUNGS:
        system: System = "metric" if rungs[-1].system == "inch" else "inch"
        rung = _Rung(system, units[system], Fraction(1))
        while rung.size * 2 >= rungs[-1].size:
            rung = _Rung(system, units[system], rung.step / 10)
        rungs.append(rung)
    return tuple(rungs)


def convert_text(text: str, quantity: Quantity, low: float, high: float, to: System) -> str:
    """Carry typed text over to the other units.

    Parameters
    ----------
    text : str
        As typed; a bare number is in the system that is left.
    quantity : Quantity
        What it is.
    low, high : float
        The field's limits in SI; what lies within them stays within.
    to : {"inch", "metric"}
        Units wanted.

    Returns
    -------
    str
        With its unit. What is typed in a unit of `to`, in newtons, or has the same unit in both systems, comes back as
        it was.

    Raises
    ------
    DomainError
        As `calc.units.read`, but not for what lies outside its limits.

    Notes
    -----
    Source: own construction, see the head of this file. There and back is the identity for every number on the
    ladder (six decimals of an inch or more); a finer one is rounded to it once.

    Examples
    --------
    >>> convert_text("62 1/2 in", "length", 0, 5, "metric"), convert_text("1587.5 mm", "length", 0, 5, "inch")
    ('1587.5 mm', '62 1/2 in')
    >>> convert_text("1592", "length", 0, 5, "inch"), convert_text("62.677 in", "length", 0, 5, "metric")
    ('62.677 in', '1592 mm')
    """
    here: System = "inch" if to == "metric" else "metric"
    amount = understand("text", text, quantity, low=low, high=high, system=here)
    if amount.system == to or STYLES[quantity]["inch"] == STYLES[quantity]["metric"]:
        return text
    if amount.words.endswith(_NEWTON):
        return text
    pairs = _Pairs(_ladder(quantity), low, high)
    value = pairs.settled(amount.value, here)
    partner = pairs.partner(value, pairs.rank(value, here))
    return pairs.format(value, here) if partner is None else pairs.format(partner, to)


@dataclass(frozen=True, slots=True)
class _Pairs:
    """The pairing of both systems' points within limits."""

    ladder: tuple[_Rung, ...]
    low: float
    high: float

    def rank(self, value: Fraction, system: System) -> int:
        """Return the coarsest rung that holds a value, or the number of rungs where none does."""
        fits = (rank for rank, rung in enumerate(self.ladder) if rung.system == system and rung.holds(value))
        return next(fits, len(self.ladder))

    def settled(self, value: Fraction, system: System) -> Fraction:
        """Round a value that is finer than the ladder to the finest rung that still has one below it."""
        rank = self.rank(value, system)
        if rank < len(self.ladder) - 1 or (rank < len(self.ladder) and self._coarser(value, rank) is not None):
            return value
        finest = max(rank for rank, rung in enumerate(self.ladder[:-1]) if rung.system == system)
        return self.ladder[finest].nearest(value)

    def partner(self, value: Fraction, rank: int) -> Fraction | None:
        """Return the other system's point that belongs to a value; None where the limits leave it none."""
        coarser = self._coarser(value, rank)
        return self._finer(value, rank) if coarser is None else coarser

    def _coarser(self, value: Fraction, rank: int) -> Fraction | None:
        """Return the point of the rung above that has taken this one, if any."""
        if rank == 0:
            return None
        rung = self.ladder[rank - 1]
        taker = rung.nearest(value)
        alone = self._free(taker, rank - 1) and self.partner(taker, rank - 1) == value
        return taker if alone else None

    def _finer(self, value: Fraction, rank: int) -> Fraction | None:
        """Return the nearest point of the rung below that is not on a coarser one and sees this one nearest."""
        rung = self.ladder[rank + 1]
        near = [rung.nearest(value, off) for off in (-1, 0, 1)]
        fits = [each for each in near if self._free(each, rank + 1) and self.ladder[rank].nearest(each) == value]
        return min(fits, key=lambda each: abs(each - value), default=None)

    def _free(self, value: Fraction, rank: int) -> bool:
        """Tell whether a point belongs to this rung and lies within the limits."""
        return self.rank(value, self.ladder[rank].system) == rank and within(float(value), self.low, self.high)

    def format(self, value: Fraction, system: System) -> str:
        """Write a point with the fewest digits: inches of a tape as fractions, all else as decimals."""
        rung = self.ladder[self.rank(value, system)]
        number = in_unit(value, rung.unit)
        text = mixed(abs(number)) if rung.step == _TAPE else trimmed(decimal(abs(number), rung.step))
        return with_unit(f"{'−' if number < 0 else ''}{text}", rung.unit.label)
