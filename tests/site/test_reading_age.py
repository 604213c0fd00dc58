"""How old a reader must be to follow a guide or a worksheet, as a general readability library counts it.

Two measures, since each sees what the other does not. The Flesch-Kincaid grade (Kincaid and others 1975) weighs the
length of sentences and words; a reader is twelve at the end of grade 6. The Dale-Chall score (Dale and Chall 1948)
weighs words that are not on a list of easy ones, so that every word of the trade counts as hard; 7 to 8 stands for
grades 9 and 10, read at fifteen. Both are worked out by `textstat`; the grades are from memory.
"""

from __future__ import annotations

import json
import re
from statistics import median
from typing import TYPE_CHECKING

import pytest
from textstat import textstat  # type: ignore[import-untyped]  # it comes without types

from calc import bridge
from calc.worksheets import catalogue
from site_build.pages.guides.marks import plain_text
from site_build.pages.guides.texts import load, pages

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

pytestmark = pytest.mark.exact
HARDEST_GRADE = 6.0
HARDEST_WORDS = 8.0
TEXTS = {f"guide {path.stem}": path for path in pages()} | {f"worksheet {key}": key for key in catalogue()}


def guide(path: Path) -> str:
    """Return what a guide says as sentences: no tables, links by their words, amounts in inches."""
    lines = []
    for place, text in load(path).texts():
        if place.split(".")[-1] in {"each", "shared", "once", "part", "title", "also", "word"} or place == "title":
            continue
        shown = plain_text(text, "Z", "inch").replace(" -> ", ". ")
        shown = re.sub(r"\[([^\]]*)\]\([^)]*\)", r"\1", shown)
        found = (line for line in re.split(r"\n\s*\n|\n(?=[-#|])", shown) if line.strip())
        kept = (line for line in found if not line.lstrip().startswith(("|", "#")))
        lines += [re.sub(r"^\s*- |\*\*|\s+", " ", line) for line in kept]
    return sentences(lines)


def worksheet(key: str) -> str:
    """Return what a worksheet says in sentences: its purpose, its hints, and the answer to its usual example."""
    told = bridge.describe(key, "inch")
    fields = [field for group in told["groups"] for field in group["fields"]]
    ask = {"v": 1, "id": 1, "worksheet": key, "system": "inch"}
    inputs = {field["key"]: field["example"] for field in fields}
    answer = json.loads(bridge.handle(json.dumps({**ask, "inputs": inputs})))["outcome"]
    return sentences(
        [
            told["purpose"],
            *(field["hint"] for field in fields),
            *(f"{each['lead']}: {each['text']}" for each in answer["headlines"]),
            *(each["text"] for each in answer["cautions"]),
            *answer["leaves_out"],
        ]
    )


def sentences(lines: list[str]) -> str:
    """Return lines as text in which each ends a sentence."""
    return "\n".join(line.strip().rstrip(".") + "." for line in lines if line.strip())


def text_of(name: str) -> str:
    """Return what a page says, by its name in `TEXTS`."""
    what = TEXTS[name]
    return worksheet(what) if isinstance(what, str) else guide(what)


def grade(text: str) -> float:
    """Return the Flesch-Kincaid grade of a text."""
    return float(textstat.flesch_kincaid_grade(text))


def hard_words(text: str) -> float:
    """Return the Dale-Chall score of a text; a number is as easy as a number word, as its authors count."""
    return float(textstat.dale_chall_readability_score(re.sub(r"\d+(?:[ ./,]+\d+)*", "ten", text)))


def test_the_library_counts_as_a_hand_does() -> None:
    """Ten words, two sentences, twelve syllables: 0.39 x 5 + 11.8 x 1.2 - 15.59."""
    assert grade("Roll the cord away from you. Then cut it even.") == pytest.approx(0.39 * 5 + 11.8 * 1.2 - 15.59)


def test_long_words_and_long_sentences_are_found_hard() -> None:
    plain = "Roll the cord away from you. Then cut it even."
    stiff = (
        "Subsequently, rotational manipulation of the constituent material necessitates uniform termination thereof."
    )
    assert grade(plain) < HARDEST_GRADE < grade(stiff)
    assert hard_words(plain) < HARDEST_WORDS < hard_words(stiff)


@pytest.mark.parametrize("name", TEXTS)
def test_a_reader_of_twelve_can_follow(name: str, record_property: Callable[[str, object], None]) -> None:
    text = text_of(name)
    record_property("grade", round(grade(text), 1))
    record_property("hard words", round(hard_words(text), 1))
    assert grade(text) <= HARDEST_GRADE
    assert hard_words(text) <= HARDEST_WORDS


def test_the_figures(capsys: pytest.CaptureFixture[str]) -> None:
    """Show the median, least and most of each measure in every run."""
    figures = {name: (grade(text_of(name)), hard_words(text_of(name))) for name in TEXTS}
    with capsys.disabled():
        for kind in ("guide", "worksheet"):
            grades, scores = zip(*(both for name, both in figures.items() if name.startswith(kind)), strict=True)
            assert median(grades) <= HARDEST_GRADE
            assert median(scores) <= HARDEST_WORDS
            shown = [f"{median(each):.1f} ({min(each):.1f} to {max(each):.1f})" for each in (grades, scores)]
            print(f"\n{len(grades)} {kind}s: Flesch-Kincaid grade {shown[0]}, Dale-Chall {shown[1]}", end="")  # noqa: T201 - the figures are what this test is for
