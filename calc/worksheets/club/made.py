"""The lines of a club list, each read, worked out and remembered."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING, TypeAlias

from calc import units
from calc.errors import DomainError
from calc.making.club import PlannedString, StringsWanted, list_string, thread_for
from calc.worksheets.club.lines import LIST_FIELDS, Fault, explicit, plain, read_bows
from calc.worksheets.core import Choice, Number, blame, read_field, sentence, spell
from calc.worksheets.serving.sheet import WORKSHEET as SERVING
from calc.worksheets.string import more
from calc.worksheets.string import sheet as string

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.geometry.lay import Hand
    from calc.numerics import Spread
    from calc.units import System
    from calc.worksheets.club.lines import BowLine
    from calc.worksheets.core import Value

AT_A_TIME = 25
"""So many lines are worked out before anybody asks how far it has come."""
STRINGS = Number(
    key="strings",
    label="Strings for each bow",
    hint="One to shoot and one to spare make two. A column with this name goes before it.",
    group="The list",
    example="1",
    quantity="count",
    low=1,
    high=50,
    whole=True,
)
_SERVING = {each.key: each for each in SERVING.fields}
THREAD_DIAMETER, SERVED_LENGTH = _SERVING["thread_diameter"], _SERVING["served_length"]
_LINE = replace(
    string.WORKSHEET,
    fields=(*string.WORKSHEET.fields, STRINGS, THREAD_DIAMETER, SERVED_LENGTH),
    shared=(*string.WORKSHEET.shared, {"thread_thick": "The serving thread must be no thicker than the string"}),
    blames={**string.WORKSHEET.blames, **SERVING.blames},
)
"""The bench sheet with what a list asks besides: it has the words for whatever is wrong with a line."""
_Shared: TypeAlias = "tuple[tuple[str, Value], ...]"


class _ListInputs(string.OrderInputs):
    """What was read for every line that does not tell it itself, in SI, by field key."""

    strings: float
    thread_diameter: float
    served_length: float


class ClubInputs(_ListInputs):
    """What was read, in SI, by field key."""

    bows: str
    waste: float
    minutes: float
    makers: float
    settle_places: float
    helpers: float


class LineInputs(_ListInputs, string.StringInputs):
    """What was read for one line."""


@dataclass(frozen=True, slots=True)
class Made:
    """A line that is worked out: what is wanted, the hand of its lay, the string, and the thread of one [m].

    Parameters
    ----------
    number : int
        Of the line in the text.
    hand : Hand
        Direction of the lay.
    wanted : StringsWanted
        What is to be made.
    listed : PlannedString
        One string.
    thread : Spread
        Of one centre serving. [m]
    """

    number: int
    hand: Hand
    wanted: StringsWanted
    listed: PlannedString
    thread: Spread


def made(values: ClubInputs) -> list[Made | Fault]:
    """Return every line of a list worked out, or what is wrong with it, part by part.

    Parameters
    ----------
    values : ClubInputs
        As read.

    Raises
    ------
    DomainError
        As `read_bows`.
    """
    count = work(values, 0, AT_A_TIME)
    for at in range(AT_A_TIME, count, AT_A_TIME):
        work(values, at, at + AT_A_TIME)
    shared = _shared(values)
    return [_made(line, shared) if not isinstance(line, Fault) else line for line in _lines(values)]


def work(values: ClubInputs, start: int, stop: int) -> int:
    """Return how many lines a list has; work out some of them and remember them.

    Parameters
    ----------
    values : ClubInputs
        As read.
    start, stop : int, >= 0
        Places in the list, from 0; the last is not done.

    Raises
    ------
    DomainError
        As `read_bows`.
    """
    lines, shared = _lines(values), _shared(values)
    for line in lines[max(0, start) : max(0, stop)]:
        if not isinstance(line, Fault):
            _made(line, shared)
    return len(lines)


def opened(typed: Mapping[str, str], system: System, number: int) -> tuple[str, dict[str, str], str]:
    """Return the bench sheet's id, its inputs for one line that is worked out, and the name of the line.

    Parameters
    ----------
    typed : mapping of str to str
        What stands in the club list's form.
    system : {"inch", "metric"}
        What a bare number means.
    number : int
        Of the line in the text.
    """
    lines = read_bows(explicit(typed["bows"], system)).lines
    line = next(each for each in lines if each.number == number)
    assert not isinstance(line, Fault)
    shared = {key: spell(each, typed.get(key, each.example), system) for key, each in LIST_FIELDS.items()}
    return string.WORKSHEET.id, shared | dict(line.cells), line.name


def _lines(values: ClubInputs) -> tuple[BowLine | Fault, ...]:
    return read_bows(values.bows).lines


def _shared(values: ClubInputs) -> _Shared:
    return tuple((key, value) for key, value in vars(values).items() if key != "bows")


@lru_cache(maxsize=4096)
def _made(line: BowLine, shared: _Shared) -> Made | Fault:
    """Work out one line with what is shared by all."""
    name = line.name or f"Line {line.number}"
    try:
        values = line_inputs(line, dict(shared))
        order = more.with_more(string.order_of(values), values)
        listed = list_string(order)
        thread = thread_for(listed.cord_diameter_m, values.thread_diameter, values.served_length)
        wanted = StringsWanted(name=name, colours=line.colours, strings=int(values.strings), order=order)
    except DomainError as error:
        return fault(line, error)
    return Made(line.number, values.hand, wanted, listed, thread)


def line_inputs(line: BowLine, shared: Mapping[str, Value]) -> LineInputs:
    """Return what is told of one bow: its own cells before what is shared by all; what nobody told is None.

    Parameters
    ----------
    line : BowLine
        Of the list.
    shared : mapping of str to Value
        What was read for all, by field key.

    Raises
    ------
    DomainError
        For a cell that cannot be read.
    """
    own = {key: _read(key, typed) for key, typed in _cells(line).items()}
    return LineInputs({**_UNTOLD, **shared, **own})


def fault(line: BowLine, error: DomainError) -> Fault:
    """Return a line that cannot be used, with the words for it.

    Parameters
    ----------
    line : BowLine
        Of the list.
    error : DomainError
        What is wrong with it.
    """
    cells, problem = _cells(line), blame(_LINE, error.problem)
    system = units.system_of(cells["nock_to_nock"], "length") or "inch"
    words = sentence(_LINE, problem, cells.get(problem.field, ""), system)
    return Fault(line.number, line.name, plain(words, whole=True) + ".")


def _cells(line: BowLine) -> dict[str, str]:
    cells = {"nock_to_nock": "", **dict(line.cells)}
    return cells | {STRINGS.key: line.strings} if line.strings else cells


@lru_cache(maxsize=8192)
def _read(key: str, text: str) -> Value:
    """Read a cell; it carries its unit, so the system does not matter."""
    return read_field(_FIELDS[key], text, "inch")


_FIELDS = {each.key: each for each in _LINE.fields}
_UNTOLD = {key: each.example if isinstance(each, Choice) else None for key, each in _FIELDS.items()}
"""What a line has for a field that neither it nor the form tells."""
