"""From the brace height wanted to raw lengths and turns: what to measure off and how often to turn it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import sqrt
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import DomainError, Problem
from calc.geometry.ends import RoundTip
from calc.geometry.lay import lay
from calc.making.string.loop_fit import fit_loop, resting_place
from calc.making.string.tension import splice_share
from calc.making.string.turns import Plied, plied, raw_for

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.geometry.ends import Loop, Section
    from calc.geometry.lay import Lay
    from calc.making.string.order import End, Fit, Order


@dataclass(frozen=True, slots=True)
class Lays:
    """The bundle, and how it lies in each part of the string.

    Parameters
    ----------
    bundle_m : float
        Diameter of one bundle. [m]
    loop, splice, body : Lay
        In the loops; in the splices, whose bundles are doubled by the tails; in the free body.
    """

    bundle_m: float
    loop: Lay
    splice: Lay
    body: Lay


@dataclass(frozen=True, slots=True)
class Looped:
    """One end of a string at one set of causes.

    Parameters
    ----------
    section : Section
        Of the limb tip.
    loop : Loop
        On the limb tip.
    raw : Plied
        Its bundle, laid flat and plied.
    reach_m : float
        From its throat to the nock. [m]
    """

    section: Section
    loop: Loop
    raw: Plied
    reach_m: float


@dataclass(frozen=True, slots=True)
class Lengths:
    """One string at one set of causes.

    Attributes
    ----------
    string_m, slack_m : float
        Nock to nock along the string, braced and hanging slack after it has settled. [m]
    lays : Lays
    upper, lower : Looped
    splice, middle : Plied
        One splice (there are two alike), and the body between them.
    """

    string_m: float
    slack_m: float
    lays: Lays
    upper: Looped
    lower: Looped
    splice: Plied
    middle: Plied

    @property
    def body_raw_m(self) -> float:
        """Bundle length between the loop marks, splices and all [m]."""
        return self.middle.raw_m + 2.0 * self.splice.raw_m


def lays_at(order: Order, strands: int, at: Mapping[str, float]) -> Lays:
    """Return bundle and lays at one set of causes; a splice's bundles are doubled by the tails laid in.

    Parameters
    ----------
    order : Order
        What was planned.
    strands : int
        In the whole string.
    at : mapping of str to float
        One number for each cause.
    """
    one_m = order.cord.size({"fill": at["packing"]})["thickness"]
    bundle_m = one_m * sqrt(strands // order.bundles) * at["roll"]
    return _lays(bundle_m, order.bundles, (at["loop_lay"], at["splice_lay"], at["body_lay"]))


@lru_cache(maxsize=512)
def _lays(bundle_m: float, bundles: int, lays_rad: tuple[float, float, float]) -> Lays:
    loop_rad, splice_rad, body_rad = lays_rad
    return Lays(
        bundle_m,
        lay(bundle_m, bundles, loop_rad),
        lay(bundle_m * sqrt(2.0), bundles, splice_rad),
        lay(bundle_m, bundles, body_rad),
    )


def section_of(end: End, tip_m: float) -> Section:
    """Return the tip's section, or a round one of the size that stands for a tip not known.

    Parameters
    ----------
    end : End
        Of the bow.
    tip_m : float
        Diameter that stands for a tip not known. [m]
    """
    return RoundTip(tip_m) if end.section is None else end.section


def looped(order: Order, end: End, shape: Lays, at: Mapping[str, float]) -> Looped:
    """Return one end's loop at one set of causes.

    Parameters
    ----------
    order : Order
        What was planned.
    end : End
        Of the bow.
    shape : Lays
        From `lays_at`.
    at : mapping of str to float
        One number for each cause, ``tip`` that of this end. [m]
    """
    section = section_of(end, at["tip"])
    laid = at["loop_lay"], at["twist_held"]
    place = section, resting_place(section, end.rests)
    return _looped(place, end.fit, (shape.bundle_m, order.bundles), laid, at["seat"])


@lru_cache(maxsize=1024)
def _looped(
    place: tuple[Section, Section], fit: Fit, cord: tuple[float, int], laid: tuple[float, float], seat: float
) -> Looped:
    (section, passes), (bundle_m, bundles), (loop_rad, held) = place, cord, laid
    made = fit_loop(
        section,
        passes,
        fit,
        lay(bundle_m, bundles, loop_rad).cord_diameter_m,
        bundles=bundles,
        lay_rad=loop_rad,
        opening_rad=practice("throat_opening").spread.value,
        ease=practice("sliding_ease").spread.value,
        held=held,
    )
    return Looped(section, made.loop, made.raw, reach_m(section, made.loop, seat))


def reach_m(section: Section, loop: Loop, seat: float) -> float:
    """Return how far the throat stands from the nock's place on the belly. [m].

    Parameters
    ----------
    section, loop
        As for `looped`.
    seat : float
        0: the string leaves the tip level with its belly; -1: with its back half a depth further out;
        +1: with its middle.
    """
    return loop.throat_m - (1.0 - seat) * section.depth_m / 2.0


def lengths(order: Order, strands: int, at: Mapping[str, float]) -> Lengths:
    """Work back from the brace height wanted to what must be twisted.

    Parameters
    ----------
    order : Order
        The string wanted.
    strands : int
        In the whole string.
    at : mapping of str to float
        One number for each cause: those of the bow, ``tip`` [m], ``seat``, ``packing``,
        ``roll``, ``loop_lay``, ``splice_lay``, ``body_lay`` [rad], ``twist_held``, ``tails_take``,
        ``strain``, ``creep``, ``bedding``.

    Returns
    -------
    Lengths

    Raises
    ------
    DomainError
        ``pair`` with reason ``tails_long`` when loops and splices leave no body between them, and all that
        the bow's geometry raises.

    Notes
    -----
    Source: own composition of the functions it calls. Leaves out stretch inside the loops and any twist that
    wanders between splice and body.
    """
    string_m = order.bow.state(at).string_m(order.brace_m)
    shape = lays_at(order, strands, at)
    upper = looped(order, order.upper, shape, at)
    lower = looped(order, order.lower, shape, at)
    ends_m = upper.reach_m + lower.reach_m
    splice = plied(order.tail_m, shape.bundle_m * sqrt(2.0), order.bundles, at["splice_lay"], at["twist_held"])
    grown = (1.0 + at["bedding"]) * (1.0 + at["creep"])
    held_m = 2.0 * splice.cord_m * (1.0 + at["strain"] * splice_share(at))
    middle_m = ((string_m - ends_m) / grown - held_m) / (1.0 + at["strain"])
    if middle_m <= 0.0:
        raise DomainError(Problem(field="tail_m", code="pair", other="nock_to_nock_m", reason="tails_long"))
    middle = raw_for(middle_m, shape.bundle_m, order.bundles, at["body_lay"])
    settled_m = (middle.cord_m + 2.0 * splice.cord_m) * grown
    return Lengths(string_m, settled_m + ends_m, shape, upper, lower, splice, middle)
