"""Put typed inputs to a worksheet: an answer, or what is wrong field by field."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, TypeVar

from calc.errors import DomainError, Problem
from calc.worksheets.core.read import read_inputs
from calc.worksheets.core.words import sentence

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from calc.units import System
    from calc.worksheets.core.schema import Answer, Value, Worksheet

_T = TypeVar("_T")


@dataclass(frozen=True, slots=True)
class Complaint:
    """One sentence at one field.

    Parameters
    ----------
    field : str
        Key of the field it stands at.
    others : tuple of str
        Keys of the fields it also concerns.
    text : str
        Ready to show.
    """

    field: str
    others: tuple[str, ...]
    text: str


def usual(worksheet: Worksheet, changed: Mapping[str, str] | None = None) -> dict[str, str]:
    """Return the prefilled inputs of a worksheet with some of them changed.

    Parameters
    ----------
    worksheet : Worksheet
        The declaration.
    changed : mapping of str to str or None
        By field key; None to change nothing.
    """
    return {each.key: each.example for each in worksheet.fields} | dict(changed or {})


def ask(worksheet: Worksheet, inputs: Mapping[str, str], system: System) -> Answer | tuple[Complaint, ...]:
    """Answer typed inputs, or complain.

    Parameters
    ----------
    worksheet : Worksheet
        The declaration.
    inputs : mapping of str to str
        What was typed, by field key.
    system : {"inch", "metric"}
        What a bare number means, and the units of the sentences.

    Returns
    -------
    Answer or tuple of Complaint
        Never raises for anything that was typed.
    """
    return _asked(worksheet, inputs, system, lambda values: worksheet.plan(worksheet.inputs(values)))


def work_ahead(
    worksheet: Worksheet, inputs: Mapping[str, str], system: System, start: int, stop: int
) -> int | tuple[Complaint, ...]:
    """Work out some lines of a worksheet's list ahead, from one place up to another.

    Parameters
    ----------
    worksheet : Worksheet
        One with `Parts`.
    inputs, system
        As for `ask`.
    start, stop : int
        Places in the list, from 0.

    Returns
    -------
    int or tuple of Complaint
        How many lines there are, or what is wrong with the inputs.
    """
    parts = worksheet.parts
    assert parts is not None
    return _asked(worksheet, inputs, system, lambda values: parts.work(worksheet.inputs(values), start, stop))


def _asked(
    worksheet: Worksheet, inputs: Mapping[str, str], system: System, answer: Callable[[Mapping[str, Value]], _T]
) -> _T | tuple[Complaint, ...]:
    values, problems = read_inputs(worksheet, inputs, system)
    if not problems:
        try:
            return answer(values)
        except DomainError as error:
            problems = (blame(worksheet, error.problem),)
    return tuple(
        Complaint(
            each.field,
            (each.other,) if each.other in {one.key for one in worksheet.fields} else (),
            sentence(worksheet, each, inputs.get(each.field, ""), system),
        )
        for each in problems
    )


def blame(worksheet: Worksheet, problem: Problem) -> Problem:
    """Return a problem from the rooms below under the name of the field it belongs to.

    Parameters
    ----------
    worksheet : Worksheet
        Says which field each name belongs to.
    problem : Problem
        As raised.
    """
    blames = worksheet.blames
    keys = {each.key for each in worksheet.fields}
    field = problem.field if problem.field in keys else blames.get(problem.field, problem.field)
    return replace(problem, field=field, other=blames.get(problem.other, problem.other))
