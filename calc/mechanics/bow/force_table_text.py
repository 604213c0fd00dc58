"""A table of draw and force as people type or save it."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from calc.errors import DomainError, Problem
from calc.mechanics.bow.measured_forces import force_table
from calc.units import read

if TYPE_CHECKING:
    from collections.abc import Iterator

    from calc.mechanics.bow.measured_forces import ForceTable
    from calc.units import System

_MOST_M, _MOST_N = 1.5, 2000.0
_GAP = re.compile(r"(?<=[A-Za-z\"”″'’#])\s*(?=\d)")
_TOKEN = re.compile(r"[A-Za-z\"″#]+")
_NUMBER = re.compile(r"\d")


def read_force_table(text: str, brace_m: float, *, system: System = "inch") -> ForceTable:
    r"""Return the table that a text holds.

    Parameters
    ----------
    text : str
        Pairs of draw and force, ``10 in 8 lb; 20 in 25 lb``, parted by semicolons or line ends; or a CSV of two
        columns, parted by commas, semicolons or tabs, its units in the header or in the cells.
    brace_m : float, > 0
        Where the force is nothing. [m]
    system : {"inch", "metric"}
        Units of bare numbers with no header: inches and pounds, or centimetres and newtons.

    Raises
    ------
    DomainError
        ``missing`` for an empty text; ``number`` with reason ``table_row`` and the row in ``readings`` for one that
        does not read as draw and force; otherwise as `force_table`.

    Notes
    -----
    Source: own reading of what people type; 1 in and 1 lb as `read` has them.

    Examples
    --------
    >>> table = read_force_table("10 in 8 lb; 20 in 25 lb", 0.15)
    >>> [round(each, 4) for each in table.draws_m], round(table.forces_n[-1])
    ([0.15, 0.254, 0.508], 111)
    >>> read_force_table("draw (cm),force (N)\n25.4,35.6\n50.8,111.2\n", 0.15).forces_n
    (0.0, 35.6, 111.2)
    """
    rows = [row.strip() for line in text.splitlines() for row in _records(line)]
    rows = [row for row in rows if row]
    if not rows:
        raise DomainError(Problem(field="force_table", code="missing"))
    units = ("in", "lb") if system == "inch" else ("cm", "N")
    if not _NUMBER.search(rows[0]):
        units = _header(rows[0], units)
        rows = rows[1:]
    return force_table(brace_m, [_row(row, units) for row in rows])


def _records(line: str) -> list[str]:
    """Part a line into pairs, where it holds more than one."""
    parts = [part for part in line.split(";") if part.strip()]
    return parts if len(parts) > 2 or all(_cut(part) for part in parts) else [line]


def _cut(record: str) -> tuple[str, str] | None:
    """Return draw and force of a record of typed pairs, parted by a comma, a tab or what follows a unit."""
    for cells in (record.split("\t"), re.split(r",\s+", record), _GAP.split(record.strip()), record.split()):
        if len(cells) == 2 and all(_NUMBER.search(cell) for cell in cells):
            return cells[0], cells[1]
    return None


def _row(record: str, units: tuple[str, str]) -> tuple[float, float]:
    for cells in _cells(record):
        try:
            return _amount(cells[0], units[0], "length"), _amount(cells[1], units[1], "force")
        except DomainError:
            continue
    raise DomainError(Problem(field="force_table", code="number", reason="table_row", readings=(record,)))


def _cells(record: str) -> Iterator[tuple[str, str]]:
    """Yield ways to part a row into two cells, the surest first."""
    for mark in ("\t", ";", ","):
        cells = record.split(mark)
        if len(cells) == 2:
            yield cells[0], cells[1]
    cut = _cut(record)
    if cut:
        yield cut
    words = record.split()
    for k in range(1, len(words)):
        yield " ".join(words[:k]), " ".join(words[k:])


def _amount(cell: str, unit: str, quantity: str) -> float:
    typed = cell.strip().strip('"') if cell.count('"') > 1 else cell.strip()
    bare = not _TOKEN.search(typed) and "'" not in typed
    text = f"{typed} {unit}" if bare else typed
    if quantity == "length":
        return read("draw", text, "length", low=0.0, high=_MOST_M)
    return read("force", text, "force", low=0.0, high=_MOST_N)


def _header(record: str, units: tuple[str, str]) -> tuple[str, str]:
    """Return the units a header names, the usual ones where it names none."""
    cells = next((parts for mark in "\t;," if len(parts := record.split(mark)) == 2), None)
    if cells is None:
        raise DomainError(Problem(field="force_table", code="number", reason="table_row", readings=(record,)))
    return _named(cells[0], units[0], "length"), _named(cells[1], units[1], "force")


def _named(cell: str, usual: str, quantity: str) -> str:
    for word in reversed(_TOKEN.findall(cell)):
        try:
            _amount(f"1 {word}", "", quantity)
        except DomainError:
            continue
        return str(word)
    return usual
