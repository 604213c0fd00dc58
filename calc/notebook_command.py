"""A notebook in a terminal: list it, check it, join files of it, and fill a worksheet from it."""

from __future__ import annotations

import sys
from argparse import ArgumentParser
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from calc.records import (
    DELETED,
    PLURALS,
    Notebook,
    NotebookError,
    check_record,
    compare,
    csv_files,
    display_text,
    fields_of,
    merge_notebooks,
    prefill,
    read_notebook,
    register,
    write_notebook,
)

if TYPE_CHECKING:
    from argparse import Namespace
    from collections.abc import Iterable, Iterator, Sequence

    from calc.records import Prefill, Record, RegisterLine
    from calc.worksheets.core import Worksheet

BAD_INPUT = 2
_TOLD = {
    "bow": ("nock_to_nock", "draw_weight", "brace_height"),
    "cord": ("colour", "fibre", "yarn", "left"),
    "hand": ("hand", "wax"),
    "string": ("bow", "made_on", "strands", "braced_height", "retired_on"),
}
"""What a list tells of each record, besides its name."""
CHOSEN = ("bow", "cord", "hand")
"""What a worksheet may be opened for."""


class NotFoundError(NotebookError):
    """Raised for a record that a notebook does not have, or has more than once; its text is a sentence."""


def command(arguments: Sequence[str], program: str) -> int:
    """Run ``calc notebook``: list, check, join or save notebooks.

    Parameters
    ----------
    arguments : sequence of str
        What follows ``notebook``.
    program : str
        What the person typed to start this.

    Returns
    -------
    int
        Exit code: 2 where a file cannot be read or something in it is wrong.
    """
    options = _parser(program).parse_args(arguments)
    try:
        whole = load(options.files)
    except NotebookError as error:
        print(error, file=sys.stderr)
        return BAD_INPUT
    notebook, faults = whole
    if options.out:
        options.out.write_text(write_notebook(notebook), encoding="utf-8", newline="")
    if options.csv:
        options.csv.mkdir(parents=True, exist_ok=True)
        for name, text in csv_files(notebook, options.files[0].name.split(".")[0]).items():
            (options.csv / name).write_text(text, encoding="utf-8", newline="")
    try:
        print("\n".join(_shown(notebook, options)))
    except NotFoundError as error:
        print(error, file=sys.stderr)
        return BAD_INPUT
    wrong = [*faults, *_wrong(notebook)]
    for line in wrong:
        print(line, file=sys.stderr)
    return BAD_INPUT if wrong else 0


def _parser(program: str) -> ArgumentParser:
    parser = ArgumentParser(
        prog=f"{program} notebook",
        description="Lists what is in a notebook and says what is wrong in it. Of several files it makes one: what "
        "was changed later stands, and what was changed in two of them at once is told.",
    )
    parser.add_argument("files", nargs="+", type=Path, metavar="FILE", help="like club.pliedtrue.json")
    parser.add_argument("--out", type=Path, metavar="FILE", help="write all of them there as one")
    parser.add_argument("--csv", type=Path, metavar="FOLDER", help="write bows, cords and strings there as CSV")
    parser.add_argument("--register", action="store_true", help="list the bows by when they are to be looked at")
    parser.add_argument("--compare", metavar="BOW", default="", help="show the strings of a bow side by side")
    return parser


def load(files: Iterable[Path]) -> tuple[Notebook, list[str]]:
    """Read files and join them.

    Parameters
    ----------
    files : iterable of Path

    Returns
    -------
    (Notebook, list of str)
        All records, and a sentence for each that was left out.

    Raises
    ------
    NotebookError
        For a file that cannot be read, with its name.
    """
    notebook, faults = Notebook(), []
    for path in files:
        try:
            opened = read_notebook(path.read_text(encoding="utf-8"))
        except NotebookError as error:
            raise NotebookError(f"{path}: {error}") from error
        except (OSError, UnicodeError) as error:
            raise NotebookError(f"{path}: This file cannot be read as text: {error}") from error
        faults += [f"{path}: {fault}" for fault in opened.faults]
        try:
            found = merge_notebooks(notebook, opened.notebook)
        except ValueError as error:
            raise NotebookError(f"{path}: Two kinds of record have one id: {error}. Nothing was joined.") from error
        assert found is not None
        notebook = found[0]
    return notebook, faults


def fill(path: Path, names: dict[str, str], worksheet: Worksheet) -> dict[str, Prefill]:
    """Return what a notebook tells a worksheet about a bow, a cord and a maker's hand.

    Parameters
    ----------
    path : Path
        Of the file.
    names : dict of str to str
        Names or ids by kind, of those that were chosen.
    worksheet : Worksheet

    Raises
    ------
    NotebookError
        For a file that cannot be read.
    NotFoundError
        For a name that it does not have, or has more than once.
    """
    notebook, _ = load([path])
    chosen = [_one(notebook, kind, name) for kind, name in names.items()]
    return prefill(notebook, worksheet.id, (each.key for each in worksheet.fields), chosen)


def _one(notebook: Notebook, kind: str, name: str) -> Record:
    found = notebook.named(kind, name)
    by_id = notebook.records.get(name)
    if by_id is not None and by_id.kind == kind:
        found = (by_id,)
    if len(found) == 1:
        return found[0]
    if found:
        ids = ", ".join(f"{each.text('name')} ({each.id})" for each in found)
        raise NotFoundError(f"There are several for --{kind} {name}: {ids}. Give the id of one.")
    there = ", ".join(sorted(each.text("name") or each.id for each in notebook.of(kind)))
    raise NotFoundError(f"There is no {kind} {name} in this notebook. It has: {there or 'none'}.")


def _shown(notebook: Notebook, options: Namespace) -> Iterator[str]:
    if options.compare:
        return _compared(notebook, _one(notebook, "bow", options.compare))
    return _register(notebook) if options.register else _listing(notebook)


def _compared(notebook: Notebook, bow: Record) -> Iterator[str]:
    strings, parts = compare(notebook, bow)
    yield " | ".join([f"Strings of {bow.text('name') or bow.id}", *strings])
    for title, lines in parts.items():
        yield from ("", title, *("  " + " | ".join(line) for line in lines))


def _listing(notebook: Notebook) -> Iterator[str]:
    for kind, shown in _TOLD.items():
        found = sorted(notebook.of(kind), key=lambda each: (each.text("name").casefold(), each.id))
        yield f"{PLURALS[kind].capitalize()}: {len(found)}"
        for each in found:
            told = [_text(notebook, each, name) for name in shown if each.text(name)]
            yield f"  {each.text('name') or '(no name)':<20} {each.id}  {', '.join(told)}".rstrip()
    yield f"Dated lines: {sum(1 for _ in notebook.of('entry'))}"
    gone = sum(each.is_deleted for each in notebook.records.values())
    if gone:
        yield f"Deleted: {gone}"


def _text(notebook: Notebook, record: Record, name: str) -> str:
    other = notebook.records.get(record.text(name))
    text = (other.text("name") or other.id) if other else display_text(record, name)
    label = fields_of(record.kind)[name].label
    return f"{label[0].lower()}{label[1:]} {text}"


def _wrong(notebook: Notebook) -> Iterator[str]:
    for each in notebook.records.values():
        if each.is_deleted:
            continue
        called = f"{each.kind.capitalize()} {each.text('name') or each.id}"
        yield from (f"{called}: {words}." for words in check_record(each).values())
        for name, texts in each.conflicts().items():
            if name == DELETED:
                yield f"{called} was deleted in one file and changed in another. It is kept."
            else:
                label = fields_of(each.kind)[name].label
                yield f"{called}: {label} was changed twice. It is {each.text(name)}; the other was {', '.join(texts)}."


def _register(notebook: Notebook) -> Iterator[str]:
    today = datetime.now(UTC).astimezone().date()
    yield "Bow | String | Brace height wanted | Read | Shots since | Looked over | Due"
    yield from (" | ".join(_cells(line)) for line in register(notebook, today))


def _cells(line: RegisterLine) -> tuple[str, ...]:
    string = line.string
    due = line.due.isoformat() if line.due else ""
    mark = " retire it" if line.past else " overdue" if line.overdue else ""
    return (
        line.bow.text("name") or line.bow.id,
        (string.text("name") or string.text("made_on") or string.id) if string else "none",
        line.wanted,
        f"{line.read} on {line.read_on}" if line.read else "",
        "" if line.shots is None else str(line.shots),
        line.looked_on,
        f"{due}{mark}",
    )
