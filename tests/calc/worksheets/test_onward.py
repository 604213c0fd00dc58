"""What is done next stands under every answer; what a cord test finds out goes on to the plan; what to check first."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import pytest

from calc import bridge
from calc.share import decode, encode
from calc.worksheets import catalogue
from calc.worksheets.core import Answer, ask, read_field, usual
from calc.worksheets.core.sensitivity import LEAST, mattering, weights
from site_build.pages.guides.texts import load
from site_build.setup.paths import DOCS

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.worksheets.core import Worksheet

pytestmark = pytest.mark.exact
SHEETS = list(catalogue().values())


def outcome(key: str, inputs: Mapping[str, str]) -> dict[str, Any]:
    told = {"v": 1, "id": 1, "worksheet": key, "system": "inch", "inputs": usual(catalogue()[key], inputs)}
    found: dict[str, Any] = json.loads(bridge.handle(json.dumps(told)))["outcome"]
    return found


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.id)
def test_every_answer_leads_on_to_pages_and_steps_that_are_there(sheet: Worksheet) -> None:
    for example in sheet.examples:
        answer = ask(sheet, usual(sheet, example.inputs), "inch")
        if not isinstance(answer, Answer):
            continue
        following = answer.next or sheet.next
        assert following or sheet.id == "cord-test", example.name
        for each in following:
            page = DOCS / f"{each.page}.md"
            assert page.exists(), each
            assert not each.step or each.step in {block.key for block in load(page).of("step")}, each


def test_a_plan_leads_to_the_guide_that_makes_just_that_string() -> None:
    for key, inputs, guide in (
        ("string", {"bundles": "2"}, "two-bundle"),
        ("string", {"bundles": "3", "strands": "12"}, "three-bundle"),
        ("cuts", {"method": "hitch"}, "one-loop"),
        ("cuts", {"method": "endless"}, "endless"),
        ("cuts", {"bundles": "3", "strands": "12"}, "three-bundle"),
        ("twist", {"bundles": "3"}, "three-bundle"),
        ("endless", {}, "endless"),
    ):
        assert outcome(key, inputs)["next"][0]["href"] == f"../../guides/{guide}/", (key, inputs)


def test_the_job_is_a_chain_from_the_cord_to_the_nocking_point() -> None:
    chain = {sheet.id: [each["href"].split("/")[3] for each in outcome(sheet.id, {})["next"]] for sheet in SHEETS}
    for here, there in (
        ("cord-test", "strands"),
        ("cord-test", "string"),
        ("strands", "string"),
        ("string", "brace"),
        ("twist", "nail"),
        ("settle", "nail"),
        ("nail", "brace"),
        ("tune", "serve"),
        ("serving", "nocking-point"),
    ):
        assert there in chain[here], (here, there)


@pytest.mark.parametrize("key", ["string", "club"])
def test_who_wants_a_hitch_is_led_to_the_sheet_and_the_guide_that_have_it(key: str) -> None:
    """These two plan strings with two loops; the cut sheet takes the same finished length, and asks how it ends."""
    found = outcome(key, {})
    assert [each["href"] for each in found["next"]][-2:] == ["../../worksheets/cuts/", "../../guides/one-loop/"]
    assert any("hitch" in each for each in found["leaves_out"])
    bench = outcome("string", {})
    slack = next(row["shown"] for row in bench["rows"] if row["key"] == "string_length_slack")
    assert bench["known"] == {"finished_length": slack}, "it is carried there"
    hitch = outcome("cuts", {"method": "hitch", "finished_length": slack})
    assert any(row["key"] == "hitch_length" for row in hitch["rows"])


def test_a_cord_test_tells_the_plan_fibre_kind_and_size() -> None:
    for inputs in (
        {},
        {"held_load": "600 lb"},
        {"weighed_length": "10 m", "weighed_mass": "31 g", "in_water": "sinks"},
    ):
        found = outcome("cord-test", inputs)
        known = {**found["known"], "yarn": next(row["shown"] for row in found["rows"] if row["key"] == "yarn")}
        assert known["strand_kind"] == "cord"
        for key in ("strands", "string"):
            for each in catalogue()[key].fields:
                if each.key in known:
                    read_field(each, known[each.key], "inch")
        chosen = ask(catalogue()["strands"], usual(catalogue()["strands"], known), "inch")
        assert isinstance(chosen, Answer)
    assert outcome("cord-test", {"held_load": "5000 lb"})["known"] == {}


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.id)
def test_what_matters_moves_the_answer_and_the_rest_hardly_does(sheet: Worksheet) -> None:
    found = weights(sheet)
    assert list(found.values()) == sorted(found.values(), reverse=True)
    assert mattering(sheet) == tuple(key for key, weight in found.items() if weight >= LEAST)
    assert len(mattering(sheet)) >= 3
    assert "hand" not in mattering(sheet), "the hand of the lay moves no number"


def test_what_matters_is_what_a_maker_would_check() -> None:
    """At the range: brace heights, bow length, cord and turns; for a plan: fibre, bow, brace height."""
    assert {"nock_to_nock", "cord_diameter", "turns", "brace_now"} <= set(mattering(catalogue()["tune"])[:6])
    assert {"fibre", "nock_to_nock", "brace_height", "draw_weight"} <= set(mattering(catalogue()["string"])[:8])
    assert mattering(catalogue()["club"])[0] == "bows"


def test_a_link_says_whose_string_it_is_and_what_it_gives() -> None:
    sheet = catalogue()["string"]
    link = encode(sheet, {"nock_to_nock": "54 in", "draw_weight": "40 lb"}, "inch", "Anna, <b>junior\n")
    opened = decode(link)
    assert opened.name == "Anna, b junior"
    assert opened.given == ("nock_to_nock",)
    assert opened.notes == ()
    assert decode(link.replace("Anna", "Anno")).notes, "a name that was changed on the way is a damaged link"
    assert decode(encode(sheet, {}, "inch")).name == ""
    reply = json.loads(bridge.handle(json.dumps({"v": 1, "id": 1, "open": link, "system": "inch"})))
    assert (reply["name"], reply["given"]) == ("Anna, b junior", ["nock_to_nock"])


def test_a_card_of_the_club_list_is_opened_with_its_name() -> None:
    told = {"line": "club", "system": "inch", "inputs": usual(catalogue()["club"]), "at": 3}
    reply = json.loads(bridge.handle(json.dumps({"v": 1, "id": 1, **told})))
    assert reply["name"] == "Junior"
    assert decode(reply["fragment"]).name == "Junior"
