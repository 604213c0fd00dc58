"""The theme's search, which brings its index when somebody opens it, as the theme does itself from a disk alone."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from site_build.tell import StopError

if TYPE_CHECKING:
    from pathlib import Path

_SCRIPTS = "assets/javascripts/bundle.*.min.js"
_AT_ONCE = re.compile(r'location\.protocol!=="file:"(?=\),[\w$]+\("search"\)\))')
_LATER = '!"at once"'


def later(script: str) -> str:
    """Return the theme's script with a search that begins when it is opened.

    >>> later('L($(location.protocol!=="file:"),Je("search"))')
    'L($(!"at once"),Je("search"))'

    Raises
    ------
    StopError
        When the place is not found, or several are.
    """
    text, found = _AT_ONCE.subn(_LATER, script)
    if found + script.count(_LATER) != 1:
        raise StopError(f"The theme's search begins at {found} places, not at one: see whether our change still fits.")
    return text


def install(site: Path) -> None:
    """Let the search of a built site begin later.

    Raises
    ------
    StopError
        When the theme has no script there, or it is not as it was.
    """
    scripts = list(site.glob(_SCRIPTS))
    if not scripts:
        raise StopError("The theme's script is not where it was: see whether our change of the search still fits.")
    for path in scripts:
        path.write_text(later(path.read_text(encoding="utf-8")), encoding="utf-8")
