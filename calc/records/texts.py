"""Texts of a record, checked, and written with their units."""

from __future__ import annotations

import re
from datetime import date
from functools import cache, lru_cache
from typing import TYPE_CHECKING, NoReturn

from calc import units
from calc.errors import DomainError, Problem
from calc.records.kinds import CONTROL, WORDS_MOST, fields_of
from calc.records.questions import DateField, ReferenceField, TextField
from calc.worksheets.core import Choice, Inputs, Number, SheetText, Worksheet, read_field, sentence, spell

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.records.record import Record
    from calc.units import System
    from calc.worksheets.core import Answer, Field, Value


_DAY = re.compile(r"\d{4}-\d\d-\d\d")
_MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
    "December",
)  # fmt: skip


def read_form(kind: str, texts: Mapping[str, str], system: System) -> tuple[dict[str, str], dict[str, str]]:
    """Read what is typed into a form of a record.

    Parameters
    ----------
    kind : str
        A key of `KINDS`.
    texts : mapping of str to str
        As typed, by field.
    system : {"inch", "metric"}
        What a bare number means.

    Returns
    -------
    (dict, dict)
        Texts to keep, each number with its unit; and a sentence for each field that cannot be read.

    Examples
    --------
    >>> read_form("bow", {"name": " Ash  62 ", "nock_to_nock": "1575"}, "metric")
    ({'name': 'Ash 62', 'nock_to_nock': '1575 mm'}, {})
    >>> read_form("entry", {"on": "3 May"}, "inch")[1]
    {'on': 'On must be a day, like 2026-05-03'}
    """
    kept, wrong = {}, {}
    for name, text in texts.items():
        each = fields_of(kind).get(name)
        if each is None:
            wrong[name] = f"There is no field {name} here."
            continue
        told = _tidy(each, text)
        fault = _fault(kind, name, told, system)
        if fault:
            wrong[name] = fault
        else:
            kept[name] = spell(each, told, system) if told and not _free(each) else told
    return kept, wrong


def check_record(record: Record) -> dict[str, str]:
    """Return what is wrong with the texts of a record, as sentences by field.

    Parameters
    ----------
    record : Record
    """
    found = {name: _fault(record.kind, name, text, None) for name, text in record.texts().items()}
    return {name: words for name, words in found.items() if words}


def _free(each: Field) -> bool:
    return isinstance(each, TextField | DateField | ReferenceField)


def _tidy(each: Field, text: str) -> str:
    if isinstance(each, TextField) and each.lines:
        return "\n".join(CONTROL.sub(" ", line).rstrip() for line in text.strip().splitlines())
    told = " ".join(CONTROL.sub(" ", text).split())
    return "" if told.casefold() in {each.absent.casefold(), "?"} else told


@lru_cache(maxsize=8192)
def _fault(kind: str, name: str, text: str, system: System | None) -> str:
    """Say what is wrong with a text; where no system is told, a number must have its unit."""
    each = fields_of(kind)[name]
    if not text or isinstance(each, ReferenceField):
        return ""
    if isinstance(each, TextField):
        return "" if len(text) <= WORDS_MOST else f"{each.label} must be {WORDS_MOST} letters or fewer"
    if isinstance(each, DateField):
        return "" if parse_day(text) else f"{each.label} must be a day, like 2026-05-03"
    try:
        read_field(each, text, system or "inch")
    except DomainError as error:
        return sentence(_form(kind), error.problem, text, system or "inch")
    return f"{each.label} has no unit" if system is None and _is_bare(each, text) else ""


def _is_bare(each: Field, text: str) -> bool:
    """Tell whether a number stands without the unit it needs."""
    if not isinstance(each, Number) or not units.unit_label(each.quantity, "inch"):
        return False
    return spell(each, text, "inch") != spell(each, text, "metric")


def parse_day(text: str) -> date | None:
    """Return a day; None where a text is none.

    Parameters
    ----------
    text : str
        Like ``2026-05-03``.
    """
    try:
        return date.fromisoformat(text) if _DAY.fullmatch(text) else None
    except ValueError:
        return None


def day_words(text: str) -> str:
    """Return a day as it is said; what is none stays as it is.

    Parameters
    ----------
    text : str
        Like ``2026-05-03``.

    Examples
    --------
    >>> day_words("2026-05-03")
    '3 May 2026'
    """
    day = parse_day(text)
    return f"{day.day} {_MONTHS[day.month - 1]} {day.year}" if day else text


def si_value(record: Record, name: str) -> Value:
    """Return a text of a record as a number in SI, an option or a section; None where it is empty or unreadable.

    Parameters
    ----------
    record : Record
    name : str
        Of the field.
    """
    text = record.text(name)
    try:
        return read_field(fields_of(record.kind)[name], text, "inch") if text else None
    except DomainError:
        return None


def display_text(record: Record, name: str) -> str:
    """Return a text as a reader knows it: the words of a choice.

    Parameters
    ----------
    record : Record
    name : str
    """
    each, text = fields_of(record.kind)[name], record.text(name)
    if isinstance(each, Choice):
        told = text.split(" ", 1)[1].replace(" ", " ± ") if each.measured and " " in text else text
        return next((option.label for option in each.options if option.value == text), told)
    return text


@cache
def _form(kind: str) -> Worksheet:
    """Return the fields of a record as a worksheet's, which owns the sentences about them."""
    found = tuple(fields_of(kind).values())
    return Worksheet(
        id=kind,
        title=kind,
        purpose="",
        groups=(),
        fields=found,
        results=(),
        plan=_no_answer,
        inputs=Inputs,
        text=SheetText(None),
    )


def _no_answer(_: Inputs) -> Answer:
    _refuse()


def _refuse() -> NoReturn:
    raise DomainError(Problem(field="", code="model"))
