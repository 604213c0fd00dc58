"""Files of a notebook: what is read, what is refused and in which words, and the schema that says what they are."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from calc.records import (
    DELETED,
    FORMAT,
    KINDS,
    PLURALS,
    VERSION,
    Notebook,
    NotebookError,
    Record,
    check_record,
    delete,
    edit,
    extract,
    fields_of,
    merge,
    merge_notebooks,
    read_notebook,
    schema,
    write_notebook,
)

pytestmark = pytest.mark.contract
NOW = "2026-05-03T10:11:12.000Z"
LAW = settings(derandomize=True, deadline=None, suppress_health_check=[HealthCheck.too_slow])
TEXTS = st.text(st.characters(exclude_categories=("Cs", "Cc")), max_size=20)


def record(kind: str = "bow", ident: str = "bow-000001", device: str = "aaaa", **texts: str) -> Record:
    return edit(Record(kind, ident), texts or {"name": "Ash 62"}, NOW, device)


@st.composite
def records(draw: st.DrawFn) -> Record:
    kind = draw(st.sampled_from(sorted(KINDS)))
    found = Record(kind, f"{kind}-{draw(st.integers(0, 3)):06d}")
    for device in draw(st.lists(st.sampled_from(["aaaa", "bbbb"]), max_size=3)):
        texts = draw(st.dictionaries(st.sampled_from(sorted(fields_of(kind))), TEXTS, max_size=4))
        other = edit(Record(kind, found.id), texts, NOW, device)
        found = merge(found, other) if draw(st.booleans()) else edit(found, texts, NOW, device)
    return delete(found, NOW, "cccc") if draw(st.booleans()) else found


BOOKS = st.lists(records(), max_size=5).map(lambda found: Notebook({each.id: each for each in found}))


@LAW
@given(BOOKS)
def test_a_file_reads_back_to_the_same_notebook_and_the_same_text(book: Notebook) -> None:
    text = write_notebook(book)
    opened = read_notebook(text)
    assert opened.faults == ()
    assert opened.notebook == book
    assert write_notebook(opened.notebook) == text


JSON = st.recursive(
    st.none() | st.booleans() | st.integers(-2, 2) | st.floats(allow_nan=False) | st.text(max_size=5),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner, max_size=3),
    max_leaves=8,
)


@LAW
@given(BOOKS, st.data())
def test_a_damaged_record_is_told_and_left_out_and_the_others_are_read(book: Notebook, data: st.DataObject) -> None:
    if not book.records:
        return
    whole = json.loads(write_notebook(book))
    plural = data.draw(st.sampled_from([each for each in PLURALS.values() if whole[each]]))
    at = data.draw(st.integers(0, len(whole[plural]) - 1))
    part = data.draw(st.sampled_from(["id", "values", "changed", "earlier", "seen", "more"]))
    whole[plural][at] = {**whole[plural][at], part: data.draw(JSON)}
    opened = read_notebook(json.dumps(whole))
    assert len(opened.notebook.records) + len(opened.faults) == len(book.records)
    if not opened.faults:  # what was put in happened to be sound
        again = read_notebook(write_notebook(opened.notebook))
        assert again.notebook == opened.notebook
    for fault in opened.faults:
        assert re.fullmatch(r"[A-Z]\w+ \d+ of the file is damaged: .+\. It is left out\.|Two records .+\.", fault)


@LAW
@given(st.text(max_size=60) | JSON.map(json.dumps))
def test_anything_else_is_refused_in_a_sentence(text: str) -> None:
    with pytest.raises(NotebookError, match=r"^This file is no notebook of these worksheets\. Nothing was taken"):
        read_notebook(text)


@pytest.mark.parametrize(
    ("data", "words"),
    [
        ({"version": VERSION + 1}, "This notebook was written by a newer version. Take that version to open it."),
        ({"version": True}, "This notebook is damaged: it has no version. Nothing was taken from it."),
        ({"bows": {}}, "This notebook is damaged: its lists are no lists. Nothing was taken from it."),
        ({"arrows": []}, "This notebook is damaged: arrows should not be in it. Nothing was taken."),
    ],
)
def test_a_notebook_that_cannot_be_read_says_why(data: dict[str, Any], words: str) -> None:
    with pytest.raises(NotebookError) as told:
        read_notebook(json.dumps({"format": FORMAT, "version": 1, **data}))
    assert str(told.value) == words


def test_a_file_that_was_cut_off_says_where() -> None:
    text = write_notebook(Notebook({"bow-000001": record()}))
    with pytest.raises(NotebookError) as told:
        read_notebook(text[: len(text) // 2])
    assert str(told.value) == "This notebook is damaged in line 3. Nothing was taken from it."


def test_a_file_of_an_earlier_version_is_read_whole_and_keeps_to_the_schema() -> None:
    """The file has every text that records had in version 1; nobody may take one out or read it otherwise."""
    text = (Path(__file__).parent / "version-1.pliedtrue.json").read_text(encoding="utf-8")
    data = json.loads(text)
    opened = read_notebook(text)
    assert data["version"] == 1
    assert opened.faults == ()
    assert _checked(data, schema())
    for kind, plural in PLURALS.items():
        (found,) = opened.notebook.of(kind)
        (written,) = data[plural]
        assert {name: found.text(name) for name in written["values"]} == written["values"]
        assert not check_record(found)


def test_an_id_that_is_there_twice_is_told() -> None:
    one = json.loads(write_notebook(Notebook({"bow-000001": record()})))
    one["bows"] *= 2
    opened = read_notebook(json.dumps(one))
    assert opened.faults == ("Two records have the id bow-000001. The first of them is taken.",)


def _checked(data: object, rule: dict[str, Any]) -> bool:  # noqa: PLR0911 - one line for each word of a schema
    """Tell whether data keep to a schema: an independent reading of the words that it uses."""
    if "const" in rule and data != rule["const"]:
        return False
    if "enum" in rule and data not in rule["enum"]:
        return False
    if "pattern" in rule and not (isinstance(data, str) and re.search(rule["pattern"], data)):
        return False
    kinds = {"object": dict, "array": list, "string": str}
    if "type" in rule and not isinstance(data, kinds[rule["type"]]):
        return False
    if isinstance(data, str) and len(data) > rule.get("maxLength", len(data)):
        return False
    if isinstance(data, list):
        return all(_checked(each, rule.get("items", {})) for each in data)
    if not isinstance(data, dict):
        return True
    if set(rule.get("required", ())) - data.keys():
        return False
    known, rest = rule.get("properties", {}), rule.get("additionalProperties", {})
    if rest is False and data.keys() - known.keys():
        return False
    names = all(_checked(each, rule.get("propertyNames", {})) for each in data)
    return names and all(_checked(each, known.get(key, rest or {})) for key, each in data.items())


def test_what_is_written_keeps_to_the_schema() -> None:
    told = schema()
    book = Notebook(
        {
            "bow-000001": record(name="Ash 62", nock_to_nock="62 in", limb_shape="arc"),
            "string-000001": record("string", "string-000001", bow="bow-000001", made_on="2026-05-03"),
            "entry-000001": delete(record("entry", "entry-000001", about="string-000001"), NOW, "bbbb"),
        }
    )
    data = json.loads(write_notebook(book))
    assert _checked(data, told)
    for key, wrong in (("id", "A"), ("values", {"name": 3}), ("seen", {"aaaa": "today"}), ("changed", {"x": []})):
        assert not _checked({**data, "bows": [{**data["bows"][0], key: wrong}]}, told), key
    assert not _checked({**data, "version": VERSION + 1}, told)
    assert not _checked({**data, "arrows": []}, told)


def test_the_schema_names_every_field_of_every_record_with_its_words() -> None:
    for kind, plural in PLURALS.items():
        told = schema()["properties"][plural]["items"]["properties"]["values"]["properties"]
        assert told.keys() == fields_of(kind).keys() | {DELETED}
        assert all(each["description"].endswith(".") for each in told.values())


def test_one_bow_is_exported_with_its_strings_their_cords_hands_and_lines_and_nothing_else() -> None:
    found = [
        record(),
        record("bow", "bow-000002"),
        record("cord", "cord-000001"),
        record("cord", "cord-000002"),
        record("hand", "hand-000001"),
        record("string", "string-000001", bow="bow-000001", cord="cord-000001", maker="hand-000001"),
        record("string", "string-000002", bow="bow-000002", cord="cord-000002"),
        record("entry", "entry-000001", about="string-000001"),
        record("entry", "entry-000002", about="string-000002"),
        record("entry", "entry-000003", about="bow-000001"),
    ]
    book = Notebook({each.id: each for each in found})
    part = extract(book, ["bow-000001"])
    wanted = "bow-000001 cord-000001 hand-000001 string-000001 entry-000001 entry-000003"
    assert sorted(part.records) == sorted(wanted.split())


def test_what_joining_would_change_is_told_record_by_record() -> None:
    here = record(name="Ash", brace_height="6 in")
    there = edit(here, {"brace_height": "6 1/4 in"}, NOW, "bbbb")
    new = record("cord", "cord-000001", name="White")
    ours = Notebook({here.id: here})
    found = merge_notebooks(ours, Notebook({there.id: there, new.id: new}))
    assert found is not None
    assert [(each.what, each.fields) for each in found[1]] == [("changed", ("brace_height",)), ("new", ("name",))]
    gone = merge_notebooks(ours, Notebook({here.id: delete(here, NOW, "bbbb")}))
    assert gone is not None
    assert [each.what for each in gone[1]] == ["deleted"]
    mine = edit(here, {"brace_height": "6 1/2 in"}, NOW, "aaaa")
    both = merge_notebooks(Notebook({mine.id: mine}), Notebook({there.id: there}))
    assert both is not None
    assert [each.what for each in both[1]] == ["conflict"]
