"""Strands as they are bought: string yarn that rolls into one, or laid and braided cord that keeps its own round."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt
from typing import TYPE_CHECKING, TypedDict

from calc.data import fibres, practice
from calc.errors import DomainError, Problem
from calc.geometry.lay import lay, packing_of, rolled_diameter
from calc.making.strands.hardest_pull import peak_ratio
from calc.making.strands.string_strength import Advice, judged
from calc.mechanics.estimate import CordEstimate
from calc.mechanics.fibre import (
    Findings,
    assembly_efficiency,
    judge,
)
from calc.numerics import Spread, combine

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping
    from typing import Unpack

    from calc.data import Fibre
    from calc.making.strands.hardest_pull import ShotFacts
    from calc.making.strands.string_strength import StringStrength
    from calc.mechanics.fibre import Match, Rating

MOST_STRANDS = 4000
"""More than hands can lay: an answer beyond it is no answer."""
_ROUNDING = 1e-9
_FURTHER = 1.25
"""How far off its middle a bell has a fiftieth beyond, where a twentieth lies beyond 1."""
NOT_SOLD = {"sinew"}
"""Fibres of the table that nobody meets as a nameless strand."""


class Tested(TypedDict, total=False):
    """What else was tried on a cord, as in `Findings`."""

    floats: bool | None
    held_n: float | None
    rated_n: float | None
    rating: Rating


def weakest(fits: Iterable[Fibre], *, laid: bool) -> Fibre:
    """Return the fibre of which a strand of one weight holds least.

    Parameters
    ----------
    fits : iterable of Fibre
        At least one.
    laid : bool
        Whether the strand is laid cord; otherwise yarn or thread.

    Examples
    --------
    >>> from calc.data import fibre
    >>> weakest([fibre("hmpe"), fibre("linen")], laid=True).id
    'linen'
    """
    one_kg_m = 1e-3
    return min(fits, key=lambda each: CordEstimate(fibre=each, laid=laid, yarn_kg_m=one_kg_m).found()["strength"].value)


def sold() -> tuple[Fibre, ...]:
    """Return every fibre that a nameless strand may be of."""
    return tuple(each for each in fibres() if each.id not in NOT_SOLD)


def thick_as_cord(strand: CordEstimate) -> bool:
    """Return whether a strand told as yarn is so thick that two of them, plied, would be a whole string.

    Parameters
    ----------
    strand : CordEstimate
        Laid cord may be as thick as it likes.

    Notes
    -----
    Source: two alike, plied, are twice as thick as one (``derived:lay``); thinnest body by ``common-practice``.

    Examples
    --------
    >>> from calc.data import fibre
    >>> [thick_as_cord(CordEstimate(fibre=fibre("polyester"), laid=False, yarn_kg_m=tex * 1e-6)) for tex in (167, 3609)]
    [False, True]
    """
    return not strand.laid and 2.0 * strand.found()["thickness"].value >= practice("cord_thinnest").spread.value


def unnamed(
    *,
    laid: bool,
    yarn_kg_m: float | None,
    thickness_m: float | None = None,
    rated_n: float | None = None,
    rating: Rating = "unknown",
    broken_n: float | None = None,
) -> CordEstimate:
    """Return a strand whose fibre nobody knows, counted on as the weakest that fits.

    Parameters
    ----------
    laid, yarn_kg_m, thickness_m, rated_n, rating, broken_n
        As for `CordEstimate`.

    Raises
    ------
    DomainError
        As `CordEstimate`; ``model`` with reason ``nothing_fits`` for a cord too thick or too thin for its weight.

    Notes
    -----
    Source: `fitting` (``derived:cord-test``), by weight and thickness alone. Yarn lies flat under a finger, so its
    thickness rules nothing out.
    """
    fits, across = sold(), None
    if laid and yarn_kg_m is not None and thickness_m is not None:
        off = practice("thickness_reading").spread
        across = Spread(*(thickness_m * (1.0 + each) for each in (off.low, off.value, off.high)))
        fits = tuple(each.fibre for each in fitting(Spread.exactly(yarn_kg_m), across) if not each.against)
    if not fits:
        raise DomainError(Problem(field="thickness_m", code="pair", other="yarn_kg_m", reason="nothing_fits"))
    least = weakest(fits, laid=laid)
    if across is not None and packing_of(yarn_kg_m or 0.0, least.density_kg_m3.value, across.value) > 1.0:
        thickness_m = None
    return CordEstimate(
        fibre=least, laid=laid, yarn_kg_m=yarn_kg_m, thickness_m=thickness_m, rated_n=rated_n, rating=rating, fits=fits,
        broken_n=broken_n,
    )  # fmt: skip


def fitting(weight: Spread, thickness: Spread | None, **tested: Unpack[Tested]) -> tuple[Match, ...]:
    """Return a cord held against every fibre that is sold as cord; no reading that may be off rules one out.

    Parameters
    ----------
    weight : Spread
        Linear density. [kg/m]
    thickness : Spread or None
        Of the cord; None where it was not measured. [m]
    tested
        The rest of `Findings`.

    Notes
    -----
    Source: `judge` (``derived:cord-test``), asked three times: as read, and with weight and thickness off both ways.
    """
    seen: dict[str, Match] = {}
    for line, side in ((weight.value, "value"), (weight.low, "high"), (weight.high, "low")):
        across = None if thickness is None else getattr(thickness, side)
        found = judge(Findings(linear_density_kg_m=line, thickness_m=across, **tested))
        for each in found.matches:
            before = seen.get(each.fibre.id)
            if before is None or (before.against and not each.against):
                seen[each.fibre.id] = each
    kept = (each for each in seen.values() if each.fibre.id not in NOT_SOLD)
    return tuple(sorted(kept, key=lambda each: (len(each.against) > 0, each.fibre.words)))


@dataclass(frozen=True, slots=True)
class Thickness:
    """How thick a number of strands becomes.

    Parameters
    ----------
    bundle_m : Spread
        One bundle. [m]
    cord_m : Spread
        The plied body. [m]
    together_m : Spread
        All strands rolled together. [m]
    """

    bundle_m: Spread
    cord_m: Spread
    together_m: Spread


def thickness(strand: CordEstimate, strands: int, bundles: int, lay_rad: float) -> Thickness:
    """Return how thick a number of strands becomes.

    Parameters
    ----------
    strand : CordEstimate
    strands, bundles : int
        In the whole string, at least one in each bundle; 2 or 3.
    lay_rad : float
        [rad]

    Raises
    ------
    DomainError
        As `helical_lay`.

    Notes
    -----
    Source: yarn rolls into one round (``derived:packing``), cord keeps its own rounds in an envelope
    (``graham1998``); bundles as `helical_lay`.
    """
    causes = strand.causes() | {
        "roll": rolled(strand, strands // bundles),
        "roll_all": rolled(strand, strands),
    }
    ratio = lay(1.0, bundles, lay_rad).cord_diameter_m

    def measured(at: Mapping[str, float]) -> dict[str, float]:
        one = strand.size(at)["thickness"]
        bundle = one * at["roll"]
        return {"bundle": bundle, "cord": bundle * ratio, "together": one * at["roll_all"]}

    out = combine(measured, causes)
    return Thickness(out["bundle"], out["cord"], out["together"])


def rolled(strand: CordEstimate, count: int) -> Spread:
    """Return how thick so many strands roll together, in thicknesses of one [-].

    Parameters
    ----------
    strand : CordEstimate
        Laid cord keeps its round shape in a roll; yarn does not.
    count : int, >= 1
        Strands rolled together.
    """
    return rolled_diameter(count, 1.0) if strand.laid else Spread.exactly(sqrt(count))


def strand_count(strand: CordEstimate, bundles: int, lay_rad: float, facts: ShotFacts) -> Advice:
    """Return the fewest strands that are strong enough and thick enough.

    Parameters
    ----------
    strand, bundles, lay_rad
        As for `thickness`.
    facts : ShotFacts
        Of the bow and its arrow.

    Raises
    ------
    DomainError
        ``model`` with reason ``too_many`` where more than `MOST_STRANDS` would be needed.

    Notes
    -----
    Source: own rule: the typical string holds the typical hardest pull times the working margin, and the string holds
    the hardest pull in 98 of 100 cases, a quarter further out than its low end; and a body no thinner than fingers and
    nocks are made for. More strands make a stiffer string, which is pulled harder, but by less than they hold more.
    """
    one, size = strand.found(), strand.size({name: each.value for name, each in strand.causes().items()})
    margin, most = practice("working_margin").spread.value, MOST_STRANDS // bundles
    widest, thinnest_m = (
        lay(size["thickness"], bundles, lay_rad).cord_diameter_m,
        practice("cord_thinnest").spread.value,
    )

    def strong_enough(each: int) -> bool:
        held = strength_of(strand, one["strength"], bundles * each, lay_rad, facts).safety
        least = held.value * (held.low / held.value) ** _FURTHER
        return bool(min(held.value / margin, least) >= 1.0 - _ROUNDING)

    def thick_enough(each: int) -> bool:
        return widest * rolled(strand, each).value >= thinnest_m

    counts = _fewest(strong_enough, most), _fewest(thick_enough, most)
    if max(counts) > most:
        raise DomainError(Problem(field="yarn_kg_m", code="model", other="fibre", reason="too_many"))
    for_strength, for_thickness = (bundles * each for each in counts)
    return Advice(max(for_strength, for_thickness), for_strength, for_thickness)


def strength_of(
    strand: CordEstimate, strength_n: Spread, strands: int, lay_rad: float, facts: ShotFacts
) -> StringStrength:
    """Return what a string of so many strands holds, and what the shot asks of it.

    Parameters
    ----------
    strand : CordEstimate
    strength_n : Spread
        What one strand holds. [N]
    strands : int, > 0
    lay_rad : float
        [rad]
    facts : ShotFacts

    Notes
    -----
    Source: `judged` with `assembly_efficiency` and `peak_ratio`.
    """
    ratio = peak_ratio(facts, strand, strands, lay_rad)
    return judged(strength_n, strands, assembly_efficiency(lay_rad), ratio, facts.draw_weight_n)


def _fewest(enough: Callable[[int], bool], most: int) -> int:
    """Return the least count that is enough; one more than the most where none is. More is never less enough."""
    low, high = 0, 4
    while high <= most and not enough(high):
        low, high = high, 2 * high
    high = min(high, most + 1)
    while high - low > 1:
        middle = (low + high) // 2
        if enough(middle):
            high = middle
        else:
            low = middle
    return high
