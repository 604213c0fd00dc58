"""The browser's only way in: JSON text to JSON text.

Ask for an answer with ``{"v": 1, "id": 7, "worksheet": "string", "system": "inch", "inputs": {...}}``, or with
``{"v": 1, "id": 8, "convert": "string", "to": "metric", "inputs": {...}}`` to see what is typed in other
units. The reply has ``ok`` true with ``outcome`` or ``inputs``, ``ok`` false with ``errors``, or a ``fault``
of ours.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from calc import units
from calc.data import source
from calc.draw import svg
from calc.errors import DomainError
from calc.worksheets import catalogue
from calc.worksheets.asking import ask, usual
from calc.worksheets.reading import read_field
from calc.worksheets.schema import Answer, Choice, Number, Tip
from calc.worksheets.tips import convert_tip
from calc.worksheets.wording import by_key, fill, range_words

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.units import System
    from calc.worksheets.asking import Complaint
    from calc.worksheets.schema import Field, Row, Sentence, Table, Worksheet

VERSION = 1


def handle(text: str) -> str:
    """Answer one message; never raises.

    Parameters
    ----------
    text : str
        JSON of an ask, see above.

    Returns
    -------
    str
        JSON of the reply, with the ``id`` of the ask; a message that cannot be understood gets a ``fault``.

    Examples
    --------
    >>> handle("not JSON")
    '{"v": 1, "id": null, "fault": "JSONDecodeError: Expecting value: line 1 column 1 (char 0)"}'
    """
    number: Any = None
    try:
        message = json.loads(text)
        number = message.get("id")
        reply = _convert(message) if "convert" in message else _answer(message)
    except Exception as error:  # noqa: BLE001 - a fault of ours must reach the page as words, not kill the worker
        reply = {"fault": f"{type(error).__name__}: {error}"}
    return json.dumps({"v": VERSION, "id": number, **reply}, ensure_ascii=False)


def _answer(message: Mapping[str, Any]) -> dict[str, Any]:
    worksheet = catalogue()[message["worksheet"]]
    system = _system(message["system"])
    answer = ask(worksheet, {key: str(value) for key, value in message["inputs"].items()}, system)
    if isinstance(answer, Answer):
        return {"ok": True, "outcome": outcome(worksheet, answer, system)}
    return {"ok": False, "errors": [_error(each) for each in answer]}


def _error(complaint: Complaint) -> dict[str, Any]:
    return {"field": complaint.field, "others": list(complaint.others), "text": complaint.text}


def _convert(message: Mapping[str, Any]) -> dict[str, Any]:
    fields = {each.key: each for each in catalogue()[message["convert"]].fields}
    to = _system(message["to"])
    inputs = {
        key: convert_field(fields[key], str(text), to) if key in fields else str(text)
        for key, text in message["inputs"].items()
    }
    return {"ok": True, "inputs": inputs}


def convert_field(each: Field, text: str, to: System) -> str:
    """Show what is typed in the other units; what cannot be read stays as it is."""
    came_from: System = "inch" if to == "metric" else "metric"
    if not isinstance(each, Number | Tip):
        return text
    try:
        if read_field(each, text, came_from) is None:
            return text
        if isinstance(each, Tip):
            return convert_tip(each, text, to)
        return units.convert_text(text, each.quantity, low=each.low, high=each.high, to=to)
    except DomainError:
        return text


def _system(name: str) -> System:
    return "metric" if name == "metric" else "inch"


def outcome(worksheet: Worksheet, answer: Answer, system: System) -> dict[str, Any]:
    """Return an answer as the page shows it: words and numbers in the reader's units, SVG as text."""
    rows = by_key(answer.rows)
    return {
        "worksheet": worksheet.id,
        "headlines": [_spoken(each, rows, system) for each in answer.headlines],
        "cautions": [{"level": each.level, "text": fill(each.text, rows, system)} for each in answer.cautions],
        "figures": [
            {"id": drawing.key, "svg": svg(drawing, prefix=f"{worksheet.id}-{drawing.key}")}
            for drawing in answer.figures(system)
        ],
        "tables": [_table(each, rows, system) for each in answer.tables(system)],
        "rows": [_row(each, rows, system) for each in answer.rows],
        "leaves_out": list(answer.leaves_out),
    }


def _spoken(each: Sentence, rows: Mapping[str, Row], system: System) -> dict[str, str]:
    span = fill(each.span, rows, system)
    return {"lead": each.lead, "text": fill(each.text, rows, system), "range": span}


def _table(each: Table, rows: Mapping[str, Row], system: System) -> dict[str, Any]:
    return {
        "key": each.key,
        "title": each.title,
        "heads": list(each.heads),
        "cells": [[fill(cell, rows, system) for cell in line] for line in each.cells],
        "note": fill(each.note, rows, system),
    }


def _row(row: Row, rows: Mapping[str, Row], system: System) -> dict[str, str]:
    return {
        "key": row.key,
        "symbol": row.symbol,
        "words": row.words,
        "shown": units.show(row.spread.value, row.quantity, system),
        "range": range_words(row, system),
        "working": fill(row.working, rows, system),
        "source": row.source,
        "source_words": source(row.source).words,
        "kind": row.kind,
        "role": row.role,
    }


def describe(worksheet_id: str, system: System) -> dict[str, Any]:
    """Return a worksheet's form as data: groups of fields with labels, hints and prefilled text."""
    worksheet = catalogue()[worksheet_id]
    return {
        "id": worksheet.id,
        "title": worksheet.title,
        "purpose": worksheet.purpose,
        "guides": [{"page": each.page, "step": each.step, "words": each.words} for each in worksheet.guides],
        "groups": [
            {
                "title": group,
                "fields": [_field(each, system) for each in worksheet.fields if each.group == group],
            }
            for group in worksheet.groups
        ],
        "examples": [
            {"name": each.name, "words": each.words, "inputs": usual(worksheet, each.inputs)}
            for each in worksheet.examples
        ],
    }


def _field(each: Field, system: System) -> dict[str, Any]:
    options = each.options if isinstance(each, Choice) else ()
    return {
        "key": each.key,
        "label": each.label,
        "hint": each.hint,
        "kind": type(each).__name__.lower(),
        "unit_hint": units.unit_label(each.quantity, system) if isinstance(each, Number) else "",
        "unit_hint_metric": units.unit_label(each.quantity, "metric") if isinstance(each, Number) else "",
        "example": each.example if system == "inch" else convert_field(each, each.example, system),
        "absent": each.absent,
        "options": [{"value": option.value, "label": option.label} for option in options],
    }
