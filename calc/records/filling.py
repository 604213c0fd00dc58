"""What a notebook tells the worksheets: texts for their fields, from a bow, a cord, a hand and strings made."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.records.club_register import current_string
from calc.records.kinds import fields_of
from calc.records.questions import ReferenceField, TextField
from calc.records.texts import check_record, day_words, si_value

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from calc.records.notebook import Notebook
    from calc.records.record import Record

_FROM_STRING: Mapping[str, tuple[str, ...]] = {
    "tune": ("turns", "bundle_diameter", "cord_diameter", "bundles", "hand", "tail_length"),
    "serving": ("cord_diameter", "thread_diameter", "strands"),
}
"""What a sheet about a string that is made takes from the string on the bow, by worksheet."""
_PAIRS = (("measured_string", "measured_brace"), ("measured_string_2", "measured_brace_2"))
"""Fields for a string's braced length and the brace height it gave."""
_MADE = {"body": "body_raw", "turns": "turns", "brace": "braced_height"}
_EARLIER = tuple({f"earlier_{key}{mark}": name for key, name in _MADE.items()} for mark in ("", "_2"))
"""Fields for strings that were made, the latest first, by what their records call them."""
_ALIKE = ("tail_length", "bundles")
"""What the next string has as that one had it, or nothing would follow from it."""
TAUGHT = frozenset(key for group in (*_EARLIER, *_PAIRS) for key in group)
"""Fields of the bench sheet that strings of the notebook fill in with what was measured of them."""


@dataclass(frozen=True, slots=True)
class Prefill:
    """A text that a notebook has for a field of a worksheet.

    Attributes
    ----------
    text : str
        With its unit.
    record : Record
        What it is from.
    """

    text: str
    record: Record


def called(record: Record) -> str:
    """Return what a record is called beside a value that is from it.

    Parameters
    ----------
    record : Record

    Examples
    --------
    >>> from calc.records.record import Record, edit
    >>> red = edit(Record("string", "string-1"), {"name": "red", "made_on": "2026-05-03"}, "2026-05-03T10:11:12Z", "a")
    >>> called(red)
    'string red of 3 May 2026'
    """
    name = record.text("name")
    if record.kind != "string":
        return name or record.kind
    on = record.text("made_on")
    return f"string {name}".strip() + (f" of {day_words(on)}" if on else "")


def brace_pairs(notebook: Notebook, bow: Record) -> tuple[Record, ...]:
    """Return the strings of a bow that tell how it bends: braced length and brace height were measured together.

    Parameters
    ----------
    notebook : Notebook
    bow : Record

    Returns
    -------
    tuple of Record
        The latest first, without those that are to be left out.
    """
    found = [
        each
        for each in notebook.of("string")
        if each.text("bow") == bow.id
        and each.text("left_out") != "yes"
        and si_value(each, "braced_length") is not None
        and si_value(each, "braced_height") is not None
    ]
    return tuple(sorted(found, key=lambda each: (each.text("made_on"), each.changed("braced_height")), reverse=True))


def earlier_strings(notebook: Notebook, bow: Record, cord: Record | None) -> tuple[Record, ...]:
    """Return the strings of a bow and a cord that tell what came of them.

    Parameters
    ----------
    notebook : Notebook
    bow : Record
    cord : Record or None
        None: none was chosen, and none is asked for.

    Returns
    -------
    tuple of Record
        The latest first, and of the others those whose tails, bundles and strands are as the latest has them.
    """
    found = [
        each
        for each in notebook.of("string")
        if each.text("bow") == bow.id
        and each.text("cord") == (cord.id if cord else "")
        and each.text("left_out") != "yes"
        and all(si_value(each, name) is not None for name in _MADE.values())
    ]
    found.sort(key=lambda each: (each.text("made_on"), each.changed("braced_height")), reverse=True)
    return tuple(each for each in found if _alike(each) == _alike(found[0]))


def _alike(string: Record) -> tuple[object, ...]:
    return tuple(si_value(string, name) for name in (*_ALIKE, "strands"))


def prefill(notebook: Notebook, worksheet: str, fields: Iterable[str], chosen: Iterable[Record]) -> dict[str, Prefill]:
    """Return the texts that a notebook has for a worksheet's fields.

    Parameters
    ----------
    notebook : Notebook
    worksheet : str
        Its id.
    fields : iterable of str
        The fields it has.
    chosen : iterable of Record
        A bow, a cord, a maker's hand: what the sheet is opened for. An earlier one goes before a later.

    Returns
    -------
    dict
        By field; what cannot be read is left out.
    """
    keys, picked = set(fields), tuple(chosen)
    found: dict[str, Prefill] = {}
    cord = next((each for each in picked if each.kind == "cord"), None)
    for record in picked:
        _take(found, keys, record, fields_of(record.kind))
        if record.kind == "bow":
            strings = [each for each in notebook.of("string") if each.text("bow") == record.id]
            string = current_string(strings)
            if string is not None:
                _take(found, keys, string, _FROM_STRING.get(worksheet, ()))
            for (length, height), each in zip(_PAIRS, brace_pairs(notebook, record), strict=False):
                if {length, height} <= keys:
                    found[length] = Prefill(each.text("braced_length"), each)
                    found[height] = Prefill(each.text("braced_height"), each)
            made = earlier_strings(notebook, record, cord)
            for told, each in zip(_EARLIER, made, strict=False):
                if told.keys() <= keys:
                    found |= {key: Prefill(each.text(name), each) for key, name in told.items()}
                    _take(found, keys, each, _ALIKE)
    return found


def _take(found: dict[str, Prefill], keys: set[str], record: Record, names: Iterable[str]) -> None:
    wrong = check_record(record)
    for name in names:
        each = fields_of(record.kind)[name]
        measure = not isinstance(each, TextField | ReferenceField) or name == "force_table"
        text = record.text(name)
        if name in keys and name not in found and text and measure and name not in wrong:
            found[name] = Prefill(text, record)
