"""How hard the guides are to read: the Flesch-Kincaid grade, of which 6 to 7 is a reader of twelve."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from site_build.guide_marks import plain_text
from site_build.guide_texts import load, pages

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

pytestmark = pytest.mark.exact
HARDEST = 6.0
"""Grade at the end of which a reader is twelve."""
_GROUPS = re.compile(r"[aeiouy]+")
_ODD = {"polyester": 4, "radio": 3}
"""Words whose spelling does not show it."""


def syllables(word: str) -> int:
    """Count the syllables of an English word by its spelling.

    Groups of vowels, less a silent e or -ed at the end, more where two vowels part.
    """
    word = re.sub(r"[^a-z]", "", word.lower())
    if not word or word in _ODD:
        return _ODD.get(word, 1)
    count = len(_GROUPS.findall(word))
    silent = re.search(r"[^aeiouyl]e$|[aeiouy]le$|[rw]le$", word) or (
        re.search(r"[^aeiouytd]ed$", word) or re.search(r"([^aeiouysxzcgh]|[^cs]h|[aeiouy]l)es$", word)
    )
    count -= 1 if silent and count > 1 else 0
    count += 1 if re.search(r"[aeiouy]ing$|[^q]ui[dt]$|ia[ln]|(?<!q)ua[ln]|io[^nu]", word) else 0
    return max(1, count)


def grade(text: str) -> float:
    """Return the Flesch-Kincaid grade level (Kincaid and others 1975, from memory): 0.39 w/s + 11.8 syl/w - 15.59."""
    sentences = [each for each in re.split(r"[.!?]+(?:\s|$)", text) if re.search(r"[a-zA-Z]", each)]
    found = [word for each in sentences for word in re.findall(r"[A-Za-z][A-Za-z'-]*|\d[\d.,/]*", each)]
    spoken = sum(syllables(part) for word in found for part in word.split("-"))
    return 0.39 * len(found) / len(sentences) + 11.8 * spoken / len(found) - 15.59


def said(path: Path) -> str:
    """Return what a guide says as sentences: no tables, links by their words, amounts in inches."""
    lines = []
    for place, text in load(path).texts():
        if place.split(".")[-1] in {"each", "shared", "once", "part", "title", "also", "word"} or place == "title":
            continue
        shown = plain_text(text, "Z", "inch").replace(" -> ", ". ")
        shown = re.sub(r"\[([^\]]*)\]\([^)]*\)", r"\1", shown)
        found = (line for line in re.split(r"\n\s*\n|\n(?=[-#|])", shown) if line.strip())
        kept = (line for line in found if not line.lstrip().startswith(("|", "#")))
        lines += [re.sub(r"^\s*- |\*\*|\s+", " ", line).strip().rstrip(".") + "." for line in kept]
    return "\n".join(lines)


@pytest.mark.parametrize(
    ("count", "words"),
    [
        (1, "the string loops pulled twist served nocks marks wax eye hole cord through length strength plied tied"),
        (2, "bundle away towards twisted served-well serving needle handle again even table little tiny fuzzy waxes"),
        (2, "doing being prying lying paper cotton wanted needed settle untwist upper lower inches nylon"),
        (3, "polymer together beginning continue radio overnight counted-off"),
        (4, "polyester alternative qualified-man material anybody"),
    ],
)
def test_syllables_are_counted_as_they_are_spoken(count: int, words: str) -> None:
    """By ear, from memory; a few words of every kind that the guides use."""
    for word in words.split():
        assert sum(syllables(part) for part in word.split("-")) == count, word


def test_the_grade_of_a_text_counted_by_hand() -> None:
    """Ten words, two sentences, twelve syllables."""
    assert grade("Roll the cord away from you. Then cut it even.") == pytest.approx(0.39 * 5 + 11.8 * 1.2 - 15.59)


@pytest.mark.parametrize("path", pages(), ids=lambda path: path.stem)
def test_a_reader_of_twelve_can_follow(path: Path, record_property: Callable[[str, object], None]) -> None:
    reached = grade(said(path))
    record_property("grade", round(reached, 1))
    print(f"{path.stem}: grade {reached:.1f}, {len(said(path).split())} words")  # noqa: T201 - shown with -s
    assert reached <= HARDEST
