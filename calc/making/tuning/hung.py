"""A finished string that hangs on a nail: what was read of it, and how its length goes with the pull."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import lru_cache
from math import sqrt
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import DomainError, Problem, require
from calc.geometry.ends import RoundTip, loop_of_length, shortest_loop
from calc.geometry.lay import lay
from calc.making.string import body_lay, fit_loop, moved_tip, resting_place
from calc.mechanics.fibre import elastic_stretch, strand_strength
from calc.numerics import Spread

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.data import Fibre
    from calc.geometry.ends import Section
    from calc.making.string import End
    from calc.mechanics.estimate import BowEstimate

_of_length, _shortest = lru_cache(maxsize=256)(loop_of_length), lru_cache(maxsize=64)(shortest_loop)
_LONGEST_LOOPS_M = 0.3
"""Both loops and pegs are no longer than this. [m]"""
_LEAST_SOFT = 0.05
"""The stretch of a string is never surer than this before two weights were hung. [-]"""


@dataclass(frozen=True, slots=True)
class HungRead:
    """A length that was read while a weight hung.

    Parameters
    ----------
    weight_n, length_m : float, > 0
        The weight; from the top of the upper peg to the bottom of the lower one. [N], [m]
    """

    weight_n: float
    length_m: float

    def __post_init__(self) -> None:
        require("weight_n", self.weight_n, low=0.0, open_=True)
        require("length_m", self.length_m, low=0.0, open_=True)


@dataclass(frozen=True, slots=True)
class HungBefore:
    """An earlier string of the same cord and hand for this bow: as long on the same nail when it was new, brace height.

    Attributes
    ----------
    length_m, brace_m : float, > 0
        Under the same weight for as long; the brace height that it gave once it had settled. [m]
    throats_m : float or None, > 0
        From throat to throat, under that weight; None: not measured. [m]
    """

    length_m: float
    brace_m: float
    throats_m: float | None = None

    def __post_init__(self) -> None:
        require("earlier_m", self.length_m, low=0.0, open_=True)
        require("brace_m", self.brace_m, low=0.0, open_=True)
        if self.throats_m is not None and not 0.0 < self.length_m - self.throats_m < _LONGEST_LOOPS_M:
            raise DomainError(
                Problem(field="earlier_throats_m", code="pair", other="earlier_m", reason="throats_apart")
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class Hung:
    """A finished string on the nail, and the bow it is for.

    Attributes
    ----------
    bow : BowEstimate
        With draw and draw weight; what strings on it have shown is in it.
    wanted_m : float, > 0
        Brace height wanted. [m]
    fibres : tuple of Fibre
        What the string may be of; one where it is known.
    line_kg_m : float, > 0
        All strands together. [kg/m]
    upper, lower : End
        The limb tips and how the loops sit on them.
    reach_m : tuple of float, or None
        From nock to throat, each loop on its own tip, pulled towards the other; None: not measured. [m]
    peg_m : float, > 0
        Thickness of the pegs, both alike. [m]
    reads : tuple of HungRead
        One or two, the last under the pull nearest to the bow's.
    hung_s : float, > 0
        How long it had hung by then. [s]
    first_m : float or None
        Length when that weight first hung still. [m]
    throats_m : float or None
        From throat to throat under the first weight; None: not measured. [m]
    throats_first_m : float or None
        The same when that weight first hung still. [m]
    earlier : HungBefore or None
        Another string of the same cord and hand.
    times : int, >= 1
        How often each length was read; what is told is the mean of them.
    bundles, tail_m, bundle_m, cord_m, turns
        As for `Tuned`.
    """

    bow: BowEstimate
    wanted_m: float
    fibres: tuple[Fibre, ...]
    line_kg_m: float
    upper: End
    lower: End
    reach_m: tuple[float, float] | None
    peg_m: float
    reads: tuple[HungRead, ...]
    hung_s: float
    bundles: int
    tail_m: float
    bundle_m: float | None
    cord_m: float | None
    turns: float | None
    first_m: float | None = None
    throats_m: float | None = None
    throats_first_m: float | None = None
    earlier: HungBefore | None = None
    times: int = 1

    def __post_init__(self) -> None:
        require("wanted_m", self.wanted_m, low=0.0, high=self.bow.middle.highest_m)
        require("hung_s", self.hung_s, low=0.0, open_=True)
        require("times", self.times, low=1.0)
        holds_n = min(strand_strength(each, self.line_kg_m).value for each in self.fibres)
        for each in self.reads:
            require("weight_n", each.weight_n, high=holds_n)
        if self.throats_m is not None and not 0.0 < self.read.length_m - self.throats_m < _LONGEST_LOOPS_M:
            raise DomainError(Problem(field="throats_m", code="pair", other="length_m", reason="throats_apart"))
        if len(self.reads) > 1 and self.reads[0].weight_n == self.reads[1].weight_n:
            raise DomainError(Problem(field="second_weight", code="pair", other="weight_n", reason="same_weight"))
        if len(self.reads) > 1:
            heavy, light = sorted(self.reads, key=lambda each: -each.weight_n)
            if heavy.length_m < light.length_m - 2.0 * practice("tape_reading").spread.high:
                raise DomainError(Problem(field="second_length", code="pair", other="length_m", reason="shrank"))

    @property
    def tape(self) -> Spread:
        """How far off the mean of the readings of one length may be [m]."""
        return practice("tape_reading").spread.scaled(1.0 / sqrt(self.times))

    @property
    def read(self) -> HungRead:
        """The reading that settling is told by: the first that was typed."""
        return self.reads[0]

    @property
    def over_m(self) -> float:
        """Thickness of the plied cord [m]."""
        if self.cord_m is not None:
            return self.cord_m
        assert self.bundle_m is not None
        return lay(self.bundle_m, self.bundles, body_lay()).cord_diameter_m


@dataclass(frozen=True, slots=True)
class HungLine:
    """A string as its length goes with the pull.

    Attributes
    ----------
    hung : Hung
    free_m : float
        What of it stretches: from throat to throat. [m]
    loops_m : tuple of float
        Length of either loop's centre line. [m]
    causes : mapping of str to Spread
        What is uncertain of it.
    stretches : dict
        Stretch of its fibre at pulls that were asked for. [N], [-]
    """

    hung: Hung
    free_m: float
    loops_m: tuple[float, float]
    causes: Mapping[str, Spread]
    stretches: dict[float, float] = field(default_factory=dict, repr=False, compare=False)

    @classmethod
    def of(cls, hung: Hung) -> HungLine:
        """Return the line of a string on the nail.

        Raises
        ------
        DomainError
            ``pair`` with reason ``peg_thick``.
        """
        tape, tip = hung.tape, practice("tip_reading").spread
        reach = tip.scaled(1.0 / sqrt(hung.times))
        known = hung.upper.section is not None and hung.lower.section is not None
        usual = practice("tip_usual").spread
        causes = {"peg": tip, "soft": _softness(hung)} | {f"read {k}": tape for k, _ in enumerate(hung.reads)}
        if hung.throats_m is not None:
            causes["throats"] = tape
        if hung.reach_m is None:
            causes |= {"tip": tip if known else usual.shifted(-usual.value), "seat": Spread(-1.0, 0.0, 1.0)}
        else:
            causes |= {"reach upper": reach, "reach lower": reach}
        loops_m = tuple(_loop(hung, end) for end in (hung.upper, hung.lower))
        line = cls(hung, 0.0, (loops_m[0], loops_m[1]), causes)
        free_m = hung.read.length_m - line.on_pegs_m(hung.peg_m) if hung.throats_m is None else hung.throats_m
        return replace(line, free_m=free_m)

    def at(self, load_n: float, at: Mapping[str, float]) -> float:
        """Return its length from peg to peg under a pull, at one set of causes [m]."""
        reads = self.hung.reads
        grown = [self._stretch(each.weight_n) for each in reads]
        lengths = [each.length_m + at[f"read {k}"] for k, each in enumerate(reads)]
        middle, height = sum(grown) / len(grown), sum(lengths) / len(lengths)
        tape_m, soft = self.hung.tape.high, self.causes["soft"]
        unsure = max(soft.high - soft.value, soft.value - soft.low, _LEAST_SOFT)
        spread = sum((each - middle) ** 2 for each in grown) / tape_m**2
        along = sum((a - middle) * (b - height) for a, b in zip(grown, lengths, strict=True)) / tape_m**2
        own = max(0.0, (at["soft"] / unsure**2 + along) / (1.0 / unsure**2 + spread))
        return height + own * (self._stretch(load_n) - middle)

    def left(self, at: Mapping[str, float]) -> float:
        """Return how much it still grows [-]."""
        return max(0.0, at["left"])

    def on_bow(self, at: Mapping[str, float]) -> float:
        """Return it on the braced bow, nock to nock, once it has settled there [m]."""
        grown_m = self.at(at["pull"], at) - self.at(self.hung.read.weight_n, at)
        return self._throats_m(at) + grown_m + self.left(at) * self.free_m + self.reach_m(at)

    def on_pegs_m(self, peg_m: float) -> float:
        """Return what of both loops lies between the throats and the far sides of pegs [m].

        Raises
        ------
        DomainError
            ``pair`` with reason ``peg_thick``.
        """
        peg, cord_m = RoundTip(peg_m), self.hung.over_m
        if min(self.loops_m) < _shortest(peg, cord_m).length_m:
            raise DomainError(Problem(field="peg_m", code="pair", other="tip_upper", reason="peg_thick"))
        return sum(_of_length(peg, cord_m, each).throat_m + peg_m / 2.0 for each in self.loops_m)

    def _throats_m(self, at: Mapping[str, float]) -> float:
        """Return it from throat to throat under the first weight [m]."""
        if self.hung.throats_m is not None:
            return self.hung.throats_m + at["throats"]
        return self.at(self.hung.read.weight_n, at) - self.on_pegs_m(self.hung.peg_m + at["peg"])

    def reach_m(self, at: Mapping[str, float]) -> float:
        """Return both ends of it on the bow, from nock to throat [m]."""
        if self.hung.reach_m is not None:
            return sum(self.hung.reach_m) + at["reach upper"] + at["reach lower"]
        total_m = 0.0
        for end, long_m in zip((self.hung.upper, self.hung.lower), self.loops_m, strict=True):
            tip, cord_m = moved_tip(_section(end), at["tip"]), self.hung.over_m
            fitting_m = max(long_m, _shortest(tip, cord_m).length_m)
            total_m += _of_length(tip, cord_m, fitting_m).throat_m - (1.0 - at["seat"]) * tip.depth_m / 2.0
        return total_m

    def _stretch(self, load_n: float) -> float:
        """Return how much its fibre lets it grow from no pull to a pull [m]; a bow can but pull."""
        hung, known, load_n = self.hung, self.stretches, max(0.0, load_n)
        if load_n not in known:
            known[load_n] = elastic_stretch(hung.fibres[0], hung.line_kg_m, load_n, body_lay()).value
        return self.free_m * known[load_n]


def _softness(hung: Hung) -> Spread:
    """Return stretch of the string under its weight / that of its typical fibre [-]."""
    found = [elastic_stretch(each, hung.line_kg_m, hung.read.weight_n, body_lay()) for each in hung.fibres]
    usual = found[0].value
    return Spread(min(each.low for each in found) / usual, 1.0, max(each.high for each in found) / usual)


def _section(end: End) -> Section:
    return RoundTip(practice("tip_usual").spread.value) if end.section is None else end.section


def _loop(hung: Hung, end: End) -> float:
    """Return the length of a loop that was made for its tip [m]."""
    section = _section(end)
    return fit_loop(
        section,
        resting_place(section, end.rests),
        end.fit,
        hung.over_m,
        bundles=hung.bundles,
        lay_rad=practice("lay_loop").spread.value,
        opening_rad=practice("throat_opening").spread.value,
        ease=practice("sliding_ease").spread.value,
    ).loop.length_m
