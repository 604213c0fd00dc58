"""The theme's search, asleep until somebody asks: a script of ours stands before its worker."""

from __future__ import annotations

import re
from pathlib import Path

from site_build.tell import StopError

NAME = "later.js"
_FOLDER = "assets/javascripts/workers"
_SCRIPT = Path(__file__).with_name("search-later.js")
_REAL = re.compile(r'("search": "[^"]*/workers/)(search\.[0-9a-f]+\.min\.js)"')


def asleep(html: str) -> str:
    """Return a page whose search is the script of `install`.

    >>> asleep('{"search": "../assets/javascripts/workers/search.a7633da7.min.js"}')
    '{"search": "../assets/javascripts/workers/later.js"}'
    """
    return _REAL.sub(rf'\1{NAME}"', html)


def awake(html: str, site: Path) -> str:
    """Return a page with the theme's own search again."""
    return html.replace(f"/workers/{NAME}", f"/workers/{real(site)}")


def real(site: Path) -> str:
    """Return the name of the theme's own script in a built site.

    Raises
    ------
    StopError
        When the theme has none, or several.
    """
    found = [path.name for path in (site / _FOLDER).glob("search.*.min.js")]
    if len(found) != 1:
        raise StopError(f"The theme has {len(found)} search scripts, not one: see whether ours still fits.")
    return found[0]


def install(site: Path) -> None:
    """Put the script beside the theme's own."""
    text = _SCRIPT.read_text(encoding="utf-8").replace("REAL", real(site))
    (site / _FOLDER / NAME).write_text(text, encoding="utf-8")
