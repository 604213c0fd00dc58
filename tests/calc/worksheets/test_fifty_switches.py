"""Fifty switches of units change nothing on any worksheet: what is typed, what it means, what is answered."""

from __future__ import annotations

import json
import re
from typing import TYPE_CHECKING, Any, cast

import pytest

from calc import bridge, units
from calc.worksheets import catalogue
from calc.worksheets.core import Number, read_inputs, usual

if TYPE_CHECKING:
    from calc.worksheets.core import Example, Value, Worksheet

pytestmark = pytest.mark.exact
SWITCHES = 50
TIP = re.compile(r"^(round|flat|pipe) (.*[×x])?")
"""What stands before the last measure of a limb tip."""
SYSTEMS: tuple[units.System, ...] = ("inch", "metric")
CASES = [(sheet, example) for sheet in catalogue().values() for example in sheet.examples if not example.refused]


def handled(**ask: object) -> dict[str, Any]:
    return cast("dict[str, Any]", json.loads(bridge.handle(json.dumps({"v": 1, "id": 1, **ask}))))


def system_at(turn: int) -> units.System:
    return SYSTEMS[turn % 2]


def switched(sheet: Worksheet, example: Example) -> list[dict[str, str]]:
    """Return what stands in the form at first and after each of fifty switches; it begins in inches."""
    shown = [usual(sheet, example.inputs)]
    for turn in range(1, SWITCHES + 1):
        shown.append(handled(convert=sheet.id, to=system_at(turn), inputs=shown[-1])["inputs"])
    return shown


def meant(sheet: Worksheet, inputs: dict[str, str], turn: int) -> dict[str, Value]:
    values, problems = read_inputs(sheet, inputs, system_at(turn))
    assert problems == ()
    return values


def foreign(sheet: Worksheet, typed: dict[str, str]) -> set[str]:
    """Return the fields of an inch form whose text is in metric units: the first switch leaves them as they are."""
    quantities = {field.key: field.quantity if isinstance(field, Number) else "length" for field in sheet.fields}
    last = {key: TIP.sub("", text) for key, text in typed.items()}
    return {key for key, text in last.items() if units.system_of(text, quantities[key]) == "metric"}


@pytest.mark.parametrize(("sheet", "example"), CASES, ids=lambda case: getattr(case, "name", getattr(case, "id", "")))
def test_fifty_switches_change_nothing(sheet: Worksheet, example: Example) -> None:
    shown = switched(sheet, example)
    seconds, thirds = shown[2], shown[3]
    assert shown[2::2] == [seconds] * (SWITCHES // 2)
    assert shown[3::2] == [thirds] * (SWITCHES // 2 - 1)
    assert meant(sheet, shown[1], 1) == meant(sheet, thirds, 3)
    own = set(shown[0]) - foreign(sheet, shown[0])
    first, last = meant(sheet, shown[0], 0), meant(sheet, shown[SWITCHES], SWITCHES)
    assert {key: first[key] for key in own} == {key: last[key] for key in own}
    assert handled(worksheet=sheet.id, system="metric", inputs=shown[1]) == handled(
        worksheet=sheet.id, system="metric", inputs=shown[SWITCHES - 1]
    )
    if own == set(shown[0]):
        assert handled(worksheet=sheet.id, system="inch", inputs=shown[0]) == handled(
            worksheet=sheet.id, system="inch", inputs=shown[SWITCHES]
        )


def test_a_measure_typed_in_the_other_units_keeps_its_meaning_within_a_tape_reading() -> None:
    """In an inch form 1,57 m is shown as 61 13/16 in after two switches: 1570 mm / 25.4 = 61.811 in."""
    sheet = catalogue()["string"]
    shown = switched(sheet, next(each for each in sheet.examples if each.name == "flat"))
    assert [each["nock_to_nock"] for each in shown[:4]] == ["1,57 m", "1,57 m", "61 13/16 in", "1570 mm"]
    assert abs(61 + 13 / 16 - 1570 / 25.4) * 25.4 < 0.1
