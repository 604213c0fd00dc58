"""An endless string: wound round two posts, both loops served, twisted as one."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from math import acos, pi, sqrt, tan
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import DomainError, Problem, require
from calc.geometry.ends import RoundTip, served_loop, widest_opening
from calc.geometry.lay import bundle_diameter, flat_surface_angle
from calc.mechanics.estimate import braced_stretch
from calc.mechanics.fibre import curve, elastic_stretch, one_bundle_angle, one_bundle_efficiency, strand_strength
from calc.numerics import Spread, combine

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.data import Fibre
    from calc.geometry.ends import Section, ServedLoop

_served = lru_cache(maxsize=256)(served_loop)
_widest = lru_cache(maxsize=256)(widest_opening)


@dataclass(frozen=True, slots=True, kw_only=True)
class Winding:
    """What is to be wound.

    Parameters
    ----------
    string_m : float, > 0
        On the braced bow, nock to nock. [m]
    post_m : float, > 0
        Diameter of both posts. [m]
    fibre : Fibre
    yarn_kg_m : float, > 0
        Of one strand. [kg/m]
    strands : int, even, >= 2
        In the whole string.
    brace_n : Spread
        Pull in the braced string. [N]
    winding_n : float or None, > 0
        Pull in the strand while it is wound; None: a usual one. [N]
    thread_m : float, > 0
        Diameter of the serving thread. [m]
    upper, lower : Section or None
        Limb tips; None: a usual one.

    Raises
    ------
    DomainError
        ``model`` with reason ``odd_strands`` or ``string_breaks``, where the braced bow would break it; ``pair`` with
        reason ``thread_thick`` for a thread thicker than half the strands; ``max`` for a pull that breaks the
        strand while it is wound; ``min`` and ``number`` for figures out of bounds.
    """

    string_m: float
    post_m: float
    fibre: Fibre
    yarn_kg_m: float
    strands: int
    brace_n: Spread
    winding_n: float | None
    thread_m: float
    upper: Section | None
    lower: Section | None

    def __post_init__(self) -> None:
        for name in ("string_m", "post_m", "yarn_kg_m", "thread_m"):
            require(name, getattr(self, name), low=0.0, open_=True)
        require("strands", self.strands, low=2.0)
        if self.strands % 2:
            raise DomainError(Problem(field="strands", code="model", reason="odd_strands"))
        holds = strand_strength(self.fibre, self.yarn_kg_m).value
        if self.winding_n is not None:
            require("winding_n", self.winding_n, low=0.0, high=holds)
        require("brace_n", self.brace_n.value, low=0.0, open_=True)
        if self.brace_n.value >= holds * self.strands:
            raise DomainError(Problem(field="strands", code="model", other="brace_n", reason="string_breaks"))
        half_m = _bundle(self, self.wraps, self.fibre.packing.high)
        if self.thread_m > half_m:
            raise DomainError(
                Problem(field="thread_m", code="pair", other="strands", limit=half_m, reason="thread_thick")
            )

    @property
    def wraps(self) -> int:
        """Times round both posts."""
        return self.strands // 2

    @property
    def pull_n(self) -> float:
        """Pull in the strand while it is wound [N]."""
        share = practice("winding_pull").spread.value
        return self.winding_n or share * strand_strength(self.fibre, self.yarn_kg_m).value


@dataclass(frozen=True, slots=True)
class Wound:
    """A planned endless string; `figures` are its numbers, the rest is for drawing.

    Attributes
    ----------
    winding : Winding
    causes : mapping of str to Spread
        What is uncertain.
    upper, lower : ServedLoop
        Both loops at typical values.
    figures : mapping of str to Spread
    """

    winding: Winding
    causes: Mapping[str, Spread]
    upper: ServedLoop
    lower: ServedLoop
    figures: Mapping[str, Spread]


def endless(winding: Winding) -> Wound:
    """Return how to wind an endless string, worked back from its length on the bow to the posts.

    Parameters
    ----------
    winding : Winding
        What is wanted, and of which yarn.

    Raises
    ------
    DomainError
        ``model`` with reason ``loops_long`` where the loops leave no string between them, ``short_wrap`` where no
        post as thick as this fits inside a wrap; all that `served_loop` raises.

    Notes
    -----
    Source: own composition (``derived:endless``). Every strand runs twice from throat to throat and once round each
    tip, so all bear the same pull. On the posts a wrap is two straights and two half rounds, stretched by the pull
    of winding; on the bow it is stretched by its share of the braced pull and shortened by twist, which in one round
    bundle takes ``tan^2`` of half the surface angle (``hearle1969``). Its strands are all alike long and those outside
    run further, so turns end where too little of the strength would be left (`one_bundle_efficiency`), or where it
    kinks. Leaves out friction at the posts and twist in the bound legs.
    """
    stretched = elastic_stretch(winding.fibre, winding.yarn_kg_m, winding.pull_n)
    causes = {
        "tape": practice("tape_reading").spread,
        "packing": winding.fibre.packing,
        "tip": practice("tip_usual").spread,
        "seat": Spread(-1.0, 0.0, 1.0),
        "bound": Spread.exactly(practice("loop_bound").spread.value),
        "pitch": Spread.exactly(practice("endless_pitch").spread.value),
        "tightest": practice("lay_tightest").spread,
        "breaks": winding.fibre.break_strain,
        "pile": Spread(0.0, 0.5, 1.0),
        "bedding": practice("endless_bedding").spread,
        "strain": braced_stretch(winding.fibre, winding.strands * winding.yarn_kg_m, winding.brace_n),
        "wound": stretched,
        "ends": practice("tie_off").spread,
    }
    centre = {name: cause.value for name, cause in causes.items()}
    upper, lower = _loops(winding, centre)
    return Wound(winding, causes, upper, lower, combine(lambda at: _measured(winding, at), causes))


def _bundle(winding: Winding, strands: int, packing: float) -> float:
    return bundle_diameter(strands * winding.yarn_kg_m, winding.fibre.density_kg_m3.value, packing)


def _loops(winding: Winding, at: Mapping[str, float]) -> tuple[ServedLoop, ServedLoop]:
    half_m = _bundle(winding, winding.wraps, at["packing"])
    served_m = half_m + 2.0 * winding.thread_m

    def looped(section: Section) -> ServedLoop:
        opening = min(practice("throat_opening").spread.value, _widest(section, served_m))
        return _served(section, half_m, winding.thread_m, opening, at["bound"])

    usual = RoundTip(at["tip"])
    return looped(winding.upper or usual), looped(winding.lower or usual)


def _reach(section: Section | None, served: ServedLoop, at: Mapping[str, float]) -> float:
    """Return how far the throat stands from the nock's place on the belly [m]."""
    tip = section or RoundTip(at["tip"])
    return served.loop.throat_m - (1.0 - at["seat"]) * tip.depth_m / 2.0


def _measured(winding: Winding, at: Mapping[str, float]) -> dict[str, float]:
    upper, lower = _loops(winding, at)
    legs_m = winding.string_m + at["tape"] - _reach(winding.upper, upper, at) - _reach(winding.lower, lower, at)
    twisted_m = legs_m - 2.0 * at["bound"]
    if twisted_m <= 0.0:
        raise DomainError(Problem(field="string_m", code="model", reason="loops_long"))
    whole_m = _bundle(winding, winding.strands, at["packing"])
    # The flat length and its turns: x turns over a flat length L leave L (1 - (pi D x / 2 L)^2) of it.
    turns = twisted_m / at["pitch"]
    flat_m = (twisted_m + sqrt(twisted_m**2 + (pi * whole_m * turns) ** 2)) / 2.0
    yarn = replace(curve(winding.fibre), break_strain=at["breaks"])
    strong = one_bundle_angle(yarn, practice("endless_kept").spread.value)
    taut = acos(1.0 / (1.0 + 2.0 * at["strain"]))
    half = tan(min(at["tightest"], strong) / 2.0)
    most = 2.0 * half * flat_m / (pi * whole_m)
    if turns > most:
        flat_m = twisted_m / (1.0 - half**2)
        turns = most = 2.0 * half * flat_m / (pi * whole_m)
    shortens = (pi * whole_m) ** 2 / (4.0 * flat_m)
    wrap_bow_m = upper.loop.length_m + lower.loop.length_m + 2.0 * (2.0 * at["bound"] + flat_m)
    wrap_m = wrap_bow_m / ((1.0 + at["strain"]) * (1.0 + at["bedding"]))
    wound_m = wrap_m * (1.0 + at["wound"])
    one_m, half_m = _bundle(winding, 1, at["packing"]), _bundle(winding, winding.wraps, at["packing"])
    offset_m = (one_m + at["pile"] * (half_m - one_m)) / 2.0
    centres_m = (wound_m - pi * (winding.post_m + 2.0 * offset_m)) / 2.0
    if centres_m <= winding.post_m:
        raise DomainError(Problem(field="post_m", code="model", other="string_m", reason="short_wrap"))
    return {
        "post_spacing": centres_m + winding.post_m,
        "post_centres": centres_m,
        "wrap_wound": wound_m,
        "wrap_bow": wrap_bow_m,
        "wrap_slack": wrap_m,
        "around": pi * (winding.post_m + 2.0 * offset_m),
        "cord_total": winding.wraps * wrap_m + 2.0 * at["ends"],
        "string_mass": winding.wraps * wrap_m * winding.yarn_kg_m,
        "bundle_diameter": whole_m,
        "side_diameter": half_m,
        "turns_body": turns,
        "turns_most": most,
        "turns_taut": 2.0 * tan(taut / 2.0) * flat_m / (pi * whole_m),
        "lay_strong": strong,
        "lay_taut": taut,
        "turns_kept": one_bundle_efficiency(yarn, flat_surface_angle(whole_m, turns / flat_m)),
        "most_kept": one_bundle_efficiency(yarn, flat_surface_angle(whole_m, most / flat_m)),
        "break_strain": at["breaks"],
        "twist_taken": shortens * turns**2,
        "string_longest": winding.string_m + shortens * turns**2,
        "string_shortest": winding.string_m + shortens * (turns**2 - most**2),
        "loop_served_upper": upper.loop.length_m,
        "loop_served_lower": lower.loop.length_m,
        "serve_turns_upper": upper.single.turns,
        "serve_turns_lower": lower.single.turns,
        "bind_turns": upper.bound.turns,
        "thread_length": upper.single.thread_m
        + lower.single.thread_m
        + upper.bound.thread_m
        + lower.bound.thread_m
        + 4.0 * at["ends"],
    }
