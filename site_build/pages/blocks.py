"""The source form of guides: Markdown with blocks of ``key: value`` lines between ``::: kind name`` and ``:::``."""

from __future__ import annotations

import re
from dataclasses import dataclass
from difflib import get_close_matches
from typing import TypeAlias

_OPEN = re.compile(r"::: (?P<kind>[a-z]+)(?: (?P<key>[a-z0-9-]+))?")
_FIELD = re.compile(r"(?P<name>[a-z]+):(?: (?P<value>.*))?")

KINDS: dict[str, frozenset[str]] = {
    "step": frozenset(
        {"title", "figure", "do", "looks", "wrong", "caution", "count", "timer", "own", "note", "single"}
    ),
    "check": frozenset({"point"}),
    "caution": frozenset({"title", "text", "why"}),
    "word": frozenset({"word", "also", "means"}),
    "fault": frozenset({"see", "figure", "test", "case"}),
    "kit": frozenset({"each", "shared", "once"}),
    "times": frozenset({"part"}),
}
"""Every kind of block with the fields that it may have."""
MANY = frozenset({"wrong", "caution", "point", "case", "each", "shared", "once", "part"})
"""Fields that may stand several times in one block."""


class BlockError(ValueError):
    """A block that cannot be written, and the line of Markdown it stands on, counted from 1."""

    def __init__(self, line: int, words: str) -> None:
        super().__init__(words)
        self.line = line
        self.words = words


@dataclass(frozen=True, slots=True)
class Block:
    """One block: its kind, its name (may be empty), its fields in order, and the line it starts on."""

    kind: str
    key: str
    fields: dict[str, tuple[str, ...]]
    line: int

    def one(self, name: str) -> str:
        """Return the only value of a field.

        Raises
        ------
        BlockError
            When it is not there.
        """
        if name not in self.fields:
            raise BlockError(self.line, f"{self.kind} {self.key} has no {name}:")
        return self.fields[name][0]

    def maybe(self, name: str) -> str:
        """Return the value of a field, empty when it is not there."""
        return self.fields.get(name, ("",))[0]

    def many(self, name: str) -> tuple[str, ...]:
        """Return every value of a field."""
        return self.fields.get(name, ())


Part: TypeAlias = str | Block


def parts(markdown: str) -> list[Part]:
    r"""Take a page apart into Markdown and blocks.

    Blocks of kinds that are not guides' own (a worksheet, say) stay in the Markdown.

    Raises
    ------
    BlockError
        With the line: a block that does not end, a field nobody knows, a field twice.

    Examples
    --------
    >>> text, block = parts("Before\n::: step one\ntitle: Cut\ndo: Cut it\n  to length.\n:::")
    >>> text, block.key, block.one("do")
    ('Before\n', 'one', 'Cut it to length.')
    """
    found: list[Part] = []
    text: list[str] = []
    inside: tuple[str, str, int] | None = None
    body: list[tuple[int, str]] = []
    for number, line in enumerate(markdown.split("\n"), start=1):
        opened = _OPEN.fullmatch(line)
        if inside is None and opened and opened["kind"] in KINDS:
            if text:
                found.append("\n".join(text) + "\n")
            text, body, inside = [], [], (opened["kind"], opened["key"] or "", number)
        elif inside is not None and line == ":::":
            found.append(_block(*inside, body))
            inside = None
        elif inside is not None:
            body.append((number, line))
        else:
            text.append(line)
    if inside is not None:
        raise BlockError(inside[2], f"{inside[0]} {inside[1]} does not end: a line of ::: is wanted")
    if text:
        found.append("\n".join(text))
    return found


def _block(kind: str, key: str, line: int, body: list[tuple[int, str]]) -> Block:
    values: list[tuple[str, list[str]]] = []
    for number, text in body:
        if text.startswith((" ", "\t")) and values:
            values[-1][1].append(text.strip())
            continue
        if not text.strip():
            continue
        match = _FIELD.fullmatch(text)
        if match is None or match["name"] not in KINDS[kind]:
            word = text.split(":", 1)[0]
            near = get_close_matches(word, sorted(KINDS[kind]), n=1)
            hint = f"; did you mean {near[0]}:" if near else f"; a {kind} has {', '.join(sorted(KINDS[kind]))}"
            raise BlockError(number, f"{word}: is no field of a {kind}{hint}")
        if match["name"] not in MANY and any(match["name"] == name for name, _ in values):
            raise BlockError(number, f"{match['name']}: stands twice in {kind} {key}")
        values.append((match["name"], [match["value"] or ""]))
    fields: dict[str, tuple[str, ...]] = {}
    for name, lines in values:
        fields[name] = (*fields.get(name, ()), " ".join(lines).strip())
    return Block(kind, key, fields, line)
