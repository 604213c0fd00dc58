"""Ten thousand inputs for every worksheet, a tenth without ``--long``: valid, at the edge of a field, and garbage.

Whatever is typed is answered with finite numbers in order, or refused with a sentence at a field of that worksheet.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import isfinite
from typing import TYPE_CHECKING
from zlib import crc32

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from calc import units
from calc.worksheets import catalogue
from calc.worksheets.core import Answer, Choice, Field, Lines, Number, Tip, Worksheet, ask, outcome, usual
from calc.worksheets.core import words as wording

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.worksheets.core import Complaint

pytestmark = [pytest.mark.exact, pytest.mark.many]

INPUTS = 10_000
SLOW = {"shot", "club"}
"""Worksheets whose sums take longest: most of their inputs hold something that is refused at once."""
LOOKED_AT = 10
"""One answer in so many, told by its inputs, is also shown as the page shows them, drawings and all."""

GARBAGE = (
    "", "nan", "inf", "-1", "0", "1e308", "-0", "1/0", "0/1", "1,575", "1e-320", "7 7/8 7", "45 lb", "3 mm", "½",
    "round", "flat 1 x 2", "pipe 9", "not known", "?", "12 m per", "{turns}", "<b>1</b>", "１２ in", "5' 2\"",
    "9" * 190, "x" * 300, "\0", "advise", "50 %", "1 tex", "-40 °C",
)  # fmt: skip
SYSTEMS: tuple[units.System, ...] = ("inch", "metric")
EDGES = (0.0, 1.0, -1e-9, 1.0 + 1e-9, 1e-9, 1.0 - 1e-9, -0.1, 1.1, 0.01, 0.99)
"""Where a value may stand between the bounds of its field, 0 and 1 being the bounds themselves."""
PIPES = ("pipe 1/2", "pipe 3/4", "pipe 1", "pipe 2", "pipe 20 mm", "3/4 pipe", "1/2 in")


@dataclass(frozen=True)
class Change:
    """One field typed anew: which one, in what way, and where between its bounds or in a list."""

    field: int
    way: int
    at: float

    def choose(self, among: Sequence[str]) -> str:
        """Return one of some texts."""
        return among[min(len(among) - 1, int(self.at * len(among)))]

    def between(self, low: float, high: float) -> float:
        """Return a number anywhere within bounds, near the lower one, or at and about both."""
        if self.way % 4 == 0:
            return low + EDGES[min(len(EDGES) - 1, int(self.at * len(EDGES)))] * (high - low)
        return low + (self.at**3 if self.way % 4 == 1 else self.at) * (high - low)


WAYS = 11
_USUAL_WAYS = 8
CHANGE = st.builds(Change, st.integers(0, 99), st.integers(0, WAYS), st.floats(0.0, 1.0))
NONSENSE = st.builds(Change, st.integers(0, 99), st.just(WAYS), st.floats(0.0, 1.0))


def _lines(each: Lines, change: Change, sheet: Worksheet) -> str:
    """Return a list of the examples, a line of it doubled, cut off or spoilt."""
    lists = [usual(sheet, example.inputs)[each.key] for example in sheet.examples]
    lines = lists[change.way % len(lists)].splitlines()
    spot = int(change.at * len(lines)) if lines else 0
    spoilt = [lines[spot][: int(change.at * 30)], change.choose(GARBAGE)] if spot < len(lines) else []
    return "\n".join([*lines[:spot], *spoilt[change.way % 2 :], *lines[spot:]])


def _sensible(each: Field, change: Change, sheet: Worksheet) -> str:
    """Return what a field can read, or nearly."""
    if isinstance(each, Choice):
        return change.choose([option.value for option in each.options])
    if isinstance(each, Tip):
        size = 1000.0 * change.between(each.low, each.high)
        shapes = (f"round {size:.9g} mm", f"flat {size:.9g} x {3.0 * each.low + size / 2.0:.9g} mm")
        return (*shapes, change.choose(PIPES))[change.way % 3]
    if isinstance(each, Lines):
        return _lines(each, change, sheet)
    assert isinstance(each, Number)
    value = change.between(each.low, each.high)
    if each.whole:
        return f"{round(value)}"
    system = SYSTEMS[change.field % 2]
    number = units.number_in(value, each.quantity, system)
    return f"{number:.12g} {units.unit_label(each.quantity, system)}".strip()


def typed(sheet: Worksheet, change: Change) -> tuple[str, str]:
    """Return the field a change is about, and what is typed there."""
    if change.field == 99:
        return "colour", "red"
    each = sheet.fields[change.field % len(sheet.fields)]
    if change.way > _USUAL_WAYS:
        return each.key, change.choose(GARBAGE)
    if each.absent and change.way == _USUAL_WAYS:
        return each.key, each.absent
    return each.key, _sensible(each, change, sheet)


def many(sheet: Worksheet) -> st.SearchStrategy[dict[str, str]]:
    """Return inputs for a worksheet: an example of its own with up to four fields typed anew."""
    bases = [usual(sheet, example.inputs) for example in sheet.examples]
    changes = st.lists(CHANGE, max_size=4)
    if sheet.id in SLOW:
        worse = st.tuples(NONSENSE, NONSENSE).map(list)
        changes = st.one_of(worse, worse, worse, worse, worse, worse, worse, changes)
    keys = [each.key for each in sheet.fields]
    text = st.one_of(st.none(), st.none(), st.none(), st.tuples(st.sampled_from(keys), st.text(max_size=20)))

    def inputs(base: int, changed: list[Change], more: tuple[str, str] | None) -> dict[str, str]:
        found = bases[base % len(bases)] | dict(typed(sheet, change) for change in changed)
        return found if more is None else found | dict([more])

    return st.builds(inputs, st.integers(0, 99), changes, text)


def _check_complaints(sheet: Worksheet, found: tuple[Complaint, ...]) -> None:
    keys = {each.key for each in sheet.fields}
    assert found
    for each in found:
        assert each.field in keys or "There is no field" in each.text, each
        assert set(each.others) <= keys, each
        assert each.text != wording.BEYOND, each
        assert len(each.text) > 10
        assert "{" not in each.text, each


def _check_answer(answer: Answer) -> None:
    for row in answer.rows:
        low, value, high = row.spread.low, row.spread.value, row.spread.high
        assert all(isfinite(number) for number in (low, value, high)), row.key
        assert low <= value <= high, row.key


@pytest.mark.parametrize("sheet", catalogue().values(), ids=lambda sheet: sheet.id)
def test_many_inputs(sheet: Worksheet, share: int) -> None:
    count = INPUTS // share
    seen = {"answered": 0, "refused": 0}

    @settings(
        derandomize=True, deadline=None, max_examples=count, database=None, suppress_health_check=list(HealthCheck)
    )
    @given(inputs=many(sheet), system=st.sampled_from(SYSTEMS))
    def run(inputs: dict[str, str], system: units.System) -> None:
        answer = ask(sheet, inputs, system)
        if not isinstance(answer, Answer):
            seen["refused"] += 1
            _check_complaints(sheet, answer)
            return
        seen["answered"] += 1
        _check_answer(answer)
        if crc32(repr(sorted(inputs.items())).encode()) % LOOKED_AT == 0:
            outcome(sheet, answer, system)

    run()
    assert min(seen.values()) > count // 50, seen
    assert sum(seen.values()) >= count // 2, seen
