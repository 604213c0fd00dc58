"""The hardest pull of a shot by the string that is on the bow: one answer for every sheet."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import cos
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import require
from calc.geometry.ends import RoundTip, is_pipe
from calc.making.strands.speed import usual_arrow
from calc.mechanics.fibre import string_stiffness
from calc.mechanics.shot import ShotLoad, peak_force_ratio, pipe_limb_mass, usual_limb_share, usual_string_length
from calc.numerics import Spread, combine_ratios

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.data import Limbs
    from calc.geometry.ends import Section
    from calc.mechanics.bow import LimbShape
    from calc.mechanics.estimate import BowEstimate, CordEstimate


@dataclass(frozen=True, slots=True, kw_only=True)
class ShotFacts:
    """What is known of a bow and its arrow.

    Parameters
    ----------
    draw_weight_n : float, > 0
        [N]
    arrow_kg : float or None, > 0
        None: a usual arrow for a wooden bow. [kg]
    shape : LimbShape or None
        Of the limbs; None: nobody has looked.
    limbs : {"wood", "pipe"}
        What they are of: limbs of pipe are heavier.
    limb : Spread or None, > 0
        What one working limb weighs, by a scale or as `limb_of` knows it; None: not known. [kg]

    Raises
    ------
    DomainError
        ``min`` or ``number``.
    """

    draw_weight_n: float
    arrow_kg: float | None = None
    shape: LimbShape | None = None
    limbs: Limbs = "wood"
    limb: Spread | None = None

    def __post_init__(self) -> None:
        for name in ("draw_weight_n", "arrow_kg"):
            if (told := getattr(self, name)) is not None:
                require(name, told, low=0.0, open_=True)
        if self.limb is not None:
            require("limb_mass_kg", self.limb.low, low=0.0, open_=True)

    @property
    def arrow(self) -> Spread:
        """As told, or a usual one [kg]."""
        return usual_arrow(self.draw_weight_n) if self.arrow_kg is None else Spread.exactly(self.arrow_kg)

    def peak_ratio(self, string_kg: Spread, stiffness_n: Spread) -> Spread:
        """Return the hardest pull of a shot / draw weight [-].

        Parameters
        ----------
        string_kg, stiffness_n : Spread, > 0
            The whole string, and its pull per strain. [kg], [N]

        Notes
        -----
        Source: `peak_force_ratio`.

        Examples
        --------
        >>> light, heavy = (ShotFacts(draw_weight_n=178.0, arrow_kg=each) for each in (0.0143, 0.0259))
        >>> string = Spread.exactly(0.006), Spread.exactly(25e3)
        >>> heavy.peak_ratio(*string).value < light.peak_ratio(*string).value
        True
        """
        each = 1.0 / self.draw_weight_n
        load = ShotLoad(
            limb=usual_limb_share(self.limbs) if self.limb is None else self.limb.scaled(each),
            arrow=self.arrow.scaled(each),
            string=string_kg.scaled(each),
            stiffness=stiffness_n.scaled(each),
        )
        return peak_force_ratio(self.shape, load)


def limb_of(bow: BowEstimate, weighed_kg: float | None, tip: Section | None, schedule: str | None) -> Spread | None:
    """Return what one working limb weighs; None where neither a scale nor a pipe tells it [kg].

    Parameters
    ----------
    bow : BowEstimate
        Its length and its stiff handle.
    weighed_kg : float or None, > 0
        As weighed. [kg]
    tip : Section or None
        A limb tip; one as thick as a pipe of the table makes the limbs pipe.
    schedule : {"40", "80"} or None
        Of the pipe's wall; None: not known.

    Notes
    -----
    Source: `pipe_limb_mass`.

    Examples
    --------
    >>> from calc.mechanics.estimate import BowEstimate
    >>> bow = BowEstimate(nock_to_nock_m=1.27, handle_length_m=0.254)
    >>> round(1000 * limb_of(bow, None, RoundTip(0.84 * 0.0254), "40").value)
    124
    """
    if weighed_kg is not None:
        return Spread.exactly(weighed_kg)
    if not isinstance(tip, RoundTip) or not is_pipe(tip):
        return None
    handle, long_m = bow.causes["handle"], bow.nock_to_nock_m
    ends = (max(0.0, long_m - each) / 2.0 for each in (handle.high, handle.value, handle.low))
    return pipe_limb_mass(tip.diameter_m, Spread(*ends), schedule)


@dataclass(frozen=True, slots=True)
class WholeString:
    """A string as a shot feels it, before it is made.

    Attributes
    ----------
    mass_kg, stiffness_n : Spread
        As for `ShotFacts.peak_ratio`. [kg], [N]
    """

    mass_kg: Spread
    stiffness_n: Spread

    @classmethod
    def of(cls, strand: CordEstimate, strands: int, lay_rad: float) -> WholeString:
        """Return the string of so many strands.

        Parameters
        ----------
        strand : CordEstimate
        strands : int, > 0
            In the whole string.
        lay_rad : float
            Of its body. [rad]

        Notes
        -----
        Source: as stiff as its fibre makes it (`string_stiffness`), or any that fits; as heavy as usual lengths, loops,
        tails and serving make it (``string_extra`` in the constants).
        """
        line_kg_m = strands * strand.size({name: each.value for name, each in strand.causes().items()})["linear"]
        stiff = [string_stiffness(each, line_kg_m, lay_rad) for each in (strand.fibre, *strand.fits)]
        stiffness_n = Spread(min(each.low for each in stiff), stiff[0].value, max(each.high for each in stiff))
        return cls(_mass_each(lay_rad).scaled(line_kg_m), stiffness_n)


def peak_ratio(facts: ShotFacts, strand: CordEstimate, strands: int, lay_rad: float) -> Spread:
    """Return the hardest pull of a shot / draw weight, with a string of so many strands [-].

    Parameters
    ----------
    facts : ShotFacts
    strand, strands
        As for `WholeString.of`.
    lay_rad : float
        Of its body. [rad]
    """
    string = WholeString.of(strand, strands, lay_rad)
    return facts.peak_ratio(string.mass_kg, string.stiffness_n)


def peak_pull(ratio: Spread, draw_weight_n: float) -> Spread:
    """Return the hardest pull of a shot [N].

    Parameters
    ----------
    ratio : Spread
        `peak_ratio`. [-]
    draw_weight_n : float, > 0
        As told. [N]

    Notes
    -----
    Source: their product, and how far off a draw weight may be that was told (``weight_told`` in the constants).
    """
    causes = {"ratio": ratio, "told": practice("weight_told").spread.shifted(1.0)}
    return combine_ratios(lambda at: {"pull": draw_weight_n * at["told"] * at["ratio"]}, causes)["pull"]


@lru_cache(maxsize=16)
def _mass_each(lay_rad: float) -> Spread:
    """Return what a whole string weighs / the weight of its strands for each metre [m]."""
    causes = {"length": usual_string_length(), "extra": practice("string_extra").spread}

    def weighed(at: Mapping[str, float]) -> dict[str, float]:
        return {"mass": at["length"] * (1.0 + at["extra"]) / cos(lay_rad)}

    return combine_ratios(weighed, causes)["mass"]
