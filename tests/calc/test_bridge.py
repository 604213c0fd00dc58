"""What a page asks of the bridge besides an answer: a list a few lines at a time, a line of it, a figure, a form."""

from __future__ import annotations

import json
from typing import Any

import pytest

from calc import bridge
from calc.worksheets import catalogue
from calc.worksheets.core.evaluate import usual

pytestmark = pytest.mark.contract
CLUB = catalogue()["club"]
BOWS = usual(CLUB)


def message(**told: object) -> dict[str, Any]:
    said: dict[str, Any] = json.loads(bridge.handle(json.dumps({"v": 1, "id": 4, "system": "inch", **told})))
    assert (said.pop("v"), said.pop("id")) == (1, 4)
    return said


@pytest.mark.parametrize("wrong", [{"ok": float("nan")}, KeyError("wax")], ids=["no number", "raised"])
def test_what_goes_wrong_in_our_own_code_is_a_fault(monkeypatch: pytest.MonkeyPatch, wrong: Any) -> None:  # noqa: ANN401
    def answer(_: object) -> dict[str, Any]:
        if isinstance(wrong, Exception):
            raise wrong
        return dict(wrong)

    monkeypatch.setitem(bridge._WAYS, "open", answer)  # noqa: SLF001 - as if its code were wrong
    assert "Error: " in message(open="")["fault"]


@pytest.mark.exact
def test_other_units_change_nothing_that_cannot_be_read() -> None:
    inputs = {"nock_to_nock": "62 1/2 in", "tip_upper": "flat 5/8 x 3/8 in", "hand": "Z", "strands": "", "x": "1"}
    ask_other = {"v": 1, "id": 9, "convert": "string", "to": "metric", "inputs": inputs}
    said = json.loads(bridge.handle(json.dumps(ask_other)))
    assert said["inputs"] == inputs | {"nock_to_nock": "1587.5 mm", "tip_upper": "flat 15.9 mm × 9.5 mm"}


def test_a_list_is_worked_out_a_few_lines_at_a_time() -> None:
    lines = {"from": 0, "to": 1}
    first = message(part="club", inputs=BOWS, **lines)
    assert first == {"ok": True, "done": 1, "of": first["of"]}
    assert first["of"] > 1
    last = message(part="club", inputs=BOWS, **{"from": 1, "to": 99})
    assert last == {"ok": True, "done": first["of"], "of": first["of"]}
    spoilt = message(part="club", inputs={**BOWS, "bows": "nonsense"}, **lines)
    assert (spoilt["ok"], spoilt["errors"][0]["field"]) == (False, "bows")
    assert message(part="brace", inputs={}, **lines) == {"ok": True, "done": 0, "of": 0}


def test_a_line_of_a_list_opens_as_a_sheet_of_its_own() -> None:
    opened = message(line="club", inputs=BOWS, at=0)
    assert (opened["ok"], opened["worksheet"], opened["outcome"]["worksheet"]) == (True, "string", "string")
    assert opened["name"] in BOWS["bows"]
    again = message(open=opened["fragment"])
    assert (again["worksheet"], again["inputs"]["nock_to_nock"]) == ("string", opened["inputs"]["nock_to_nock"])


@pytest.mark.parametrize(("sheet", "inputs"), [("club", BOWS), ("brace", {})])
def test_a_line_that_is_not_there_is_told_so(sheet: str, inputs: dict[str, str]) -> None:
    refused = message(line=sheet, inputs=inputs, at=99)
    assert refused["ok"] is False
    assert refused["errors"][0]["text"] == "This line of the list cannot be opened. Put it right first."


def test_a_figure_that_is_not_there_is_told_so() -> None:
    refused = message(figure="no-such-figure", inputs={})
    assert (refused["ok"], refused["errors"][0]["field"]) == (False, "figure")


@pytest.mark.parametrize("sheet", catalogue().values(), ids=lambda sheet: sheet.id)
def test_a_form_tells_every_field_of_its_sheet(sheet: Any) -> None:  # noqa: ANN401 - a worksheet
    described = bridge.describe(sheet.id, "metric")
    assert described["id"] == sheet.id
    told = [field["key"] for group in described["groups"] for field in group["fields"]]
    assert sorted(told) == sorted(each.key for each in sheet.fields)
