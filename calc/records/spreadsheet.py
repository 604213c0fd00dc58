"""Bows, cords and strings as CSV for a spreadsheet, and bows back from it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.records.kinds import PLURALS, fields_of
from calc.records.questions import ReferenceField
from calc.worksheets.core import harmless, write_line

if TYPE_CHECKING:
    from calc.records.notebook import Notebook

LISTED = ("bow", "cord", "string")


def csv_of(notebook: Notebook, kind: str) -> str:
    """Return the records of a kind as CSV: one a line, by name.

    Parameters
    ----------
    notebook : Notebook
    kind : str
        One of `LISTED`.

    Returns
    -------
    str
        With a first line of field names. Another record stands by its name. No cell is a formula to a spreadsheet.
    """
    names = list(fields_of(kind))
    rows = [["id", *names]]
    for each in sorted(notebook.of(kind), key=lambda record: (record.text("name").casefold(), record.id)):
        texts = each.texts()
        rows.append([each.id, *(_cell(notebook, kind, name, texts.get(name, "")) for name in names)])
    return "".join(f"{write_line([harmless(cell) for cell in row])}\r\n" for row in rows)


def _cell(notebook: Notebook, kind: str, name: str, text: str) -> str:
    if not isinstance(fields_of(kind)[name], ReferenceField):
        return text
    found = notebook.records.get(text)
    return (found.text("name") if found else "") or text


def csv_files(notebook: Notebook, name: str) -> dict[str, str]:
    """Return the files for a spreadsheet by their names; lists with nothing in them are left out.

    Parameters
    ----------
    notebook : Notebook
    name : str
        What the names begin with.
    """
    return {
        f"{name}-{PLURALS[kind]}.csv": csv_of(notebook, kind) for kind in LISTED if any(True for _ in notebook.of(kind))
    }
