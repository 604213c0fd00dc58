"""From finished or raw lengths to cut strands: with two loops, with one loop and a hitch, or without an end."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import accumulate
from math import sqrt
from typing import TYPE_CHECKING, Literal

from calc.data import practice
from calc.errors import DomainError, Problem, require
from calc.geometry.ends import RoundTip, stagger, widest_opening
from calc.geometry.lay import radius_ratio, retraction, surface_angle
from calc.making.string.loop_fit import fit_loop, moved_tip, thicker_where_it_rests
from calc.making.string.turns import plied, raw_for

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.making.string.loop_fit import FitLoop
    from calc.making.string.order import End
    from calc.making.string.turns import Plied

_FINEST_M = 1e-6
"""A step finer than this is none."""
_fitted = lru_cache(maxsize=256)(fit_loop)
Method = Literal["loops", "hitch", "endless"]
"""Two laid loops; one laid loop and a timber hitch; wound endless, its loops served."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CutOrder:
    """A string whose finished length is known.

    Parameters
    ----------
    finished_m : float, > 0
        Nock to nock along the slack, settled string. [m]
    method : {"loops", "hitch", "endless"}
    bundles, strands : int
        Bundles, and strands in the whole string; an endless string counts as two bundles, its two sides.
    bundle_m : float, > 0
        Thickness of one bundle. [m]
    upper, lower : End
        Limb tips and fits; a hitch needs no lower one.
    tail_m : float, > 0
        Longest strand end beyond a loop. [m]
    step_m : float, >= 0
        Step wanted between strand ends. [m]

    Raises
    ------
    DomainError
        ``pair`` with reason ``few_strands``, ``uneven_strands`` or ``odd_strands``; ``min`` with reason
        ``tail_short``.
    """

    finished_m: float
    method: Method
    bundles: int
    strands: int
    bundle_m: float
    upper: End
    lower: End
    tail_m: float
    step_m: float

    def __post_init__(self) -> None:
        if self.strands < self.bundles:
            raise DomainError(Problem(field="strands", code="pair", other="bundles", reason="few_strands"))
        if self.strands % self.bundles:
            reason = "odd_strands" if self.method == "endless" else "uneven_strands"
            raise DomainError(Problem(field="strands", code="pair", other="bundles", reason=reason))
        least_m = practice("tail_least").spread.value
        if self.method != "endless" and self.tail_m < least_m:
            raise DomainError(Problem(field="tail_m", code="min", limit=least_m, reason="tail_short"))

    @property
    def each(self) -> int:
        """Strands in one bundle; times round, of an endless string."""
        return self.strands // self.bundles


@dataclass(frozen=True, slots=True)
class CutZone:
    """A stretch of the flat bundle.

    Parameters
    ----------
    name : {"tail", "loop", "body", "hitch"}
        What it becomes.
    length_m : float
        Along the flat bundle. [m]
    """

    name: Literal["tail", "loop", "body", "hitch"]
    length_m: float


@dataclass(frozen=True, slots=True)
class CutPlan:
    """How one string is cut.

    Attributes
    ----------
    zones : tuple of CutZone
        Along the flat bundle; of an endless string, once round.
    pieces : int
        To cut.
    cut_m : float
        Length of each piece. [m]
    step_m : float
        Each strand of a bundle lies this far behind the last. [m]
    body_cord_m : float
        Free body, freshly plied; between the throats of an endless string. [m]
    take_up : float
        What twisting takes of the free body's bundles. [-]
    """

    zones: tuple[CutZone, ...]
    pieces: int
    cut_m: float
    step_m: float
    body_cord_m: float
    take_up: float

    @property
    def marks_m(self) -> tuple[float, ...]:
        """Where each zone ends, from the first strand end [m]."""
        return tuple(accumulate(zone.length_m for zone in self.zones))

    @property
    def cord_m(self) -> float:
        """All pieces together [m]."""
        return self.pieces * self.cut_m


def cut_plan(order: CutOrder, at: Mapping[str, float]) -> CutPlan:
    """Return how a string is cut, worked back from its finished length.

    Parameters
    ----------
    order : CutOrder
        What is wanted.
    at : mapping of str to float
        One number for each cause: ``tape``, ``tip_upper``, ``tip_lower`` [m], ``bundle`` (share), ``seat``,
        ``loop_lay``, ``splice_lay``, ``body_lay`` [rad], ``twist_held``, ``bedding``, ``hitch``, ``ends``, ``bound``,
        ``pitch`` [m].

    Raises
    ------
    DomainError
        ``pair`` with reason ``tails_long`` when loops and tails leave no body between them, ``cord_thick`` when a
        loop cannot close round its tip.

    Notes
    -----
    Source: own composition (``derived:body``, ``derived:cut``); a string with two loops is cut as the bench sheet cuts
    it; the body of one with a hitch is plied by hand and takes up like a loop. Leaves out stretch inside the loops and
    the serving on endless loops.
    """
    bundle_m = order.bundle_m * (1.0 + at["bundle"])
    upper = _loop(order, order.upper, bundle_m, at, "tip_upper")
    if order.method == "hitch":
        return _hitched(order, bundle_m, upper, at)
    lower = _loop(order, order.lower, bundle_m, at, "tip_lower")
    legs_m = order.finished_m + at["tape"] - _reach(upper, at) - _reach(lower, at)
    if order.method == "endless":
        return _endless(order, bundle_m, (upper, lower), legs_m, at)
    return cut_between(order, bundle_m, (upper.raw.raw_m, lower.raw.raw_m), legs_m, at)


def cut_between(
    order: CutOrder, bundle_m: float, loops_m: tuple[float, float], legs_m: float, at: Mapping[str, float]
) -> CutPlan:
    """Return how a string with two laid loops is cut whose loops and whose length between them are known.

    Parameters
    ----------
    order : CutOrder
        Its strands and tails.
    bundle_m : float, > 0
        Thickness of one bundle. [m]
    loops_m : (float, float), > 0
        Upper and lower loop on the flat bundle. [m]
    legs_m : float, > 0
        From throat to throat along the slack, settled string. [m]
    at : mapping of str to float
        ``splice_lay``, ``body_lay`` [rad], ``twist_held``, ``bedding``.

    Raises
    ------
    DomainError
        ``pair`` with reason ``tails_long`` when the tails leave no body between them.

    Notes
    -----
    Source: own composition (``derived:body``, ``derived:cut``).
    """
    splice = plied(order.tail_m, bundle_m * sqrt(2.0), order.bundles, at["splice_lay"], at["twist_held"])
    middle_m = _some(legs_m / (1.0 + at["bedding"]) - 2.0 * splice.cord_m)
    middle = raw_for(middle_m, bundle_m, order.bundles, at["body_lay"])
    zones = (
        CutZone("tail", order.tail_m),
        CutZone("loop", loops_m[0]),
        CutZone("body", middle.raw_m + 2.0 * order.tail_m),
        CutZone("loop", loops_m[1]),
        CutZone("tail", order.tail_m),
    )
    return _cut(order, zones, middle)


def _hitched(order: CutOrder, bundle_m: float, upper: FitLoop, at: Mapping[str, float]) -> CutPlan:
    """Cut for one loop: the body goes on to the lower nock, and beyond it for the hitch.

    All of it is plied by hand to its end, as a loop is; nothing is turned at the ends, so it has the lay of a loop.
    """
    legs_m = order.finished_m + at["tape"] - _reach(upper, at)
    splice = plied(order.tail_m, bundle_m * sqrt(2.0), order.bundles, at["splice_lay"], at["twist_held"])
    middle_m = _some(legs_m / (1.0 + at["bedding"]) - splice.cord_m)
    laid = at["loop_lay"], at["twist_held"]
    middle, hitch = (raw_for(each, bundle_m, order.bundles, *laid) for each in (middle_m, at["hitch"]))
    zones = (
        CutZone("tail", order.tail_m),
        CutZone("loop", upper.raw.raw_m),
        CutZone("body", middle.raw_m + order.tail_m),
        CutZone("hitch", hitch.raw_m),
    )
    return _cut(order, zones, middle)


def _endless(
    order: CutOrder, bundle_m: float, loops: tuple[FitLoop, FitLoop], legs_m: float, at: Mapping[str, float]
) -> CutPlan:
    """Cut one piece that goes round and round; only the free legs are twisted, as one bundle of twice the area."""
    twisted_m = _some(legs_m / (1.0 + at["endless_bedding"]) - 2.0 * at["bound"])
    own = retraction(surface_angle(bundle_m * sqrt(2.0), 1.0 / at["pitch"]))
    leg_m = twisted_m / (1.0 - own) + 2.0 * at["bound"]
    upper, lower = (each.loop.length_m for each in loops)
    zones = (CutZone("loop", upper), CutZone("body", leg_m), CutZone("loop", lower), CutZone("body", leg_m))
    once_m = sum(each.length_m for each in zones)
    return CutPlan(zones, 1, order.each * once_m + 2.0 * at["ends"], 0.0, legs_m, own)


def _cut(order: CutOrder, zones: tuple[CutZone, ...], middle: Plied) -> CutPlan:
    step_m = 0.0
    if order.step_m > _FINEST_M:
        step_m = stagger(order.each, order.tail_m, practice("tail_least").spread.value, order.step_m)
    cut_m = sum(each.length_m for each in zones) - (order.each - 1) * step_m
    return CutPlan(zones, order.strands, cut_m, step_m, middle.cord_m, middle.take_up)


_LONG = Problem(field="tail_m", code="pair", other="finished_m", reason="tails_long")


def _some(length_m: float) -> float:
    if length_m <= 0.0:
        raise DomainError(_LONG)
    return length_m


def _loop(order: CutOrder, end: End, bundle_m: float, at: Mapping[str, float], tip: str) -> FitLoop:
    section = RoundTip(at[tip]) if end.section is None else moved_tip(end.section, at[tip])
    cord_m = bundle_m * (2.0 * radius_ratio(order.bundles, at["loop_lay"]) + 1.0)
    if order.method == "endless":
        cord_m = bundle_m
    opening = practice("throat_opening").spread.value
    if end.fit == "nocked" and widest_opening(section, cord_m) < opening:
        raise DomainError(Problem(field="bundle_m", code="pair", other=tip, reason="cord_thick"))
    return _fitted(
        section,
        moved_tip(section, thicker_where_it_rests(end.section).value),
        end.fit,
        cord_m,
        bundles=order.bundles,
        lay_rad=at["loop_lay"],
        opening_rad=opening,
        ease=practice("sliding_ease").spread.value,
        held=at["twist_held"],
    )


def _reach(looped: FitLoop, at: Mapping[str, float]) -> float:
    """Return how far the throat stands from the nock's place on the belly [m]."""
    return looped.loop.throat_m - (1.0 - at["seat"]) * looped.section.depth_m / 2.0


@dataclass(frozen=True, slots=True)
class Cuts:
    """How the strands of one string are cut and marked.

    Attributes
    ----------
    cut_m : float
        Every strand's length. [m]
    step_m : float
        Each strand of a bundle lies this far behind the last. [m]
    shortest_tail_m : float
        What the shortest strand end still reaches beyond its loop mark. [m]
    marks_m : tuple of float
        Ends of tail, loop, body, loop and tail from the first strand end. [m]
    cord_m : float
        All strands together. [m]
    """

    cut_m: float
    step_m: float
    shortest_tail_m: float
    marks_m: tuple[float, ...]
    cord_m: float


def cuts(
    *,
    tail_m: float,
    loop_upper_m: float,
    body_m: float,
    loop_lower_m: float,
    strands: int,
    bundles: int,
    least_tail_m: float,
    wanted_step_m: float,
) -> Cuts:
    """Return the cut of strands that are all alike and lie staggered, so that both tails taper.

    Parameters
    ----------
    tail_m : float, > 0
        Longest strand end beyond each loop mark. [m]
    loop_upper_m, body_m, loop_lower_m : float, > 0
        Raw lengths between the marks. [m]
    strands, bundles : int
        In the whole string; how they are shared.
    least_tail_m : float, > 0
        Shortest strand end that may be left beyond a mark. [m]
    wanted_step_m : float, > 0
        Step from strand to strand where the tail is long enough for it. [m]

    Returns
    -------
    Cuts
        One end's longest strand is the other end's shortest, so every strand is shorter than the whole
        bundle by the taper.

    Raises
    ------
    DomainError
        ``pair`` with reason ``tail_short`` when the tail is shorter than the least that holds,
        ``tails_long`` when the two tails would meet on the body.

    Examples
    --------
    Two strands a bundle, half an inch apart, in inches for once:

    >>> cuts(tail_m=8, loop_upper_m=4, body_m=42, loop_lower_m=4, strands=4, bundles=2,
    ...      least_tail_m=2, wanted_step_m=0.5).cut_m
    65.5
    """
    for name, value in (("loop_upper_m", loop_upper_m), ("body_m", body_m), ("loop_lower_m", loop_lower_m)):
        require(name, value, low=0.0, open_=True)
    if tail_m < least_tail_m:
        raise DomainError(Problem(field="tail_m", code="min", limit=least_tail_m, reason="tail_short"))
    if 2.0 * tail_m >= body_m:
        raise DomainError(Problem(field="tail_m", code="pair", other="nock_to_nock_m", reason="tails_long"))
    each = strands // bundles
    step_m = stagger(each, tail_m, least_tail_m, wanted_step_m)
    taper_m = (each - 1) * step_m
    marks, reached = [], 0.0
    for zone_m in (tail_m, loop_upper_m, body_m, loop_lower_m, tail_m):
        reached += zone_m
        marks.append(reached)
    cut_m = reached - taper_m
    return Cuts(cut_m, step_m, tail_m - taper_m, tuple(marks), strands * cut_m)
