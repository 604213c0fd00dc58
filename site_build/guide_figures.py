"""The figures of guides, drawn for both hands."""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING

from calc.draw import svg
from calc.draw.figures import figure

if TYPE_CHECKING:
    from calc.geometry import Hand

_PLACE = re.compile(r'<div class="pt-figure" data-figure="([a-z-]+) ([\w-]+)"></div>')
_TAG = re.compile(r"<[^>]*>")
_PREFIX = "prefix-of-this-picture-"


def place(name: str, prefix: str) -> str:
    """Return the place of a figure in Markdown; empty for no figure.

    Parameters
    ----------
    name : str
        Of the figure.
    prefix : str
        Starts the ids in it; no two figures of a page share one.
    """
    return f'<div class="pt-figure" data-figure="{name} {prefix}"></div>' if name else ""


def with_figures(html: str) -> str:
    """Draw every figure in its place, for a Z string and for an S string."""
    return _PLACE.sub(lambda found: picture(found[1], found[2]), html)


def picture(name: str, prefix: str) -> str:
    """Return a figure for both hands as HTML; once when they look alike."""
    z = _svg(name, "Z").replace(_PREFIX, f"{prefix}Z")
    s = _svg(name, "S").replace(_PREFIX, f"{prefix}S")
    if _svg(name, "Z") == _svg(name, "S"):
        return f'<div class="pt-figure" data-figure="{name}">{z}</div>'
    both = f'<div data-hand="Z">{z}</div><div data-hand="S" data-search-exclude hidden>{s}</div>'
    return f'<div class="pt-figure" data-figure="{name}">{both}</div>'


def labels(name: str) -> str:
    """Return the words in a figure, its title and description too; empty for no figure."""
    return _TAG.sub("\0", _svg(name, "Z")) if name else ""


@cache
def _svg(name: str, hand: Hand) -> str:
    """Return a drawing; one that can move stands still until a script lets it."""
    made = svg(figure(name, hand=hand), prefix=_PREFIX)
    return made.replace('class="drawing"', 'class="drawing d-still"', 1) if "d-frame" in made else made
