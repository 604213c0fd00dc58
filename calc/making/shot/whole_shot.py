"""A shot with one string: what the arrow gets, how hard the string is pulled, and how sure that is."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from math import cos, sqrt
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import DomainError, Problem
from calc.geometry.lay import middle_lay
from calc.making.shot.request import ShotResult
from calc.making.shot.trials import Trials
from calc.making.strands import ShotFacts, WholeString, choose, peak_pull
from calc.mechanics.bow import draw_curve, end_tension, measured_curve, string_length
from calc.mechanics.estimate import CordEstimate
from calc.mechanics.fibre import string_stiffness
from calc.mechanics.shot import ShotString, dry_fire_peak, shot
from calc.numerics import Moves, Spread, beside

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.making.shot.request import ShotRequest
    from calc.mechanics.bow import Bow, MeasuredCurve
    from calc.mechanics.shot import Shot

WITHIN = 1e-2
"""Largest error of a step of a shot here: keeps speed within 0.1 % and peaks within 1 %."""
HEAVIER = 1.5
SOFTER = 0.5
"""The strings that are tried beside the one asked about: its weight times this, its stiffness times this."""
_MOST_STRAIN = 0.15
"""No string stretches more at rest on a bow: polyester breaks there. [-]"""
_BUNDLES = 2
_STEPS = 12
_DRY = 4.0 / 3.0
_LAY_RAD = middle_lay(*(practice(name).spread.value for name in ("lay_loosest", "lay_tightest")))
_shot = lru_cache(maxsize=64)(shot)


def work_out_shot(asked: ShotRequest) -> ShotResult:
    """Return all figures of a shot.

    Parameters
    ----------
    asked : ShotRequest

    Raises
    ------
    DomainError
        As `shot`, and as `measured_curve` where there is a table; ``model`` with reason ``string_soft``
        for a string that would stretch by more than fifteen hundredths.

    Notes
    -----
    Source: `shot` (``derived:links``). How sure it is: the shot is done again with light and heavy limbs
    where nobody weighed them, with limbs that bend otherwise, with a longer stiff handle where it was not
    measured, with a heavier and with a softer string; between and beyond these shots every figure is taken along the
    straight line, and the moves are added in quadrature (``jcgm100``). A bow stronger than it was told shoots as this
    one does off a string that is softer by as much, only harder (``derived:links``). What the limbs' own friction,
    hand and air take is ``shot_kept``.
    """
    bow = asked.settled()
    string_m = string_length(bow, asked.brace_m)
    strands, mass, stiff = _string(asked, string_m)
    limb = asked.limb_mass
    string = ShotString(stiff.value, mass.value)
    modelled = draw_curve(bow, asked.brace_m, asked.draw_m, asked.force_n, steps=_STEPS)
    _check_stretch(max(each.tension_n for each in modelled.points) / stiff.low)
    measured = None if asked.table is None else measured_curve(bow, asked.brace_m, asked.draw_m, asked.table)
    tried = _Tried(asked, string, limb.value, None if measured is None else measured.energy_j.value)
    middle = tried.shot()
    _check_stretch(max(middle.brace_n, middle.draw_n) / stiff.value)
    heavier = tried.shot(string=replace(string, mass_kg=mass.value * HEAVIER))
    softer = tried.shot(string=replace(string, stiffness_n=stiff.value * SOFTER))
    causes = {
        "limb_mass": limb,
        "string_mass": mass,
        "string_stiffness": stiff,
        "kept": practice("shot_kept").spread,
        "energy": _energy(measured),
    }
    lines = Trials(middle)
    lines.add("string_mass", mass.value, mass.value * HEAVIER, heavier)
    lines.add("string_stiffness", stiff.value, stiff.value * SOFTER, softer)
    lines.add("limb", 0.0, *tried.bent_otherwise())
    if asked.limb_kg is None:
        for end in (limb.low, limb.high):
            lines.add("limb_mass", limb.value, end, tried.shot(limb_kg=end))
    if asked.bow.handle_length_m is None:
        longer_m = asked.bow.causes["handle"].high
        lines.add("handle", bow.handle_length_m, longer_m, tried.shot(bow=asked.settled(handle_length_m=longer_m)))
    bows = asked.bow.moves.mapped(lambda at: _bow_at(asked, at))
    figures = _figures(asked, lines, beside(bows, causes))
    figures |= _at_rest(asked, middle, figures) | _must_hold(asked, strands)
    return ShotResult(
        asked=asked,
        string=string,
        strands=strands,
        middle=middle,
        heavier=heavier,
        softer=softer,
        curve=modelled.points if measured is None else measured.points,
        modelled_j=modelled.energy_j,
        causes=causes | _shown(bows),
        figures=figures | {"dry_peak": _beside(asked, figures, limb.value, middle, string)},
    )


def shot_again(done: ShotResult, string: ShotString) -> Shot:
    """Return the shot once more, with another string or with more on it.

    Parameters
    ----------
    done : ShotResult
        As worked out.
    string : ShotString
        In place of its own.

    Raises
    ------
    DomainError
        As `shot`.
    """
    stored_j = None if done.asked.table is None else done.middle.energy_j
    return _Tried(done.asked, done.string, done.causes["limb_mass"].value, stored_j).shot(string=string)


def _at_rest(asked: ShotRequest, middle: Shot, figures: Mapping[str, Spread]) -> dict[str, Spread]:
    """Return the pulls at rest by the statics that every worksheet uses; the shot's limbs of four angles are near them.

    Raises
    ------
    DomainError
        As `end_tension`.
    """
    brace_n, draw_n = end_tension(asked.settled(), asked.brace_m, asked.draw_m, asked.force_n)
    return {
        "tension_brace": figures["tension_brace"].scaled(brace_n / middle.brace_n),
        "tension_draw": figures["tension_draw"].scaled(draw_n / middle.draw_n),
    }


def _check_stretch(strain: float) -> None:
    """Refuse a string so soft that it would stretch out of what the sums hold for."""
    if strain > _MOST_STRAIN:
        raise DomainError(Problem(field="stiffness_n", code="model", limit=_MOST_STRAIN, reason="string_soft"))


def _string(asked: ShotRequest, string_m: float) -> tuple[int, Spread, Spread]:
    """Return strands, mass [kg] and stiffness [N] of the string."""
    lay_rad = _LAY_RAD
    strands = asked.strands or _advised(asked)
    whole_kg_m = strands * asked.yarn_kg_m
    bare_kg = whole_kg_m * string_m / cos(lay_rad)
    extra = practice("string_extra").spread
    mass = Spread(*(bare_kg * (1.0 + each) for each in (extra.low, extra.value, extra.high)))
    stiff = string_stiffness(asked.fibre, whole_kg_m, lay_rad)
    return (
        strands,
        mass if asked.string_kg is None else Spread.exactly(asked.string_kg),
        stiff if asked.stiffness_n is None else Spread.exactly(asked.stiffness_n),
    )


def _advised(asked: ShotRequest) -> int:
    return choose(
        _strand(asked),
        None,
        _BUNDLES,
        asked.force_n,
        arrow_kg=asked.arrow_kg,
        shape=asked.bow.shape,
        limbs=asked.limbs,
        limb=asked.weighed_limb,
    ).strands


def _strand(asked: ShotRequest) -> CordEstimate:
    return CordEstimate(fibre=asked.fibre, laid=False, yarn_kg_m=asked.yarn_kg_m, fits=asked.fits)


def _must_hold(asked: ShotRequest, strands: int) -> dict[str, Spread]:
    """Return what a string must hold by the table that every other worksheet asks, from what was told here."""
    string = WholeString.of(_strand(asked), strands, _LAY_RAD)
    facts = ShotFacts(
        draw_weight_n=asked.force_n,
        arrow_kg=asked.arrow_kg,
        shape=asked.bow.shape,
        limbs=asked.limbs,
        limb=asked.weighed_limb,
    )
    mass = string.mass_kg if asked.string_kg is None else Spread.exactly(asked.string_kg)
    stiff = string.stiffness_n if asked.stiffness_n is None else Spread.exactly(asked.stiffness_n)
    ratio = facts.peak_ratio(mass, stiff)
    return {"peak_ratio": ratio, "tension_peak": peak_pull(ratio, asked.force_n)}


def _energy(measured: MeasuredCurve | None) -> Spread:
    """Return stored energy by the table's two sums / its middle [-]."""
    if measured is None or measured.energy_j.value <= 0.0:
        return Spread.exactly(1.0)
    return measured.energy_j.scaled(1.0 / measured.energy_j.value)


def _bow_at(asked: ShotRequest, causes: Mapping[str, float]) -> Mapping[str, float]:
    """Return how far the limbs stray, the handle [m] and draw weight / what it is taken for; a table is as read."""
    state = asked.bow.state(causes)
    strength = state.weight_n / asked.force_n if asked.table is None else 1.0
    return {"limb": state.mix, "handle": state.handle_length_m, "strength": strength}


def _shown(bows: Moves[Mapping[str, float]]) -> dict[str, Spread]:
    """Return what is left uncertain of the bow; no handle is shorter than none."""
    found = bows.spreads(dict)
    return found | {"handle": replace(found["handle"], low=max(0.0, found["handle"].low))}


def _figures(asked: ShotRequest, lines: Trials, moves: Moves[Mapping[str, float]]) -> dict[str, Spread]:
    """Return every figure with its spread."""

    def at(here: Mapping[str, float]) -> dict[str, float]:
        found = lines.at(here)
        hardest_n = max(found["tension_peak_before"], found["tension_peak_after"])
        found["peak_multiple"] = hardest_n / (asked.force_n * here["strength"])
        found["arrow_speed"] = sqrt(2.0 * found["efficiency"] * found["stored_energy"] / asked.arrow_kg)
        return found

    return moves.spreads(at)


@dataclass(frozen=True, slots=True)
class _Tried:
    """The shot asked about, to be done again with one thing changed."""

    asked: ShotRequest
    string: ShotString
    limb_kg: float
    stored_j: float | None

    def shot(self, *, bow: Bow | None = None, string: ShotString | None = None, limb_kg: float | None = None) -> Shot:
        asked = self.asked
        return _shot(
            bow or asked.settled(),
            asked.brace_m,
            asked.draw_m,
            asked.force_n,
            arrow_kg=asked.arrow_kg,
            string=string or self.string,
            limb_mass_kg=limb_kg or self.limb_kg,
            stored_j=self.stored_j,
            within=WITHIN,
        )

    def bent_otherwise(self) -> tuple[float, Shot]:
        """Return a shot of limbs that bend otherwise, and how far they stray: 1 is half the way tapered to uniform."""
        shape = self.asked.settled().shape
        if shape == "uniform":
            return -2.0, self.shot(bow=self.asked.settled(shape="tapered"))
        return 2.0 if shape == "tapered" else 1.0, self.shot(bow=self.asked.settled(shape="uniform"))


def _beside(
    asked: ShotRequest, figures: Mapping[str, Spread], limb_kg: float, middle: Shot, string: ShotString
) -> Spread:
    """Return the pull of a shot without an arrow, as unsure as the pull after the arrow has gone [N].

    It is watched for as long as the shot takes with the arrow and a third on: without one the string straightens
    sooner, and its hardest pull comes sooner too.
    """
    dry_n = _dry(
        asked.settled(),
        asked.brace_m,
        asked.draw_m,
        asked.force_n,
        string=string,
        limb_mass_kg=limb_kg,
        time_s=_DRY * middle.leaves_s,
        within=WITHIN,
    )
    after = figures["tension_peak_after"]
    return after.scaled(dry_n / after.value)


_dry = lru_cache(maxsize=32)(dry_fire_peak)
