"""What a page's head says so that nothing waits for what could have begun: its modules, and Python where it is due."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

from site_build.joining import gathered
from site_build.markup import WEB

_SCRIPT = Path(__file__).with_name("early.js")
_MODULE = re.compile(r'<script src="([^"]*)assets/web/([\w-]+\.js)" type="module">')
_SHEET = re.compile(r"<[^>]+ data-worksheet=")
_COMMENT = re.compile(r"/\*\*.*?\*/|//[^\n]*", re.DOTALL)
_HEAD = "</head>"
MARKED = re.compile(r'\s*<link rel="modulepreload"[^>]*>|\s*<script data-early>.*?</script>', re.DOTALL)


def hastened(html: str) -> str:
    """Return a page that names its modules in its head, and that starts Python early if it is a worksheet's."""
    entries = _MODULE.findall(html)
    if not entries:
        return html
    up = entries[0][0]
    lines = [
        f'<link rel="modulepreload" href="{up}assets/web/{name}">' for name in modules(*(each for _, each in entries))
    ]
    if _SHEET.search(html):
        lines.insert(0, f"<script data-early>{script().replace('ROOT', up.rstrip('/') or '.')}</script>")
    return html.replace(_HEAD, "\n".join([*lines, _HEAD]), 1)


@cache
def modules(*entries: str) -> list[str]:
    """Return the names of all modules that these need, themselves among them, each after what it imports."""
    return gathered({path.name: path.read_text(encoding="utf-8") for path in WEB.glob("*.js")}, *entries)


@cache
def script() -> str:
    """Return the early script on one line, without its comments."""
    return " ".join(_COMMENT.sub("", _SCRIPT.read_text(encoding="utf-8")).split())
