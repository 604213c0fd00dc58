"""Marks inside a guide's sentences: ``{roll}``, ``{8 in}``, ``{own cut_length | your cut length}``."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from html import escape
from typing import TypeAlias

from calc.data import source
from site_build.pages.guides.amounts import PRACTICE, GuideAmount, amount
from site_build.pages.guides.hands import HANDED, Handed
from site_build.setup.paths import DOCS

_SHEETS = DOCS / "worksheets"


@dataclass(frozen=True, slots=True)
class Own:
    """The reader's own number, by its key on the bench sheet, and what is said without one."""

    key: str
    otherwise: tuple[Piece, ...]


@dataclass(frozen=True, slots=True)
class SheetLink:
    """A way to a worksheet, by its id; plain words while there is no such page."""

    key: str
    words: str

    @property
    def there(self) -> bool:
        """Whether the worksheet has a page."""
        return (_SHEETS / f"{self.key}.md").exists()


Piece: TypeAlias = "str | Handed | GuideAmount | Own | SheetLink"
Write: TypeAlias = Callable[[Piece], str]


def pieces(text: str) -> tuple[Piece, ...]:
    """Take a text apart into plain Markdown and marks.

    Raises
    ------
    ValueError
        For a mark nobody knows, an amount that cannot be read, a brace without its other.

    Examples
    --------
    >>> [piece if isinstance(piece, str) else piece.z for piece in pieces("Roll it {roll}.")]
    ['Roll it ', 'away from you', '.']
    """
    found: list[Piece] = []
    at = 0
    while (start := text.find("{", at)) >= 0:
        end = _closing(text, start)
        found += [text[at:start]] if start > at else []
        found.append(_mark(text[start + 1 : end]))
        at = end + 1
    if "}" in text[at:]:
        msg = f"a }} without its {{ in {text!r}"
        raise ValueError(msg)
    return (*found, text[at:]) if at < len(text) else tuple(found)


def _closing(text: str, start: int) -> int:
    depth = 0
    for at in range(start, len(text)):
        depth += {"{": 1, "}": -1}.get(text[at], 0)
        if depth == 0:
            return at
    msg = f"a {{ without its }} in {text!r}"
    raise ValueError(msg)


def _mark(inside: str) -> Piece:
    name = inside.strip()
    if name.lower() in HANDED:
        words = HANDED[name.lower()]
        return Handed(words.z.capitalize(), words.s.capitalize()) if name[0].isupper() else words
    if name[:1].isdigit():
        return amount(name)
    head, bar, rest = (part.strip() for part in name.partition("|"))
    kind, _, key = head.partition(" ")
    if kind == "own" and bar:
        return Own(key, pieces(rest))
    if kind == "sheet" and bar:
        return SheetLink(key, rest)
    msg = f"{{{inside}}} is no mark: known are amounts, own KEY | words, sheet ID | words, {', '.join(sorted(HANDED))}"
    raise ValueError(msg)


class Html:
    """Writes pieces as HTML inside Markdown; remembers the sources it met, in order."""

    def __init__(self) -> None:
        self.sources: list[str] = []

    def text(self, text: str, plain: Callable[[str], str] = str) -> str:
        """Return a text with its marks written out; `plain` is done to what is not a mark."""
        return self._all(pieces(text), plain)

    def _all(self, found: Sequence[Piece], plain: Callable[[str], str]) -> str:
        return "".join(self._piece(each, plain) for each in found)

    def _piece(self, piece: Piece, plain: Callable[[str], str]) -> str:
        match piece:
            case str():
                return plain(piece)
            case Handed(z, s):
                return f'<span data-hand="Z">{z}</span><span data-hand="S" data-search-exclude hidden>{s}</span>'
            case GuideAmount():
                return self._amount(piece)
            case Own(key, otherwise):
                return f'<span class="pt-own" data-own="{escape(key)}">{self._all(otherwise, plain)}</span>'
            case SheetLink(key, words):
                return f"[{words}](../worksheets/{key}.md)" if piece.there else plain(words)

    def _amount(self, told: GuideAmount) -> str:
        if told.source not in self.sources:
            self.sources.append(told.source)
        mark, why = self._origin(told.source)
        note = f'<a class="pt-from" href="#from-{mark}" title="{escape(why)}">{mark}</a>'
        if told.inch == told.metric:
            return f'<span class="pt-amount">{told.inch}{note}</span>'
        return (
            f'<span class="pt-amount"><span data-units="inch">{told.inch}</span><span class="pt-both"> (</span>'
            f'<span data-units="metric">{told.metric}</span><span class="pt-both">)</span>{note}</span>'
        )

    def _origin(self, key: str) -> tuple[str, str]:
        if key == PRACTICE:
            return "p", "common practice, no published source"
        cited = [each for each in self.sources if each != PRACTICE]
        return str(cited.index(key) + 1), source(key).words

    def origins(self) -> list[tuple[str, str]]:
        """Return mark and words of every source met."""
        return sorted(self._origin(each) for each in self.sources)


def plain_text(text: str, hand: str, system: str) -> str:
    """Return a text as one reader sees it who has no bench sheet: one hand, one system of units.

    >>> plain_text("Roll {8 in} {roll}.", "S", "metric")
    'Roll 200 mm towards you.'
    """

    def one(piece: Piece) -> str:
        match piece:
            case str():
                return piece
            case Handed():
                return piece.of(hand)
            case GuideAmount(inch, metric):
                return inch if system == "inch" else metric
            case Own(_, otherwise):
                return "".join(one(each) for each in otherwise)
            case SheetLink(_, words):
                return words

    return "".join(one(each) for each in pieces(text))
