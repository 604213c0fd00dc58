"""A notebook as a file, and back: JSON text of one shape and version, one record a line.

What is damaged is told in sentences. A file of something else, and one of a newer version, is not read at all; of a
file with some damaged records the sound ones are.
"""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Any

from calc.records.kinds import CONTROL, PLURALS, WORDS_MOST, fields_of
from calc.records.notebook import Notebook
from calc.records.record import DELETED, Record
from calc.records.stamps import DEVICE, is_seen, is_stamp, is_time

if TYPE_CHECKING:
    from collections.abc import Iterable

FORMAT = "plied-true-notebook"
VERSION = 2
"""Raised with every field that is added to a kind of record: who has an older version is told, and loses none."""
ENDING = ".pliedtrue.json"
"""What the name of such a file ends in."""
ID = re.compile(r"[a-z0-9][a-z0-9-]{5,63}")
_LONGEST = 100_000_000
_KEYS = {"id", "values", "changed", "earlier", "seen"}


class NotebookError(ValueError):
    """Raised for a file that is not read at all; its text is a sentence for the reader."""


@dataclass(frozen=True, slots=True)
class Opened:
    """A file as read.

    Attributes
    ----------
    notebook : Notebook
        Its sound records.
    faults : tuple of str
        A sentence for each record that was left out.
    """

    notebook: Notebook
    faults: tuple[str, ...]


def record_to_json(record: Record) -> dict[str, Any]:
    """Return a record as a file has it.

    Parameters
    ----------
    record : Record
    """
    values: dict[str, str] = {}
    changed: dict[str, list[str]] = {}
    earlier: dict[str, dict[str, str]] = {}
    for name in sorted(record.heads):
        heads = record.heads[name]
        first = max(heads)
        values[name] = heads[first]
        changed.setdefault(first, []).append(name)
        if len(heads) > 1:
            earlier[name] = {each: heads[each] for each in sorted(heads) if each != first}
    return {
        "id": record.id,
        "values": values,
        "changed": dict(sorted(changed.items())),
        **({"earlier": earlier} if earlier else {}),
        "seen": dict(sorted(record.seen.items())),
    }


def read_record(kind: str, data: object) -> Record:
    """Read one record of a file.

    Parameters
    ----------
    kind : str
        A key of `KINDS`.
    data : object
        As `record_to_json` writes it.

    Returns
    -------
    Record

    Raises
    ------
    NotebookError
        With what is wrong, as the end of a sentence.
    """
    if not isinstance(data, dict) or not isinstance(data.get("id"), str) or not ID.fullmatch(data["id"]):
        raise NotebookError("it has no id")
    if strange := sorted(str(each) for each in data.keys() - _KEYS):
        raise NotebookError(f"it has parts that do not belong there: {', '.join(strange)}")
    values, changed, earlier, seen = (
        _texts_by_name(data.get(each, {})) for each in ("values", "changed", "earlier", "seen")
    )
    known = _field_names(kind)
    if strange := sorted(values.keys() - known):
        raise NotebookError(f"it has values that are not known: {', '.join(strange)}")
    earlier = {name: _texts_by_name(found) for name, found in earlier.items()}
    named = [
        (name, mark) for mark, names in changed.items() for name in (names if isinstance(names, list) else [names])
    ]
    when = {name: mark for name, mark in named if isinstance(name, str)}
    if len(named) != len(values) or when.keys() != values.keys() or earlier.keys() - values.keys():
        raise NotebookError("it does not say of each value when it was changed, and once")
    heads = {name: {when[name]: text, **earlier.get(name, {})} for name, text in values.items()}
    marks = {each for found in heads.values() for each in found}
    if not all(isinstance(time, str) and is_time(time) and DEVICE.fullmatch(each) for each, time in seen.items()):
        raise NotebookError("its times cannot be read")
    if not all(is_stamp(each) and is_seen(each, seen) for each in marks):
        raise NotebookError("the times of its values cannot be right")
    for name, found in heads.items():
        if not all(_sound(text) for text in found.values()) or max(found) != when[name]:
            raise NotebookError(f"the text of {name} cannot be right")
    if not all(is_stamp(each) for text in heads.get(DELETED, {}).values() for each in text.split()):
        raise NotebookError("it is not clear whether it was deleted")
    return Record(kind, data["id"], heads, seen)


@cache
def _field_names(kind: str) -> frozenset[str]:
    return frozenset({*fields_of(kind), DELETED})


def _texts_by_name(data: object) -> dict[str, Any]:
    if not isinstance(data, dict):
        raise NotebookError("its values do not have the shape they should")
    return data


def _sound(text: object) -> bool:
    return isinstance(text, str) and len(text) <= WORDS_MOST and not CONTROL.search(text)


def write_notebook(notebook: Notebook) -> str:
    """Return a notebook as the text of a file; the same records always give the same text.

    Parameters
    ----------
    notebook : Notebook
    """
    parts = []
    for kind, plural in PLURALS.items():
        found = sorted((each for each in notebook.records.values() if each.kind == kind), key=lambda each: each.id)
        lines = ",\n".join(_compact(record_to_json(each)) for each in found)
        parts.append(f'"{plural}": [\n{lines}\n]' if lines else f'"{plural}": []')
    return f'{{"format": "{FORMAT}", "version": {VERSION},\n' + ",\n".join(parts) + "}\n"


def _compact(data: dict[str, Any]) -> str:
    return json.dumps(data, ensure_ascii=False, separators=(",", ":"))


def read_notebook(text: str) -> Opened:
    """Read the text of a file.

    Parameters
    ----------
    text : str
        Anything.

    Returns
    -------
    Opened

    Raises
    ------
    NotebookError
        With one sentence: it is damaged, something else, or of a newer version.

    Examples
    --------
    >>> read_notebook('{"format": "plied-true-notebook", "version": 99}')
    Traceback (most recent call last):
        ...
    calc.records.files.NotebookError: This notebook was written by a newer version. Take that version to open it.
    """
    if len(text) > _LONGEST:
        raise NotebookError("This file is too long for a notebook. Nothing was taken from it.")
    try:
        data = json.loads(text.removeprefix("\ufeff"))
    except (ValueError, RecursionError) as error:
        if f'"{FORMAT}"' not in text[:200]:
            raise NotebookError(_FOREIGN) from error
        raise NotebookError(f"This notebook is damaged{_place(error)}. Nothing was taken from it.") from error
    check_head(data)
    found, faults = [], []
    for kind, plural in PLURALS.items():
        opened, wrong = read_records(kind, data.get(plural, []))
        found += opened
        faults += wrong
    records: dict[str, Record] = {}
    for each in found:
        if each.id in records:
            faults.append(f"Two records have the id {each.id}. The first of them is taken.")
        records.setdefault(each.id, each)
    return Opened(Notebook(records), tuple(faults))


_FOREIGN = "This file is no notebook of these worksheets. Nothing was taken from it."


def check_head(data: object) -> None:
    """Raise unless data are of a notebook that can be read.

    Parameters
    ----------
    data : object
        A file's JSON; its records do not matter.

    Raises
    ------
    NotebookError
        As `read_notebook`.
    """
    if not isinstance(data, dict) or data.get("format") != FORMAT:
        raise NotebookError(_FOREIGN)
    version = data.get("version")
    if not isinstance(version, int) or isinstance(version, bool) or version < 1:
        raise NotebookError("This notebook is damaged: it has no version. Nothing was taken from it.")
    if version > VERSION:
        raise NotebookError("This notebook was written by a newer version. Take that version to open it.")
    if strange := sorted(str(each) for each in data.keys() - {"format", "version", *PLURALS.values()}):
        raise NotebookError(f"This notebook is damaged: {', '.join(strange)} should not be in it. Nothing was taken.")
    if not all(isinstance(data.get(plural, []), list) for plural in PLURALS.values()):
        raise NotebookError("This notebook is damaged: its lists are no lists. Nothing was taken from it.")


def read_records(kind: str, data: Iterable[object], first: int = 1) -> tuple[list[Record], list[str]]:
    """Read some records of a file.

    Parameters
    ----------
    kind : str
        A key of `KINDS`.
    data : iterable of object
        As `record_to_json` writes them.
    first : int
        The place of the first in its list.

    Returns
    -------
    (list of Record, list of str)
        The sound ones, and a sentence for each of the others.
    """
    found, faults = [], []
    for at, each in enumerate(data, start=first):
        try:
            found.append(read_record(kind, each))
        except NotebookError as error:
            faults.append(f"{kind.capitalize()} {at} of the file is damaged: {error}. It is left out.")
    return found, faults


def _place(error: BaseException) -> str:
    line = getattr(error, "lineno", 0)
    return f" in line {line}" if line else ""
