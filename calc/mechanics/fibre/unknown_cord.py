"""An unknown cord: what its weight, its floating, its thickness and a pull say about it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, TypeAlias

from calc.data import fibres, practice
from calc.errors import require
from calc.geometry.lay import linear_density, packing_of, wound_diameter
from calc.mechanics.fibre.ropes import labelled, rated_strength
from calc.mechanics.fibre.strength import strand_strength
from calc.numerics import Spread, combine_ratios

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.data import Fibre
    from calc.mechanics.fibre.ropes import Rating

WATER_KG_M3 = 998.0
"""Fresh water at 20 °C, from memory."""

Against: TypeAlias = Literal["floats", "sinks", "too_airy", "too_solid", "held_more"]
"""Why a cord cannot be of a fibre: it floats, it sinks, it is thicker or thinner than that weight of it can be, it
held more than the fibre can bear."""
Claim: TypeAlias = Literal["", "rated_more", "rated_less"]
"""How a label stands to a fibre: nothing to say; it promises more than the fibre can bear, or less than any cord of it
holds. Words on a label are no test: they rule no fibre out."""
Trust: TypeAlias = Literal["consistent", "many", "label", "none"]
"""One fibre fits all that was tested; several do; whatever fits, the label promises more than it can hold; none does,
and the cord is not to be trusted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Findings:
    """What was found about a cord; None where it was not looked for.

    Parameters
    ----------
    linear_density_kg_m : float, > 0
        From a weighed length, `weighed`. [kg/m]
    floats : bool or None
        In water, worked wet with a drop of soap so that no air is left in it.
    thickness_m : float or None, > 0
        From a roll-up, `rolled`. [m]
    held_n : float or None, >= 0
        A weight one strand carried without breaking. [N]
    rated_n : float or None, > 0
        The load on the label. [N]
    rating : str
        What that load is said to be.

    Raises
    ------
    DomainError
        ``min`` and ``number`` for figures out of bounds.
    """

    linear_density_kg_m: float
    floats: bool | None = None
    thickness_m: float | None = None
    held_n: float | None = None
    rated_n: float | None = None
    rating: Rating = "unknown"

    def __post_init__(self) -> None:
        require("linear_density_kg_m", self.linear_density_kg_m, low=0.0, open_=True)
        for name in ("thickness_m", "rated_n"):
            value = getattr(self, name)
            if value is not None:
                require(name, value, low=0.0, open_=True)
        if self.held_n is not None:
            require("held_n", self.held_n, low=0.0)


@dataclass(frozen=True, slots=True)
class Match:
    """One fibre held against the findings.

    Attributes
    ----------
    fibre : Fibre
    against : tuple of str
        Why it cannot be; empty where it fits.
    claim : str
        How the label stands to it.
    strength_n : Spread
        What one strand would hold, whatever its label says. [N]
    """

    fibre: Fibre
    against: tuple[Against, ...]
    claim: Claim
    strength_n: Spread


@dataclass(frozen=True, slots=True)
class CordVerdict:
    """What to think of a cord.

    Attributes
    ----------
    matches : tuple of Match
        Every fibre; those that fit first.
    trust : str
        ``consistent``, ``many``, ``label`` or ``none``.
    strength_n : Spread or None
        What one strand holds, over all fibres that fit, typical of the weakest, and lower where its label says less;
        None where none fits. [N]
    """

    matches: tuple[Match, ...]
    trust: Trust
    strength_n: Spread | None


def weighed(mass_kg: float, length_m: float) -> float:
    """Return the linear density of a weighed length [kg/m].

    Parameters
    ----------
    mass_kg, length_m : float, > 0
        [kg], [m]

    Notes
    -----
    Source: `linear_density`; 1 tex is 1e-6 kg/m.

    Examples
    --------
    >>> round(1e6 * weighed(0.0084, 50.0))
    168
    """
    return linear_density(mass_kg, length_m)


def rolled(width_m: float, turns: int) -> float:
    """Return the thickness of a cord wound close round a stick [m].

    Parameters
    ----------
    width_m : float, > 0
        Width the turns cover. [m]
    turns : int, >= 1
        Counted.

    Raises
    ------
    DomainError
        ``min`` for figures below their bounds, ``number`` for those not finite.

    Notes
    -----
    Source: `wound_diameter`.

    Examples
    --------
    >>> rolled(0.02, 10)
    0.002
    """
    require("turns", turns, low=1.0)
    return wound_diameter(width_m, turns)


def fill(density_kg_m3: float, linear_density_kg_m: float, thickness_m: float) -> float:
    """Return the share of a cord's round outline that is fibre [-].

    Parameters
    ----------
    density_kg_m3, linear_density_kg_m, thickness_m : float, > 0
        Of the fibre; of the cord. [kg/m^3], [kg/m], [m]

    Raises
    ------
    DomainError
        ``min`` for figures that are not above 0, ``number`` for those not finite.

    Notes
    -----
    Source: `packing_of`.

    Examples
    --------
    >>> from math import pi
    >>> round(fill(1000.0, 250.0 * pi * 0.002**2, 0.002), 9)
    1.0
    """
    require("thickness_m", thickness_m, low=0.0, open_=True)
    return packing_of(linear_density_kg_m, density_kg_m3, thickness_m)


def _against(fibre: Fibre, found: Findings, strength: Spread) -> tuple[Against, ...]:
    reasons: list[Against] = []
    if found.floats is True and fibre.density_kg_m3.low >= WATER_KG_M3:
        reasons.append("floats")
    if found.floats is False and fibre.density_kg_m3.high <= WATER_KG_M3:
        reasons.append("sinks")
    if found.thickness_m is not None:
        filled, usual = (
            fill(fibre.density_kg_m3.value, found.linear_density_kg_m, found.thickness_m),
            practice("cord_fill").spread,
        )
        if not usual.low <= filled <= usual.high:
            reasons.append("too_solid" if filled > usual.high else "too_airy")
    if found.held_n is not None and found.held_n > strength.high:
        reasons.append("held_more")
    return tuple(reasons)


def _claim(found: Findings, strength: Spread) -> Claim:
    if found.rated_n is None:
        return ""
    rated = rated_strength(found.rated_n, found.rating)
    if rated.low > strength.high:
        return "rated_more"
    return "rated_less" if rated.high < strength.low else ""


def _match(fibre: Fibre, found: Findings) -> Match:
    causes = {
        "yarn": strand_strength(fibre, found.linear_density_kg_m),
        "keeps": practice("cord_keeps").spread,
    }
    strength = combine_ratios(lambda at: {"cord": at["yarn"] * at["keeps"]}, causes)["cord"]
    return Match(fibre, _against(fibre, found, strength), _claim(found, strength), strength)


def trust_in(fits: Sequence[Match]) -> Trust:
    """Return how far a cord is to be trusted, by the fibres that fit.

    Parameters
    ----------
    fits : sequence of Match
        Fibres that nothing speaks against.

    Notes
    -----
    Source: own rule (``derived:cord-test``): a test tells what a cord is not, so one fibre left over is only
    consistent.

    Examples
    --------
    >>> trust_in(())
    'none'
    """
    if not fits:
        return "none"
    if all(each.claim == "rated_more" for each in fits):
        return "label"
    return "consistent" if len(fits) == 1 else "many"


def strength_of_fits(
    strengths: Sequence[Spread], *, held_n: float | None, rated_n: float | None, rating: Rating
) -> Spread:
    """Return what one cord holds that may be of several fibres.

    Parameters
    ----------
    strengths : sequence of Spread
        One for each fibre that fits. [N]
    held_n, rated_n : float or None
        What one cord carried; the load on its label. [N]
    rating : str
        What that load is said to be.

    Notes
    -----
    Source: own rule: low and typical are those of the weakest, high is that of the strongest; a label may lower all
    three (`labelled`), and none is below what it carried.

    Examples
    --------
    >>> two = (Spread(1.0, 2.0, 3.0), Spread(2.0, 4.0, 8.0))
    >>> strength_of_fits(two, held_n=1.5, rated_n=None, rating="unknown")
    Spread(low=1.5, value=2.0, high=8.0)
    """
    joint = Spread(
        min(each.low for each in strengths), min(each.value for each in strengths), max(each.high for each in strengths)
    )
    if rated_n is not None:
        joint = labelled(joint, rated_n, rating, known=False)
    least = held_n or 0.0
    return Spread(*(max(least, each) for each in (joint.low, joint.value, joint.high)))


def judge(found: Findings) -> CordVerdict:
    """Hold a cord against every fibre of the table.

    Parameters
    ----------
    found : Findings

    Returns
    -------
    CordVerdict

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> verdict = judge(Findings(linear_density_kg_m=2e-3, floats=True, held_n=900.0))
    >>> [each.fibre.id for each in verdict.matches if not each.against]
    ['hmpe', 'polypropylene', 'polypropylene-monofilament']
    """
    matches = sorted((_match(each, found) for each in fibres()), key=lambda match: len(match.against) > 0)
    fits = [each for each in matches if not each.against]
    if not fits:
        return CordVerdict(tuple(matches), "none", None)
    strength = strength_of_fits(
        [each.strength_n for each in fits], held_n=found.held_n, rated_n=found.rated_n, rating=found.rating
    )
    return CordVerdict(tuple(matches), trust_in(fits), strength)
