"""Settling a new string: what to hang on it and how long, how short to make it, what the first braced night does."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.data import practice, rule
from calc.errors import DomainError, Problem, require
from calc.geometry.lay import bundle_diameter, middle_lay
from calc.making.string import body_lay
from calc.making.tuning.tuning import Tuned
from calc.making.tuning.turns_against_stretch import bow_for, undone
from calc.mechanics.estimate import BowEstimate, braced_stretch, widened
from calc.mechanics.fibre import Load, assembly_efficiency, settle, strand_strength
from calc.numerics import Spread, combine, combine_ratios

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.data import Fibre
    from calc.mechanics.bow import LimbShape
    from calc.mechanics.fibre import Settling

MINUTE_S, HOUR_S, DAY_S = 60.0, 3600.0, 86400.0
SETTLING_TIMES_S = (MINUTE_S, 10 * MINUTE_S, HOUR_S, 4 * HOUR_S, 8 * HOUR_S, DAY_S, 3 * DAY_S, 7 * DAY_S)
"""Times at which settling is looked at [s]."""
HEAVY_SHARE = 1.0 / 3.0
"""The most that is hung on a string / the least that it may hold; own caution. [-]"""
_SIZES = {"string_length_slack", "make_length"}
"""Figures that are lengths; all others are what is added to one, or a force."""


def heaviest_n() -> float:
    """Return the most that anybody should hang on a string: the upper end of what makers hang (``settling``) [N]."""
    return rule("settling").figure("weight").spread.high


@dataclass(frozen=True, slots=True, kw_only=True)
class OnBow:
    """What the string will be on the bow, to say what a turn does there.

    Attributes
    ----------
    brace_m : float, > 0
        Brace height wanted. [m]
    handle_length_m : float or None
        Of the bow, as for `BowEstimate`. [m]
    shape : LimbShape or None
        How its limbs bend, as for `BowEstimate`.
    bend : Spread or None
        The same as a picture showed it, as for `BowEstimate`. [-]
    bundles : int
    tail_m : float, > 0
        Laid into each splice. [m]
    turns : float or None
        In the free body; None: not counted. [turn]
    """

    brace_m: float
    handle_length_m: float | None
    shape: LimbShape | None
    bundles: int
    tail_m: float
    turns: float | None
    bend: Spread | None = None


def pull_on_bow(string_m: float, on_bow: OnBow, draw_m: float, draw_weight_n: float) -> Spread:
    """Return the pull in a braced string, by what its bow is seen to be [N].

    Parameters
    ----------
    string_m : float, > 0
        On the braced bow, nock to nock. [m]
    on_bow : OnBow
    draw_m : float, > 0
        Full draw, from the same point as brace height. [m]
    draw_weight_n : float, > 0
        There. [N]

    Raises
    ------
    DomainError
        As `bow_for` and `BowEstimate.drawn`.

    Notes
    -----
    Source: `BowEstimate.drawn` of the bow that the string braces so high, which is what the sheets ask that plan, brace
    and measure the string (``derived:statics``).
    """
    handle_m = practice("handle_usual").spread.value if on_bow.handle_length_m is None else on_bow.handle_length_m
    bow = BowEstimate(
        nock_to_nock_m=bow_for(string_m, on_bow.brace_m, handle_m, on_bow.shape or "arc"),
        handle_length_m=on_bow.handle_length_m,
        shape=on_bow.shape,
        bend=on_bow.bend,
        draw_m=draw_m,
        draw_weight_n=draw_weight_n,
        braced_m=on_bow.brace_m,
    )
    return bow.drawn(brace_m=on_bow.brace_m).spread(lambda each: each.brace_n)


@dataclass(frozen=True, slots=True, kw_only=True)
class NewString:
    """A new string and what is to be done with it.

    Parameters
    ----------
    string_m : float, > 0
        Wanted on the braced bow, nock to nock. [m]
    fibre : Fibre
    yarn_kg_m : float, > 0
        Of one strand. [kg/m]
    strands : int, > 0
    brace_n : Spread
        Pull in the braced string. [N]
    hang_n, hang_s : float or None
        Weight to hang and how long, > 0; None: advise. [N], [s]
    work_s : float, > 0
        How long it will be braced after that, in all. [s]
    temperature_k : float
        While it settles and works. [K]
    on_bow : OnBow

    Raises
    ------
    DomainError
        ``model`` with reason ``string_breaks`` where the braced bow would break the made string, ``max`` where the
        weight would.
    """

    string_m: float
    fibre: Fibre
    yarn_kg_m: float
    strands: int
    brace_n: Spread
    hang_n: float | None
    hang_s: float | None
    work_s: float
    temperature_k: float
    on_bow: OnBow

    def __post_init__(self) -> None:
        for name in ("string_m", "yarn_kg_m", "strands", "work_s", "temperature_k"):
            require(name, getattr(self, name), low=0.0, open_=True)
        holds = self.breaking_n.value
        if self.brace_n.value >= holds:
            raise DomainError(Problem(field="strands", code="model", other="brace_n", reason="string_breaks"))
        for name in ("hang_n", "hang_s"):
            if (value := getattr(self, name)) is not None:
                require(name, value, low=0.0, open_=True)
        if self.hang_n is not None:
            require("hang_n", self.hang_n, high=holds)

    @property
    def line_kg_m(self) -> float:
        """All strands together [kg/m]."""
        return self.strands * self.yarn_kg_m

    @property
    def breaking_n(self) -> Spread:
        """What the made string holds [N]."""
        lay_rad = middle_lay(*(practice(name).spread.value for name in ("lay_loosest", "lay_tightest")))
        causes = {"strand": strand_strength(self.fibre, self.yarn_kg_m), "efficiency": assembly_efficiency(lay_rad)}

        def breaking(at: Mapping[str, float]) -> dict[str, float]:
            return {"breaking": self.strands * at["strand"] * at["efficiency"]}

        return combine_ratios(breaking, causes)["breaking"]

    @property
    def advised_n(self) -> float:
        """Weight to hang: about what the braced bow pulls, no more than makers hang nor than the string bears well [N].

        Notes
        -----
        Source: the pull the string will live under, at most the trade's weight (``settling`` of the rules,
        ``common-practice``) and at most `HEAVY_SHARE` of the least the string may hold (own caution).
        """
        usual_n = rule("settling").figure("weight").spread.value
        return min(self.brace_n.value, usual_n, HEAVY_SHARE * self.breaking_n.low)

    def tuned(self) -> Tuned:
        """Return the string on its bow, at the brace height wanted; the bow is as long as string and height say.

        Raises
        ------
        DomainError
            As `bow_for`.
        """
        bow, packing = self.on_bow, self.fibre.packing.value
        handle_length_m = practice("handle_usual").spread.value if bow.handle_length_m is None else bow.handle_length_m
        nock_to_nock_m = bow_for(self.string_m, bow.brace_m, handle_length_m, bow.shape or "arc")
        return Tuned(
            bow=BowEstimate(
                nock_to_nock_m=nock_to_nock_m,
                handle_length_m=bow.handle_length_m,
                shape=bow.shape,
                bend=bow.bend,
            ),
            brace_m=bow.brace_m,
            wanted_m=bow.brace_m,
            string_m=self.string_m,
            tail_m=bow.tail_m,
            bundles=bow.bundles,
            bundle_m=bundle_diameter(self.line_kg_m / bow.bundles, self.fibre.density_kg_m3.value, packing),
            cord_m=None,
            turns=bow.turns,
            per_m=None,
        )

    def settled(self, pull_n: float, time_s: float) -> Settling:
        """Return what a pull takes out in a time, and what the braced bow has left to take."""
        return settle(
            self.fibre, self.line_kg_m, self._load(pull_n, time_s), self._load(self.brace_n.value, self.work_s)
        )

    def _load(self, pull_n: float, time_s: float) -> Load:
        return Load(pull_n, time_s, self.temperature_k)


@dataclass(frozen=True, slots=True, kw_only=True)
class Settled:
    """What settling does to a string.

    Attributes
    ----------
    fresh : NewString
    hang_n, hang_s : float
        As asked or as advised. [N], [s]
    hung, braced : tuple of Settling
        At each of `SETTLING_TIMES_S`, under the weight and on the braced bow.
    figures : mapping of str to Spread
    """

    fresh: NewString
    hang_n: float
    hang_s: float
    hung: tuple[Settling, ...]
    braced: tuple[Settling, ...]
    figures: Mapping[str, Spread]


def settle_new_string(fresh: NewString) -> Settled:
    """Return what settling a string as asked, or as advised, does to it.

    Parameters
    ----------
    fresh : NewString

    Raises
    ------
    DomainError
        ``model`` with reason ``melts``, and all that `settle` raises.

    Notes
    -----
    Source: `settle` (``derived:settling``). The weight advised is `NewString.advised_n`, the time
    ``settle_time`` of the constants, somebody being by. A string is made so short that after settling it has the length
    wanted when it is braced. What still comes costs brace height, and turns bring it back (`undone`). Nothing here
    shrinks: spreads end at no growth. Leaves out recovery of a slack string.
    """
    hang_n = fresh.hang_n or fresh.advised_n
    hung = tuple(fresh.settled(hang_n, time) for time in SETTLING_TIMES_S)
    braced = (
        hung
        if hang_n == fresh.brace_n.value
        else tuple(fresh.settled(fresh.brace_n.value, t) for t in SETTLING_TIMES_S)
    )
    hour_s = practice("settle_time").spread.value
    hang_s = fresh.hang_s or hour_s
    done = fresh.settled(hang_n, hang_s)
    hour, night = (fresh.settled(fresh.brace_n.value, each) for each in (hour_s, practice("braced_night").spread.value))
    left = _over_pulls(fresh, hang_n, hang_s, done.left)
    elastic = braced_stretch(fresh.fibre, fresh.line_kg_m, fresh.brace_n, body_lay())
    causes = {"elastic": elastic, "taken": done.taken, "left": left}
    figures = combine(lambda at: _lengths(fresh, at), causes)
    lost = undone(fresh.tuned(), _grown(figures["left_length"]))
    figures |= {
        "left_turns": lost.turns,
        "left_brace": lost.brace_lost,
        "growth_per_turn": Spread.exactly(lost.per_turn_m),
        "settled_share": _share(done),
        "hour_taken": hour.taken.scaled(figures["make_length"].value),
        "strain": causes["elastic"],
        "taken": done.taken,
        "left": left,
        "bedding_taken": done.bedding_taken,
        "creep_taken": done.creep_taken,
        "bedding_left": done.bedding_left,
        "creep_left": done.creep_left,
        "night_taken": night.taken.scaled(figures["make_length"].value),
        "night_left": night.left.scaled(fresh.string_m),
        "breaking_force": fresh.breaking_n,
    }
    figures |= {key: _grown(each) for key, each in figures.items() if key not in _SIZES}
    return Settled(
        fresh=fresh,
        hang_n=hang_n,
        hang_s=hang_s,
        hung=hung,
        braced=braced,
        figures=figures,
    )


def _grown(each: Spread) -> Spread:
    """Return a growth whose spread ends where nothing grows."""
    return Spread(max(0.0, each.low), each.value, each.high)


def _share(done: Settling) -> Spread:
    """Return what settling takes out / all that the string will grow, no more than all of it [-]."""

    def share(at: Mapping[str, float]) -> dict[str, float]:
        taken, left = max(0.0, at["taken"]), max(0.0, at["left"])
        return {"share": taken / (taken + left)}

    return combine(share, {"taken": done.taken, "left": done.left})["share"]


def _over_pulls(fresh: NewString, hang_n: float, hang_s: float, left: Spread) -> Spread:
    """Return what remains, with what is not known of the braced pull."""
    if fresh.brace_n.low == fresh.brace_n.high:
        return left
    first = Load(hang_n, hang_s, fresh.temperature_k)
    holds = strand_strength(fresh.fibre, fresh.line_kg_m).value
    ends = (min(each, holds) for each in (fresh.brace_n.low, fresh.brace_n.high))
    works = [Load(each, fresh.work_s, fresh.temperature_k) for each in ends]
    wide = widened(left, (settle(fresh.fibre, fresh.line_kg_m, first, work).left.value for work in works))
    return Spread(max(0.0, wide.low), wide.value, wide.high)


def _lengths(fresh: NewString, at: Mapping[str, float]) -> dict[str, float]:
    slack = fresh.string_m / (1.0 + at["elastic"])
    make = slack / (1.0 + at["taken"])
    return {
        "string_length_slack": slack,
        "make_length": make,
        "shorter_by": fresh.string_m - make,
        "elastic_length": fresh.string_m - slack,
        "taken_length": slack - make,
        "left_length": fresh.string_m * at["left"],
    }
