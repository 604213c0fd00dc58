"""Tables as people type, paste and save them."""

from __future__ import annotations

import csv
import unicodedata
from contextlib import suppress
from io import StringIO
from typing import get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.errors import DomainError
from calc.units import System
from calc.worksheets.club.lines import BowLine, Fault, explicit, read_bows
from calc.worksheets.core import harmless, read_table, write_line

pytestmark = pytest.mark.exact
LAW = settings(derandomize=True, deadline=None, max_examples=300)
CELLS = st.text(st.characters(codec="utf-8", exclude_categories=("Cc", "Zs", "Zl", "Zp")), min_size=1, max_size=12)


def cells(text: str) -> list[tuple[str, ...] | None]:
    return [each.cells for each in read_table(text).records]


@pytest.mark.parametrize("mark", [",", ";", "\t"])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_every_mark_and_line_end(mark: str, end: str) -> None:
    text = end.join([f"name{mark}nock to nock", f"Ash{mark}66 in", "", f"{mark}", f'"a{mark}b"{mark} 60 in '])
    assert cells(text) == [("name", "nock to nock"), ("Ash", "66 in"), (f"a{mark}b".replace("\t", " "), "60 in")]
    assert [each.number for each in read_table(text).records] == [1, 2, 5]


def test_what_spreadsheets_add() -> None:
    assert cells("\ufeffname;nock to nock\nAsh;66") == [("name", "nock to nock"), ("Ash", "66")]
    assert cells("sep=;\nname,a;nock\nAsh;66") == [("name,a", "nock"), ("Ash", "66")]
    assert cells('name;nock\n"Ash ""the old""";62"') == [("name", "nock"), ('Ash "the old"', '62"')]
    assert cells('name,nock,note\nAsh,66,"two\nlines"\nElm,60,') == [
        ("name", "nock", "note"),
        ("Ash", "66", "two lines"),
        ("Elm", "60", ""),
    ]


@pytest.mark.parametrize("first", ["Ash, 66 in, 40 lb", "Ash; 66 in; 40 lb", "Ash\t66 in\t40 lb"])
@pytest.mark.parametrize(
    "other", ["Hazel; 60 in; 30 lb", "Hazel\t60 in\t30 lb", "Hazel, 60 in, 30 lb", '"Hazel", "60 in", "30 lb"']
)
def test_a_line_may_part_its_cells_its_own_way(first: str, other: str) -> None:
    assert cells(f"{first}\n{other}\nElm, 60 in") == [
        ("Ash", "66 in", "40 lb"),
        ("Hazel", "60 in", "30 lb"),
        ("Elm", "60 in"),
    ]
    lines = read_bows(explicit(f"{first}\n{other}", "inch")).lines
    assert [each.name for each in lines] == ["Ash", "Hazel"]
    assert all(isinstance(each, BowLine) for each in lines)


def test_a_decimal_comma_does_not_part_cells_beside_a_semicolon() -> None:
    assert cells("Ash, 66 in\nHazel; 1,57 m\nYew; 1,6 m; 120 N")[1:] == [("Hazel", "1,57 m"), ("Yew", "1,6 m", "120 N")]
    assert cells("Ash, 66 in\nElm; old, 62 in, 30 lb")[1] == ("Elm; old", "62 in", "30 lb")
    text = explicit("Ash, 66\nHazel; 60 1/2; 30", "inch")
    assert text == "Ash,66 in\nHazel;60 1/2 in;30 lb"


@pytest.mark.parametrize("head", ["Bow length", "bow length (in)", "Bow length in", "Length of bow [in]"])
def test_a_bow_length_is_nock_to_nock(head: str) -> None:
    (line,) = read_bows(f"Bow,{head},Poundage\nAsh,66 in,40 lb").lines
    assert isinstance(line, BowLine)
    assert line.cells == (("nock_to_nock", "66 in"), ("draw_weight", "40 lb"))


def test_an_open_quote_costs_one_line_and_no_more() -> None:
    table = read_table('name,nock\n"Ash,66\nElm,60\nYew,70')
    assert [each.cells for each in table.records] == [("name", "nock"), None, ("Elm", "60"), ("Yew", "70")]


@LAW
@given(st.lists(st.lists(CELLS, min_size=2, max_size=2), min_size=1, max_size=8), st.sampled_from(",;\t"))
def test_what_the_csv_module_writes_is_read_back(rows: list[list[str]], mark: str) -> None:
    out = StringIO()
    csv.writer(out, delimiter=mark, quoting=csv.QUOTE_ALL).writerows([["name", "nock"], *rows])
    if mark == ",":
        assert cells(out.getvalue())[1:] == [tuple(row) for row in rows]
    else:
        assert read_table(write_line(["name", "nock"], mark) + "\n" + out.getvalue()).mark == mark


@LAW
@given(st.text())
def test_any_text_is_read_and_made_explicit_without_a_fault(text: str) -> None:
    read_table(text)
    for system in get_args(System):
        told = explicit(text, system)
        assert explicit(told, "inch") == explicit(told, "metric") == told
        with suppress(DomainError):
            assert read_bows(told).lines


def line(text: str, at: int = 0) -> BowLine:
    found = read_bows(text).lines[at]
    assert isinstance(found, BowLine), found
    return found


HEADS = [
    "nock_to_nock", "Nock to nock", "NOCK-TO-NOCK (in)", "nock to nock [in]", "Nock to Nock in", " nock  to nock(in) ",
]  # fmt: skip


@pytest.mark.parametrize("head", HEADS)
def test_heads_in_any_order_case_and_spelling(head: str) -> None:
    found = line(f"Colour;Draw weight (lbf);{head};Limb bend;BOW\nred/white;40;66 in;tapered;Ash")
    assert (found.name, found.colours) == ("Ash", ("red", "white"))
    assert dict(found.cells) == {"draw_weight": "40 lbf", "nock_to_nock": "66 in", "limb_shape": "tapered"}


@pytest.mark.parametrize(
    ("head", "cell", "means"),
    [
        ("nock to nock (mm)", "1575", "1575 mm"),
        ("nock to nock (mm)", "62 in", "62 in"),
        ("nock to nock (mm)", "62½″", "62½″"),
        ("nock to nock (mm)", "5' 2\"", "5' 2\""),
        ("nock to nock (in)", "62 1/2", "62 1/2 in"),
        ("nock to nock (along the belly)", "62 in", "62 in"),
    ],
)  # fmt: skip
def test_the_unit_of_the_cell_goes_before_that_of_the_head(head: str, cell: str, means: str) -> None:
    written = write_line(["Ash", cell])
    assert dict(line(f"name,{head}\n{written}").cells)["nock_to_nock"] == means


def test_bare_numbers_are_in_the_writers_units() -> None:
    text = "name,nock to nock,upper limb tip,yarn,strands\nAsh,1600,16 x 9,200,12"
    told = explicit(text, "metric")
    assert told.splitlines()[1] == "Ash,1600 mm,flat 16 x 9 mm,200 tex,12"
    assert explicit(text, "inch").splitlines()[1] == "Ash,1600 in,flat 16 x 9 in,200 tex,12"
    assert explicit(told, "inch") == told


def test_one_column_for_both_tips() -> None:
    assert dict(line("nock to nock,tip\n66 in,pipe 3/4").cells) == {
        "nock_to_nock": "66 in", "tip_upper": "pipe 3/4", "tip_lower": "pipe 3/4",
    }  # fmt: skip


def test_a_list_without_heads() -> None:
    found = line("Ash, 66 in, 40 lb, 26 in, 6 1/2 in, red")
    assert dict(found.cells) == {
        "nock_to_nock": "66 in", "draw_weight": "40 lb", "draw_length": "26 in", "brace_height": "6 1/2 in",
    }  # fmt: skip
    assert (found.name, found.colours, found.number) == ("Ash", ("red",), 1)


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("name,length\nAsh,66", "no_nock"),
        ("Ash\nElm", "no_nock"),
        ("nock to nock,nock_to_nock\n66,66", "twice"),
        ("nock to nock,tip,upper limb tip\n66,1,1", "twice"),
        ("nock to nock (lbf)\n66", "head_unit"),
        ("nock to nock", ""),
        ("\n \n", ""),
        (",,", ""),
        (",,;", ""),
    ],
)  # fmt: skip
def test_a_first_line_that_does_not_tell_is_refused(text: str, reason: str) -> None:
    with pytest.raises(DomainError) as caught:
        read_bows(text)
    assert (caught.value.problem.field, caught.value.problem.reason) == ("bows", reason)


def test_bad_lines_are_faults_with_their_number() -> None:
    found = read_bows('name,nock to nock\n"Ash,66\nElm,1,57 m\nYew,70 in')
    assert [(each.number, isinstance(each, Fault)) for each in found.lines] == [(2, True), (3, True), (4, False)]
    assert [each.why for each in found.lines if isinstance(each, Fault)] == [
        "A double quote is not closed, or stands inside a quoted cell.",
        "It has 3 cells, the list 2 columns. Put quotes round a cell with a comma.",
    ]


def test_columns_that_are_not_known_are_told() -> None:
    assert read_bows("name,nock to nock,shoe size,{x}\nAsh,66,9,1").strange == ("shoe size", "(x)")


def signs() -> list[str]:
    """Return every character that a spreadsheet which folds wide and small forms (Unicode NFKC) reads as = + - @."""
    return [each for each in map(chr, range(0x110000)) if unicodedata.normalize("NFKC", each) in {"=", "+", "-", "@"}]


@pytest.mark.parametrize("sign", signs(), ids=ascii)
@pytest.mark.parametrize("before", ["", " ", "\u00a0", "\u200b", "\ufeff", "\x00", "\u202e"], ids=ascii)
def test_no_cell_begins_a_formula(sign: str, before: str) -> None:
    for text in ("cmd|' /C calc'!A0", "1+1", "SUM(A1:A9)", ""):
        assert harmless(f"{before}{sign}{text}") == f"'{before}{sign}{text}"


@pytest.mark.parametrize("mark", [";", "\t", "\r", "\n"])
def test_nor_does_a_part_of_a_cell_where_a_spreadsheet_parts_them_otherwise(mark: str) -> None:
    assert harmless(f"Ash{mark}=1+1{mark}-2") == f"Ash{mark}'=1+1{mark}-2"


@pytest.mark.parametrize("text", ["-3.5", "+7", "-.5", "-1e-3", "", "Ash", "62 in", "a=b", "1-2", "'=1"])
def test_numbers_and_words_stay_as_they_are(text: str) -> None:
    assert harmless(text) == text


@pytest.mark.parametrize("text", ["-inf", "-nan", "-1_000", "-٣", "- 3", "--3", "-3-2"])
def test_what_only_python_takes_for_a_number_is_none(text: str) -> None:
    assert harmless(text) == f"'{text}"
