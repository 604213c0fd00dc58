"""Strings of one bow side by side: what differed, what it did, what was the same."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.records.filling import called
from calc.records.kinds import fields_of
from calc.records.questions import ReferenceField
from calc.records.texts import display_text, si_value
from calc.worksheets.core import Number

if TYPE_CHECKING:
    from collections.abc import Iterable

    from calc.records.notebook import Notebook
    from calc.records.record import Record

_MADE = (
    "cord", "maker", "hand", "bundles", "strands", "cut_length", "body_raw", "tail_length", "turns", "bundle_diameter",
    "cord_diameter", "thread_diameter", "served_diameter",
)  # fmt: skip
_DID = ("made_length", "nail_length", "nail_weight", "braced_length", "braced_height")
_AFTER = ("retired_on", "retired_why")

Lines = tuple[tuple[str, ...], ...]
"""Words for what is compared, then one text a string."""


def strings_of(notebook: Notebook, bow: Record) -> tuple[Record, ...]:
    """Return the strings of a bow, the oldest first.

    Parameters
    ----------
    notebook : Notebook
    bow : Record
    """
    found = (each for each in notebook.of("string") if each.text("bow") == bow.id)
    return tuple(sorted(found, key=lambda each: (each.text("made_on"), each.text("name"), each.id)))


def compare(notebook: Notebook, bow: Record) -> tuple[tuple[str, ...], dict[str, Lines]]:
    """Compare the strings of a bow.

    Parameters
    ----------
    notebook : Notebook
        With the cords, makers and dated lines of its strings.
    bow : Record

    Returns
    -------
    (tuple of str, dict)
        What the strings are called, the oldest first; then, under a title each, the lines of what differed, of what
        came of it, and of what was the same. A part without lines is left out.
    """
    strings = strings_of(notebook, bow)
    made = [_line(notebook, strings, name) for name in _MADE]
    differed = [line for name, line in zip(_MADE, made, strict=True) if _differs(strings, name)]
    did = [_line(notebook, strings, name) for name in _DID]
    did.append(("Brace height read last", *(_last(notebook, each) for each in strings)))
    did += [_line(notebook, strings, name) for name in _AFTER]
    parts = {
        "What differed": differed,
        "What it did": did,
        "The same in all": [line for line in made if line not in differed],
    }
    told = {title: tuple(line for line in lines if any(line[1:])) for title, lines in parts.items()}
    return tuple(called(each) for each in strings), {title: lines for title, lines in told.items() if lines}


def _line(notebook: Notebook, strings: Iterable[Record], name: str) -> tuple[str, ...]:
    asked = fields_of("string")[name]

    def text(string: Record) -> str:
        other = notebook.records.get(string.text(name)) if isinstance(asked, ReferenceField) else None
        return (other.text("name") or other.id) if other else display_text(string, name)

    return (asked.label, *(text(each) for each in strings))


def _differs(strings: Iterable[Record], name: str) -> bool:
    """Whether two strings were told otherwise; the same length in other units is the same."""

    def comparable(string: Record) -> object:
        number = si_value(string, name) if isinstance(fields_of("string")[name], Number) else None
        return round(number, 6) if isinstance(number, float) else string.text(name)

    return len({comparable(each) for each in strings}) > 1


def _last(notebook: Notebook, string: Record) -> str:
    """Return the brace height read last, with the shots until then or the day."""
    read = [each for each in notebook.of("entry") if each.text("about") == string.id and each.text("brace_height")]
    if not read:
        return ""
    last = max(read, key=lambda each: (each.text("on"), each.changed("brace_height"), each.id))
    shots, on = last.text("shots"), last.text("on")
    when = f" after {shots} shots" if shots else f" on {on}" if on else ""
    return last.text("brace_height") + when
