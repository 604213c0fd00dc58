"""Every worksheet: its examples answer or are refused at the right field, whatever is typed never raises."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from math import isfinite
from pathlib import Path
from typing import TYPE_CHECKING, get_args, get_type_hints
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc import worksheets
from calc.data import source
from calc.draw import Label, svg
from calc.geometry.ends import Section
from calc.geometry.lay import Hand
from calc.making.strands import Wax
from calc.making.string import Fit, Method
from calc.mechanics.bow import LimbShape
from calc.mechanics.fibre import Rating
from calc.worksheets import catalogue
from calc.worksheets.core import (
    Answer,
    Choice,
    Example,
    Number,
    Tip,
    Worksheet,
    ask,
    cords,
    outcome,
    read,
    table,
    tips,
    usual,
)
from calc.worksheets.core.words import show_row

if TYPE_CHECKING:
    from calc import units

pytestmark = pytest.mark.exact
CASES = [(sheet, example) for sheet in catalogue().values() for example in sheet.examples]
STRING = catalogue()["string"]
SYSTEMS: tuple[units.System, ...] = ("inch", "metric")


def told(answer: Answer | tuple[object, ...]) -> Answer:
    assert isinstance(answer, Answer), answer
    return answer


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize(("sheet", "example"), CASES, ids=lambda case: getattr(case, "name", getattr(case, "id", "")))
def test_examples(sheet: Worksheet, example: Example, system: units.System) -> None:
    inputs = usual(sheet, example.inputs)
    answer = ask(sheet, inputs, system)
    if example.refused:
        assert not isinstance(answer, Answer)
        assert tuple(each.field for each in answer) == example.refused
        for each in answer:
            assert len(each.text) > 10
            assert "{" not in each.text
        return
    rows = told(answer).rows
    assert tuple(row.key for row in rows if row.role == "result") == sheet.results
    assert [row.key for row in rows] == list(dict.fromkeys(row.key for row in rows))
    for row in rows:
        assert all(isfinite(v) for v in (row.spread.low, row.spread.value, row.spread.high)), row.key
        assert source(row.source).words
    said = outcome(sheet, told(answer), system)
    assert "{" not in json.dumps([said["headlines"], said["cautions"], said["tables"], said["rows"]]).replace('{"', "")


def test_every_declared_row_is_used() -> None:
    used = {
        row.key
        for sheet, example in CASES
        if not example.refused
        for row in told(ask(sheet, usual(sheet, example.inputs), "inch")).rows
    }
    assert set(table()) <= used
    assert {told.key for sheet in catalogue().values() for told in sheet.row_texts} <= used


NAMES = {
    "BowKind": tips.BowKind, "Fit": Fit, "Hand": Hand, "LimbShape": LimbShape, "Method": Method, "Rating": Rating,
    "Section": Section, "Wax": Wax, "cords": cords, "tips": tips, "read": read,
}  # fmt: skip
"""What the types of inputs are made of: their modules import it for the type checker alone."""


@pytest.mark.parametrize("sheet", catalogue().values(), ids=lambda sheet: sheet.id)
def test_inputs_have_the_types_of_their_fields(sheet: Worksheet) -> None:
    asked = next(iter(sheet.plan.__annotations__.values()))
    assert getattr(asked, "__name__", asked).rpartition(".")[2] == sheet.inputs.__name__
    types = get_type_hints(sheet.inputs, localns=NAMES)
    assert types.keys() >= {each.key for each in sheet.fields}
    for key in types.keys() - {each.key for each in sheet.fields}:
        assert hasattr(sheet.inputs, key), f"{key} is not asked and not known otherwise"
    for each in sheet.fields:
        wanted: set[object] = {float} if isinstance(each, Number) else {str}
        if isinstance(each, Tip):
            wanted = set(get_args(Section))
        elif isinstance(each, Choice) and types[each.key] is not str:
            wanted = {option.value for option in each.options}
        assert _parts(types[each.key]) == wanted | ({type(None)} if each.absent else set()), each.key


def _parts(told: object) -> set[object]:
    """Return the types of a union; of literals, what they may be."""
    parts = get_args(told)
    return {told} if not parts else set().union(*(_parts(each) for each in parts))


def test_no_sheet_tells_the_type_checker_what_it_cannot_see() -> None:
    files = Path(worksheets.__file__).parent.rglob("*.py")
    assert not [path for path in files if re.search(r"\bcast\(|import .*\bcast\b", path.read_text(encoding="utf-8"))]


WILD = st.one_of(
    st.text(max_size=20),
    st.sampled_from(
        ["", "nan", "inf", "-1", "0", "1e308", "45 lb", "1,575", "round 1/2 in", "flat 1 x 2", "pipe 9", "3"]
    ),
    st.floats(0.01, 200.0).map(lambda value: f"{value:.3f}"),
)


@pytest.mark.parametrize("sheet", catalogue().values(), ids=lambda sheet: sheet.id)
@settings(derandomize=True, deadline=None, max_examples=300)
@given(data=st.data(), system=st.sampled_from(SYSTEMS))
def test_whatever_is_typed_is_answered_or_refused_with_words(
    sheet: Worksheet, data: st.DataObject, system: units.System
) -> None:
    keys = st.sampled_from([each.key for each in sheet.fields])
    answer = ask(sheet, usual(sheet, data.draw(st.dictionaries(keys, WILD, max_size=4))), system)
    if isinstance(answer, Answer):
        for row in answer.rows:
            assert isfinite(row.spread.low), row.key
            assert isfinite(row.spread.high), row.key
            assert row.spread.low <= row.spread.value <= row.spread.high, row.key
        outcome(sheet, answer, system)
    else:
        assert answer
        assert all(each.text for each in answer)


SENTENCES = [
    ({"nock_to_nock": ""}, "Enter the nock to nock"),
    ({"nock_to_nock": "long"}, "Nock to nock must be a number, like 66 in"),
    ({"nock_to_nock": "45 lb"}, "Nock to nock must be a length, in a unit like in, ft, cm or mm"),
    ({"nock_to_nock": "10 in"}, "Nock to nock must be 20 in or more"),
    ({"nock_to_nock": "9000 mm"}, "Nock to nock must be 2540 mm or less"),
    ({"brace_height": "15 in", "nock_to_nock": "48 in"}, "Brace height wanted must be 12 in or less"),
    ({"strands": "2", "bundles": "3"}, "There must be at least one strand in each bundle"),
    ({"tip_upper": "square 3"}, "Say round, flat or pipe and the size, like round 1/2 in"),
    ({"fibre": "steel"}, "Fibre must be one of aramid, aramid-high-modulus, cotton, hemp"),
    ({"colour": "red"}, "There is no field colour here. The fields are: "),
]  # fmt: skip


@pytest.mark.parametrize(("changed", "sentence"), SENTENCES)
def test_sentences(changed: dict[str, str], sentence: str) -> None:
    answer = ask(STRING, usual(STRING) | changed, "inch")
    assert not isinstance(answer, Answer)
    assert answer[0].text.startswith(sentence)


def test_the_draw_a_dealer_measures_is_brought_to_the_grip() -> None:
    grip = told(ask(STRING, usual(STRING, {"draw_length": "26 1/4 in"}), "inch"))
    dealer = told(ask(STRING, usual(STRING, {"draw_length": "28 in", "draw_from": "dealer"}), "inch"))
    assert [row.spread.value for row in grip.rows] == pytest.approx([row.spread.value for row in dealer.rows])


def test_units_and_hand_change_no_number() -> None:
    usual_rows = told(ask(STRING, usual(STRING), "inch")).rows
    assert told(ask(STRING, usual(STRING), "metric")).rows == usual_rows
    assert told(ask(STRING, usual(STRING, {"hand": "S"}), "inch")).rows == usual_rows


@pytest.mark.parametrize("system", SYSTEMS)
def test_drawings_are_well_formed_and_inside_their_box(system: units.System) -> None:
    for sheet, example in CASES:
        if example.refused:
            continue
        ids: list[str] = []
        for drawing in told(ask(sheet, usual(sheet, example.inputs), system)).figures(system):
            text = svg(drawing, prefix=f"t-{drawing.key}")
            root = ET.fromstring(text)  # noqa: S314 - our own text
            ids += [each.attrib["id"] for each in root.iter() if "id" in each.attrib]
            left, top, width, height = (float(v) for v in root.attrib["viewBox"].split())
            for shape in drawing.shapes:
                x1, y1, x2, y2 = shape.box()
                assert left <= x1 <= x2 <= left + width
                assert top <= y1 <= y2 <= top + height
            labels = [shape.box() for shape in drawing.shapes if isinstance(shape, Label)]
            for k, (a1, b1, a2, b2) in enumerate(labels):
                for c1, d1, c2, d2 in labels[k + 1 :]:
                    assert a2 <= c1 or c2 <= a1 or b2 <= d1 or d2 <= b1, drawing.key
        assert len(ids) == len(set(ids))


def terminal(*arguments: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run([sys.executable, "-m", "calc", *arguments], check=False, capture_output=True, text=True)


def test_the_terminal_lists_helps_answers_and_refuses() -> None:
    assert "string" in terminal().stdout
    assert "nock_to_nock" in terminal("string", "--help").stdout
    said = json.loads(terminal("string", "nock_to_nock=62 1/2 in", "--json").stdout)
    assert set(said["results"]) == set(STRING.results)
    cut = said["results"]["cut_length"]
    assert cut["unit"] == "m"
    assert cut["low"] <= cut["value"] <= cut["high"]
    assert "Working" in terminal("string").stdout
    wrong = terminal("string", "nock_to_nock=45 lb")
    assert (wrong.returncode, wrong.stdout) == (2, "")
    assert "Nock to nock must be a length" in wrong.stderr
    assert terminal("nothing").returncode == 2
    assert terminal("string", "loose").returncode == 2


def test_cautions_come_where_they_apply() -> None:
    def said(**changed: str) -> str:
        return " ".join(each.text for each in told(ask(STRING, usual(STRING, changed), "inch")).cautions)

    assert "Plastic pipe" not in said()
    assert "Plastic pipe" in said(tip_upper="pipe 3/4")
    assert "hardly stretches" in said(fibre="hmpe")
    assert "Sunlight" in said(fibre="polypropylene")
    assert "Too weak" in said(strands="4")
    assert "Turns alone may not" in said(fibre="polypropylene", strands="4")


@pytest.mark.contract
def test_no_field_asks_for_a_night() -> None:
    """A bow of wood or plastic pipe is not left braced overnight, so no hint may send anybody to it."""
    assert [
        (sheet.id, each.key) for sheet in catalogue().values() for each in sheet.fields if "night" in each.hint.lower()
    ] == []


def test_a_lopsided_range_keeps_its_low_end() -> None:
    """Judged on the low end, a cord that may hold 27 lb and may hold 1200 is not told as one of 0."""
    sheet = catalogue()["cord-test"]
    typed = {"weighed_length": "10 m", "weighed_mass": "31 g", "in_water": "sinks"}
    answer = told(ask(sheet, usual(sheet, typed), "inch"))
    row = next(each for each in answer.rows if each.key == "breaking_force")
    assert [show_row(row, "inch", end) for end in ("low", "value", "high")] == ["290 lb", "720 lb", "13000 lb"]
