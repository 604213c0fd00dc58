"""The club list and the notebook: a list written from the bows that are kept, and bows kept from a list."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.errors import DomainError
from calc.records import Record, edit, fields_of, read_form
from calc.worksheets.club import LIST_FIELDS, BowLine, explicit, read_bows
from calc.worksheets.core import write_line

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from calc.records import Notebook
    from calc.units import System

_MARK = ";"


def club_list(notebook: Notebook) -> str:
    """Return the bows of a notebook as a club list, by name; an empty text where it has none.

    Parameters
    ----------
    notebook : Notebook
        A bow without nock to nock has a line too: the list then names it as left out.
    """
    bows = sorted(notebook.of("bow"), key=lambda each: (each.text("name").casefold(), each.id))
    told = [key for key in LIST_FIELDS if key in fields_of("bow") and any(each.text(key) for each in bows)]
    keys = ["name", "nock_to_nock", *(key for key in told if key != "nock_to_nock")]
    rows = [[key.replace("_", " ") for key in keys], *([_cell(each, key) for key in keys] for each in bows)]
    return "\n".join(write_line(row, _MARK) for row in rows) if bows else ""


def _cell(bow: Record, key: str) -> str:
    return " ".join(bow.text(key).split())


def bows_kept(
    notebook: Notebook, text: str, system: System, ids: Iterator[str], stamp: tuple[str, str]
) -> tuple[tuple[Record, ...], tuple[str, ...]]:
    """Return the bows of a club list as records, and a sentence for each line that is none.

    Parameters
    ----------
    notebook : Notebook
        A bow that is there under the name of a line is changed where the line tells something else of it.
    text : str
        The list, as typed.
    system : {"inch", "metric"}
        What a bare number means.
    ids : iterator of str
        For bows that are new.
    stamp : (str, str)
        The time, and the device that keeps them.
    """
    there: dict[str, list[Record]] = {}
    for each in notebook.of("bow"):
        there.setdefault(each.text("name").casefold(), []).append(each)
    try:
        lines = read_bows(explicit(text, system)).lines
    except DomainError:
        return (), ("This list cannot be read. The sheet says what is wrong with it.",)
    made: list[Record] = []
    faults: list[str] = []
    for line in lines:
        found = there.get(line.name.casefold(), []) if line.name else []
        if not isinstance(line, BowLine):
            faults.append(f"Line {line.number} is left out: {line.why}")
        elif not line.name:
            faults.append(f"Line {line.number} is left out: it has no name.")
        elif len(found) > 1:
            faults.append(f"{line.name} is left out: the notebook has {len(found)} bows of that name.")
        else:
            bow = found[0] if found else Record("bow", next(ids))
            made += _changed(bow, line, system, stamp, faults)
    return tuple(made), tuple(faults)


def _changed(bow: Record, line: BowLine, system: System, stamp: tuple[str, str], faults: list[str]) -> Iterable[Record]:
    typed = {"name": line.name} | {key: cell for key, cell in line.cells if cell and key in fields_of("bow")}
    texts, wrong = read_form("bow", typed, system)
    faults += [f"{line.name}: {each}." for each in wrong.values()]
    was, _ = read_form("bow", {key: told for key in texts if (told := bow.text(key))}, system)
    new = {key: text for key, text in texts.items() if text not in {bow.text(key), was.get(key)}}
    return (edit(bow, new, *stamp),) if new else ()
