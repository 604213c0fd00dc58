"""Figures with a person's own numbers: what is asked for is drawn, and nothing that was stored gets out unread."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any, cast
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc import bridge, units
from calc.draw import svg
from calc.draw.figures import FIGURES, figure
from calc.own_figures import NUMBER_PLACES, WARMED, number_places
from calc.worksheets import catalogue
from calc.worksheets.core import Number, table

if TYPE_CHECKING:
    from collections.abc import Iterator

    from calc.geometry.lay import Hand
    from calc.units import System

pytestmark = pytest.mark.exact
SHOWING = [name for name in FIGURES if number_places(name)]
HANDS: tuple[Hand, ...] = ("S", "Z")
SYSTEMS: tuple[System, ...] = ("inch", "metric")
OWN = {
    "above_nock": "1 7/8 in", "below_nock": "3 1/8 in", "body_raw": "49 5/16 in", "brace_height": "6 3/16 in",
    "cut_length": "70 3/8 in", "handle_length": "5 1/16 in", "hanging_weight": "49.5 lb", "lay_angle": "19.5°",
    "loop_lower": "3 5/16 in", "loop_served_upper": "4 7/16 in", "loop_upper": "3 9/16 in", "nock_throat": "0.129 in",
    "nock_to_nock": "62 9/16 in", "post_spacing": "57 3/16 in", "strand_step": "7/16 in", "strands": "17",
    "string_length_slack": "58 11/16 in", "tail_length": "7 3/16 in", "turns_body": "71.5",
}  # fmt: skip
"""One number for every place, none of them what a figure says by itself."""


def asked(name: object, numbers: object, **more: object) -> dict[str, Any]:
    """Return the bridge's reply."""
    ask = {"v": 1, "id": 5, "figure": name, "numbers": numbers, **more}
    return cast("dict[str, Any]", json.loads(bridge.handle(json.dumps(ask))))


def words(drawn: str) -> str:
    """Return the words that stand in a drawing."""
    root = ET.fromstring(drawn)  # noqa: S314 - our own text
    return " | ".join("".join(each.itertext()) for each in root.iter() if each.tag.endswith("text"))


def own(name: str) -> dict[str, str]:
    return {key: OWN[key] for key in number_places(name)}


@pytest.mark.parametrize("hand", HANDS)
@pytest.mark.parametrize("name", SHOWING)
def test_every_number_that_has_a_place_stands_in_the_figure(name: str, hand: Hand) -> None:
    plain = words(asked(name, {}, hand=hand)["svg"])
    for system in SYSTEMS:
        said = words(asked(name, own(name), hand=hand, system=system)["svg"])
        for key in number_places(name):
            if key == "lay_angle":
                continue
            place = NUMBER_PLACES[number_places(name)[key]]
            value = units.read(key, OWN[key], place.quantity, low=place.low, high=place.high)
            printed = units.show(value, place.quantity, system)
            assert re.search(rf"(?<![\d/.]){re.escape(printed)}", said), (key, printed, said)
            assert printed not in plain


@pytest.mark.parametrize("name", SHOWING)
def test_a_length_is_drawn_as_the_figures_themselves_draw_it(name: str) -> None:
    """The same shapes come from the figure directly, asked in its own names and in metres."""
    taken: dict[str, str | float] = {"system": "metric"}
    for key, place in number_places(name).items():
        told = NUMBER_PLACES[place]
        value = units.read(key, OWN[key], told.quantity, low=told.low, high=told.high)
        metres = told.quantity in {"length", "angle"}
        taken[place] = value if metres else units.show(value, told.quantity, "metric")
    for hand in HANDS:
        direct = svg(figure(name, hand=hand, numbers=taken, ident="p"), prefix="p")
        assert asked(name, own(name), hand=hand, system="metric", ident="p")["svg"] == direct


@pytest.mark.parametrize("name", SHOWING)
def test_a_figure_asks_for_no_more_numbers_once_it_has_some(name: str) -> None:
    """What a figure shows is found by watching what it asks for when it has nothing."""

    class Held(Mapping[str, "str | float"]):
        seen: set[str] = set()  # noqa: RUF012 - one drawing, one set

        def __getitem__(self, key: str) -> str | float:
            self.seen.add(key)
            return "inch" if key == "system" else 0.3

        def __iter__(self) -> Iterator[str]:
            return iter(NUMBER_PLACES)

        def __len__(self) -> int:
            return len(NUMBER_PLACES)

    held = Held()
    held.seen.clear()
    figure(name, numbers=held)
    assert held.seen & NUMBER_PLACES.keys() == set(number_places(name).values())


def test_every_place_is_a_result_or_a_field_of_some_worksheet_and_in_some_figure() -> None:
    quantities: dict[str, set[str]] = {}
    for sheet in catalogue().values():
        told = table() | {each.key: each for each in sheet.row_texts}
        for key in sheet.results:
            quantities.setdefault(key, set()).add(told[key].quantity)
        for each in sheet.fields:
            if isinstance(each, Number):
                quantities.setdefault(each.key, set()).add(each.quantity)
    for place in NUMBER_PLACES.values():
        assert place.quantity in quantities[place.name], place
    assert {place for name in SHOWING for place in number_places(name).values()} == NUMBER_PLACES.keys()


def test_what_a_worksheet_prints_can_be_drawn() -> None:
    """Every result of every example, in both systems, as the page keeps it."""
    drawn = 0
    for sheet in catalogue().values():
        for example in sheet.examples[:2]:
            inputs = {**{each.key: each.example for each in sheet.fields}, **example.inputs}
            ask = {"id": 1, "worksheet": sheet.id, "system": "inch", "inputs": inputs}
            reply = json.loads(bridge.handle(json.dumps(ask)))
            rows = {row["key"]: row["both"] for row in reply.get("outcome", {"rows": []})["rows"]}
            for name in SHOWING:
                for unit, system in (("in", "inch"), ("mm", "metric")):
                    numbers = {key: rows[key][unit] for key in number_places(name) if key in rows}
                    reply = asked(name, numbers, system=system)
                    assert reply["ok"], (sheet.id, name, numbers, reply)
                    drawn += bool(numbers)
    assert drawn > 40


def test_figures_that_move_have_no_places() -> None:
    """A drawing that takes the place of another brings no button to hold it still."""
    assert not [name for name in SHOWING if FIGURES[name].moves]


@pytest.mark.parametrize(
    ("ask", "field", "text"),
    [
        ({"figure": "no-such"}, "figure", "There is no figure of this name."),
        ({"figure": ["strands-cut"]}, "figure", "There is no figure of this name."),
        ({"hand": "X"}, "hand", "The lay is S or Z."),
        ({"hand": {}}, "hand", "The lay is S or Z."),
        ({"numbers": ["14"]}, "numbers", "The numbers of a figure come by their names."),
        ({"ident": "<b>"}, "ident", "The drawing needs a plain name: a letter, then letters, figures, - or _."),
        ({"numbers": {"turns_body": "3"}}, "turns_body", "This figure has no place for this number."),
        (
            {"numbers": {"strands": "14.5"}},
            "strands",
            "This cannot be drawn as the number of strands: it takes a number from 1 to 999.",
        ),
        (
            {"numbers": {"cut_length": "20 m"}, "system": "metric"},
            "cut_length",
            "This cannot be drawn as the cut length: it takes a number from 1 mm to 10000 mm.",
        ),
    ],
)
def test_what_cannot_be_drawn_is_told_in_a_sentence(ask: dict[str, object], field: str, text: str) -> None:
    reply = asked(**{"name": "strands-cut", "numbers": {}} | {{"figure": "name"}.get(k, k): v for k, v in ask.items()})
    assert reply == {"v": 1, "id": 5, "ok": False, "errors": [{"field": field, "others": [], "text": text}]}


def test_all_that_is_wrong_is_told_at_once() -> None:
    reply = asked("strands-cut", {"cut_length": "x", "strands": float("nan"), "turns_body": 3})
    assert [each["field"] for each in reply["errors"]] == ["cut_length", "strands", "turns_body"]


def test_warming_draws_a_figure_with_a_cord() -> None:
    assert number_places(WARMED)
    assert "lay_angle" in number_places(WARMED)


BAD = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(),
    st.floats(),
    st.sampled_from(
        ["1e999 in", "<b>1</b>", '"><script>alert(1)</script>', "1 in\u0000", "９９ in", "-4 in", "1/0 in"]
    ),
    st.text(max_size=80),
    st.from_regex(r"-?[0-9]{1,12}([.,/][0-9]{1,9})? ?(in|mm|m|ft|lbf|N|kg|°|turns)?", fullmatch=True),
    st.lists(st.integers(), max_size=2),
    st.dictionaries(st.text(max_size=3), st.text(max_size=3), max_size=2),
)
KEYS = st.one_of(st.sampled_from([place.name for place in NUMBER_PLACES.values()]), st.text(max_size=20))


@settings(max_examples=400, deadline=None)
@given(
    name=st.one_of(st.sampled_from(SHOWING), st.text(max_size=10)),
    numbers=st.one_of(st.dictionaries(KEYS, BAD, max_size=5), BAD),
    hand=st.one_of(st.sampled_from(["S", "Z"]), BAD),
    system=st.one_of(st.sampled_from(["inch", "metric"]), BAD),
    ident=st.one_of(st.just("own-1"), BAD),
)
def test_whatever_is_stored_gives_a_sound_drawing_or_sentences(
    name: str, numbers: object, hand: object, system: object, ident: object
) -> None:
    reply = asked(name, numbers, hand=hand, system=system, ident=ident)
    assert "fault" not in reply, reply
    if not reply["ok"]:
        assert reply["errors"]
        assert all(each["text"].endswith(".") and "{" not in each["text"] for each in reply["errors"])
        return
    whole(reply["svg"])


@settings(max_examples=200, deadline=None)
@given(
    name=st.sampled_from(SHOWING),
    data=st.data(),
    hand=st.sampled_from(HANDS),
    system=st.sampled_from(SYSTEMS),
)
def test_any_number_within_its_limits_makes_a_drawing(
    name: str, data: st.DataObject, hand: Hand, system: System
) -> None:
    numbers = {}
    for key, place in number_places(name).items():
        told = NUMBER_PLACES[place]
        value = data.draw(st.floats(told.low, told.high), label=key)
        numbers[key] = round(max(value, 1.0)) if told.quantity == "count" else value
    reply = asked(name, numbers, hand=hand, system=system)
    assert reply["ok"], reply
    whole(reply["svg"])


def whole(drawn: str) -> None:
    """Hold a drawing to what a page can take: sound XML of the shapes we draw, small, no number that is none."""
    root = ET.fromstring(drawn)  # noqa: S314 - our own text
    tags = {each.tag.rpartition("}")[2] for each in root.iter()}
    assert tags <= {"svg", "title", "desc", "defs", "pattern", "g", "path", "circle", "text"}, tags
    assert len(drawn.encode()) <= 60_000
    assert not re.search(r"\b(nan|inf|None)\b", drawn)
