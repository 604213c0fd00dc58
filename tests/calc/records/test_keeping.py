"""What is typed into records, a club's register, a person taken out, spreadsheets, and what the sheets are told."""

from __future__ import annotations

import csv
from datetime import date
from io import StringIO
from typing import TYPE_CHECKING

import pytest

from calc.records import (
    KINDS,
    PLURALS,
    TAKEN_OUT,
    Notebook,
    Record,
    check_record,
    csv_files,
    csv_of,
    delete,
    edit,
    fields_of,
    forget_person,
    initials,
    merge,
    parse_day,
    people,
    prefill,
    read_form,
    register,
    write_notebook,
)
from calc.worksheets import catalogue
from calc.worksheets.core import Number, read_field

if TYPE_CHECKING:
    from calc.units import System

pytestmark = pytest.mark.contract
NOW, LATER = "2026-05-03T10:11:12.000Z", "2026-05-04T10:11:12.000Z"


def record(kind: str, ident: str, **texts: str) -> Record:
    return edit(Record(kind, f"{kind}-{ident:0>6}"), texts, NOW, "aaaa")


def book(*found: Record) -> Notebook:
    return Notebook({each.id: each for each in found})


def test_every_kind_has_a_plural_and_every_field_words() -> None:
    assert KINDS.keys() == PLURALS.keys()
    for kind in KINDS:
        for name, each in fields_of(kind).items():
            assert each.key == name
            assert each.label
            assert each.hint.endswith((".", ":"))
            assert each.absent


def test_what_a_record_keeps_of_a_bow_and_a_cord_is_what_the_bench_sheet_asks_of_them() -> None:
    sheet = {each.key: each for each in catalogue()["string"].fields if each.group in {"The bow", "The cord"}}
    kept = {**fields_of("bow"), **fields_of("cord"), **fields_of("string")}
    assert sheet.keys() - kept.keys() == {"bench_temperature"}
    for key in sheet.keys() & (fields_of("bow").keys() | fields_of("cord").keys()):
        ours = fields_of("bow").get(key) or fields_of("cord")[key]
        assert type(ours) is type(sheet[key])
        assert (ours.label, ours.hint) == (sheet[key].label, sheet[key].hint)


@pytest.mark.parametrize("system", ["inch", "metric"])
def test_a_number_is_kept_with_its_unit_and_reads_the_same_in_both_systems(system: System) -> None:
    typed_in = {"nock_to_nock": "1575" if system == "metric" else "62", "tip_upper": "16 x 10 mm", "arrow_mass": "?"}
    kept, wrong = read_form("bow", typed_in, system)
    assert wrong == {}
    assert kept["nock_to_nock"] == ("1575 mm" if system == "metric" else "62 in")
    assert kept["arrow_mass"] == ""
    for name in ("nock_to_nock", "tip_upper"):
        assert read_field(fields_of("bow")[name], kept[name], "inch") == read_field(
            fields_of("bow")[name], kept[name], "metric"
        )


@pytest.mark.parametrize(
    ("kind", "name", "text", "words"),
    [
        ("bow", "nock_to_nock", "2 in", "Nock to nock must be 20 in or more"),
        ("bow", "nock_to_nock", "45 lb", "Nock to nock must be a length, in a unit like in, ft, cm or mm"),
        ("bow", "limb_shape", "bent", "Limb bend must be one of arc, hinged, tapered, uniform, unknown"),
        ("cord", "left", "some", "What is left of it must be a number, or left empty"),
        ("entry", "shots", "2.5", "Shots so far must be a number, or left empty"),
        ("string", "made_on", "2026-02-30", "Made on must be a day, like 2026-05-03"),
        ("string", "note", "x" * 20_001, "Notes must be 20000 letters or fewer"),
        ("string", "price", "1", "There is no field price here."),
    ],
)
def test_what_cannot_be_read_is_told_at_its_field(kind: str, name: str, text: str, words: str) -> None:
    assert read_form(kind, {name: text}, "inch") == ({}, {name: words})


def test_a_number_without_its_unit_is_told_where_nobody_knows_who_wrote_it() -> None:
    assert check_record(record("bow", "1", nock_to_nock="62")) == {"nock_to_nock": "Nock to nock has no unit"}
    assert check_record(record("entry", "1", shots="50", on="2026-05-03", brace_height="6 1/4 in")) == {}


def test_every_number_of_a_record_can_be_left_open() -> None:
    for kind in KINDS:
        numbers = {name: "" for name, each in fields_of(kind).items() if isinstance(each, Number)}
        assert read_form(kind, numbers, "inch") == (numbers, {})


def test_a_day_is_read_or_none() -> None:
    assert parse_day("2026-05-03") == date(2026, 5, 3)
    assert [parse_day(each) for each in ("20260503", "2026-W18-7", "2026-13-01", "", "x" * 10)] == [None] * 5


CLUB = book(
    record("bow", "1", name="Ash 62", brace_height="6 1/4 in"),
    record("bow", "2", name="Hazel", look_every="10 d"),
    record("bow", "3", name="Pipe"),
    record("bow", "4", name="Elm"),
    record("string", "1", bow="bow-000001", made_on="2026-01-01", retired_on="2026-04-01"),
    record("string", "2", bow="bow-000001", made_on="2026-04-01"),
    record("string", "3", bow="bow-000002", made_on="2026-04-10"),
    record("string", "4", bow="bow-000004", made_on="2025-05-01", retire_by="2026-05-01"),
    record("entry", "1", about="string-000002", on="2026-04-20", looked="strands, loops", shots="100"),
    record("entry", "2", about="string-000002", on="2026-05-01", shots="250", brace_height="6 1/8 in"),
    record("entry", "3", about="bow-000004", on="2026-05-02", looked="all"),
)


def test_the_register_has_a_line_for_each_bow_and_those_to_be_seen_to_come_first() -> None:
    lines = {line.bow.text("name"): line for line in register(CLUB, date(2026, 5, 3))}
    assert list(lines) == ["Elm", "Hazel", "Ash 62", "Pipe"]
    ash = lines["Ash 62"]
    assert ash.string is CLUB.records["string-000002"]
    assert (ash.wanted, ash.read, ash.read_on) == ("6 1/4 in", "6 1/8 in", "2026-05-01")
    assert (ash.shots, ash.looked_on, ash.due) == (150, "2026-04-20", date(2026, 5, 20))
    assert not ash.overdue
    assert lines["Hazel"].overdue
    assert lines["Hazel"].due == date(2026, 4, 20)
    assert lines["Elm"].past
    assert (lines["Pipe"].string, lines["Pipe"].due, lines["Pipe"].shots) == (None, None, None)


def test_the_club_chooses_how_often_it_looks() -> None:
    (ash,) = (line for line in register(CLUB, date(2026, 5, 3), 5 * 86_400.0) if line.bow.text("name") == "Ash 62")
    assert ash.due == date(2026, 4, 25)
    assert ash.overdue


def test_a_string_that_nobody_dated_is_due_today() -> None:
    found = book(record("bow", "1", name="Ash"), record("string", "1", bow="bow-000001"))
    (line,) = register(found, date(2026, 5, 3))
    assert line.due == date(2026, 5, 3)


def test_a_person_leaves_every_record_also_the_deleted_ones_and_those_in_conflict() -> None:
    bow = record("bow", "1", name="Anna's ash", owner="Anna Berg", note="For anna berg, not for Annabel Berg.")
    other = edit(bow, {"owner": "ANNA BERG"}, LATER, "bbbb")
    both = merge(edit(bow, {"owner": "Ben"}, LATER, "cccc"), other)
    gone = delete(record("hand", "1", name="Anna Berg"), NOW, "aaaa")
    kept = record("bow", "2", owner="Annabel Berg")
    found = book(both, gone, kept)
    assert people(found) == ("Anna Berg", "Annabel Berg", "Ben")
    changed = forget_person(found, "Anna  Berg", LATER, "aaaa")
    assert {each.id for each in changed} == {"bow-000001", "hand-000001"}
    after = found.with_all(changed)
    assert "anna berg" not in write_notebook(after).casefold()
    assert after.records["bow-000001"].text("note") == f"For {TAKEN_OUT}, not for Annabel Berg."
    assert after.records["bow-000001"].text("owner") == "Ben"
    assert after.records["hand-000001"].is_deleted
    assert forget_person(found, " ", LATER, "aaaa") == ()


def test_a_person_does_not_come_back_with_an_older_file() -> None:
    bow = record("bow", "1", owner="Anna Berg")
    (after,) = forget_person(book(bow), "Anna Berg", LATER, "bbbb", initials("Anna Berg"))
    assert merge(after, bow).text("owner") == "A. B."
    assert merge(bow, after).heads["owner"].keys() == after.heads["owner"].keys()


def test_spreadsheets_get_one_line_a_record_names_for_ids_and_no_formula() -> None:
    found = book(
        record("bow", "1", name="=SUM(A1)", owner="-2+3"),
        record("string", "1", bow="bow-000001", name="red", note="two\nlines"),
        record("string", "2", bow="bow-999999"),
        delete(record("bow", "2", name="Gone"), NOW, "aaaa"),
    )
    rows = list(csv.DictReader(StringIO(csv_of(found, "bow"))))
    assert [(row["id"], row["name"], row["owner"]) for row in rows] == [("bow-000001", "'=SUM(A1)", "'-2+3")]
    strings = list(csv.DictReader(StringIO(csv_of(found, "string"))))
    assert [row["bow"] for row in strings] == ["bow-999999", "'=SUM(A1)"]
    assert strings[1]["note"] == "two\nlines"
    assert sorted(csv_files(found, "club")) == ["club-bows.csv", "club-strings.csv"]


def test_a_sheet_is_told_what_it_asks_and_nothing_that_cannot_be_read() -> None:
    bow = record("bow", "1", name="Ash", nock_to_nock="62 in", draw_weight="heavy", note="n", brace_height="6 in")
    cord = record("cord", "1", name="White", fibre="hmpe", yarn="180 tex", note="n")
    strings = [
        record("string", "1", bow="bow-000001", made_on="2026-01-01", braced_length="60 in", braced_height="6 in"),
        record("string", "2", bow="bow-000001", made_on="2026-02-01", turns="55", cord_diameter="0.1 in"),
        record("string", "3", bow="bow-000001", made_on="2025-02-01", braced_length="60 1/4 in",
               braced_height="5 1/2 in"),
        record("string", "4", bow="bow-000001", made_on="2025-03-01", braced_length="61 in", braced_height="7 in",
               left_out="yes"),
    ]  # fmt: skip
    found = book(bow, cord, *strings)

    def texts(worksheet: str) -> dict[str, str]:
        keys = [each.key for each in catalogue()[worksheet].fields]
        return {key: each.text for key, each in prefill(found, worksheet, keys, (bow, cord)).items()}

    assert not {"earlier_body", "earlier_brace"} & texts("string").keys()
    bench = {"nock_to_nock": "62 in", "brace_height": "6 in", "fibre": "hmpe", "yarn": "180 tex"}
    assert texts("string").items() >= bench.items()
    assert not {"draw_weight", "name", "note", "turns"} & texts("string").keys()
    assert texts("tune").items() >= {"turns": "55", "cord_diameter": "0.1 in", "brace_height": "6 in"}.items()
    assert texts("brace").items() >= {
        "measured_string": "60 in", "measured_brace": "6 in",
        "measured_string_2": "60 1/4 in", "measured_brace_2": "5 1/2 in",
    }.items()  # fmt: skip


def test_the_next_string_is_planned_from_the_last_two_of_that_bow_and_cord_that_are_alike() -> None:
    bow, cord, other = record("bow", "1"), record("cord", "1"), record("cord", "2")
    told = {"bow": "bow-000001", "turns": "60", "body_raw": "62 in"}
    found = book(
        bow, cord, other,
        record("string", "1", cord="cord-000001", made_on="2025-01-01", braced_height="6 in", **told),
        record("string", "2", cord="cord-000001", made_on="2025-02-01", braced_height="6 1/4 in", **told),
        record("string", "3", cord="cord-000001", made_on="2025-03-01", braced_height="7 in", left_out="yes", **told),
        record("string", "4", cord="cord-000001", made_on="2025-04-01", **told),
        record("string", "5", cord="cord-000002", made_on="2025-05-01", braced_height="5 in", **told),
    )  # fmt: skip
    keys = [each.key for each in catalogue()["string"].fields]

    def earlier(*chosen: Record) -> dict[str, str]:
        texts = prefill(found, "string", keys, chosen)
        return {key: each.text for key, each in texts.items() if key.startswith("earlier_")}

    expected = {"earlier_body": "62 in", "earlier_turns": "60", "earlier_brace": "6 1/4 in"}
    before = {"earlier_body_2": "62 in", "earlier_turns_2": "60", "earlier_brace_2": "6 in"}
    assert earlier(bow, cord) == expected | before
    found = book(*found.records.values(), edit(found.records["string-000001"], {"bundles": "3"}, LATER, "aaaa"))
    assert earlier(bow, cord) == expected, "tails, bundles and strands must be alike"
    assert earlier(cord, bow) == expected
    assert earlier(bow, other) == expected | {"earlier_brace": "5 in"}
    assert earlier(bow) == earlier(cord) == {}


def test_the_register_lists_bows_as_people_count() -> None:
    names = ["Club 10", "Club 2", "²", "7", "Ash"]
    bows = [edit(Record("bow", f"bow-{n:06}"), {"name": name}, "2026-05-03T10:11:12.000Z", "aaaa")
            for n, name in enumerate(names)]  # fmt: skip
    lines = register(Notebook({each.id: each for each in bows}), date(2026, 5, 3))
    assert [line.bow.text("name") for line in lines] == ["7", "Ash", "Club 2", "Club 10", "²"]


@pytest.mark.contract
def test_what_a_strand_and_a_limb_showed_once_is_told_to_every_sheet_that_asks() -> None:
    of_bow = {"bow_kind": "youth", "limb_mass": "90 g", "pipe_wall": "40", "passes": "pipe 1"}
    of_bow |= {"handle_proud": "3/8 in", "string_follow": "-1/2 in", "tip_contact": "2 in"}
    weighed = {"weighed_length": "20 ft", "weighed_mass": "22 g", "in_water": "floats", "roll_width": "2 1/4 in"}
    weighed |= {"roll_turns": "20", "held_load": "50 lb"}
    trial = {"trial_before": "24 in", "trial_after": "24 1/8 in", "trial_loaded": "24 1/2 in", "trial_weight": "40 lb"}
    lays = {"loop_turn": "1 1/8 in", "splice_turn": "1 1/4 in"}
    every = of_bow | weighed | trial | lays | {"broken_load": "27 lb"}
    chosen = (
        record("bow", "1", **of_bow),
        record("cord", "1", **weighed, **trial, broken_load="27 lb"),
        record("hand", "1", **lays),
    )
    assert not any(check_record(each) for each in chosen)
    for worksheet in catalogue().values():
        keys = [each.key for each in worksheet.fields]
        found = prefill(book(*chosen), worksheet.id, keys, chosen)
        assert {key: each.text for key, each in found.items()} == {key: every[key] for key in keys if key in every}
