"""Which fields change an answer most: what to check first among those still at the example's values."""

from __future__ import annotations

import re
from dataclasses import dataclass, is_dataclass, replace
from dataclasses import fields as parts_of
from typing import TYPE_CHECKING, Any

from calc.errors import DomainError
from calc.worksheets.core.evaluate import usual
from calc.worksheets.core.read import read_inputs
from calc.worksheets.core.schema import Choice, Lines, Number
from calc.worksheets.core.words import slots

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from calc.worksheets.core.schema import Answer, Field, Value, Worksheet

LEAST = 0.02
"""A field matters where another value of it moves a number of the headlines by so large a part."""
_FACTORS = (1.25, 0.8)
"""How far off the example another reader's value may well be."""
_WHOLE = (2.0, 1.5, 0.5)
"""The same for counts, which have to share evenly."""
_WRITTEN = re.compile(r"(?<![\w{])[0-9]+(?:\.[0-9]+)?(?![\w}])")
_KELVIN = 15.0
"""A temperature is off by so much instead."""


def weights(worksheet: Worksheet) -> dict[str, float]:
    """Return how much each field moves the headlines of the usual answer, strongest first.

    Parameters
    ----------
    worksheet : Worksheet
        The declaration; its usual example must be answered.

    Returns
    -------
    dict of str to float
        By field key, the largest change of any number of the headlines over the larger of the two values, from 0 to 2,
        when that field alone takes another value: a quarter more or a fifth less, 15 K more or less, another choice.
        Headlines that then say something else count 1.
        A list of lines counts 2: it is the question itself. Fields that the example leaves open are not in it.
    """
    values, _ = read_inputs(worksheet, usual(worksheet), "inch")
    before = _headlines(worksheet.plan(worksheet.inputs(values)))
    found = {
        each.key: _weight(worksheet, each, values, before) for each in worksheet.fields if values[each.key] is not None
    }
    return dict(sorted(found.items(), key=lambda pair: -pair[1]))


def mattering(worksheet: Worksheet) -> tuple[str, ...]:
    """Return the keys of the fields that matter to the headlines, strongest first.

    Parameters
    ----------
    worksheet : Worksheet
        The declaration.

    Examples
    --------
    >>> from calc.worksheets import one
    >>> sorted(mattering(one("brace"))[:2])
    ['brace_height', 'nock_to_nock']
    """
    return tuple(key for key, weight in weights(worksheet).items() if weight >= LEAST)


def _weight(worksheet: Worksheet, each: Field, values: Mapping[str, Value], before: _Headlines) -> float:
    if isinstance(each, Lines):
        return 2.0
    changes = [0.0]
    for other in _others(each, values[each.key]):
        try:
            after = _headlines(worksheet.plan(worksheet.inputs({**values, each.key: other})))
        except DomainError:
            continue
        changes.append(before.change(after))
    return max(changes)


def _others(each: Field, value: Any) -> Iterator[Value]:  # noqa: ANN401 - a field's value is of any kind
    if isinstance(each, Choice):
        yield from (option.value for option in each.options if option.value != value)
    elif isinstance(each, Number) and each.quantity == "temperature":
        yield from (value + _KELVIN, value - _KELVIN)
    elif isinstance(each, Number):
        factors = _WHOLE if each.whole else _FACTORS
        yield from (min(max(value * factor, each.low), each.high) for factor in factors)
    elif is_dataclass(value) and not isinstance(value, type):
        for factor in _FACTORS:
            yield replace(value, **{part.name: getattr(value, part.name) * factor for part in parts_of(value)})  # type: ignore[misc]


@dataclass(frozen=True, slots=True)
class _Headlines:
    """What the headlines say: the numbers of rows, by row; numbers written out, in order; the words between."""

    rows: Mapping[str, float]
    written: tuple[float, ...]
    words: tuple[str, ...]

    def change(self, other: _Headlines) -> float:
        """Return the largest change of a number over the larger of the two; other words count 1."""
        if self.words != other.words:
            return 1.0
        pairs = [(self.rows[key], other.rows[key]) for key in self.rows.keys() & other.rows.keys()]
        return max((_change(*pair) for pair in (*pairs, *zip(self.written, other.written, strict=True))), default=0.0)


def _headlines(answer: Answer) -> _Headlines:
    """Take the headlines apart; numbers that only repeat what was typed are left out."""
    texts = [sentence.text for sentence in answer.headlines if sentence.level == "answer"]
    shown = {key for text in texts for key in slots(text)}
    return _Headlines(
        rows={row.key: row.spread.value for row in answer.rows if row.key in shown and row.source != "input"},
        written=tuple(float(number) for text in texts for number in _WRITTEN.findall(text)),
        words=tuple(_WRITTEN.sub("#", text) for text in texts),
    )


def _change(before: float, after: float) -> float:
    larger = max(abs(before), abs(after))
    return abs(after - before) / larger if larger else 0.0
