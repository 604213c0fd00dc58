"""What strings of a notebook teach the next one: said string by string, and which of them are at fault."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest

from calc import bridge
from calc.__main__ import main
from calc.records import KINDS, Notebook, Record, edit, fields_of, prefill, read_form, record_to_json, write_notebook
from calc.units import INCH
from calc.worksheets import one
from calc.worksheets.core import Choice, usual
from tests.experiment import asking, truths
from tests.experiment.strings import Bows, make

if TYPE_CHECKING:
    from pathlib import Path

pytestmark = pytest.mark.contract
NOW = "2026-05-03T10:11:12.000Z"
BOW = edit(
    Record("bow", "bow-000001"), {"name": "Ash 66", "nock_to_nock": "66 in", "brace_height": "6 1/2 in"}, NOW, "aaaa"
)
CORD = edit(Record("cord", "cord-000001"), {"name": "White", "fibre": "polyester"}, NOW, "aaaa")
MAY_3 = {"made_on": "2026-05-03", "body_raw": "63 in", "turns": "50", "braced_height": "5 in"}
ODD = {"made_on": "2026-05-09", "braced_length": "60 in", "braced_height": "6 in"}


def string(number: int, **texts: str) -> Record:
    return edit(Record("string", f"string-{number:06}"), {"bow": BOW.id, "cord": CORD.id, **texts}, NOW, "aaaa")


def in_browser(records: list[Record], bow: Record = BOW, cord: Record = CORD, **typed: str) -> dict[str, Any]:
    """Return what the bench sheet says, opened for a bow and a cord of a notebook."""
    given = [{"kind": each.kind, "data": record_to_json(each)} for each in [bow, cord, *records]]
    ask: dict[str, Any] = {"notebook": "prefill", "records": given, "chosen": [bow.id, cord.id]}
    told = json.loads(bridge.handle(json.dumps(ask)))["sheets"]["string"]
    inputs = usual(one("string"), {key: each["text"] for key, each in told.items()} | typed)
    ask = {"worksheet": "string", "system": "inch", "inputs": inputs, "told": told}
    reply: dict[str, Any] = json.loads(bridge.handle(json.dumps(ask)))
    assert "fault" not in reply, reply
    return reply


def said(reply: dict[str, Any]) -> list[tuple[str, str, str]]:
    found = [(each["lead"], each["text"], each["range"]) for each in reply["outcome"]["headlines"]]
    return [each for each in found if each[0].startswith("From ")]


def test_a_sheet_says_in_words_what_an_earlier_string_taught_and_both_ranges() -> None:
    ((lead, text, span),) = said(in_browser([string(1, **MAY_3)]))
    assert lead == "From the string of 3 May 2026"
    assert text.startswith(("its lay", "your loops", "it stretched", "your bow"))
    plain = in_browser([])
    row = next(each for each in plain["outcome"]["rows"] if each["key"] == "brace_height")
    assert said(plain) == []
    assert span.startswith(f"untuned {row['range'].strip('()')} before it, ")
    assert span.endswith(" with it")


def test_the_terminal_says_the_same(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    records = [BOW, CORD, string(1, **MAY_3)]
    file = tmp_path / "club.json"
    file.write_text(write_notebook(Notebook({each.id: each for each in records})), encoding="utf-8")
    assert main(["string", "--notebook", str(file), "--bow", "Ash 66", "--cord", "White"]) == 0
    ((lead, text, span),) = said(in_browser(records[2:]))
    assert f"  {lead}: {text}  ({span})\n" in capsys.readouterr().out


def test_strings_that_do_not_go_together_are_named_and_one_can_be_left_out() -> None:
    (error,) = in_browser([string(1, **MAY_3), string(2, **ODD)])["errors"]
    assert error["text"].endswith(
        "The notebook has some of them from the string of 3 May 2026 and the string of 9 May 2026. Without the string "
        "of 9 May 2026, the rest goes together: leave it out there"
    )
    assert len(said(in_browser([string(1, **MAY_3), string(2, **ODD, left_out="yes")]))) == 1


def test_a_choice_that_is_kept_is_the_one_that_was_made() -> None:
    for kind in KINDS:
        for each in fields_of(kind).values():
            for option in each.options if isinstance(each, Choice) else ():
                assert read_form(kind, {each.key: option.value}, "inch") == ({each.key: option.value}, {})


def test_readings_that_strain_the_sums_are_answered_with_a_caution_that_names_them() -> None:
    reply = in_browser([string(1, **MAY_3 | {"braced_height": "2 in"})])
    (strained,) = [each["text"] for each in reply["outcome"]["cautions"] if "do not go together" in each["text"]]
    assert strained.endswith(
        "The notebook has some of them from the string of 3 May 2026. Without the string of 3 May 2026, the rest goes "
        "together: leave it out there."
    )
    assert said(reply) == []


def test_a_handle_that_is_flush_is_not_said_to_stand_proud_by_nothing() -> None:
    ((_, text, _),) = said(in_browser([string(1, **MAY_3 | {"braced_height": "8 in"})]))
    assert "your handle is flush" in text


def test_a_string_of_the_day_before_is_told_first_and_what_is_typed_over_is_not_told() -> None:
    records = [string(1, **MAY_3, braced_length="64 1/4 in"), string(2, made_on="2026-05-09", braced_length="64 1/8 in",
               braced_height="5 1/4 in")]  # fmt: skip
    first, second = said(in_browser(records))
    assert (first[0], second[0]) == ("From the string of 3 May 2026", "From the string of 9 May 2026")
    assert first[2].partition("before it, ")[2].partition(" with it")[0] in second[2]
    bare = bridge.handle(
        json.dumps({"worksheet": "string", "system": "inch", "inputs": usual(one("string")), "told": {}})
    )
    assert said(json.loads(bare)) == []


@pytest.mark.exact
@pytest.mark.parametrize("place", [2, 3, 6, 9])
def test_three_strings_for_one_bow_narrow_the_range_each_time_and_it_holds_the_truth(place: int) -> None:
    """Bow, cord and hand are drawn by lot and hidden; strings are made and braced in the second way."""
    drawn = truths.draw(place)
    true = truths.together([drawn])
    bows = Bows.of(true)
    off = np.random.default_rng(place)
    kinds = [
        edit(Record(kind, f"{kind}-00000{place}"),
             {key: text for key, text in drawn.typed.items() if key in fields_of(kind)}, NOW, "aaaa")
        for kind in ("bow", "cord")
    ]  # fmt: skip
    book: list[Record] = []
    widths = []
    for day in range(1, 4):
        notebook = Notebook({each.id: each for each in [*kinds, *book]})
        told = prefill(notebook, "string", (each.key for each in one("string").fields), kinds)
        typed = drawn.typed | {key: each.text for key, each in told.items()}
        planned = asking.answered("string", typed)
        assert planned is not None
        made = make(true, asking.told([planned], 8 * INCH), off.normal(0.0, INCH / 40, (4, 1)) * [[1], [1], [1], [0]])
        height_m, pull_n = bows.braced(made)
        brace = planned["brace_height"]
        assert brace.low <= height_m[0] <= brace.high
        widths.append(brace.high - brace.low)
        book.append(edit(Record("string", f"string-00000{day}"), {
            "bow": kinds[0].id, "cord": kinds[1].id, "made_on": f"2026-05-0{day}", "tail_length": "8 in",
            "bundles": drawn.typed["bundles"], "body_raw": f"{planned['body_raw'].value / INCH:.3f} in",
            "turns": f"{planned['turns_body'].value:.1f}", "braced_height": f"{height_m[0] / INCH:.3f} in",
            "braced_length": f"{made.on_bow_m(pull_n)[0] / INCH:.3f} in",
        }, NOW, "aaaa"))  # fmt: skip
    assert widths[0] > widths[1] > widths[2]
