"""The cautions: worded once on their page, set into the guides where a hand could be hurt."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from site_build.pages.blocks import Block, parts
from site_build.setup.paths import DOCS

PAGE = DOCS / "reference" / "cautions.md"


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution: its key, its heading, what is said in a guide."""

    key: str
    title: str
    text: str


@cache
def cautions() -> dict[str, Caution]:
    """Return every caution of the page, by its key."""
    blocks = (part for part in parts(PAGE.read_text(encoding="utf-8")) if isinstance(part, Block))
    return {
        block.key: Caution(block.key, block.one("title"), block.one("text"))
        for block in blocks
        if block.kind == "caution"
    }
