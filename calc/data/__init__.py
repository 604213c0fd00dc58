"""Facts with their provenance: fibres, pipes, packing, the trade's constants, sources."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any, Literal, TypeAlias

from calc.spread import Spread

Class: TypeAlias = Literal["low", "medium", "high", "good", "fair", "poor"]

_TO_SI = {"1": 1.0, "m": 1.0, "rad": 1.0, "K": 1.0, "g/cm3": 1000.0, "N/tex": 1e6, "in": 0.0254}


@dataclass(frozen=True, slots=True)
class Source:
    """Where a number comes from: in words, and whether it was read."""

    key: str
    words: str
    read: str


@dataclass(frozen=True, slots=True)
class Fact:
    """One number with its spread (SI), words and provenance."""

    words: str
    spread: Spread
    unit: str
    source: str
    place: str
    kind: str
    note: str


@dataclass(frozen=True, slots=True)
class Fibre:
    """A generic fibre.

    Attributes
    ----------
    id, words : str
        Public name; what a reader sees.
    facts : tuple of (str, Fact)
        Every property as the table has it.
    creep, uv : str
        Classes: ``low``, ``medium``, ``high``; ``good``, ``fair``, ``poor``.
    """

    id: str
    words: str
    facts: tuple[tuple[str, Fact], ...]
    creep: Class
    uv: Class

    def _spread(self, name: str) -> Spread:
        return dict(self.facts)[name].spread

    @property
    def density_kg_m3(self) -> Spread:
        """Density [kg/m^3]."""
        return self._spread("density")

    @property
    def tenacity_n_per_kg_m(self) -> Spread:
        """Breaking force per linear density [N/(kg/m)]."""
        return self._spread("tenacity")

    @property
    def modulus_n_per_kg_m(self) -> Spread:
        """Stiffness per linear density at small strain [N/(kg/m)]."""
        return self._spread("modulus")

    @property
    def break_strain(self) -> Spread:
        """Extension at break [-]."""
        return self._spread("break_strain")

    @property
    def softening_k(self) -> Spread:
        """Where it softens, chars or creeps away [K]."""
        return self._spread("softening")

    @property
    def melting_k(self) -> Spread | None:
        """Where it melts; None where it scorches or decomposes first [K]."""
        fact = dict(self.facts).get("melting")
        return None if fact is None else fact.spread

    @property
    def packing(self) -> Spread:
        """Share of a waxed, rolled bundle that is fibre [-]."""
        return self._spread("packing")

    @property
    def wet_ratio(self) -> Spread:
        """Wet / dry strength [-]."""
        return self._spread("wet_ratio")


@cache
def _table(name: str) -> dict[str, Any]:
    return tomllib.loads(files(__name__).joinpath(f"{name}.toml").read_text(encoding="utf-8"))


def _fact(row: dict[str, Any], words: str, kind: str) -> Fact:
    factor = _TO_SI[row["unit"]]
    spread = Spread(row["low"] * factor, row["value"] * factor, row["high"] * factor)
    place, note = row.get("place", ""), row.get("note", "")
    return Fact(words, spread, row["unit"], row["source"], place, row.get("kind", kind), note)


@cache
def fibres() -> tuple[Fibre, ...]:
    """Return every fibre, in the order of their names."""
    return tuple(
        Fibre(
            key,
            row["words"],
            tuple((name, _fact(each, name, "")) for name, each in row.items() if isinstance(each, dict)),
            row["creep"],
            row["uv"],
        )
        for key, row in sorted(_table("fibres").items())
    )


def fibre(key: str) -> Fibre:
    """Return one fibre by its id.

    >>> round(fibre("polyester").density_kg_m3.value)
    1380
    """
    return next(each for each in fibres() if each.id == key)


@cache
def practice(key: str) -> Fact:
    """Return one working constant of the trade.

    >>> practice("strand_step").source
    'pope1923hunting'
    """
    row = _table("practice")[key]
    return _fact(row, row["words"], "practice")


def practices() -> tuple[str, ...]:
    """Return the keys of all working constants."""
    return tuple(_table("practice"))


@cache
def source(key: str) -> Source:
    """Return a source by its key.

    >>> source("derived:cut").read
    'own'
    """
    row = _table("sources")[key]
    return Source(key, row["words"], row["read"])


def sources() -> tuple[Source, ...]:
    """Return every source, sorted by key."""
    return tuple(source(key) for key in sorted(_table("sources")))


@cache
def packing_ratios() -> dict[int, float]:
    """Return envelope / circle diameter for small numbers of circles."""
    return {int(count): ratio for count, ratio in _table("packing")["ratios"].items()}


@cache
def pipe_diameters() -> dict[str, float]:
    """Return outside diameters by nominal size and by metric name [m]."""
    table = _table("pipes")
    factor = _TO_SI[table["unit"]]
    sizes = {size: value * factor for size, value in table["diameters"].items()}
    return sizes | {name: sizes[size] for name, size in table["metric_names"].items()}


@cache
def peak_ratios() -> tuple[tuple[float, float], ...]:
    """Return rows of grains of arrow per pound of draw weight, and hardest pull / draw weight."""
    return tuple((row["grains_per_pound"], row["ratio"]) for row in _table("peaks")["row"])


def table_sources() -> tuple[str, ...]:
    """Return the source keys of the tables that carry one for all their rows."""
    return tuple(_table(name)["source"] for name in ("packing", "peaks", "pipes"))
