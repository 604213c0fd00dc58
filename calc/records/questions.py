"""Questions that only records ask: free words, a day, another record."""

from __future__ import annotations

from dataclasses import dataclass

from calc.worksheets.core.schema import Field


@dataclass(frozen=True, slots=True, kw_only=True)
class TextField(Field):
    """Free words.

    Attributes
    ----------
    lines, person : bool
        Whether there may be many lines; whether they name somebody.
    """

    lines: bool = False
    person: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class DateField(Field):
    """A day, written like 2026-05-03."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReferenceField(Field):
    """Another record, by its id.

    Attributes
    ----------
    kinds : tuple of str
        What it may be.
    """

    kinds: tuple[str, ...]
