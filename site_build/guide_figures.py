"""The figures of guides, drawn for both hands."""

from __future__ import annotations

import re
from functools import cache
from importlib import import_module
from importlib.util import find_spec
from typing import Any

from calc.draw import svg

_PLACE = re.compile(r'<div class="pt-figure" data-figure="([a-z-]+) ([\w-]+)"></div>')
_TAG = re.compile(r"<[^>]*>")
_ROOM = "calc.draw.figures"
_PREFIX = "prefix-of-this-picture-"


def _room() -> Any:  # noqa: ANN401 - a module
    return import_module(_ROOM) if find_spec(_ROOM) else None


def drawn(name: str) -> bool:
    """Return whether a figure of that name can be drawn."""
    room = _room()
    return room is not None and name in room.FIGURES


def place(name: str, prefix: str) -> str:
    """Return the place of a figure in Markdown; empty when nobody has drawn it yet.

    Parameters
    ----------
    name : str
        Of the figure.
    prefix : str
        Starts the ids in it; no two figures of a page share one.
    """
    return f'<div class="pt-figure" data-figure="{name} {prefix}"></div>' if drawn(name) else ""


def with_figures(html: str) -> str:
    """Draw every figure in its place, for a Z string and for an S string."""
    return _PLACE.sub(lambda found: picture(found[1], found[2]), html)


def picture(name: str, prefix: str) -> str:
    """Return a figure for both hands as HTML; once when they look alike."""
    z, s = (_svg(name, hand).replace(_PREFIX, f"{prefix}{hand}") for hand in ("Z", "S"))
    if _svg(name, "Z") == _svg(name, "S"):
        return f'<div class="pt-figure" data-figure="{name}">{z}</div>'
    both = f'<div data-hand="Z">{z}</div><div data-hand="S" data-search-exclude hidden>{s}</div>'
    return f'<div class="pt-figure" data-figure="{name}">{both}</div>'


def labels(name: str) -> str:
    """Return the words in a figure, its title and description too; empty when nobody has drawn it yet."""
    return _TAG.sub("\0", _svg(name, "Z")) if drawn(name) else ""


@cache
def _svg(name: str, hand: str) -> str:
    return svg(_room().figure(name, hand=hand), prefix=_PREFIX)
