"""The club list: totals by hand, bad lines, parts, files, links."""

from __future__ import annotations

import json
import random
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc import bridge
from calc.making.club import list_string, sum_spreads
from calc.making.club.club_list import FIGURES
from calc.making.string import plan_string
from calc.share import decode, encode
from calc.worksheets import catalogue
from calc.worksheets.club import made as club_made
from calc.worksheets.core import Answer, ask, outcome, read_inputs, usual, work_ahead
from calc.worksheets.string.sheet import StringInputs, order_of

if TYPE_CHECKING:
    from calc.making.string import Order
    from calc.numerics import Spread
    from calc.units import System

pytestmark = pytest.mark.exact
CLUB, STRING = catalogue()["club"], catalogue()["string"]
SYSTEMS: tuple[System, ...] = ("inch", "metric")
FEW = settings(derandomize=True, deadline=None, max_examples=40)


def answered(bows: str, system: System = "inch", **changed: str) -> Answer:
    answer = ask(CLUB, usual(CLUB, {"bows": bows} | changed), system)
    assert isinstance(answer, Answer), answer
    return answer


def numbers(answer: Answer) -> dict[str, Spread]:
    return {row.key: row.spread for row in answer.rows}


def alone(**changed: str) -> dict[str, Spread]:
    """Return the bench sheet's numbers for one bow."""
    answer = ask(STRING, usual(STRING, changed), "inch")
    assert isinstance(answer, Answer), answer
    return numbers(answer)


def table(answer: Answer, key: str, system: System = "inch") -> tuple[tuple[str, ...], ...]:
    return next((each.cells for each in answer.tables(system) if each.key == key), ())


def order(**changed: str) -> Order:
    values, problems = read_inputs(STRING, usual(STRING, changed), "inch")
    assert not problems
    return order_of(StringInputs(values))


BOWS = st.fixed_dictionaries({
    "nock_to_nock": st.floats(48, 72).map("{:.2f}".format),
    "draw_weight": st.floats(12, 60).map("{:.1f}".format),
    "brace_height": st.floats(5, 7).map("{:.2f}".format),
    "draw_length": st.floats(18, 28).map("{:.1f}".format),
    "limb_shape": st.sampled_from(["arc", "hinged", "tapered", "uniform", "unknown"]),
    "fibre": st.sampled_from(["polyester", "linen", "hmpe"]),
    "bundles": st.sampled_from(["2", "3"]),
    "tip_upper": st.sampled_from(["", "pipe 3/4", "flat 5/8 x 3/8 in"]),
})  # fmt: skip


@FEW
@given(BOWS)
def test_a_string_of_a_list_is_that_of_the_bench_sheet(typed: dict[str, str]) -> None:
    wanted = order(**typed)
    whole, listed = plan_string(wanted), list_string(wanted)
    assert {name: whole.figures[name].value for name in FIGURES} == listed.figures
    assert (listed.strands, listed.cuts, listed.strength) == (whole.strands, whole.cuts, whole.chosen.strength)
    assert (listed.cut_m, listed.cord_diameter_m) == (whole.figures["cut_length"], whole.figures["cord_diameter"])
    for mine, theirs in zip((listed.cord_m.low, listed.cord_m.high), ("low", "high"), strict=True):
        assert mine == pytest.approx(getattr(whole.figures["cord_total"], theirs), rel=1e-12)
    assert (listed.brace_low_m, listed.brace_high_m) == tuple(
        whole.figures[key].value for key in ("brace_low", "brace_high")
    )


def test_totals_are_those_of_a_hand_calculation() -> None:
    """Three strings for two bows: what each is cut to comes from the bench sheet, the rest is sums."""
    ash, elm = alone(nock_to_nock="66 in", strands="12"), alone(nock_to_nock="60 in", strands="16")
    answer = answered("name,nock to nock,strands,strings\nAsh,66 in,12,2\nElm,60 in,16,1", waste="25%", minutes="50")
    told = numbers(answer)
    cord = 2 * 12 * ash["cut_length"].value + 16 * elm["cut_length"].value
    assert told["cord_total"].value == pytest.approx(cord, rel=1e-12)
    assert told["cord_to_buy"].value == pytest.approx(1.25 * cord, rel=1e-12)
    assert told["cord_mass"].value == pytest.approx(1.25 * cord * 167e-6, rel=1e-12)
    low = 2 * 12 * ash["cut_length"].low + 16 * elm["cut_length"].low
    assert told["cord_to_buy"].low == pytest.approx(1.25 * low, rel=1e-12)
    assert [told[key].value for key in ("bows", "strings", "strands_to_cut", "lines_left_out")] == [2, 3, 40, 0]
    assert told["time_total"].value == 3 * 50 * 60
    assert told["cut_longest"] == ash["cut_length"]
    assert told["cut_shortest"] == elm["cut_length"]
    assert [row[3:] for row in table(answer, "cut")] == [("24", "Ash"), ("16", "Elm")]


def test_thread_is_that_of_the_serving_worksheet() -> None:
    serving = catalogue()["serving"]
    cord = alone(nock_to_nock="66 in")["cord_diameter"].value
    served = ask(serving, usual(serving, {"cord_diameter": f"{cord * 1000:.9f} mm"}), "inch")
    assert isinstance(served, Answer)
    told = numbers(answered("name,nock to nock,strings\nAsh,66 in,4"))["thread_total"]
    assert told.value == pytest.approx(4 * numbers(served)["thread_to_cut"].value, rel=1e-6)
    assert told.low < told.value < told.high


def test_the_cut_list_keeps_colours_apart_and_goes_longest_first() -> None:
    answer = answered(
        "name,nock to nock,strands,colour\nA,60 in,12,white\nB,66 in,12,red / white\nC,66 in,12,white and red\n"
        "D,70 in,12,white\nE,64 in,12,"
    )
    rows = [(row[1], row[3], row[4]) for row in table(answer, "cut")]
    assert rows == [
        ("any", "12", "E"), ("red", "12", "B, C"), ("white", "12", "D"), ("white", "12", "B, C"), ("white", "12", "A"),
    ]  # fmt: skip
    assert [(row[2], row[6]) for row in table(answer, "buy")] == [("any", "12"), ("red", "12"), ("white", "36")]


def test_three_bundles_share_two_colours_in_turn() -> None:
    answer = answered("name,nock to nock,strands,colour,bundles\nA,60 in,12,red/white,3")
    assert [(row[2], row[6]) for row in table(answer, "buy")] == [("red", "8"), ("white", "4")]


def test_every_fibre_and_yarn_is_bought_for_itself() -> None:
    answer = answered(
        "nock to nock,fibre,yarn\n66 in,linen,200 tex\n66 in,linen,300 tex\n66 in,silk,\n60 in,linen,200 tex"
    )
    assert [(row[0].split()[0], row[1]) for row in table(answer, "buy")] == [
        ("linen", "200 tex"), ("linen", "300 tex"), ("silk", "167 tex"),
    ]  # fmt: skip


BAD = """name,nock to nock,draw weight,strands
Ash,66 in,40 lb,
Hazel,tall,40 lb,
,60 in,heavy,
Pipe,48 in,40 N m,
Yew,70 in,40 lb,13
"Oak,66 in,40 lb,
Elm,6 in,40 lb,
Box,66 in,40 lb,,9
Fir,62 in,30 lb,
Low,,30 lb,"""


def test_bad_lines_are_named_and_the_rest_answers() -> None:
    answer = answered(BAD)
    assert [row[0] for row in table(answer, "cards")] == ["Ash", "Fir"]
    left = table(answer, "left-out")
    assert [(row[0], row[1]) for row in left] == [
        ("3", "Hazel"), ("4", ""), ("5", "Pipe"), ("6", "Yew"), ("7", ""), ("8", "Elm"), ("9", "Box"), ("11", "Low"),
    ]  # fmt: skip
    assert [row[2] for row in left] == [
        "Nock to nock must be a number, like 66 in.",
        "Draw weight must be a number, like 40 lb.",
        "Draw weight must be a force, in a unit like lb or kg.",
        "Strands must share evenly between the bundles.",
        "A double quote is not closed, or stands inside a quoted cell.",
        "Nock to nock must be 20 in or more.",
        "It has 5 cells, the list 4 columns. Put quotes round a cell with a comma.",
        "Enter the nock to nock.",
    ]
    assert numbers(answer)["lines_left_out"].value == 8
    assert answer.cautions[0].text == "Line 3 (Hazel) is left out. Nock to nock must be a number, like 66 in."
    good = answered("name,nock to nock,draw weight\nAsh,66 in,40 lb\nFir,62 in,30 lb")
    assert numbers(answer)["cord_total"] == numbers(good)["cord_total"]


def test_a_limit_is_told_in_the_units_of_its_line() -> None:
    answer = answered("name,nock to nock\nAsh,66 in\nElm,90 mm")
    assert table(answer, "left-out")[0][2] == "Nock to nock must be 508 mm or more."


def test_brackets_in_names_do_no_harm() -> None:
    answer = answered('name,nock to nock\n{cut_length},66 in\n<b>{x}</b>,tall\n"{0}{{",60 in')
    for system in SYSTEMS:
        said = json.dumps(outcome(CLUB, answer, system))
        assert "<b>" not in said
        assert "(cut_length)" in said


@pytest.mark.parametrize("system", SYSTEMS)
def test_bare_numbers_follow_the_units_and_links_keep_them(system: System) -> None:
    bows = (
        "name,nock to nock,brace height\nAsh,1650,160"
        if system == "metric"
        else "name,nock to nock,brace height\nAsh,65,6"
    )
    form = usual(CLUB, {"bows": bows, "waste": "5"})
    there = ask(CLUB, form, system)
    assert isinstance(there, Answer)
    opened = decode(encode(CLUB, form, system))
    assert opened.notes == ()
    for reader in SYSTEMS:
        here = ask(CLUB, opened.inputs, reader)
        assert isinstance(here, Answer)
        assert here.rows == there.rows
    switched = json.loads(bridge.handle(json.dumps(
        {"v": 1, "id": 1, "convert": "club", "to": "inch" if system == "metric" else "metric", "inputs": form}
    )))["inputs"]  # fmt: skip
    for reader in SYSTEMS:
        other = ask(CLUB, form | {"bows": switched["bows"]}, reader)
        assert isinstance(other, Answer)
        assert numbers(other)["cord_total"] == numbers(there)["cord_total"]


def many(count: int) -> str:
    rng = random.Random(7)  # noqa: S311 - not for secrets
    lines = ["name;nock to nock (in);draw weight (lb);brace height (in);limb bend;colour"]
    for at in range(count):
        bow = f"Bow {at};{rng.uniform(48, 72):.2f};{rng.uniform(15, 60):.1f};{rng.uniform(5.5, 7):.2f}"
        lines.append(f"{bow};{rng.choice(['arc', 'tapered', 'unknown'])};{rng.choice(['red', 'red / white', ''])}")
    return "\n".join(lines)


def test_five_hundred_bows_in_parts_are_the_same_answer() -> None:
    form = usual(CLUB, {"bows": many(500)})
    seen = []
    for at in range(0, 10_000, 40):
        reply = json.loads(bridge.handle(json.dumps(
            {"v": 1, "id": at, "part": "club", "system": "inch", "inputs": form, "from": at, "to": at + 40}
        )))  # fmt: skip
        assert (reply["ok"], reply["of"]) == (True, 500)
        seen.append(reply["done"])
        if reply["done"] == reply["of"]:
            break
    assert seen == [*range(40, 500, 40), 500]
    worked = club_made._made.cache_info().misses  # noqa: SLF001 - nothing is worked out twice
    reply = json.loads(bridge.handle(json.dumps(
        {"v": 1, "id": 1, "worksheet": "club", "system": "inch", "inputs": form}
    )))  # fmt: skip
    assert reply["ok"]
    assert club_made._made.cache_info().misses == worked  # noqa: SLF001
    cards = next(each for each in reply["outcome"]["tables"] if each["key"] == "cards")
    assert len(cards["cells"]) == 500
    told = numbers(answered(many(500)))
    values, _ = read_inputs(CLUB, form, "inch")
    assert values["bows"]
    keys = ("nock_to_nock", "draw_weight", "brace_height", "limb_shape")
    typed = [dict(zip(keys, line.split(";")[1:], strict=False)) for line in many(500).splitlines()[1:]]
    cords = [list_string(order(**each)).cord_m for each in typed]
    assert told["cord_total"].value == pytest.approx(sum_spreads(cords).value, rel=1e-12)


def test_parts_of_a_list_at_fault_complain_as_the_answer_does() -> None:
    form = usual(CLUB, {"bows": "name,length\nAsh,66"})
    assert work_ahead(CLUB, form, "inch", 0, 25) == ask(CLUB, form, "inch")
    reply = json.loads(bridge.handle(json.dumps(
        {"v": 1, "id": 1, "part": "club", "system": "inch", "inputs": form, "from": 0, "to": 25}
    )))  # fmt: skip
    assert reply["errors"][0]["field"] == "bows"
    reply = json.loads(bridge.handle(json.dumps(
        {"v": 1, "id": 1, "part": "string", "system": "inch", "inputs": {}, "from": 0, "to": 25}
    )))  # fmt: skip
    assert (reply["done"], reply["of"]) == (0, 0)


@FEW
@given(st.lists(st.text("ab12 /.,;\t\"'inmx66", max_size=30), max_size=6), st.sampled_from(SYSTEMS))
def test_whatever_stands_in_a_list_is_answered_or_refused(lines: list[str], system: System) -> None:
    answer = ask(CLUB, usual(CLUB, {"bows": "\n".join(["name,nock to nock,strands,tip", *lines])}), system)
    if isinstance(answer, Answer):
        said = numbers(answer)
        assert said["bows"].value + said["lines_left_out"].value == len(
            [line for line in lines if any(cell.strip() for cell in line.replace(";", ",").split(","))]
        ) or any('"' in line for line in lines)
        outcome(CLUB, answer, system)
    else:
        assert [each.field for each in answer] == ["bows"]


def test_a_card_warns_of_a_bow_braced_too_high_where_the_bench_sheet_does() -> None:
    """44 in braced at 6 in is more than an eighth; 46 in braced at 5 1/2 in is not."""
    answer = answered("Low, 46 in, 20 lb, 20 in, 5 1/2 in\nHigh, 44 in, 20 lb, 20 in, 6 in")
    said = [each.text for each in answer.cautions if "verbraced" in each.text]
    assert len(said) == 1
    assert "High" in said[0]
    assert "Low" not in said[0]
    marked = {cells[0]: any("overbraced" in cell for cell in cells) for cells in table(answer, "cards")}
    assert marked == {"Low": False, "High": True}
    for name, (nock, brace) in {"Low": ("46 in", "5 1/2 in"), "High": ("44 in", "6 in")}.items():
        bench = ask(
            STRING,
            usual(
                STRING, {"nock_to_nock": nock, "brace_height": brace, "draw_weight": "20 lb", "draw_length": "20 in"}
            ),
            "inch",
        )
        assert isinstance(bench, Answer)
        assert any("Overbraced" in each.text for each in bench.cautions) == marked[name]
