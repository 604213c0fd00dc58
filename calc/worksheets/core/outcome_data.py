"""An answer as the page shows it: words and numbers in the reader's units, drawings as text, ready for JSON."""

from __future__ import annotations

import re
from functools import cache
from itertools import chain, repeat
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

from calc import units
from calc.data import source
from calc.draw import svg
from calc.worksheets.core.words import by_key, fill, range_words, show_row, slots

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping

    from calc.units import System
    from calc.worksheets.core.next_steps import Next
    from calc.worksheets.core.schema import Answer, File, Row, Sentence, Table, Worksheet

_SYSTEMS: tuple[System, System] = ("inch", "metric")
_NARROW, _LONG, _LINE, _SHORT = 4, 30, 60, 14
"""Columns that a phone shows side by side, one fewer where a cell is a sentence or a line is full; letters of a
sentence, of a full line's cells together, and of a cell that stays on one line."""

_ENDS = re.compile(r"\{(\w+)\.(?:low|high)\}")
_AROUND = 0.25
"""The bar reaches so far to both sides of the typical value, further where a range does: what is surer is shorter."""
_EDGE = 0.03
"""So much of the width stays free at both ends."""


def outcome(worksheet: Worksheet, answer: Answer, system: System) -> dict[str, Any]:
    """Return an answer as the page shows it: words and numbers in the reader's units, SVG as text.

    Parameters
    ----------
    worksheet : Worksheet
        The declaration.
    answer : Answer
        What it answered.
    system : System
        The reader's units.
    """
    rows = by_key(answer.rows)
    named = {key for each in answer.headlines for text in (each.text, each.span) for key in slots(text)}
    return {
        "worksheet": worksheet.id,
        "headlines": [_spoken(each, rows, system, worksheet.id) for each in answer.headlines],
        "cautions": [
            {"level": each.level, "place": _place(each), "text": fill(each.text, rows, system)}
            for each in answer.cautions
        ],
        "next": [_next(each) for each in answer.next or worksheet.next],
        "known": {**answer.known, **{key: show_row(rows[row], system) for key, row in answer.answers.items()}},
        "figures": [
            {"id": drawing.key, "place": place, "svg": svg(drawing, prefix=f"{worksheet.id}-{drawing.key}")}
            for place, drawing in zip(chain(("first",), repeat("more")), answer.figures(system), strict=False)
        ],
        "tables": [
            {"anchor": f"{worksheet.id}-table-{each.key}", **_table(each, rows, system)}
            for each in answer.tables(system)
        ],
        "files": [_file(each) for each in answer.files(system)],
        "rows": [{**_row(each, rows, system), "part": _part(each, named)} for each in answer.rows],
        "leaves_out": list(answer.leaves_out),
    }


def _place(each: Sentence) -> str:
    """Return where a caution stands: by the answer that calls for it, else after the questions."""
    return "notes" if each.level == "note" else "standing" if each.standing else "answer"


def _next(each: Next) -> dict[str, str]:
    return {"href": f"../../{each.page}/" + (f"#{each.step}" if each.step else ""), "words": each.words}


def _part(row: Row, named: Collection[str]) -> str:
    """Return where a row stands in the working: what the headlines name, the rest of the answer, the steps."""
    return "step" if row.role == "step" else "named" if row.key in named else "more"


def _spoken(each: Sentence, rows: Mapping[str, Row], system: System, worksheet: str) -> dict[str, Any]:
    return {
        "lead": each.lead,
        "text": fill(each.text, rows, system),
        "range": fill(each.span, rows, system),
        "bar": bar(each, rows),
        "href": f"#{worksheet}-table-{each.table}" if each.table else "",
        "go": "What to do for it" if each.table else "",
    }


def _table(each: Table, rows: Mapping[str, Row], system: System) -> dict[str, Any]:
    cells = [
        [_cell(head, fill(cell, rows, system)) for head, cell in zip(each.heads, line, strict=True)]
        for line in each.cells
    ]
    lines = [[len(cell["text"]) for cell in line] for line in cells]
    full = any(max(line, default=0) > _LONG or sum(line) > _LINE for line in lines)
    return {
        "key": each.key,
        "title": each.title,
        "heads": list(each.heads),
        "wide": "yes" if len(each.heads) > _NARROW - full else "no",
        "cells": cells,
        "note": fill(each.note, rows, system),
    }


def _cell(head: str, text: str) -> dict[str, str]:
    return {"head": head, "text": text, "whole": "yes" if len(text) <= _SHORT else "no"}


def _file(each: File) -> dict[str, str]:
    """Return a file as the address of a link that saves it."""
    href = f"data:{each.media};charset=utf-8,{quote(each.text)}"
    return {"name": each.name, "words": f"Save {each.name}", "text": each.text, "href": href}


def _row(row: Row, rows: Mapping[str, Row], system: System) -> dict[str, Any]:
    inch, metric = (units.show(row.spread.value, row.quantity, each) for each in _SYSTEMS)
    return {
        "key": row.key,
        "symbol": row.symbol,
        "words": row.words,
        "shown": show_row(row, system),
        "both": {"in": inch, "mm": metric},
        "range": range_words(row, system),
        "working": fill(row.working, rows, system),
        "source": row.source,
        "source_words": _source_words(row.source),
        "kind": row.kind,
        "role": row.role,
    }


@cache
def _source_words(key: str) -> str:
    return source(key).words


def bar(sentence: Sentence, rows: Mapping[str, Row]) -> dict[str, str]:
    """Return the bar of a headline's range, as texts for the page.

    Parameters
    ----------
    sentence : Sentence
        A headline.
    rows : mapping of str to Row
        By key.

    Returns
    -------
    dict of str to str
        ``shown`` is "yes" or "no"; ``low``, ``value``, ``high`` are percentages like "12.5%"; ``against`` is one too,
        and ``held`` says whether there is anything that the range is held against.

    Examples
    --------
    >>> from calc.worksheets.core import Sentence
    >>> bar(Sentence(text="no range"), {})["shown"]
    'no'
    """
    named = _ENDS.search(sentence.span)
    spread = rows[named[1]].spread if named else None
    if spread is None or spread.high <= spread.low:
        return {"shown": "no", "held": "no"} | dict.fromkeys(("low", "value", "high", "against"), "0%")
    against = _against(sentence.against, rows)
    around = _AROUND * abs(spread.value)
    points = [spread.low, spread.high, spread.value - around, spread.value + around]
    points += [] if against is None else [against]
    left, right = min(points), max(points)

    def place(value: float) -> str:
        share = _EDGE + (1.0 - 2.0 * _EDGE) * (value - left) / (right - left)
        return f"{100.0 * share:.1f}%"

    return {
        "shown": "yes",
        "held": "no" if against is None else "yes",
        "low": place(spread.low),
        "value": place(spread.value),
        "high": place(spread.high),
        "against": place(spread.value if against is None else against),
    }


def _against(text: str, rows: Mapping[str, Row]) -> float | None:
    if not text:
        return None
    return rows[text].spread.value if text in rows else float(text)
