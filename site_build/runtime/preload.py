"""Preload links in a page's head: its typeface, and Python where the page needs it."""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING

from site_build.runtime.bundle import FONT_FILES, FONTS
from site_build.setup.paths import WEB

if TYPE_CHECKING:
    from pathlib import Path

_SCRIPT = WEB / "preload.js"
_MODULE = re.compile(r'<script src="([^"]*)assets/web/site\.js" type="module">')
_SHEET = re.compile(r"<[^>]+ data-worksheet=")
_COMMENT = re.compile(r"/\*\*.*?\*/|//[^\n]*", re.DOTALL)
_HEAD = "</head>"
_STYLE = re.compile(r'<link rel="stylesheet" href="([^"]*)assets/web/site\.css">')
_FIRST_STYLE = '<link rel="stylesheet"'
MARKED = re.compile(r"\s*<script data-early>.*?</script>")


def hastened(html: str) -> str:
    """Return a page that starts Python early if it is a worksheet's."""
    found = _MODULE.search(html)
    if not found or not _SHEET.search(html):
        return html
    line = f"<script data-early>{script().replace('ROOT', found[1].rstrip('/') or '.')}</script>"
    return html.replace(_HEAD, f"{line}\n{_HEAD}", 1)


def with_faces(html: str) -> str:
    """Return a page that asks for its face together with its styles, not only once these are read."""
    found = _STYLE.search(html)
    if not found:
        return html
    links = "".join(
        f'<link rel="preload" href="{found[1]}{FONTS}/{name}" as="font" type="font/woff2" crossorigin>\n      '
        for name in FONT_FILES
    )
    return html.replace(_FIRST_STYLE, links + _FIRST_STYLE, 1)


@cache
def script(place: Path = _SCRIPT) -> str:
    """Return a script for a page's head on one line, without its comments."""
    return " ".join(_COMMENT.sub("", place.read_text(encoding="utf-8")).split())
