"""Another string like an old one: what to cut and turn, from the old one on two nails under a weight."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property
from math import pi
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import DomainError, Problem, require
from calc.geometry.ends import RoundTip, loop_of_length, shortest_loop
from calc.geometry.lay import bundle_of_laid, jam, lay_of_cord_turns
from calc.making.string import CutOrder, End, cut_between, raw_for
from calc.mechanics.estimate import HandEstimate
from calc.mechanics.fibre import elastic_stretch
from calc.numerics import Spread, combine

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.data import Fibre
    from calc.making.string import CutPlan
    from calc.making.tuning.hung import HungRead

LABEL_N = practice("label_load").spread.value
LABEL_PIN_M = practice("label_pin").spread.value
LABEL_SHORTER_M = practice("label_shorter").spread.value
"""How the standard measures the string that a label speaks of: pull [N], pins [m], and how much it is shorter than the
length marked on the bow [m]."""
_NOBODY = End(section=None, fit="nocked")
"""No tip is asked: the loops are copied as they are."""
_STRAIGHT_RAD = 1e-4


@dataclass(frozen=True, slots=True)
class OldLoop:
    """A loop laid flat, its two sides together.

    Parameters
    ----------
    inside_m : float, > 0
        From the throat to the inside of its far end. [m]
    """

    inside_m: float

    def __post_init__(self) -> None:
        require("inside_m", self.inside_m, low=0.0, open_=True)

    def round_m(self, cord_m: float) -> float:
        """Return its centre line, from throat to throat [m]: both sides, and half round the cord's own half."""
        return 2.0 * self.inside_m + pi * cord_m / 2.0


@dataclass(frozen=True, kw_only=True)
class OldString:
    """A string with two laid loops that is to be made again, of the same cord.

    Parameters
    ----------
    read : HungRead
        Its length over two pegs while a weight hung.
    peg_m : float, > 0
        Thickness of the pegs. [m]
    loops : (OldLoop, OldLoop)
        Upper and lower.
    fibres : tuple of Fibre
        What it is made of; all that it may be, where that is not known.
    line_kg_m : float, > 0
        All its strands side by side. [kg/m]
    bundles, strands : int
        2 or 3; in the whole string.
    cord_m : float, > 0
        Thickness of its body. [m]
    turns, over_m : float, > 0
        Turns counted on the body over a length. [turn], [m]
    tail_m, step_m : float
        As for `CutOrder`. [m]

    Raises
    ------
    DomainError
        As `CutOrder` and `lay_of_cord_turns`; ``pair`` with reason ``peg_thick`` for a loop that does not go round the
        peg, ``loops_long`` where the loops leave no body, ``turns_many`` for more turns than its bundles go round with.
    """

    read: HungRead
    peg_m: float
    loops: tuple[OldLoop, OldLoop]
    fibres: tuple[Fibre, ...]
    line_kg_m: float
    bundles: int
    strands: int
    cord_m: float
    turns: float
    over_m: float
    tail_m: float
    step_m: float
    _hand: HandEstimate = field(default_factory=HandEstimate)

    def __post_init__(self) -> None:
        for name in ("peg_m", "line_kg_m", "cord_m", "turns", "over_m"):
            require(name, getattr(self, name), low=0.0, open_=True)
        assert self.order.each > 0
        shortest_m = shortest_loop(RoundTip(self.peg_m), self.cord_m).length_m
        if min(each.round_m(self.cord_m) for each in self.loops) < shortest_m:
            raise DomainError(Problem(field="peg_m", code="pair", other="inside_m", reason="peg_thick"))
        if self.causes["body_lay"].high >= min(jam(self.bundles).lay_rad, pi / 4.0):
            raise DomainError(Problem(field="turns", code="pair", other="cord_m", reason="turns_many"))

    @cached_property
    def order(self) -> CutOrder:
        """Its strands and tails."""
        return CutOrder(
            finished_m=self.read.length_m,
            method="loops",
            bundles=self.bundles,
            strands=self.strands,
            bundle_m=self.bundle_m,
            upper=_NOBODY,
            lower=_NOBODY,
            tail_m=self.tail_m,
            step_m=self.step_m,
        )

    @cached_property
    def bundle_m(self) -> float:
        """Thickness of one bundle, in a cord of this thickness and lay [m]."""
        return bundle_of_laid(self.cord_m, self.bundles, self.turns, self.over_m)

    @property
    def lay_rad(self) -> float:
        """Lay of its body, from the cord's axis [rad]."""
        return lay_of_cord_turns(self.bundle_m, self.bundles, self.turns, self.over_m).lay_rad

    @cached_property
    def causes(self) -> dict[str, Spread]:
        """What is uncertain, by cause."""
        stretches = [elastic_stretch(each, self.line_kg_m, self.read.weight_n, self.lay_rad) for each in self.fibres]
        tape = practice("tape_reading").spread
        return {
            **self._hand.causes,
            "strain": Spread(
                min(each.low for each in stretches), stretches[0].value, max(each.high for each in stretches)
            ),
            "tape": tape,
            "upper": tape,
            "lower": tape,
            "cord": practice("thickness_reading").spread,
            "body_lay": practice("lay_reading").spread.shifted(self.lay_rad),
            "bedding": practice("bedding").spread,
        }

    def throats_m(self, at: Mapping[str, float]) -> float:
        """Return it from throat to throat under its weight [m].

        Parameters
        ----------
        at : mapping of str to float
            One number for each cause.
        """
        peg = RoundTip(self.peg_m)
        on_pegs = sum(
            loop_of_length(peg, self.cord_m, self._round_m(k, at)).throat_m + self.peg_m / 2.0 for k in (0, 1)
        )
        between_m = self.read.length_m + at["tape"] - on_pegs
        if between_m <= 0.0:
            raise DomainError(Problem(field="inside_m", code="pair", other="length_m", reason="loops_long"))
        return between_m

    def _round_m(self, which: int, at: Mapping[str, float]) -> float:
        shortest_m = shortest_loop(RoundTip(self.peg_m), self.cord_m).length_m
        return max(self.loops[which].round_m(self.cord_m) + 2.0 * at[("upper", "lower")[which]], shortest_m)

    def plan(self, at: Mapping[str, float] | None = None) -> CutPlan:
        """Return how another one is cut.

        Parameters
        ----------
        at : mapping of str to float, optional
            One number for each cause; as is likeliest without.

        Raises
        ------
        DomainError
            As `cut_between`.

        Notes
        -----
        Source: own composition (``derived:body``, ``derived:cut``): what the weight stretches is taken off again, the
        old lay taken for the new, and each loop laid as long as the old one.
        """
        at = _laid(at or {name: each.value for name, each in self.causes.items()})
        bundle_m = self.bundle_m * (1.0 + at["cord"])
        loops_m = tuple(
            raw_for(self._round_m(k, at), bundle_m, self.bundles, at["loop_lay"], at["twist_held"]).raw_m
            for k in (0, 1)
        )
        legs_m = self.throats_m(at) / (1.0 + at["strain"])
        return cut_between(self.order, bundle_m, (loops_m[0], loops_m[1]), legs_m, at)

    def found(self) -> dict[str, Spread]:
        """Return what to cut and turn.

        Returns
        -------
        dict of str to Spread
            ``cut``, ``loop_upper``, ``body``, ``loop_lower``, ``middle``, ``cord`` [m]; ``turns`` of the free body,
            ``turns_upper`` and ``turns_lower`` of the loops [turn]; ``fresh``, from peg to peg under the same weight
            before it has settled, ``throats`` of the old one [m]; ``strain``, ``take_up`` [-].

        Raises
        ------
        DomainError
            As `plan`.

        Notes
        -----
        Source: `plan`; a fresh string is shorter by what it still beds in (``derived:body``).
        """

        def of(at: Mapping[str, float]) -> dict[str, float]:
            at = _laid(at)
            made = self.plan(at)
            bundle_m = self.bundle_m * (1.0 + at["cord"])
            zones = {k: zone.length_m for k, zone in enumerate(made.zones)}
            middle = raw_for(made.body_cord_m, bundle_m, self.bundles, at["body_lay"])
            loops = [
                raw_for(self._round_m(k, at), bundle_m, self.bundles, at["loop_lay"], at["twist_held"]).turns
                for k in (0, 1)
            ]
            throats_m = self.throats_m(at)
            return {
                "cut": made.cut_m,
                "loop_upper": zones[1],
                "body": zones[2],
                "loop_lower": zones[3],
                "middle": made.body_cord_m,
                "cord": made.cord_m,
                "turns": middle.turns,
                "turns_upper": loops[0],
                "turns_lower": loops[1],
                "fresh": self.read.length_m + at["tape"] - throats_m * at["bedding"] / (1.0 + at["bedding"]),
                "throats": throats_m,
                "take_up": made.take_up,
            }

        return combine(of, self.causes)


def _laid(at: Mapping[str, float]) -> Mapping[str, float]:
    """Return the same with a lay, which a low reading of an all but straight cord may not leave."""
    return {**at, "body_lay": max(_STRAIGHT_RAD, at["body_lay"])}
