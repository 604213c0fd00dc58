"""The tables of facts as rows of words and figures, for the reference pages."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.data.facts import practice, practices, source, sources
from calc.data.fibre_table import fibres
from calc.data.trade_rules import rules

if TYPE_CHECKING:
    from calc.data.facts import Fact, FactKind, Read

UNIT_WORDS = {"1": "", "lbf": "lb", "degC": "°C", "g/cm3": "g/cm³"}
"""Units whose spelling in the tables is not the one a reader sees."""
KIND_WORDS: dict[FactKind, str] = {
    "exact": "exact by definition",
    "measured": "from a document",
    "memory": "recalled, not read again",
    "practice": "common practice",
}
READ_WORDS: dict[Read, str] = {
    "memory": "recalled, not read again",
    "none": "nothing is published",
    "own": "worked out here",
    "read": "read in a copy",
    "secondary": "read on a page that quotes it",
}
CLASS_TITLES = {"creep": "Creep", "uv": "In sunlight"}


@dataclass(frozen=True, slots=True)
class FactRow:
    """One fact as a reader sees it.

    Attributes
    ----------
    subject, words, figure, kind, source, place, note : str
        What it is of, what it is, the number with its range and unit, how it was come by, its source in one
        line, where in it, and a remark.
    source_key : str
        Key of the source, for a link.
    """

    subject: str
    words: str
    figure: str
    kind: str
    source: str
    place: str
    note: str
    source_key: str


@dataclass(frozen=True, slots=True)
class SourceRow:
    """One source as a reader sees it.

    Attributes
    ----------
    key : str
        Of `Source`.
    words : str
        Author, title, year and place in one line.
    read : str
        How it was read.
    licence : str
        Of its data, where it has one.
    """

    key: str
    words: str
    read: str
    licence: str


def figure(known: Fact) -> str:
    """Return a fact's number with its range, in the unit of its table.

    Parameters
    ----------
    known : Fact
        The fact to print.

    Examples
    --------
    >>> figure(practice("strand_step"))
    '0.0127 (0.01–0.013) m'
    """
    printed = known.printed
    text = f"{printed.value:g}"
    if printed.low < printed.high:
        text += f" ({printed.low:g}–{printed.high:g})"
    return f"{text} {UNIT_WORDS.get(known.unit, known.unit)}".rstrip()


def _row(subject: str, known: Fact) -> FactRow:
    return FactRow(
        subject,
        known.words,
        figure(known),
        KIND_WORDS[known.kind],
        source(known.source).words,
        known.place,
        known.note,
        known.source,
    )


def fibre_rows() -> tuple[FactRow, ...]:
    """Return every number and class of every fibre.

    >>> fibre_rows()[0].figure
    '1.44 (1.44–1.45) g/cm³'
    """
    rows = []
    for fibre in fibres():
        rows += [_row(fibre.words, known) for _, known in fibre.facts]
        rows += [
            FactRow(
                fibre.words,
                CLASS_TITLES[name],
                each.word,
                KIND_WORDS[each.kind],
                source(each.source).words,
                each.place,
                "",
                each.source,
            )
            for name, each in fibre.verdicts
        ]
    return tuple(rows)


def practice_rows() -> tuple[FactRow, ...]:
    """Return every working constant.

    >>> len(practice_rows()) == len(practices())
    True
    """
    return tuple(_row("", practice(key)) for key in practices())


def rule_rows() -> tuple[FactRow, ...]:
    """Return every figure of the trade's rules, each under its rule's words.

    >>> rule_rows()[0].figure
    '4 (3.5–4.5) in'
    """
    return tuple(_row(rule.words, known) for rule in rules() for known in rule.figures)


def source_rows() -> tuple[SourceRow, ...]:
    """Return every source, sorted by key.

    >>> [each.read for each in source_rows() if each.key == "derived:cut"]
    ['worked out here']
    """
    return tuple(SourceRow(each.key, each.words, READ_WORDS[each.read], each.licence) for each in sources())
