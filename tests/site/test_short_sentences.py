"""No sentence on screen has more than 25 words, but for formulas of the working and the reference pages."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from calc import bridge
from calc.worksheets import catalogue
from calc.worksheets.core import Answer, Lines, ask, outcome, usual
from site_build.pages.guides.marks import plain_text
from site_build.pages.guides.texts import load, pages
from site_build.setup.paths import DOCS

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

pytestmark = pytest.mark.contract
MOST = 25
_ENDS = re.compile(r"(?<=[.!?])[\"”)]?\s+(?=[^a-z\s])")
_LINK = re.compile(r"\[([^\]]*)\]\([^)]*\)|\{sheet [\w-]+ \| ([^}]*)\}")
_NEW = re.compile(r"\n\s*\n|\n(?=\s*(?:[-#|*]|\d+\.) )|<br>|^:::.*$|</?\w[^>]*>", re.MULTILINE)


def too_long(text: str) -> list[str]:
    """Return the sentences of a text that are too long; a number with its unit is one word."""
    found = []
    for sentence in _ENDS.split(" ".join(text.split())):
        plain = re.sub(r"\d[\d ./,½¼¾]*(?:in|mm|ft|lbf|lb|N|kg|g|m|h)\b", "9", sentence)
        if len([word for word in plain.split() if re.search(r"\w", word)]) > MOST:
            found.append(sentence)
    return found


def of_guide(path: Path) -> Iterator[str]:
    for place, text in load(path).texts():
        if place.split(".")[-1] in {"each", "shared", "once", "part", "title", "also", "word"} or place == "title":
            continue
        shown = plain_text(text, "Z", "inch").replace(" -> ", "\n\n")
        yield from _NEW.split(_LINK.sub(r"\1\2", shown))


def of_worksheet(key: str) -> Iterator[str]:
    sheet = catalogue()[key]
    yield sheet.purpose
    for field in sheet.fields:
        yield field.hint
        yield from field.how if isinstance(field, Lines) else ()
    yield from sheet.sentences.values()
    for example in sheet.examples:
        answer = ask(sheet, usual(sheet, example.inputs), "inch")
        if isinstance(answer, Answer):
            told = outcome(sheet, answer, "inch")
            for each in told["headlines"]:
                yield each["text"]
                yield each["range"]
            yield from (each["text"] for each in told["cautions"])
            yield from told["leaves_out"]
            for table in told["tables"]:
                yield table["note"]
                yield from (cell["text"] for line in table["cells"] for cell in line)
    assert bridge.describe(key, "inch")["purpose"] == sheet.purpose


def of_page(path: Path) -> Iterator[str]:
    text = path.read_text(encoding="utf-8").split("---\n", 2)[-1]
    kept = re.sub(r"```.*?```", "", text, flags=re.DOTALL)
    yield from _NEW.split(_LINK.sub(r"\1\2", kept))


GUIDES = {path.stem: path for path in pages()}
PAGES = {
    path.relative_to(DOCS).as_posix(): path
    for path in (*(DOCS / "worksheets").glob("*.md"), *DOCS.glob("*.md"), DOCS / "guides/index.md")
}


@pytest.mark.parametrize("name", sorted(GUIDES))
def test_no_sentence_of_a_guide_is_too_long(name: str) -> None:
    assert [long for text in of_guide(GUIDES[name]) for long in too_long(text)] == []


@pytest.mark.parametrize("key", list(catalogue()))
def test_no_sentence_of_a_worksheet_is_too_long(key: str) -> None:
    assert sorted({long for text in of_worksheet(key) for long in too_long(text)}) == []


@pytest.mark.parametrize("name", sorted(PAGES))
def test_no_sentence_of_another_page_is_too_long(name: str) -> None:
    assert [long for text in of_page(PAGES[name]) for long in too_long(text)] == []


def test_a_long_sentence_is_noticed() -> None:
    assert too_long("word " * 26) != []
    assert too_long("word " * 24 + "word. Then more.") == []
    assert too_long("It is " + "3 1/2 in and " * 10 + "no more.") == []
