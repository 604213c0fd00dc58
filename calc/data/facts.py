"""Tables of facts as text files, read once: a fact with its provenance, and the sources themselves."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Any, Literal, TypeAlias

from calc.numerics import Spread
from calc.tables import load_table

FactKind: TypeAlias = Literal["exact", "measured", "practice", "memory"]
"""By definition, in a document, a trade's word, or recalled and not read again."""
Read: TypeAlias = Literal["read", "secondary", "memory", "own", "none"]
"""Read in a copy, on a page that quotes it, recalled, derived here, or nothing is published."""

UNITS: dict[str, tuple[float, float]] = {
    "": (1.0, 0.0),
    "1": (1.0, 0.0),
    "%": (0.01, 0.0),
    "K": (1.0, 0.0),
    "N": (1.0, 0.0),
    "N/tex": (1e6, 0.0),
    "degC": (1.0, 273.15),
    "g/cm3": (1000.0, 0.0),
    "g/m": (1e-3, 0.0),
    "in": (0.0254, 0.0),
    "kg": (1.0, 0.0),
    "kg/J": (1.0, 0.0),
    "lb/100ft": (0.45359237 / 30.48, 0.0),
    "lbf": (4.4482216152605, 0.0),
    "m": (1.0, 0.0),
    "rad": (1.0, 0.0),
    "s": (1.0, 0.0),
}
"""Units the tables may use: factor to SI, and what is added after it."""


@dataclass(frozen=True, slots=True)
class Fact:
    """One number with its spread, words and provenance.

    Attributes
    ----------
    words : str
        What a reader sees.
    spread : Spread
        In SI.
    printed : Spread
        As the table has it, in `unit`.
    unit, source, place, read_on : str
        Unit of `printed`; key of the source; where in it; the day it was read, empty when it was not.
    kind : FactKind
    note : str
    """

    words: str
    spread: Spread
    printed: Spread
    unit: str
    source: str
    place: str
    read_on: str
    kind: FactKind
    note: str


@dataclass(frozen=True, slots=True)
class Source:
    """Where a number comes from.

    Attributes
    ----------
    key, author, title, place, licence : str
        ``place`` is a publisher, a journal or an identifier; parts that do not apply are empty.
    year : int
        0 where it has none.
    read : Read
        How it came here.
    """

    key: str
    author: str
    title: str
    year: int
    place: str
    licence: str
    read: Read

    @property
    def words(self) -> str:
        """The source in one line."""
        dated = f"{self.title} ({self.year})" if self.year else self.title
        return ", ".join(part for part in (self.author, dated, self.place) if part)


@cache
def table(name: str) -> dict[str, Any]:
    """Return one file of facts as it stands.

    Parameters
    ----------
    name : str
        Of the file, without its ending.
    """
    return load_table(__spec__, name)


def to_si(row: dict[str, Any]) -> Spread:
    """Return a row's low, typical and high in SI.

    Parameters
    ----------
    row : dict
        With ``low``, ``value``, ``high`` and ``unit``, a key of `UNITS`.
    """
    factor, offset = UNITS[row["unit"]]
    return Spread(*(row[name] * factor + offset for name in ("low", "value", "high")))


def fact(row: dict[str, Any], words: str, kind: FactKind) -> Fact:
    """Return a row as a fact.

    Parameters
    ----------
    row : dict
        As it stands in its file.
    words : str
        What the number is.
    kind : FactKind
        Of a row that does not say so itself.
    """
    return Fact(
        words=words,
        spread=to_si(row),
        printed=Spread(row["low"], row["value"], row["high"]),
        unit=row["unit"],
        source=row["source"],
        place=row.get("place", ""),
        read_on=row.get("read_on", ""),
        kind=row.get("kind", kind),
        note=row.get("note", ""),
    )


@cache
def source(key: str) -> Source:
    """Return a source by its key.

    Parameters
    ----------
    key : str
        In ``sources.toml``.

    Examples
    --------
    >>> source("derived:cut").read
    'own'
    >>> source("pope1923hunting").words
    'S. Pope, Hunting with the Bow and Arrow (1923), Making a bowstring'
    """
    row = table("sources")[key]
    return Source(
        key=key,
        author=row.get("author", ""),
        title=row["title"],
        year=row.get("year", 0),
        place=row.get("place", ""),
        licence=row.get("licence", ""),
        read=row["read"],
    )


def sources() -> tuple[Source, ...]:
    """Return every source, sorted by key."""
    return tuple(source(key) for key in sorted(table("sources")))


@cache
def practice(key: str) -> Fact:
    """Return one working constant of the trade.

    Parameters
    ----------
    key : str
        In ``practice.toml``.

    Examples
    --------
    >>> practice("strand_step").source
    'pope1923hunting'
    """
    row = table("practice")[key]
    return fact(row, row["words"], "practice")


def practices() -> tuple[str, ...]:
    """Return the keys of all working constants."""
    return tuple(table("practice"))
