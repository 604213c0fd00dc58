"""A person taken out of a notebook: their name leaves every record, also those that were deleted."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from calc.records.kinds import fields_of
from calc.records.questions import TextField
from calc.records.record import delete, edit

if TYPE_CHECKING:
    from collections.abc import Iterator

    from calc.records.notebook import Notebook
    from calc.records.record import Record

TAKEN_OUT = "(name taken out)"
"""Stands in notes where the name stood."""


def people(notebook: Notebook) -> tuple[str, ...]:
    """Return the names of persons that stand in a notebook, each once.

    Parameters
    ----------
    notebook : Notebook
    """
    found = {text for record in notebook.records.values() for name in _fields(record) if (text := record.text(name))}
    return tuple(sorted(found, key=str.casefold))


def initials(name: str) -> str:
    """Return the initials of a name, to stand for it.

    Parameters
    ----------
    name : str

    Examples
    --------
    >>> initials("Anna Maria Berg"), initials("Jean-Luc"), initials("")
    ('A. M. B.', 'J.-L.', '')
    """
    parts = ["-".join(f"{each[0].upper()}." for each in word.split("-") if each) for word in name.split()]
    return " ".join(filter(None, parts))


def forget_person(notebook: Notebook, name: str, now: str, device: str, instead: str = "") -> tuple[Record, ...]:
    """Return the records that name a person, without the name.

    Parameters
    ----------
    notebook : Notebook
        Deleted records are looked through too.
    name : str
        As it stands there; capitals do not matter.
    now, device : str
        As for `edit`.
    instead : str
        What stands for the name then, like initials; nothing by default.

    Notes
    -----
    Where a field names a person it is emptied. In a bow's name and in notes the name gives way to `TAKEN_OUT`, where it
    stands as a word of its own. Earlier texts that are in conflict go as well.
    """
    wanted = " ".join(name.split())
    if not wanted:
        return ()
    word = re.compile(rf"(?<!\w){re.escape(wanted)}(?!\w)", re.IGNORECASE)
    cleaned = ((record, _without(record, wanted, word, instead)) for record in notebook.records.values())
    changed = ((record.is_deleted, edit(record, texts, now, device)) for record, texts in cleaned if texts)
    return tuple(delete(record, now, device) if gone else record for gone, record in changed)


def _without(record: Record, wanted: str, word: re.Pattern[str], instead: str) -> dict[str, str]:
    """Return the texts of a record that name a person, as they are without."""
    texts = {}
    persons = set(_fields(record))
    for name, heads in record.heads.items():
        if not any(word.search(text) for text in heads.values()):
            continue
        text = record.text(name)
        whole = name in persons and text.casefold() == wanted.casefold()
        texts[name] = instead if whole else word.sub(instead or TAKEN_OUT, text)
    return texts


def _fields(record: Record) -> Iterator[str]:
    return (name for name, each in fields_of(record.kind).items() if isinstance(each, TextField) and each.person)
