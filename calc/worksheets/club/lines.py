"""A list of bows as text: which column is what, in which unit, and what each line says."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import TYPE_CHECKING, get_args

from calc import units
from calc.errors import DomainError, Problem
from calc.units import Quantity
from calc.worksheets.core import Number, TableLine, TableText, Tip, lines_of, parts_of, read_table, write_line
from calc.worksheets.string import more
from calc.worksheets.string import sheet as string

if TYPE_CHECKING:
    from calc.units import System

NAME, COLOUR, STRINGS = "name", "colour", "strings"
USUAL = (NAME, "nock_to_nock", "draw_weight", "draw_length", "brace_height", COLOUR)
"""The columns of a list whose first line names none, in their order."""
LIST_FIELDS = {each.key: each for each in string.WORKSHEET.fields}
"""What a column may tell of a string, by its public name."""
MEASURED = more.FIELDS
"""What was measured on one bow or its strings: never shared by all."""
_WORDS = {
    NAME: "name bow archer owner who for",
    COLOUR: "colour color colours colors",
    STRINGS: "strings howmany",
    "tip_upper": "uppertip",
    "tip_lower": "lowertip",
    "nock_to_nock": "bowlength lengthofbow lengthofthebow",
    "draw_weight": "poundage",
    "brace_height": "brace",
}
_BOTH_TIPS = {"tip", "tips", "limbtip", "limbtips"}
_HEAD = re.compile(r"(.*?)\s*[(\[]\s*([^)\]]*?)\s*[)\]]\s*|(.*)", re.DOTALL)
_UNBARE = re.compile(r"[^\W\d_]|['\"′″’”#%°]")
_COLOURS = re.compile(r"\s*(?:[/+&,]|\band\b)\s*", re.IGNORECASE)
_LONGEST_NAME = 60
OWN = (
    "strands_used", "cut_length", "tail", "loop_upper", "body_raw", "loop_lower", "turns_body", "turns_loop",
    "turns_loop_lower", "counter_twist_body", "brace_low", "brace_high", "safety_factor", "cord_total", "thread_to_cut",
)  # fmt: skip
"""Columns that the file of strings has besides what was typed; reading it again passes over them."""


@dataclass(frozen=True, slots=True)
class Column:
    """What a column is.

    Parameters
    ----------
    keys : tuple of str
        Names of fields, or `NAME`, `COLOUR`, `STRINGS`; none when it is not known.
    unit : str
        Of bare numbers; empty where the head names none.
    """

    keys: tuple[str, ...]
    unit: str = ""


@dataclass(frozen=True, slots=True)
class BowLine:
    """One bow.

    Parameters
    ----------
    number : int
        Of the line in the text.
    name : str
        May be empty.
    colours : tuple of str
        Of its bundles.
    strings : str
        How many, as typed; empty where the line does not say.
    cells : tuple of (str, str)
        Typed text by field.
    """

    number: int
    name: str
    colours: tuple[str, ...]
    strings: str
    cells: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Fault:
    """A line that cannot be used.

    Parameters
    ----------
    number : int
        Of the line in the text.
    name : str
        May be empty.
    why : str
        A sentence.
    """

    number: int
    name: str
    why: str


@dataclass(frozen=True, slots=True)
class BowList:
    """A list as read.

    Parameters
    ----------
    lines : tuple of BowLine or Fault
        In their order.
    strange : tuple of str
        Heads of columns that are not known.
    """

    lines: tuple[BowLine | Fault, ...]
    strange: tuple[str, ...]


@lru_cache(maxsize=4)
def read_bows(text: str) -> BowList:
    r"""Read a list of bows.

    Parameters
    ----------
    text : str
        See `calc.worksheets.core.table_text.read_table`. Where the first line names columns, one must be nock to nock.

    Returns
    -------
    BowList
        In the order of the text.

    Raises
    ------
    DomainError
        At ``bows``: ``model`` with reason ``no_nock``, ``twice`` or ``head_unit`` for a first line that does not tell
        the columns, ``missing`` for a list without lines.

    Examples
    --------
    >>> bows = read_bows("Nock to nock (mm), bow\n1600, Hazel")
    >>> bows.lines[0].name, bows.lines[0].cells
    ('Hazel', (('nock_to_nock', '1600 mm'),))
    """
    table = read_table(text)
    columns, heads, records = _columns(table)
    if not records:
        raise DomainError(Problem(field="bows", code="missing"))
    own = {_folded(each) for each in OWN}
    strange = tuple(
        plain(head)
        for head, column in zip(heads, columns, strict=False)
        if head and not column.keys and _folded(head.partition("(")[0]) not in own
    )
    return BowList(tuple(_line(record, columns) for record in records), strange)


@lru_cache(maxsize=8)
def explicit(text: str, system: System) -> str:
    """Write a list so that it means the same in both systems: every bare number gets its unit.

    Parameters
    ----------
    text : str
        As typed.
    system : {"inch", "metric"}
        What a bare number means where its column has no unit.

    Returns
    -------
    str
        With as many lines. Lines that cannot be read stay as they are, and so does a list whose columns cannot.

    Examples
    --------
    >>> explicit("Hazel, 1600, 11", "metric")
    'Hazel,1600 mm,11 kg'
    """
    table = read_table(text)
    try:
        columns, _, records = _columns(table)
    except DomainError:
        return text
    lines = lines_of(text)
    for record in records:
        if record.cells is None:
            continue
        cells = [with_unit(cell, column, system) for cell, column in zip(record.cells, columns, strict=False)]
        if cells != list(record.cells[: len(cells)]):
            written = write_line([*cells, *record.cells[len(cells) :]], record.mark)
            lines[record.number - 1 : record.number - 1 + record.lines] = [written, *[""] * (record.lines - 1)]
    return "\n".join(lines)


def with_unit(cell: str, column: Column, system: System | None = None) -> str:
    """Return a cell with the unit of its column, or the usual one of a system, where it has none of its own.

    Parameters
    ----------
    cell : str
        As typed.
    column : Column
        Where it stands.
    system : {"inch", "metric"}, optional
        Whose usual unit it gets where the column has none; none is added without.
    """
    each = LIST_FIELDS.get(column.keys[0]) if column.keys else None
    if not cell or not isinstance(each, Number | Tip):
        return cell
    quantity: Quantity = each.quantity if isinstance(each, Number) else "length"
    unit = column.unit or (units.unit_label(quantity, system) if system else "")
    if not unit:
        return cell
    if isinstance(each, Number):
        return cell if _UNBARE.search(cell) else f"{cell} {unit}"
    return _tip_with_unit(each, cell, unit)


def _tip_with_unit(each: Tip, cell: str, unit: str) -> str:
    try:
        kind, sizes = parts_of(each, cell)
    except DomainError:
        return cell
    if kind == "pipe" or any(_UNBARE.search(size) for size in sizes):
        return cell
    return f"{kind} {' x '.join(sizes)} {unit}"


def _columns(table: TableText) -> tuple[tuple[Column, ...], tuple[str, ...], tuple[TableLine, ...]]:
    """Return the columns, their heads as typed, and the records below."""
    if not table.records:
        raise DomainError(Problem(field="bows", code="missing"))
    first, *rest = table.records
    heads = first.cells or ()
    columns = tuple(_column(head) for head in heads)
    known = [key for column in columns for key in column.keys]
    if "nock_to_nock" not in known:
        if not any(char.isdigit() for head in heads for char in head):
            raise DomainError(Problem(field="bows", code="model", reason="no_nock"))
        return tuple(Column((key,)) for key in USUAL), (), table.records
    if len(set(known)) < len(known):
        raise DomainError(Problem(field="bows", code="model", reason="twice"))
    return columns, heads, tuple(rest)


@cache
def _names() -> dict[str, str]:
    names = {_folded(text): key for key, each in LIST_FIELDS.items() for text in (key, each.label)}
    return names | {name: key for key, words in _WORDS.items() for name in words.split()}


def _folded(text: str) -> str:
    return re.sub(r"[\W_]", "", text.casefold())


def _column(head: str) -> Column:
    """Read the head of a column: a name, with its unit in brackets or as its last word."""
    found = _HEAD.fullmatch(head)
    assert found is not None
    name, unit = (found[3], "") if found[1] is None else (found[1], found[2])
    keys = _keys(name)
    if not keys and not unit:
        name, _, unit = head.rpartition(" ")
        keys = _keys(name)
    return Column(keys, _unit(keys, unit)) if keys else Column(())


def _keys(name: str) -> tuple[str, ...]:
    folded = _folded(name)
    if folded in _BOTH_TIPS:
        return "tip_upper", "tip_lower"
    key = _names().get(folded)
    return () if key is None else (key,)


def _unit(keys: tuple[str, ...], unit: str) -> str:
    """Return a unit that goes with a column; words in brackets that are no unit at all are left out."""
    each = LIST_FIELDS.get(keys[0])
    wanted = each.quantity if isinstance(each, Number) else "length"
    if not unit or _is_unit(unit, wanted):
        return unit if isinstance(each, Number | Tip) else ""
    if isinstance(each, Number | Tip) and any(_is_unit(unit, quantity) for quantity in get_args(Quantity)):
        raise DomainError(Problem(field="bows", code="model", reason="head_unit"))
    return ""


@cache
def _is_unit(unit: str, quantity: Quantity) -> bool:
    try:
        units.read("unit", f"1 {unit}", quantity, low=0.0, high=1e12)
    except DomainError as error:
        return error.problem.code in {"min", "max", "ambiguous"}
    return True


def _line(record: TableLine, columns: tuple[Column, ...]) -> BowLine | Fault:
    if record.cells is None:
        return Fault(record.number, "", "A double quote is not closed, or stands inside a quoted cell.")
    told = {
        key: with_unit(cell, column) for cell, column in zip(record.cells, columns, strict=False) for key in column.keys
    }
    name = plain(told.pop(NAME, ""))
    if any(record.cells[len(columns) :]):
        why = (
            f"It has {len(record.cells)} cells, the list {len(columns)} columns. Put quotes round a cell with a comma."
        )
        return Fault(record.number, name, why)
    colours = tuple(filter(None, (plain(each) for each in _COLOURS.split(told.pop(COLOUR, "")))))
    strings = told.pop(STRINGS, "")
    cells = tuple((key, cell) for key, cell in told.items() if cell)
    return BowLine(record.number, name, colours, strings, cells)


def plain(text: str, *, whole: bool = False) -> str:
    """Return words that can stand in a sentence: short unless `whole`, without brackets that would mean something.

    Parameters
    ----------
    text : str
        As typed.
    whole : bool
        Whether it is kept at its full length.
    """
    return (text if whole else text[:_LONGEST_NAME]).translate(str.maketrans("{}<>", "()()"))
