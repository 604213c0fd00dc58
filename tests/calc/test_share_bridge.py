"""Links through the bridge: what a page asks and is told."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import pytest

from calc import bridge, share
from calc.errors import DomainError
from calc.geometry.ends import pipe
from calc.share import decode, encode
from calc.worksheets import catalogue
from calc.worksheets.core import read_inputs, usual

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.units import System
    from calc.worksheets.core import Worksheet

pytestmark = pytest.mark.exact
STRING = catalogue()["string"]


def meaning(sheet: Worksheet, inputs: Mapping[str, str], system: System) -> tuple[object, object]:
    values, problems = read_inputs(sheet, inputs, system)
    return values, {each.field for each in problems}


def message(**told: object) -> dict[str, Any]:
    said: dict[str, Any] = json.loads(bridge.handle(json.dumps({"v": 1, "id": 4, **told})))
    assert (said["v"], said["id"]) == (1, 4)
    return said


def test_the_bridge_shares_and_opens() -> None:
    form = usual(STRING, {"nock_to_nock": "1587.5", "tip_upper": "flat 16 x 9", "brace_height": "6.1234567 in"})
    shared = message(share="string", system="metric", inputs=form)
    assert shared["ok"]
    opened = message(open=shared["fragment"], system="inch")
    assert (opened["ok"], opened["worksheet"], opened["notes"]) == (True, "string", [])
    assert opened["inputs"]["nock_to_nock"] == "62 1/2 in"
    assert opened["inputs"]["tip_upper"] == "flat 16 mm x 9 mm"
    assert opened["inputs"]["hand"] == "Z"
    assert meaning(STRING, opened["inputs"], "inch") == meaning(STRING, form, "metric")
    again = message(open=shared["fragment"], system="metric")
    assert again["inputs"]["brace_height"] == "6.1234567 in"
    assert meaning(STRING, again["inputs"], "metric") == meaning(STRING, form, "metric")


def test_the_bridge_opens_what_is_none_of_ours() -> None:
    opened = message(open="<b>hello</b>", system="inch")
    assert (opened["worksheet"], opened["inputs"]) == (None, {})
    assert opened["notes"] == ["This is not a link of these worksheets. The usual measures stand here."]


def test_a_pipe_keeps_its_name() -> None:
    opened = decode(encode(STRING, {"tip_upper": "PIPE 1 1/4 in"}, "metric"))
    values, _ = read_inputs(STRING, opened.inputs, "inch")
    assert getattr(values["tip_upper"], "diameter_m", 0.0) == pipe("1 1/4")
    assert opened.inputs["tip_upper"].startswith("pipe")


def test_a_list_too_long_for_a_link_is_refused_with_its_field(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(share, "_LONGEST_LINK", 10)
    with pytest.raises(DomainError) as caught:
        encode(STRING, {"hand": "S"}, "inch")
    assert caught.value.problem.reason == "link"


def test_a_list_too_long_for_a_link_is_told_what_works_for_every_list() -> None:
    """Nothing here saves the list itself as a file, and a list of too many lines has no answer to save either."""
    shared = message(share="club", system="inch", inputs={"bows": "Ash, 62 in, 35 lb, 28 in\n" * 9000})
    (error,) = shared["errors"]
    assert error["field"] == "bows"
    assert error["text"] == "This list is too long for a link. Copy its lines into a message or a file, and send that."


def test_a_link_longer_than_any_is_told_so_and_not_that_it_is_none_of_ours() -> None:
    opened = message(open="v3/club?bows=" + "Ash%2C+62+in%0A" * 40_000, system="inch")
    assert (opened["worksheet"], opened["inputs"]) == (None, {})
    assert opened["notes"][0].startswith("This link is longer than any that these worksheets make.")
