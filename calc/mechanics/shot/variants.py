"""The same bow and arrow with other strings, and with no arrow at all."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi
from typing import TYPE_CHECKING

from calc.errors import require
from calc.mechanics.fibre import string_stiffness
from calc.mechanics.shot.full_draw import ShotString, full_draw_state
from calc.mechanics.shot.shooting import peak, shot
from calc.mechanics.shot.trajectory import WITHIN, integrate_trajectory

if TYPE_CHECKING:
    from collections.abc import Iterable

    from calc.data import Fibre
    from calc.mechanics.bow import Bow
    from calc.mechanics.shot.full_draw import AddedMass

COARSE = 3e-3
"""Largest error of a step where many shots are compared: keeps speed within 0.1 % and peaks within 1 %."""
_DRY_S = 0.030


def strand_string(
    fibre: Fibre,
    yarn_kg_m: float,
    strands: int,
    string_m: float,
    *,
    lay_rad: float = 0.0,
    added: tuple[AddedMass, ...] = (),
) -> ShotString:
    """Return a string of so many strands, as a shot feels it.

    Parameters
    ----------
    fibre : Fibre
        Of the strands.
    yarn_kg_m : float, > 0
        Linear density of a strand. [kg/m]
    strands : int, > 0
        In the whole string.
    string_m : float, > 0
        Braced, nock to nock. [m]
    lay_rad : float, >= 0 and below a right angle
        Lay of the body. [rad]
    added : tuple of AddedMass
        Serving, nocking point, spliced tails.

    Raises
    ------
    DomainError
        ``min``, ``max`` or ``number``.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> from calc.data import fibre
    >>> made = strand_string(fibre("polyester"), 111e-6, 16, 1.6)
    >>> round(made.stiffness_n), round(made.mass_kg, 4)
    (17760, 0.0028)
    """
    require("strands", strands, low=1.0)
    require("string_m", string_m, low=0.0, open_=True)
    require("lay_rad", lay_rad, low=0.0)
    require("lay_rad", lay_rad, high=pi / 2.0, open_=True)
    whole_kg_m = strands * yarn_kg_m
    stiff_n = string_stiffness(fibre, whole_kg_m, lay_rad).value
    return ShotString(stiff_n, whole_kg_m * string_m / cos(lay_rad), added)


@dataclass(frozen=True, slots=True)
class Variant:
    """One of several strings.

    Attributes
    ----------
    string : ShotString
        What was on the bow.
    speed_m_s : float
        Of the arrow. [m/s]
    peak_n : float
        Most tension of the shot. [N]
    """

    string: ShotString
    speed_m_s: float
    peak_n: float


def try_variants(
    bow: Bow,
    brace_m: float,
    draw_m: float,
    draw_force_n: float,
    *,
    arrow_kg: float,
    strings: Iterable[ShotString],
    limb_mass_kg: float,
    stored_j: float | None = None,
) -> tuple[Variant, ...]:
    """Return what comes of the same arrow with one string after another: points of a chart.

    Parameters
    ----------
    bow, brace_m, draw_m, draw_force_n, arrow_kg
        As for `shot`.
    strings : iterable of ShotString
        Heavier, lighter, softer, stiffer: `strand_string` makes them. Every one costs two thirds of a shot.
    limb_mass_kg, stored_j
        As for `shot`.

    Raises
    ------
    DomainError
        As `shot`.

    Notes
    -----
    Source: `shot` with steps of `COARSE`, within 0.1 % of its speed and 1 % of its peak.

    Examples
    --------
    >>> from calc.mechanics.bow.bow import Bow
    >>> strings = [ShotString(3e4, 0.007), ShotString(6e4, 0.014)]
    >>> light, heavy = try_variants(
    ...     Bow(1.83, 0.2, "tapered"), 0.15, 0.71, 150.0, arrow_kg=0.025, strings=strings, limb_mass_kg=0.16
    ... )
    >>> light.speed_m_s > heavy.speed_m_s
    True
    """
    tried = []
    for string in strings:
        found = shot(
            bow,
            brace_m,
            draw_m,
            draw_force_n,
            arrow_kg=arrow_kg,
            string=string,
            limb_mass_kg=limb_mass_kg,
            stored_j=stored_j,
            within=COARSE,
        )
        tried.append(Variant(string, found.speed_m_s, found.peak_n))
    return tuple(tried)


def dry_fire_peak(
    bow: Bow,
    brace_m: float,
    draw_m: float,
    draw_force_n: float,
    *,
    string: ShotString,
    limb_mass_kg: float,
    time_s: float = _DRY_S,
    within: float = WITHIN,
) -> float:
    """Return the hardest pull when the string is let go with no arrow on it, which must never be done [N].

    Parameters
    ----------
    bow, brace_m, draw_m, draw_force_n, string, limb_mass_kg
        As for `shot`.
    time_s : float, > 0
        How long to watch from the loose on; the string straightens sooner than with an arrow. [s]
    within : float
        As for `shot`.

    Raises
    ------
    DomainError
        As `full_draw_state`.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> from calc.mechanics.bow.bow import Bow
    >>> bow, string = Bow(1.83, 0.2, "tapered"), ShotString(3e4, 0.007)
    >>> dry_fire_peak(bow, 0.15, 0.71, 150.0, string=string, limb_mass_kg=0.16) > 4.0 * 150.0
    True
    """
    ready = full_draw_state(bow, brace_m, draw_m, draw_force_n, string=string, limb_mass_kg=limb_mass_kg)
    found = integrate_trajectory(ready, ready.state, 0.0, begin_s=0.0, time_s=time_s, leaves=False, within=within)
    return peak([(0.0, ready.draw_n), *((each.time_s, each.tension_n) for each in found.moments)])
