"""The figures of guides, drawn for both hands."""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING

from calc.draw import svg
from calc.draw.figures import figure
from calc.own_figures import places

if TYPE_CHECKING:
    from calc.geometry.lay import Hand
    from calc.units import System


_PLACE = re.compile(r'<div class="pt-figure" data-figure="([a-z-]+) ([\w-]+)"></div>')
_INCHES = re.compile(r">[^<]*\d ?in\b[^<]*<")
_TAG = re.compile(r"<[^>]*>")
_PREFIX = "prefix-of-this-picture-"
_MARKS: dict[System, str] = {"inch": "", "metric": "m"}
HANDS: tuple[Hand, Hand] = ("Z", "S")


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
    """Draw every figure in its place, for a Z string and an S string, and in both units where it has any."""
    return _PLACE.sub(lambda found: picture(found[1], found[2]), html)


def picture(name: str, prefix: str) -> str:
    """Return a figure for both hands as HTML; once when they look alike; with the numbers it has places for."""
    z, s = (_both_units(name, hand) for hand in HANDS)
    both = f'<div data-hand="Z">{z}</div><div data-hand="S" data-search-exclude hidden>{s}</div>'
    alike = z.replace(f"{_PREFIX}Z", "") == s.replace(f"{_PREFIX}S", "")
    shows = f' data-shows="{" ".join(places(name))}"' if places(name) else ""
    return f'<div class="pt-figure" data-figure="{name}"{shows}>{z if alike else both}</div>'.replace(_PREFIX, prefix)


def labels(name: str) -> str:
    """Return the words in a figure, its title and description too; empty for no figure."""
    return _TAG.sub("\0", _svg(name, "Z", "inch")) if name else ""


@cache
def _both_units(name: str, hand: Hand) -> str:
    inch = _svg(name, hand, "inch")
    if not _INCHES.search(inch.partition("</desc>")[2]):
        return inch
    metric = _svg(name, hand, "metric")
    return f'<div data-units="inch">{inch}</div><div data-units="metric" data-search-exclude hidden>{metric}</div>'


@cache
def _svg(name: str, hand: Hand, system: System) -> str:
    """Return a drawing; one that can move stands still until a script lets it."""
    made = svg(figure(name, hand=hand, numbers={"system": system}), prefix=f"{_PREFIX}{hand}{_MARKS[system]}")
    return made.replace('class="drawing"', 'class="drawing d-still"', 1) if "d-frame" in made else made
