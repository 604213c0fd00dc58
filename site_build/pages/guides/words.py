"""The trade's words: read from their page, linked where a guide first uses them, explained at its end."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from site_build.pages.blocks import Block, parts
from site_build.setup.paths import DOCS

if TYPE_CHECKING:
    from site_build.pages.guides.marks import Html

PAGE = DOCS / "reference" / "words.md"
_LEAVE = re.compile(r"(\[[^\]]*\]\([^)]*\)|<[^>]*>|\*\*[^*]*\*\*)")
"""Links, tags and bold words keep their text as it is."""


@dataclass(frozen=True, slots=True)
class Word:
    """One word of the trade: its key, itself, other forms of it, and what it means."""

    key: str
    word: str
    also: tuple[str, ...]
    means: str

    @property
    def forms(self) -> tuple[str, ...]:
        """Every form that stands for it, longest first."""
        return tuple(sorted((self.word, *self.also), key=len, reverse=True))


@cache
def words() -> tuple[Word, ...]:
    """Return every word of the page, in its order."""
    blocks = (part for part in parts(PAGE.read_text(encoding="utf-8")) if isinstance(part, Block))
    return tuple(_word(block) for block in blocks if block.kind == "word")


def _word(block: Block) -> Word:
    also = tuple(each.strip() for each in block.maybe("also").split(",") if each.strip())
    return Word(block.key, block.one("word"), also, block.one("means"))


@cache
def _forms() -> tuple[re.Pattern[str], dict[str, Word]]:
    by_form = {form.lower(): word for word in words() for form in word.forms}
    longest = sorted(by_form, key=len, reverse=True)
    return re.compile(r"\b(" + "|".join(map(re.escape, longest)) + r")\b", re.IGNORECASE), by_form


class FirstUse:
    """Links a word the first time that it is met on a page."""

    def __init__(self) -> None:
        self.met: list[Word] = []
        self.explained: list[Word] = []

    def __call__(self, text: str) -> str:
        """Return Markdown with the words met for the first time linked to their meaning."""
        pattern, _ = _forms()
        return "".join(
            piece if number % 2 else pattern.sub(self._link, piece) for number, piece in enumerate(_LEAVE.split(text))
        )

    def note(self, text: str) -> None:
        """Note the words in a text that cannot have links, such as the labels of a figure: they are explained too."""
        for found in _forms()[0].finditer(text):
            self._explain(_forms()[1][found[0].lower()])

    def _explain(self, word: Word) -> None:
        if word not in self.explained:
            self.explained.append(word)

    def _link(self, found: re.Match[str]) -> str:
        word = _forms()[1][found[0].lower()]
        self._explain(word)
        if word in self.met:
            return found[0]
        self.met.append(word)
        return f'<a class="pt-word" href="#word-{word.key}">{found[0]}</a>'

    def meanings(self, html: Html) -> list[tuple[Word, str]]:
        """Return every word met with its meaning written out, by alphabet."""
        return [(word, html.text(word.means)) for word in sorted(self.explained, key=lambda each: each.word.lower())]
