"""Stretch of a string: at once, by bedding in, and by creep; what settling takes out and what remains."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, log10
from math import pow as power
from typing import TYPE_CHECKING

from calc.data import CREEP_K, CREEP_SHARE, practice
from calc.errors import DomainError, Problem, require
from calc.mechanics.fibre.fibres import fibre_strain, twist_efficiency
from calc.numerics import combine

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.data import Fibre
    from calc.numerics import Spread

_WARMTH_STEP_K = 10.0


def elastic_stretch(fibre: Fibre, linear_density_kg_m: float, tension_n: float, lay_rad: float = 0.0) -> Spread:
    """Return the stretch of a string at once, given back when the pull goes.

    Parameters
    ----------
    fibre : Fibre
        From the fibre table.
    linear_density_kg_m : float, > 0
        Of all strands together, untwisted. [kg/m]
    tension_n : float, >= 0
        The pull. Beyond the breaking point the last slope goes on; strength is judged elsewhere. [N]
    lay_rad : float, >= 0
        Lay of a balanced cord, whose bundles keep a surface angle like the lay's; 0: straight strands. [rad]

    Returns
    -------
    Spread
        Strain of the cord. [-]

    Raises
    ------
    DomainError
        ``min`` for figures below their bounds, ``number`` for those not finite.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> from calc.data import fibre
    >>> round(100 * elastic_stretch(fibre("polyester"), 0.002, 200.0).value, 2)
    1.0
    """
    require("linear_density_kg_m", linear_density_kg_m, low=0.0, open_=True)
    require("tension_n", tension_n, low=0.0)
    require("lay_rad", lay_rad)
    along = cos(lay_rad)
    carrying = linear_density_kg_m * along * twist_efficiency(lay_rad)
    require("linear_density_kg_m", carrying, low=0.0, open_=True)  # nothing is left of the smallest numbers
    stress = tension_n / carrying
    return fibre_strain(fibre, stress).scaled(1.0 / along**2)


@dataclass(frozen=True, slots=True)
class Load:
    """A pull that stays on for a time.

    Parameters
    ----------
    tension_n : float, > 0
        The pull. [N]
    time_s : float, >= 0
        How long it stays on. [s]
    temperature_k : float, > 0
        Of the string. [K]

    Raises
    ------
    DomainError
        ``min`` for figures below their bounds, ``number`` for those not finite.
    """

    tension_n: float
    time_s: float
    temperature_k: float = CREEP_K

    def __post_init__(self) -> None:
        require("tension_n", self.tension_n, low=0.0, open_=True)
        require("time_s", self.time_s, low=0.0)
        require("temperature_k", self.temperature_k, low=0.0, open_=True)


def usual_settling(temperature_k: float = CREEP_K) -> Load:
    """Return the trade's settling: its usual weight, hung for its usual time.

    Parameters
    ----------
    temperature_k : float, > 0
        Of the string. [K]

    Notes
    -----
    Source: ``hanging_weight`` and ``settle_time`` of the constants (``common-practice``).

    Examples
    --------
    >>> round(usual_settling().tension_n), usual_settling().time_s
    (222, 3600.0)
    """
    weight, time = practice("hanging_weight").spread, practice("settle_time").spread
    return Load(weight.value, time.value, temperature_k)


def _causes(fibre: Fibre) -> dict[str, Spread]:
    return {
        "decade": fibre.creep_decade,
        "power": fibre.creep_power,
        "warmth": fibre.creep_warmth,
        "strength": fibre.tenacity_n_per_kg_m,
        "start": practice("creep_start").spread,
    }


def _per_decade(at: Mapping[str, float], linear_density_kg_m: float, load: Load) -> float:
    """Return the creep of each tenfold time at one set of causes."""
    share = load.tension_n / (linear_density_kg_m * at["strength"])
    warmer = (load.temperature_k - CREEP_K) / _WARMTH_STEP_K
    loaded = power(share / CREEP_SHARE, at["power"])
    return at["decade"] * loaded * power(at["warmth"], warmer)


def _check(fibre: Fibre, linear_density_kg_m: float, load: Load) -> None:
    require("linear_density_kg_m", linear_density_kg_m, low=0.0, open_=True)
    strength = linear_density_kg_m * fibre.tenacity_n_per_kg_m.value
    require("tension_n", load.tension_n, high=strength)
    limit = fibre.softening_k.low
    if load.temperature_k >= limit:
        raise DomainError(Problem(field="temperature_k", code="model", other="fibre", limit=limit, reason="melts"))


def creep(fibre: Fibre, linear_density_kg_m: float, load: Load) -> Spread:
    """Return how much a fresh string creeps under a pull that stays on.

    Parameters
    ----------
    fibre : Fibre
        From the fibre table.
    linear_density_kg_m : float, > 0
        Of all strands together. [kg/m]
    load : Load
        Up to the typical strength of the strands, and below where the fibre softens.

    Returns
    -------
    Spread
        Strain, beyond the stretch at once. [-]

    Raises
    ------
    DomainError
        ``max`` for a pull above the strength, ``model`` with reason ``melts`` for too much heat, ``min`` for
        strands of no weight.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> from calc.data import fibre
    >>> night = Load(tension_n=480.0, time_s=60.0 * (10**3 - 1))
    >>> round(100 * creep(fibre("polyester"), 0.002, night).value, 3)
    0.36
    """
    _check(fibre, linear_density_kg_m, load)

    def crept(at: Mapping[str, float]) -> dict[str, float]:
        rate = _per_decade(at, linear_density_kg_m, load)
        return {"strain": rate * log10(1.0 + load.time_s / at["start"])}

    return combine(crept, _causes(fibre))["strain"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Settling:
    """What settling takes out of a new string, and what is left for its work [-].

    Attributes
    ----------
    bedding_taken, creep_taken, taken : Spread
        Growth during settling: the lay closing up, the fibre creeping, both.
    bedding_left, creep_left, left : Spread
        Growth still to come under the working load.
    elastic : Spread
        Stretch at once under the working load, given back each time.
    """

    bedding_taken: Spread
    creep_taken: Spread
    taken: Spread
    bedding_left: Spread
    creep_left: Spread
    left: Spread
    elastic: Spread


def settle(fibre: Fibre, linear_density_kg_m: float, first: Load, work: Load, lay_rad: float = 0.0) -> Settling:
    """Return what a weight, or a braced night, takes out of a fresh string, and what remains.

    Parameters
    ----------
    fibre : Fibre
        From the fibre table.
    linear_density_kg_m : float, > 0
        Of all strands together. [kg/m]
    first, work : Load
        The settling; then the life of the string, as one pull for one time. Bounds as for `creep`.
    lay_rad : float, >= 0
        As for `elastic_stretch`. [rad]

    Raises
    ------
    DomainError
        As `creep`, for either load.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> from calc.data import fibre
    >>> done = settle(fibre("polyester"), 0.002, Load(222.0, 3600.0), Load(222.0, 1e6))
    >>> round(100 * done.taken.value, 2), round(100 * done.left.value, 2)
    (0.9, 0.34)
    """
    _check(fibre, linear_density_kg_m, first)
    _check(fibre, linear_density_kg_m, work)
    elastic = elastic_stretch(fibre, linear_density_kg_m, work.tension_n, lay_rad)
    causes = _causes(fibre) | {name: practice(name).spread for name in ("bedding", "bedding_share")}
    usual_s = practice("settle_time").spread.value

    def grown(at: Mapping[str, float]) -> dict[str, float]:
        counts = log10(1.0 + first.time_s / at["start"]) / log10(1.0 + usual_s / at["start"])
        counts *= first.tension_n / work.tension_n
        open_still = at["bedding"] * power(1.0 - at["bedding_share"], counts)
        crept = _per_decade(at, linear_density_kg_m, first) * log10(1.0 + first.time_s / at["start"])
        rate = _per_decade(at, linear_density_kg_m, work)
        done = power(10.0, -crept / rate) if rate > 0.0 else 0.0
        creeps_on = rate * log10(1.0 + work.time_s / at["start"] * done)
        return {
            "bedding_taken": at["bedding"] - open_still,
            "creep_taken": crept,
            "taken": at["bedding"] - open_still + crept,
            "bedding_left": open_still,
            "creep_left": creeps_on,
            "left": open_still + creeps_on,
        }

    return Settling(**combine(grown, causes), elastic=elastic)
