"""A table as text, typed, pasted from a spreadsheet or read from a CSV file: lines to cells and back."""

from __future__ import annotations

import csv
import re
from dataclasses import dataclass
from io import StringIO

_BREAK = re.compile(r"\r\n|\r|\n")
_DECIMAL_COMMA = re.compile(r"(?<=\d),(?=\d)")
_QUOTED = re.compile(r'"[^"]*"')
_PARTED = re.compile(r"sep=(.)", re.IGNORECASE)
_SIGNS = "=+-@＝＋－＠﹢﹣﹦﹫⁺⁼₊₌\ufb29"  # wide and small ones are folded into the first four by some programs
_UNSEEN = r"[\s\x00-\x1f\x7f-\xa0\u200b-\u200f\u2028-\u202e\u2060-\u2064\ufeff]*"
_FORMULA = re.compile(rf"{_UNSEEN}[{re.escape(_SIGNS)}]")
_PARTS = re.compile(r"([;\t\r\n])")
_NUMBER = re.compile(r"\s*[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?\s*", re.ASCII)
_LONGEST_CELL = 4
"""A quoted cell may run over so many lines; one that runs further was left open by mistake."""


@dataclass(frozen=True, slots=True)
class TableLine:
    """One line of a table.

    Parameters
    ----------
    number : int
        Of its first line in the text, from 1.
    lines : int
        How many lines of the text it takes.
    cells : tuple of str or None
        None where they cannot be read.
    mark : str
        What parts them.
    """

    number: int
    lines: int
    cells: tuple[str, ...] | None
    mark: str


@dataclass(frozen=True, slots=True)
class TableText:
    """A table as read.

    Parameters
    ----------
    mark : str
        What parts the cells of its first line.
    records : tuple of TableLine
        The lines that hold something.
    """

    mark: str
    records: tuple[TableLine, ...]


def lines_of(text: str) -> list[str]:
    """Return the lines of a text, whatever ends them.

    Parameters
    ----------
    text : str
        With any line ends, and perhaps a byte order mark.
    """
    return _BREAK.split(text.removeprefix("\ufeff"))


def read_table(text: str) -> TableText:
    r"""Read lines of cells parted by tabs, semicolons or commas, as the first line has them, or each its own way.

    Parameters
    ----------
    text : str
        Anything. A cell in double quotes may hold what parts cells, two double quotes for one, and line ends.

    Returns
    -------
    TableText
        Blank lines are left out, and so is a first line ``sep=;`` as spreadsheets write it.

    Examples
    --------
    >>> table = read_table('name;nock to nock\n"Ash; old";1,57 m')
    >>> [each.cells for each in table.records]
    [('name', 'nock to nock'), ('Ash; old', '1,57 m')]
    """
    lines = lines_of(text)
    told = _PARTED.fullmatch(lines[0].strip())
    mark = told[1] if told else _mark(next((each for each in lines if each.strip()), ""))
    records: list[TableLine] = []
    at, width = 1 if told else 0, 0
    while at < len(lines):
        record = _record(lines, at, _mark_of(lines[at], mark), width)
        at += record.lines
        if record.cells is None or any(cell.strip(";,") for cell in record.cells):
            records.append(record)
            width = width or len(record.cells or ())
    return TableText(mark, tuple(records))


def _mark(line: str) -> str:
    """Return what parts the cells of a line."""
    bare = _QUOTED.sub("", line)
    return next((each for each in "\t;" if each in bare), ",")


def _mark_of(line: str, usual: str) -> str:
    """Return what parts the cells of one line: what the first line has, unless another parts it into more cells.

    A comma between two digits is a decimal comma wherever a tab or a semicolon parts the cells.

    >>> _mark_of("Hazel; 60 in; 30 lb", ","), _mark_of("Hazel; 1,57 m", ","), _mark_of("Ash; old, 66 in, 40 lb", ",")
    (';', ';', ',')
    """
    bare = _QUOTED.sub("", line)
    found: dict[str, int] = {mark: bare.count(mark) for mark in (usual, "\t", ";", ",")}
    if found.get("\t") or found.get(";"):
        found[","] -= len(_DECIMAL_COMMA.findall(bare))
    return max(found, key=lambda mark: (found[mark], mark == usual))


def _record(lines: list[str], at: int, mark: str, width: int) -> TableLine:
    """Read the record that starts at a line; one that runs over lines must be as wide as the first."""
    cells = _cells(lines[at : at + 1], mark)
    if cells is None:
        for count in range(2, min(_LONGEST_CELL, len(lines) - at) + 1):
            longer = _cells(lines[at : at + count], mark)
            if longer is not None and len(longer) == width:
                return TableLine(at + 1, count, longer, mark)
    return TableLine(at + 1, 1, cells, mark)


def _cells(lines: list[str], mark: str) -> tuple[str, ...] | None:
    try:
        rows = list(csv.reader([f"{line}\n" for line in lines], delimiter=mark, strict=True, skipinitialspace=True))
    except csv.Error:
        return None
    return tuple(" ".join(cell.split()) for cell in rows[0]) if len(rows) == 1 else None


def write_line(cells: list[str] | tuple[str, ...], mark: str = ",") -> str:
    """Return cells as one line without its end, quoted where they must be.

    Parameters
    ----------
    cells : list of str or tuple of str
        Any text.
    mark : str
        What parts them.

    Examples
    --------
    >>> write_line(["Ash, old", "40 lb"])
    '"Ash, old",40 lb'
    """
    out = StringIO()
    csv.writer(out, delimiter=mark, lineterminator="\r\n").writerow(cells)
    return out.getvalue().removesuffix("\r\n")


def harmless(cell: str) -> str:
    """Return a cell that no spreadsheet takes for a formula, wherever it parts its cells; numbers stay numbers.

    Parameters
    ----------
    cell : str
        Any text.

    Examples
    --------
    >>> harmless("=1+1"), harmless("-3.5"), harmless("Ash; =1+1")
    ("'=1+1", '-3.5', "Ash;' =1+1")
    """
    return "".join(
        f"'{each}" if _FORMULA.match(each) and not _NUMBER.fullmatch(each) else each for each in _PARTS.split(cell)
    )
