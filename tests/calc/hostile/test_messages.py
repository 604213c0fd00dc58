"""Whatever comes to the bridge gets a well-formed reply: an answer, or sentences; never a fault of ours."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings

from calc import bridge
from calc.message.asks import ASKS
from calc.message.notebook import NEEDS
from calc.notebook_asks import WAYS
from calc.notebook_samples import WARMED
from tests.calc.hostile.messages import MESSAGES, SOUND

pytestmark = pytest.mark.exact
WHO = {"now": "2026-05-03T10:11:12.000Z", "device": "aaaa"}


def _refuse(name: str) -> None:
    message = f"{name} is no JSON"
    raise AssertionError(message)


def well_formed(text: str) -> dict[str, Any]:
    """Return the reply to a message, once it is sure to be sound JSON that any other program can read."""
    reply = bridge.handle(text)
    assert json.loads(reply.encode("utf-8"), parse_constant=_refuse)
    said: dict[str, Any] = json.loads(reply)
    assert "fault" not in said, (text, said)
    assert said["v"] == 1
    assert said["id"] is None or isinstance(said["id"], str | int | float)
    assert isinstance(said["ok"], bool)
    if not said["ok"]:
        assert said["errors"], said
        assert all(each["text"] and isinstance(each["field"], str) for each in said["errors"])
    return said


@given(text=MESSAGES)
@settings(max_examples=400, deadline=None, suppress_health_check=list(HealthCheck))
def test_every_message_gets_a_well_formed_reply(text: str) -> None:
    well_formed(text)


@pytest.mark.parametrize("ask", SOUND, ids=lambda ask: f"{next(iter(ask))} {next(iter(ask.values()))}")
def test_the_sound_asks_that_others_are_made_from_have_the_right_shape(ask: dict[str, Any]) -> None:
    assert "cannot be read: " not in json.dumps(well_formed(json.dumps(ask)))


def test_every_kind_of_ask_is_among_them_and_says_what_it_needs() -> None:
    assert {next(key for key in ASKS if key in ask) for ask in SOUND} == ASKS.keys()
    assert {each["notebook"] for each in WARMED} == WAYS.keys() == NEEDS.keys()


@pytest.mark.parametrize("number", ["NaN", "1e999", "-Infinity", "[1]", "{}", "null", "1e400"])
def test_an_id_that_is_no_number_is_not_sent_back(number: str) -> None:
    assert well_formed(f'{{"id": {number}, "open": "", "system": "inch"}}')["id"] is None


def test_half_of_a_surrogate_pair_becomes_the_sign_for_what_is_not_known() -> None:
    told = {"share": "string", "system": "inch", "inputs": {}, "name": "A\ud800B"}
    for text in (json.dumps(told), json.dumps(told, ensure_ascii=False)):
        assert "for=A%EF%BF%BDB" in well_formed(text)["fragment"]
    assert well_formed('{"id": "a\\ud83d\\ude00", "open": "", "system": "inch"}')["id"] == "a😀"


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "it is not JSON"),
        ("[]", "it is not an object"),
        ('{"id": 3}', "it has none of notebook, "),
        ('{"worksheet": "none", "inputs": {}, "system": "inch"}', "worksheet is not the name of a worksheet"),
        ('{"worksheet": "core", "inputs": {}, "system": "inch"}', "worksheet is not the name of a worksheet"),
        ('{"worksheet": "__init__", "inputs": {}, "system": "inch"}', "worksheet is not the name of a worksheet"),
        ('{"worksheet": "string", "inputs": [], "system": "inch"}', "inputs is not texts by name"),
        ('{"worksheet": "string", "inputs": {}}', "system is missing"),
        ('{"part": "club", "inputs": {}, "system": "inch", "from": 1.5, "to": 2}', "from is not a whole number"),
        ('{"notebook": "burn"}', "the notebook has no such ask"),
        ('{"notebook": "people", "records": {}}', "records is not a list of records"),
    ],
)
def test_a_message_of_the_wrong_shape_is_told_which_part_is_wrong(text: str, words: str) -> None:
    said = well_formed(text)
    assert said["ok"] is False
    assert said["errors"][0]["text"].startswith(f"This ask cannot be read: {words}"), said


def test_a_string_that_is_not_in_the_notebook_has_no_line_at_the_range() -> None:
    records = next(each["records"] for each in WARMED if each["notebook"] == "range")
    for key in ("string-000009", "bow-000001"):
        said = well_formed(json.dumps({"notebook": "range", "records": records, "string": key, "read": ""}))
        assert said["errors"][0]["text"] == "This string is not in the notebook."


def test_a_time_past_which_no_later_one_can_be_written_is_refused() -> None:
    bow = json.loads(json.dumps(WARMED[1]["record"]).replace("2026-05-03T10:11:12.000Z", "9999-12-31T23:59:59.999Z"))
    said = well_formed(json.dumps({"notebook": "edit", "record": bow, "texts": {"name": "Elm"}, **WHO}))
    assert said["errors"][0]["text"] == "its times cannot be read"


def test_a_number_for_a_text_of_a_record_is_read_as_its_text() -> None:
    """Found by a longer run: it was a fault of ours."""
    ask = {**WARMED[1], "texts": {"name": 62, "arrow_mass": 7e-289}}
    assert "arrow_mass" in {each["field"] for each in well_formed(json.dumps(ask))["errors"]}
    assert well_formed(json.dumps({**ask, "texts": {"name": 62}}))["record"]["data"]["values"]["name"] == "62"
