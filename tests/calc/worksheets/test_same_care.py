"""What calls for care calls for it on every sheet that is told of it: on the bench, at the range, in a list."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from calc.worksheets import catalogue
from calc.worksheets.core import Answer, ask, usual

if TYPE_CHECKING:
    from collections.abc import Mapping

pytestmark = pytest.mark.exact

SHEETS = catalogue()
ASKED = {each.id: {field.key for field in each.fields} for each in SHEETS.values()}


def cautioned(sheet: str, bow: Mapping[str, str]) -> str:
    """Return the cautions of a sheet that is told of this bow, in a list where it takes one."""
    lines = {"bows": "\n".join(["\t".join(bow), "\t".join(bow.values())])}
    facts = lines if "bows" in ASKED[sheet] else {key: each for key, each in bow.items() if key in ASKED[sheet]}
    answer = ask(SHEETS[sheet], usual(SHEETS[sheet], facts), "metric")
    assert isinstance(answer, Answer), (sheet, facts, answer)
    return " ".join(each.text for each in answer.cautions if each.level == "caution")


@pytest.mark.parametrize(("kind", "tex", "warned"), [("yarn", 3609, True), ("cord", 3609, False), ("yarn", 250, False)])
def test_a_hardware_cord_left_as_yarn_is_warned_of_everywhere(kind: str, tex: int, *, warned: bool) -> None:
    """It promised twice what the cord holds; whoever does not see the question is told of it beside the answer."""
    cord = {
        "nock_to_nock": "60 in",
        "fibre": "polypropylene",
        "strand_kind": kind,
        "yarn": f"{tex} tex",
        "strands": "2",
    }
    for sheet in ("string", "strands", "club"):
        assert ("as thick as cord" in cautioned(sheet, cord)) == warned, sheet


@pytest.mark.parametrize(
    "sheet",
    [name for name, keys in ASKED.items() if {"nock_to_nock", "brace_height"} <= keys or "bows" in keys],
)
@pytest.mark.parametrize(("height", "warned"), [("4 1/2 in", False), ("6 in", True)])
def test_a_short_bow_braced_like_a_long_one_is_warned_of_everywhere(sheet: str, height: str, *, warned: bool) -> None:
    """A child's bow of 44 in at 6 in: at the range and in a list as on the bench."""
    child = {"nock_to_nock": "44 in", "handle_length": "4 in", "draw_weight": "15 lb", "draw_length": "18 in"}
    made = {} if sheet == "brace" else {"string_length": "42 1/2 in", "hung_length": "42 in"}
    said = cautioned(sheet, child | made | {"brace_height": height})
    assert ("Overbraced: " in said) == warned


@pytest.mark.parametrize("sheet", [name for name, keys in ASKED.items() if {"tip_upper", "bows"} & keys])
def test_limbs_of_pipe_are_warned_of_everywhere(sheet: str) -> None:
    bow = {"nock_to_nock": "66 in", "tip_upper": "pipe 3/4", "tip_lower": "pipe 3/4"}
    assert ("Plastic pipe" in cautioned(sheet, bow)) == (sheet not in {"cuts", "endless"})


@pytest.mark.parametrize("sheet", [name for name, keys in ASKED.items() if "arrow_mass" in keys or name == "club"])
@pytest.mark.parametrize(("grains", "warned"), [("180 gr", True), ("300 gr", True), ("380 gr", False)])
def test_an_arrow_too_light_is_warned_of_everywhere(sheet: str, grains: str, *, warned: bool) -> None:
    bow = {"nock_to_nock": "66 in", "draw_weight": "40 lb", "arrow_mass": grains}
    assert ("each pound of draw weight" in cautioned(sheet, bow)) == warned


@pytest.mark.parametrize("sheet", [name for name, keys in ASKED.items() if "bow_kind" in keys])
@pytest.mark.parametrize(("kind", "words"), [("pipe", "Plastic pipe"), ("youth", "A young archer"), ("wood", "")])
def test_what_bow_it_is_calls_for_the_same_care_everywhere(sheet: str, kind: str, words: str) -> None:
    said = cautioned(sheet, {"bow_kind": kind})
    assert words in said
    assert ("Plastic pipe" in said, "A young archer" in said) == (kind == "pipe", kind == "youth")


@pytest.mark.parametrize("sheet", [name for name, keys in ASKED.items() if "fibre" in keys and name != "cuts"])
def test_a_fibre_calls_for_the_same_care_wherever_a_string_goes_on_a_bow(sheet: str) -> None:
    assert "hardly stretches" in cautioned(sheet, {"nock_to_nock": "66 in", "fibre": "hmpe"})
    assert "Sunlight" in cautioned(sheet, {"nock_to_nock": "66 in", "fibre": "polypropylene"})
