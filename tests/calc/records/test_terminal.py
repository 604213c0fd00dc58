"""A notebook in the terminal: listed, checked, joined, written for a spreadsheet, and a worksheet filled from it."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest

from calc.__main__ import main
from calc.records import Notebook, Record, delete, edit, read_notebook, write_notebook

if TYPE_CHECKING:
    from pathlib import Path

pytestmark = pytest.mark.contract
NOW, LATER = "2026-05-03T10:11:12.000Z", "2026-05-04T10:11:12.000Z"
ASH = edit(
    Record("bow", "bow-000001"),
    {"name": "Ash 62", "nock_to_nock": "62 in", "draw_weight": "35 lb", "brace_height": "6 1/4 in"},
    NOW,
    "aaaa",
)
WHITE = edit(Record("cord", "cord-000001"), {"name": "White", "fibre": "hmpe", "yarn": "180 tex"}, NOW, "aaaa")


def saved(folder: Path, name: str, *records: Record) -> str:
    path = folder / name
    path.write_text(write_notebook(Notebook({each.id: each for each in records})), encoding="utf-8")
    return str(path)


def test_a_sheet_is_filled_from_a_notebook_and_says_so(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    club = saved(tmp_path, "club.json", ASH, WHITE)
    words = ["string", "--notebook", club, "--bow", "ash 62", "--cord", "White", "brace_height=6 in"]
    assert main([*words, "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert not {"nock_to_nock", "draw_weight", "fibre", "yarn"} & told["assumed"].keys()
    assert main(["string", "nock_to_nock=62 in", "draw_weight=35 lb", "fibre=hmpe", "yarn=180 tex",
                 "brace_height=6 in", "--json"]) == 0  # fmt: skip
    assert json.loads(capsys.readouterr().out)["results"] == told["results"]
    assert main(words) == 0
    text = capsys.readouterr().out
    assert "From the notebook\n  nock_to_nock = 62 in (Ash 62)\n" in text
    assert "brace_height = 6 1/4 in" not in text


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["--bow", "Elm"], "There is no bow Elm in this notebook. It has: Ash 62, Ash 66.\n"),
        (["--bow", "Ash"], ("There are several for --bow Ash: Ash 62 (bow-000001), Ash 66 (bow-000002). "
                           "Give the id of one.\n")),
    ],
)  # fmt: skip
def test_a_name_that_is_not_there_or_twice_is_told(
    words: list[str], told: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    other = edit(Record("bow", "bow-000002"), {"name": "Ash 66"}, NOW, "aaaa")
    assert main(["string", "--notebook", saved(tmp_path, "club.json", ASH, other), *words]) == 2
    assert capsys.readouterr() == ("", told)


def test_a_bow_without_a_file_and_a_file_that_is_none_are_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["string", "--bow", "Ash"]) == 2
    assert capsys.readouterr().err == "Say with --notebook which file that is from.\n"
    (tmp_path / "club.json").write_text("[]", encoding="utf-8")
    for words in (["string", "--notebook", str(tmp_path / "club.json")], ["notebook", str(tmp_path / "club.json")]):
        assert main(words) == 2
        assert capsys.readouterr().err.endswith(
            "This file is no notebook of these worksheets. Nothing was taken from it.\n"
        )
    assert main(["notebook", str(tmp_path / "none.json")]) == 2
    assert "cannot be read as text" in capsys.readouterr().err


def test_files_are_listed_checked_and_joined(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    string = edit(Record("string", "string-000001"), {"bow": ASH.id, "made_on": "2026-05-01"}, NOW, "aaaa")
    one = saved(tmp_path, "a.json", edit(ASH, {"brace_height": "6 1/2 in"}, LATER, "aaaa"), WHITE)
    two = saved(tmp_path, "b.json", edit(ASH, {"brace_height": "6 in"}, NOW, "bbbb"), string,
                delete(WHITE, NOW, "bbbb"))  # fmt: skip
    out = tmp_path / "c.json"
    assert main(["notebook", one, two, "--out", str(out)]) == 2
    told = capsys.readouterr()
    assert told.err == "Bow Ash 62: Brace height wanted was changed twice. It is 6 1/2 in; the other was 6 in.\n"
    assert told.out.splitlines() == [
        "Bows: 1",
        "  Ash 62               bow-000001  nock to nock 62 in, draw weight 35 lb, brace height wanted 6 1/2 in",
        "Cords: 0",
        "Hands: 0",
        "Strings: 1",
        "  (no name)            string-000001  bow Ash 62, made on 2026-05-01",
        "Dated lines: 0",
        "Deleted: 1",
    ]
    back = tmp_path / "d.json"
    assert main(["notebook", two, one, "--out", str(back)]) == 2
    assert back.read_bytes() == out.read_bytes()
    assert len(read_notebook(out.read_text("utf-8")).notebook.records) == 3


def test_what_is_wrong_in_a_file_is_told_and_the_rest_is_listed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    club = tmp_path / "club.json"
    saved(tmp_path, "club.json", edit(ASH, {"draw_weight": "heavy"}, LATER, "aaaa"), WHITE)
    data = json.loads(club.read_text("utf-8"))
    del data["cords"][0]["id"]
    club.write_text(json.dumps(data), encoding="utf-8")
    assert main(["notebook", str(club)]) == 2
    told = capsys.readouterr()
    assert told.err.splitlines() == [
        f"{club}: Cord 1 of the file is damaged: it has no id. It is left out.",
        "Bow Ash 62: Draw weight must be a number, like 40 lb.",
    ]
    assert "Bows: 1" in told.out


def test_the_register_and_the_spreadsheets(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    string = edit(
        Record("string", "string-000001"),
        {"name": "red", "bow": ASH.id, "made_on": "2020-05-01", "retire_by": "2021-05-01"},
        NOW,
        "aaaa",
    )
    club = saved(tmp_path, "club.pliedtrue.json", ASH, string)
    assert main(["notebook", club, "--register", "--csv", str(tmp_path / "lists")]) == 0
    assert capsys.readouterr().out.splitlines()[1] == "Ash 62 | red | 6 1/4 in |  |  |  | 2020-05-31 retire it"
    assert sorted(each.name for each in (tmp_path / "lists").iterdir()) == ["club-bows.csv", "club-strings.csv"]


def test_the_club_list_is_filled_with_the_bows_of_a_notebook(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    club = saved(tmp_path, "club.json", ASH, WHITE)
    assert main(["club", "--notebook", club, "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["results"]["bows"]["value"] == 1
    assert main(["club", "--notebook", club, "bows=Elm, 60 in\nYew, 62 in", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["results"]["bows"]["value"] == 2
