"""Sentences: what is wrong with a field, and the words of an answer with its numbers filled in."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from calc import units
from calc.worksheets.core.schema import Choice, Lines, Number

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from calc.errors import Code, Problem
    from calc.numerics import Spread
    from calc.units import System
    from calc.units.showing import End
    from calc.worksheets.core.schema import Field, Row, Worksheet

_SLOT = re.compile(r"\{(\w+)(?:\.(low|high))?\}")
_ENDS: dict[str | None, End] = {None: "value", "low": "low", "high": "high"}

_KINDS = {
    "length": "a length, in a unit like in, ft, cm or mm",
    "thickness": "a thickness, in a unit like in or mm",
    "force": "a force, in a unit like lb or kg",
    "mass": "a weight, in a unit like gr, g or kg",
    "linear_density": "a yarn size, in a unit like tex, den, m/kg or yd/lb",
    "temperature": "a temperature, in °C or °F",
    "angle": "an angle, in degrees",
    "turns": "a count of turns",
    "distance": "a length, in a unit like yd or m",
    "weighed": "a weight, in a unit like g, oz or lb",
    "goods": "a weight, in a unit like oz, g or kg",
    "duration": "a time, in a unit like min, h or d",
}


def sentence(worksheet: Worksheet, problem: Problem, typed: str, system: System) -> str:
    """Return what to do about one problem, in the words of the field's label.

    Parameters
    ----------
    worksheet : Worksheet
        Owner of the field and of the sentences for reasons.
    problem : Problem
        As raised or collected.
    typed : str
        What stands in the field: decides the unit in which a limit is told.
    system : {"inch", "metric"}
        The reader's units, where the text does not tell.
    """
    if problem.reason == "unknown_field":
        names = ", ".join(each.key for each in worksheet.fields)
        return f"There is no field {problem.field} here. The fields are: {names}"
    field = next((each for each in worksheet.fields if each.key == problem.field), None)
    if field is None:
        return worksheet.sentences.get(problem.reason, BEYOND)
    told = units.system_of(typed, _quantity(field)) or system
    if problem.reason in worksheet.sentences:
        return worksheet.sentences[problem.reason].replace("{limit}", _limit(field, problem, told))
    return _plain(worksheet, field, problem, told)


BEYOND = "These measures go together in a way the sums cannot answer. Check each one against the bow."


_TEMPLATES: dict[Code, str] = {
    "missing": "Enter the {name}",
    "number": "{label} must be a number, like {example}",
    "unit": "{label} must be {kind}",
    "ambiguous": "{label} can be read as {readings}. Type it so that only one fits",
    "choice": "{label} must be {options}",
    "min": "{label} must be {limit} or more",
    "max": "{label} must be {limit} or less",
    "pair": "{label} does not go together with the {other}. Check both",
    "model": BEYOND,
}


def _plain(worksheet: Worksheet, field: Field, problem: Problem, told: System) -> str:
    if problem.code == "number" and field.absent and field.example == field.absent:
        return f"{field.label} must be a number, or left empty"
    other = next((_name(each) for each in worksheet.fields if each.key == problem.other), problem.other)
    return _TEMPLATES[problem.code].format(
        label=field.label,
        name=_name(field),
        example=field.example,
        kind=_KINDS.get(_quantity(field), "a plain number"),
        readings=" or as ".join(problem.readings),
        options=_options(field),
        limit=_limit(field, problem, told),
        other=other,
    )


def _name(field: Field) -> str:
    return field.label[0].lower() + field.label[1:]


def _limit(field: Field, problem: Problem, told: System) -> str:
    if problem.limit is None:
        return ""
    return units.show_limit(problem.limit, _quantity(field), told, side="max" if problem.code == "max" else "min")


def _options(field: Field) -> str:
    if isinstance(field, Choice):
        return "one of " + ", ".join(option.value for option in field.options)
    return "round, flat or pipe with its size, like round 1/2 in, flat 5/8 x 3/8 in or pipe 3/4"


def _quantity(field: Field) -> units.Quantity:
    if isinstance(field, Lines):
        return "count"
    return field.quantity if isinstance(field, Number) else "length"


def fill(text: str, rows: Mapping[str, Row], system: System) -> str:
    """Return a text with the shown numbers of rows put into `{key}`, `{key.low}` and `{key.high}`.

    Parameters
    ----------
    text : str
        A template.
    rows : mapping of str to Row
        By key.
    system : System
        The reader's units.

    Raises
    ------
    KeyError
        For a key that no row has: a fault of the worksheet, found by its tests.
    """

    def shown(slot: re.Match[str]) -> str:
        return show_row(rows[slot[1]], system, _ENDS[slot[2]])

    return _SLOT.sub(shown, text)


def show_row(row: Row, system: System, end: End = "value") -> str:
    """Return a row's number, or its low or high, printed with no more digits than it is known to.

    Parameters
    ----------
    row : Row
        Of an answer.
    system : {"inch", "metric"}
        The reader's units.
    end : {"value", "low", "high"}
        Which of the three.
    """
    return shown(row.spread, row.quantity, system, end)


def shown(spread: Spread, quantity: units.Quantity, system: System, end: End = "value") -> str:
    """Return a number with a range, or its low or high, printed with no more digits than it is known to.

    Parameters
    ----------
    spread : Spread
        In SI.
    quantity, system, end
        As for `show_row`.
    """
    below, above = spread.value - spread.low, spread.high - spread.value
    off = {"low": below, "value": min(below, above) or max(below, above), "high": above}[end]
    return units.show(getattr(spread, end), quantity, system, off=off, end=end)


def slots(text: str) -> tuple[str, ...]:
    """Return the keys of the rows whose numbers a template shows.

    Parameters
    ----------
    text : str
        A template as for `fill`.

    Examples
    --------
    >>> slots("{turns} turns in {body.low}")
    ('turns', 'body')
    """
    return tuple(found[1] for found in _SLOT.finditer(text))


def range_words(row: Row, system: System) -> str:
    """Return the low and high of a row in words, or nothing when they print alike.

    Parameters
    ----------
    row, system
        As for `show_row`.
    """
    if row.spread.low == row.spread.high:
        return ""
    low, high = show_row(row, system, "low"), show_row(row, system, "high")
    return "" if low == high else f"{low} to {high}"


def by_key(rows: Iterable[Row]) -> dict[str, Row]:
    """Return rows by their key.

    Parameters
    ----------
    rows : iterable of Row
        Of one answer.
    """
    return {row.key: row for row in rows}
