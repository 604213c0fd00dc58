"""What the browser's notebook asks of Python, message by message."""

from __future__ import annotations

import json
from typing import Any

import pytest

from calc import bridge, share
from calc.notebook_asks import WAYS
from calc.notebook_samples import WARMED
from calc.records import KINDS, Record, edit, read_notebook, record_to_json
from calc.worksheets import catalogue
from calc.worksheets.club import read_bows

pytestmark = pytest.mark.contract
NOW = "2026-05-03T10:11:12.000Z"
WHO = {"now": "2026-05-04T10:11:12.000Z", "device": "bbbb", "system": "inch"}


def ask(way: str, **more: Any) -> dict[str, Any]:  # noqa: ANN401 - as JSON has it
    told: dict[str, Any] = json.loads(bridge.handle(json.dumps({"v": 1, "id": 7, "notebook": way, **more})))
    assert "fault" not in told, told
    return told


def record(kind: str, ident: str, **texts: str) -> dict[str, Any]:
    made = edit(Record(kind, f"{kind}-{ident:0>6}"), texts, NOW, "aaaa")
    return {"kind": kind, "data": record_to_json(made)}


BOW = record("bow", "1", name="Ash 62", nock_to_nock="62 in", draw_weight="35 lb", owner="Anna Berg")


def test_every_way_is_tried_where_everything_is_loaded() -> None:
    assert {each["notebook"] for each in WARMED} == WAYS.keys()
    for each in WARMED:
        told = json.loads(bridge.handle(json.dumps(each)))
        assert "fault" not in told, (each, told)


def test_the_forms_have_words_for_every_field() -> None:
    kinds = ask("fields", system="metric")["kinds"]
    assert kinds.keys() == KINDS.keys()
    by_key = {each["key"]: each for each in kinds["bow"]}
    assert by_key["nock_to_nock"]["unit"] == "mm"
    assert by_key["limb_shape"]["options"][0] == {"value": "arc", "label": "even, like part of a circle"}
    assert {each["shape"] for fields in kinds.values() for each in fields} == {
        "text", "lines", "number", "choice", "tip", "day", "record",
    }  # fmt: skip


def test_an_edit_comes_back_as_a_record_to_keep_with_what_a_list_tells_of_it() -> None:
    told = ask("edit", record=BOW, texts={"brace_height": "160", "name": "Ash 62"}, **{**WHO, "system": "metric"})
    assert told["ok"]
    data, shown = told["record"]["data"], told["record"]["shown"]
    assert data["values"]["brace_height"] == "160 mm"
    assert list(data["changed"]) == [f"{NOW}/aaaa", "2026-05-04T10:11:12.000Z/bbbb"]
    assert shown["name"] == "Ash 62"
    assert shown["words"] == "62 in, 35 lb, brace height wanted 160 mm"
    assert not shown["deleted"]


def test_what_cannot_be_read_is_told_at_its_field_and_nothing_is_kept() -> None:
    told = ask("edit", record={"kind": "bow", "id": "bow-000009"}, texts={"nock_to_nock": "2 in"}, **WHO)
    assert not told["ok"]
    assert told["errors"] == [{"field": "nock_to_nock", "others": [], "text": "Nock to nock must be 20 in or more"}]
    assert "record" not in told


def test_deleting_and_taking_it_back() -> None:
    gone = ask("delete", records=[BOW], **WHO)["changed"][0]
    assert gone["shown"]["deleted"]
    back = ask("restore", records=[gone], **WHO)["changed"][0]
    assert not back["shown"]["deleted"]
    assert back["data"]["values"]["name"] == "Ash 62"


def test_a_file_is_joined_with_what_is_here_and_what_that_changes_is_told() -> None:
    theirs = edit(Record("bow", "bow-000001"), {"name": "Ash 63"}, NOW, "cccc")
    new = record("cord", "1", name="White")["data"]
    told = ask(
        "merge",
        ours=[BOW],
        theirs=[{"kind": "bow", "data": [record_to_json(theirs), {"id": 3}], "first": 1},
                {"kind": "cord", "data": [new], "first": 1}],
    )  # fmt: skip
    assert [(each["what"], each["fields"]) for each in told["changes"]] == [("conflict", ["Name"]), ("new", ["Name"])]
    assert told["faults"] == ["Bow 2 of the file is damaged: it has no id. It is left out."]
    assert told["changes"][0]["record"]["shown"]["conflicts"] == [
        {"field": "name", "text": "Name was changed on two devices. It is Ash 63; the other was Ash 62."}
    ]
    clash = ask("merge", ours=[BOW], theirs=[{"kind": "cord", "data": [{**new, "id": "bow-000001"}], "first": 1}])
    assert clash["faults"] == ["bow-000001 is a bow here and a cord there. It is left out."]


def test_a_file_that_cannot_be_read_is_told_before_anything_else() -> None:
    assert ask("head", head={"format": "plied-true-notebook", "version": 1})["plurals"]["bow"] == "bows"
    wrong: tuple[dict[str, Any], ...] = (
        {"head": {"format": "plied-true-notebook", "version": 9}},
        {"text": "x"},
        {"head": []},
    )
    for more in wrong:
        told = ask("head", **more)
        assert not told["ok"]
        assert told["errors"][0]["text"].startswith("This ")


def test_what_a_file_holds_is_said_before_it_is_passed_on() -> None:
    string = record("string", "1", bow="bow-000001")
    told = ask("write", records=[BOW, string, record("bow", "2", name="Elm", owner="Ben")], ids=["bow-000001"])
    assert told["holds"] == "It holds 1 bow, 1 string. It names Anna Berg."
    assert sorted(read_notebook(told["text"]).notebook.records) == ["bow-000001", "string-000001"]
    assert ask("write", records=[record("cord", "1", name="White")])["holds"].endswith("It names nobody.")


def test_a_person_is_listed_with_initials_and_forgotten() -> None:
    assert ask("people", records=[BOW])["people"] == [{"name": "Anna Berg", "initials": "A. B."}]
    changed = ask("forget", records=[BOW], name="Anna Berg", instead="A. B.", **WHO)["changed"]
    assert changed[0]["data"]["values"]["owner"] == "A. B."


def test_the_register_is_told_in_days() -> None:
    string = record("string", "1", bow="bow-000001", name="red", made_on="2026-05-01")
    told = ask("register", records=[BOW, string], today="2026-06-03", every="30 d")
    assert told["lines"][0]["due"] == "2026-05-31"
    assert told["lines"][0]["overdue"]
    assert ask("register", records=[], today="2026-06-03", every="often")["errors"][0]["field"] == "every"


def test_sheets_are_told_the_texts_of_a_bow_and_whose_fields_they_are() -> None:
    told = ask("prefill", records=[BOW], chosen=["bow-000001", "cord-000404"])
    assert told["sheets"].keys() == catalogue().keys()
    assert told["sheets"]["string"]["nock_to_nock"] == {"text": "62 in", "from": "Ash 62"}
    assert told["owned"].keys() == {"bow", "cord", "hand"}
    assert "fibre" in told["owned"]["cord"]
    assert "brace_height" in told["owned"]["bow"]


def test_the_bows_of_the_notebook_are_a_club_list_and_a_club_list_is_bows() -> None:
    bows = [
        {
            "name": "Hazel; old",
            "nock_to_nock": "60 in",
            "draw_weight": "30 lbf",
            "owner": "A. B.",
            "limb_shape": "uniform",
        },
        {"name": "Ash", "nock_to_nock": "1675 mm", "brace_height": "6 1/2 in", "note": "two\nlines"},
    ]
    kept = [edit(Record("bow", f"bow-00000{at}"), texts, NOW, "aaaa") for at, texts in enumerate(bows)]
    records: list[dict[str, Any]] = [{"kind": "bow", "data": record_to_json(each)} for each in kept]
    text = ask("club_list", records=records)["text"]
    assert "A. B." not in text, "whose it is stays in the notebook"
    lines = read_bows(text).lines
    assert [line.name for line in lines] == ["Ash", "Hazel; old"]
    who = {**WHO, "new": "bow-new"}
    same = ask("club_bows", records=records, text=text, **who)
    assert (same["changed"], same["faults"]) == ([], [])
    more = text.replace("60 in", "61 in") + "\nElm; 62 1/2\n; 50\nYew; heavy"
    told = ask("club_bows", records=records, text=more, **who)
    found = {each["data"]["id"]: each["data"]["values"] for each in told["changed"]}
    assert found["bow-000000"]["nock_to_nock"] == "61 in"
    assert found["bow-000000"]["owner"] == "A. B."
    assert found["bow-new-0"] == {"name": "Elm", "nock_to_nock": "62 1/2 in"}
    assert found["bow-new-1"] == {"name": "Yew"}
    assert told["faults"] == [
        "Line 5 is left out: it has no name.",
        "Yew: Nock to nock must be a number, like 66 in.",
    ]
    twice = [*records, {"kind": "bow", "data": {**records[1]["data"], "id": "bow-000007"}}]
    told = ask("club_bows", records=twice, text="Ash, 66 in", **who)
    assert (told["changed"], told["faults"]) == ([], ["Ash is left out: the notebook has 2 bows of that name."])


def test_an_answer_is_put_down_as_a_string_with_its_bow_and_cord_where_none_is_chosen() -> None:
    inputs = {"nock_to_nock": "1575", "draw_weight": "15", "fibre": "hmpe", "yarn": "180 tex", "hand": "S"}
    ids = {kind: f"{kind}-000009" for kind in ("bow", "cord", "string")}
    more = {"inputs": inputs, "ids": ids, "name": "Hazel", "today": "2026-05-04", "worksheet": "string", **WHO,
            "system": "metric", "string": {"strands": "14", "cut_length": "1780 mm"}}  # fmt: skip
    told = ask("put_down", chosen={}, **more)
    by_kind = {each["kind"]: each["data"]["values"] for each in told["changed"]}
    assert by_kind["bow"].items() >= {"name": "Hazel", "nock_to_nock": "1575 mm", "draw_weight": "15 kg"}.items()
    assert by_kind["cord"].items() >= {"name": "hmpe 180 tex", "fibre": "hmpe"}.items()
    string = by_kind["string"]
    assert (string["bow"], string["cord"]) == (told["bow"], told["cord"]) == ("bow-000009", "cord-000009")
    assert (string["strands"], string["cut_length"], string["hand"]) == ("14", "1780 mm", "S")
    link = share.decode(string["plan"])
    assert (link.worksheet, link.inputs["nock_to_nock"]) == ("string", "1575 mm")
    again = ask("put_down", chosen={"bow": "bow-000001", "cord": "cord-000001"}, **more)
    assert [each["kind"] for each in again["changed"]] == ["string"]
