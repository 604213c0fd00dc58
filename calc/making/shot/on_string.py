"""What hangs on a string besides itself, silencers, beads, bands: what it costs the arrow, and the string."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import DomainError, Problem, require
from calc.making.shot.whole_shot import shot_again
from calc.mechanics.bow import string_length
from calc.mechanics.shot import AddedMass
from calc.numerics import Spread

if TYPE_CHECKING:
    from calc.making.shot.request import ShotResult
    from calc.mechanics.shot import Shot

SHARES = (1.0, 0.75, 0.5, 0.25, 0.0)
"""Places that are compared: from the limb tip, as a share of the half string; the middle first."""
_INSIDE = 1.0 - 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class OnString:
    """What a string carries besides itself.

    Attributes
    ----------
    silencers_kg : float, >= 0
        Both together, one on either half. [kg]
    from_tip_m : float or None
        Each from its limb's nock, along the string; None: where they usually sit. [m]
    middle_kg : float, >= 0
        At the nocking point: bands, beads, what a serving weighs more than the usual one. [kg]
    """

    silencers_kg: float = 0.0
    from_tip_m: float | None = None
    middle_kg: float = 0.0

    @property
    def all_kg(self) -> float:
        """Everything together [kg]."""
        return self.silencers_kg + self.middle_kg


@dataclass(frozen=True, slots=True, kw_only=True)
class WeightAt:
    """Everything tied on at one place.

    Attributes
    ----------
    from_tip_m : float
        Along the string. [m]
    lost : Spread
        Share of the arrow's speed that it costs; below 0 it adds. [-]
    arrow_share : float
        What a grain there counts as, in grains on the arrow. [-]
    """

    from_tip_m: float
    lost: Spread
    arrow_share: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Laden:
    """A shot with what hangs on the string.

    Attributes
    ----------
    told : OnString
    from_tip_m : float
        Where the silencers sit. [m]
    lost : Spread
        Share of the arrow's speed that all of it costs. [-]
    counts_kg : float
        What it counts as, on the arrow. [kg]
    harder : float, >= 1
        Hardest pull in the string with it / without. [-]
    places : tuple of WeightAt
        All of it tied to one place after another, the middle first.
    """

    told: OnString
    from_tip_m: float
    lost: Spread
    counts_kg: float
    harder: float
    places: tuple[WeightAt, ...]


def laden_shot(done: ShotResult, told: OnString) -> Laden:
    """Return what the weights on a string cost the arrow.

    Parameters
    ----------
    done : ShotResult
        The shot with the string alone.
    told : OnString
        With something on it.

    Raises
    ------
    DomainError
        ``min`` for weights below 0 and for nothing at all; ``max`` for silencers beyond the middle of the string.

    Notes
    -----
    Source: `shot` with weights at their places (``derived:links``). A weight in the middle moves as the arrow does
    until the string is straight, so it costs what it would on the arrow; towards the tip it moves less. Between the two
    the string's own waves add to that or take off it: ``string_waves`` of the constants, most half-way. Whatever hangs
    on the string has to be stopped by it, and pulls it harder after the arrow has gone.
    """
    for name in ("silencers_kg", "middle_kg"):
        require(name, getattr(told, name), low=0.0)
    require("silencers_kg", told.all_kg, low=0.0, open_=True)
    half_m = string_length(done.asked.settled(), done.asked.brace_m) / 2.0
    usual_m = practice("silencer_place").spread.value * 2.0 * half_m
    from_tip_m = usual_m if told.from_tip_m is None else told.from_tip_m
    require("from_tip_m", from_tip_m, low=0.0)
    if from_tip_m > half_m:
        raise DomainError(Problem(field="from_tip_m", code="max", limit=half_m, reason="past_middle"))
    in_middle = _lost(done, (told.all_kg, 1.0))
    pairs = (told.silencers_kg, from_tip_m / half_m), (told.middle_kg, 1.0)
    hung = _hung(done, *pairs)
    lost = 1.0 - hung.speed_m_s / done.middle.speed_m_s
    return Laden(
        told=told,
        from_tip_m=from_tip_m,
        lost=_with_waves(done, lost, *pairs),
        counts_kg=told.all_kg * lost / in_middle,
        harder=max(1.0, hung.peak_n / done.middle.peak_n),
        places=tuple(_place(done, told.all_kg, share, half_m, in_middle) for share in SHARES),
    )


def _place(done: ShotResult, all_kg: float, share: float, half_m: float, in_middle: float) -> WeightAt:
    lost = _lost(done, (all_kg, share))
    return WeightAt(
        from_tip_m=share * half_m, lost=_with_waves(done, lost, (all_kg, share)), arrow_share=lost / in_middle
    )


def _lost(done: ShotResult, *weights: tuple[float, float]) -> float:
    """Return the share of the arrow's speed that weights cost, each with its place from the tip / half the string."""
    return 1.0 - _hung(done, *weights).speed_m_s / done.middle.speed_m_s


def _hung(done: ShotResult, *weights: tuple[float, float]) -> Shot:
    """Return the shot with weights on the string, each with its place from the tip / half the string."""
    slack_m = _INSIDE * string_length(done.asked.settled(), done.asked.brace_m) / 2.0
    slack_m /= 1.0 + done.middle.brace_n / done.string.stiffness_n
    added = tuple(AddedMass(kg, slack_m * (1.0 - share), slack_m * (1.0 - share)) for kg, share in weights)
    return shot_again(done, replace(done.string, added=added))


def _with_waves(done: ShotResult, lost: float, *weights: tuple[float, float]) -> Spread:
    """Return a loss with what the string's waves may add to it or take off it."""
    rides = sum(kg * 4.0 * share * (1.0 - share) for kg, share in weights) / done.asked.arrow_kg
    waves = practice("string_waves").spread
    return Spread(lost + waves.low * rides, lost, lost + waves.high * rides)
