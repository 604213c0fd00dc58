"""What a guide says, text by text, for whoever checks or measures the guides."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Any

from markdown import Markdown  # type: ignore[import-untyped]
from mkdocs.utils import meta

from site_build.pages.blocks import Block, parts
from site_build.pages.guides.figures import with_figures
from site_build.pages.guides.page import guide_page
from site_build.setup.paths import DOCS

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

EXTENSIONS = ("md_in_html", "toc", "tables")
"""Those of the site that a guide's Markdown needs."""
_SILENT = frozenset({"figure", "count", "own", "timer"})
"""Fields that no reader sees as they are."""


@dataclass(frozen=True, slots=True)
class GuidePage:
    """One page of guides or reference: its path, front matter, source and blocks."""

    path: Path
    meta: dict[str, Any]
    body: str
    blocks: tuple[Block, ...]

    def of(self, kind: str) -> list[Block]:
        """Return its blocks of one kind, in order."""
        return [block for block in self.blocks if block.kind == kind]

    def texts(self) -> Iterator[tuple[str, str]]:
        """Yield every text that a reader sees as its place and its source."""
        for key, value in self.meta.items():
            if key not in {"making", "bundles"}:
                yield from ((key, str(each)) for each in (value if isinstance(value, list) else [value]))
        for part in parts(self.body):
            if isinstance(part, str):
                yield "prose", part
                continue
            for name, many in part.fields.items():
                if name not in _SILENT:
                    yield from ((f"{part.key}.{name}", each) for each in many)


@cache
def load(path: Path) -> GuidePage:
    """Return a page that has front matter."""
    body, front = meta.get_data(path.read_text(encoding="utf-8"))
    blocks = tuple(part for part in parts(body) if isinstance(part, Block))
    return GuidePage(path, front, body, blocks)


@cache
def html(path: Path) -> str:
    """Return a page as HTML, its links still those of the source."""
    page = load(path)
    markdown = guide_page(page.body, page.meta, path.relative_to(DOCS).as_posix())
    return with_figures(str(Markdown(extensions=list(EXTENSIONS)).convert(markdown)), path.stem)


def pages() -> list[Path]:
    """Return the paths of all guides and of the reference pages they draw on."""
    return sorted(
        [*(DOCS / "guides").glob("*.md"), DOCS / "reference" / "cautions.md", DOCS / "reference" / "words.md"]
    )
