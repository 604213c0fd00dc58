"""Settling a new string: what to hang on it and how long, how short to make it, what the first braced night does."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import DomainError, Problem, require
from calc.making.braced import braced_stretch, widened
from calc.making.strength import judged
from calc.making.window import middle_lay
from calc.mechanics import Load, assembly_efficiency, peak_force_ratio, settle, strand_strength
from calc.spread import Spread, combine

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.data import Fibre
    from calc.mechanics import Settling

MINUTE_S, HOUR_S, DAY_S = 60.0, 3600.0, 86400.0
SETTLING_TIMES_S = (MINUTE_S, 10 * MINUTE_S, HOUR_S, 4 * HOUR_S, 8 * HOUR_S, DAY_S, 3 * DAY_S, 7 * DAY_S)
"""Times at which settling is looked at [s]."""
_LONGEST_ADVISED_S = DAY_S
_SIZES = {"string_length_slack", "make_length"}
"""Figures that are lengths; all others are what is added to one, or a force."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fresh:
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
        strand = strand_strength(self.fibre, self.yarn_kg_m)
        return judged(strand, self.strands, assembly_efficiency(lay_rad), peak_force_ratio(), 1.0).breaking_n

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
    fresh : Fresh
    hang_n, hang_s : float
        As asked or as advised. [N], [s]
    enough : bool
        True where what remains typically lies within what a settled string may have left.
    hung, braced : tuple of Settling
        At each of `SETTLING_TIMES_S`, under the weight and on the braced bow.
    figures : mapping of str to Spread
    """

    fresh: Fresh
    hang_n: float
    hang_s: float
    enough: bool
    hung: tuple[Settling, ...]
    braced: tuple[Settling, ...]
    figures: Mapping[str, Spread]


def settled(fresh: Fresh) -> Settled:
    """Settle a string as asked, or as advised.

    Parameters
    ----------
    fresh : Fresh

    Raises
    ------
    DomainError
        ``model`` with reason ``melts``, and all that `calc.mechanics.settle` raises.

    Notes
    -----
    Source: `calc.mechanics.settle` (``derived:settling``). The weight advised is the pull the string will live under;
    the time is the first of `SETTLING_TIMES_S` from an hour on, up to a day, after which what remains lies within
    ``settled_left`` of the constants (own rule). A string is made so short that after settling it has the length
    wanted when it is braced. Nothing here shrinks: spreads end at no growth. Leaves out recovery of a slack string.
    """
    hang_n = fresh.hang_n or fresh.brace_n.value
    hung = tuple(fresh.settled(hang_n, time) for time in SETTLING_TIMES_S)
    braced = (
        hung
        if hang_n == fresh.brace_n.value
        else tuple(fresh.settled(fresh.brace_n.value, t) for t in SETTLING_TIMES_S)
    )
    allowed = practice("settled_left").spread.value
    hang_s = fresh.hang_s or _advised(fresh, hung, allowed)
    done, night = (
        fresh.settled(hang_n, hang_s),
        fresh.settled(fresh.brace_n.value, practice("braced_night").spread.value),
    )
    left = _over_pulls(fresh, hang_n, hang_s, done.left)
    causes = {"elastic": braced_stretch(fresh.fibre, fresh.line_kg_m, fresh.brace_n), "taken": done.taken, "left": left}
    figures = combine(lambda at: _lengths(fresh, at), causes)
    figures |= {
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
        enough=figures["left_length"].value <= allowed,
        hung=hung,
        braced=braced,
        figures=figures,
    )


def _grown(each: Spread) -> Spread:
    """Return a growth whose spread ends where nothing grows."""
    return Spread(max(0.0, each.low), each.value, each.high)


def _advised(fresh: Fresh, hung: tuple[Settling, ...], allowed_m: float) -> float:
    for time_s, each in zip(SETTLING_TIMES_S, hung, strict=True):
        if time_s >= HOUR_S and (each.left.value * fresh.string_m <= allowed_m or time_s >= _LONGEST_ADVISED_S):
            return time_s
    return _LONGEST_ADVISED_S


def _over_pulls(fresh: Fresh, hang_n: float, hang_s: float, left: Spread) -> Spread:
    """Return what remains, with what is not known of the braced pull."""
    if fresh.brace_n.low == fresh.brace_n.high:
        return left
    first = Load(hang_n, hang_s, fresh.temperature_k)
    holds = strand_strength(fresh.fibre, fresh.line_kg_m).value
    ends = (min(each, holds) for each in (fresh.brace_n.low, fresh.brace_n.high))
    works = [Load(each, fresh.work_s, fresh.temperature_k) for each in ends]
    wide = widened(left, (settle(fresh.fibre, fresh.line_kg_m, first, work).left.value for work in works))
    return Spread(max(0.0, wide.low), wide.value, wide.high)


def _lengths(fresh: Fresh, at: Mapping[str, float]) -> dict[str, float]:
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
