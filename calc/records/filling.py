"""What a notebook tells the worksheets: texts for their fields, from a bow, a cord, a hand and strings made."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.records.club_register import current_string
from calc.records.kinds import ReferenceField, TextField, fields_of
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
_EARLIER = {"earlier_body": "body_raw", "earlier_turns": "turns", "earlier_brace": "braced_height"}
"""Fields for a string that was made, by what its record calls them."""
_ALIKE = ("tail_length", "bundles")
"""What the next string has as that one had it, or nothing would follow from it."""
TAUGHT = frozenset({*_EARLIER, *(key for pair in _PAIRS for key in pair)})
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


def earlier_string(notebook: Notebook, bow: Record, cord: Record | None) -> Record | None:
    """Return the latest string of a bow and a cord that tells what came of it; None where there is none.

    Parameters
    ----------
    notebook : Notebook
    bow : Record
    cord : Record or None
        None: none was chosen, and none is asked for.
    """
    found = [
        each
        for each in notebook.of("string")
        if each.text("bow") == bow.id
        and each.text("cord") == (cord.id if cord else "")
        and each.text("left_out") != "yes"
        and all(si_value(each, name) is not None for name in _EARLIER.values())
    ]
    return max(found, key=lambda each: (each.text("made_on"), each.changed("braced_height")), default=None)


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
            last = earlier_string(notebook, record, cord)
            if last is not None and _EARLIER.keys() <= keys:
                found |= {key: Prefill(last.text(name), last) for key, name in _EARLIER.items()}
                _take(found, keys, last, _ALIKE)
    return found


def _take(found: dict[str, Prefill], keys: set[str], record: Record, names: Iterable[str]) -> None:
    wrong = check_record(record)
    for name in names:
        each = fields_of(record.kind)[name]
        measure = not isinstance(each, TextField | ReferenceField) or name == "force_table"
        text = record.text(name)
        if name in keys and name not in found and text and measure and name not in wrong:
            found[name] = Prefill(text, record)
