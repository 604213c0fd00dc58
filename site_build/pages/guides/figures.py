"""The figures of guides: still ones for a Z string in the page, those for an S string and in motion in files."""

from __future__ import annotations

import json
import re
from difflib import SequenceMatcher
from functools import cache
from typing import TYPE_CHECKING

from calc.draw import svg
from calc.draw.figures import figure
from calc.draw.writer import number
from calc.own_figures import number_places

if TYPE_CHECKING:
    from calc.geometry.lay import Hand
    from calc.units import System


_PLACE = re.compile(r'<div class="pt-figure" data-figure="([a-z-]+) ([\w-]+)"></div>')
_INCHES = re.compile(r">[^<]*\d ?in\b[^<]*<")
_TAG = re.compile(r"<[^>]*>")
_PREFIX = "prefix-of-this-picture-"
_HIDDEN_FRAME = re.compile(r'<g class="d-frame [^"]*" visibility="hidden">')
HANDS: tuple[Hand, Hand] = ("Z", "S")
FOLDER = "assets/drawings"
"""Where the built site has the drawings that a page brings only when they are asked for."""


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


def with_figures(html: str, page: str = "") -> str:
    """Draw every figure in its place, for a Z string, with the lettering of both units where it has any.

    Parameters
    ----------
    html : str
        A page whose places `place` has written.
    page : str
        Its name, by which its other drawings are fetched.
    """
    return _PLACE.sub(lambda found: picture(found[1], found[2], page), html)


def picture(name: str, prefix: str, page: str = "") -> str:
    """Return a figure as HTML: still, for a Z string, with room for the S drawing where that is another one."""
    z, s = (_still(_drawn(name, hand)) for hand in HANDS)
    shows = f' data-shows="{" ".join(number_places(name))}"' if number_places(name) else ""
    room = f'<div data-hand="S" data-search-exclude hidden><svg viewBox="{_view(s)}" aria-hidden="true"></svg></div>'
    both = z if _alike(name) else f'<div data-hand="Z">{z}</div>{room}'
    held = f'<div class="pt-figure" data-figure="{name}"{shows} data-drawing="{page} {prefix}">{both}</div>'
    return held.replace(_PREFIX, prefix)


def drawings(html: str, page: str) -> dict[str, str]:
    """Return the scripts that hold what a page's figures have besides: the S drawings, and those that move.

    A page opened from a folder may fetch nothing, but it may load a script.

    Parameters
    ----------
    html : str
        A page as `with_figures` takes it.
    page : str
        Its name.

    Returns
    -------
    dict
        Text of each script by its name below `FOLDER`. It puts drawings, by their prefixes, into
        ``pliedTrueDrawings`` under its own name.
    """
    found = [(name, prefix) for name, prefix in _PLACE.findall(html)]
    held: dict[str, dict[str, str]] = {}
    for name, prefix in found:
        for hand in HANDS:
            whole = _drawn(name, hand).replace(_PREFIX, prefix)
            if hand == "S" and not _alike(name):
                held.setdefault(f"{page}-S", {})[prefix] = _still(whole)
            if whole != _still(whole) and not (hand == "S" and _alike(name)):
                held.setdefault(f"{page}-{hand}-moving", {})[prefix] = whole
    start = "(window.pliedTrueDrawings ??= {})"
    return {
        f"{name}.js": f"{start}[{json.dumps(name)}] = {json.dumps(each, indent=0)};\n" for name, each in held.items()
    }


def labels(name: str) -> str:
    """Return the words in a figure, its title and description too; empty for no figure."""
    return _TAG.sub("\0", _svg(name, "Z", "inch")) if name else ""


def _alike(name: str) -> bool:
    """Tell whether a figure is the same for both hands."""
    return _drawn(name, "Z").replace(f"{_PREFIX}Z", "") == _drawn(name, "S").replace(f"{_PREFIX}S", "")


def _still(drawn: str) -> str:
    """Return a drawing without the frames that only its motion shows."""
    return "\n".join(line for line in drawn.split("\n") if not _HIDDEN_FRAME.match(line))


def _view(drawn: str) -> str:
    return drawn.partition('viewBox="')[2].partition('"')[0]


@cache
def _drawn(name: str, hand: Hand) -> str:
    """Return a drawing with what differs between units in it twice."""
    inch = _svg(name, hand, "inch")
    if not _INCHES.search(inch.partition("</desc>")[2]):
        return inch
    return with_both_units(inch, _svg(name, hand, "metric"))


def with_both_units(inch: str, metric: str) -> str:
    r"""Join two drawings of one thing, shape by shape: what is not alike stands there once for each of the units.

    >>> print(with_both_units(
    ...     '<svg viewBox="0 0 9 5">\n<path/>\n<text>1 in</text>\n</svg>',
    ...     '<svg viewBox="1 0 9 4">\n<path/>\n<text>25 mm</text>\n</svg>'))
    <svg viewBox="0 0 10 5">
    <path/>
    <g data-units="inch"><text>1 in</text></g>
    <g data-units="metric" data-search-exclude="" display="none"><text>25 mm</text></g>
    </svg>
    """
    view = _around(_view(inch), _view(metric))
    one, other = (
        each.replace(f'viewBox="{_view(each)}"', f'viewBox="{view}"', 1).split("\n") for each in (inch, metric)
    )
    joined: list[str] = []
    for kind, a, b, c, d in SequenceMatcher(None, one, other, autojunk=False).get_opcodes():
        if kind == "equal":
            joined += one[a:b]
            continue
        if a < b:
            joined.append(f'<g data-units="inch">{"".join(one[a:b])}</g>')
        if c < d:
            told = "".join(other[c:d]).replace(f' id="{_PREFIX}', f' id="m-{_PREFIX}')
            joined.append(f'<g data-units="metric" data-search-exclude="" display="none">{told}</g>')
    return "\n".join(joined)


def _around(one: str, other: str) -> str:
    """Return the view that holds two views."""
    (x, y, wide, high), (u, v, broad, tall) = ([float(each) for each in view.split()] for view in (one, other))
    left, top = min(x, u), min(y, v)
    right, bottom = max(x + wide, u + broad), max(y + high, v + tall)
    return " ".join(number(each) for each in (left, top, right - left, bottom - top))


@cache
def _svg(name: str, hand: Hand, system: System) -> str:
    """Return a drawing; one that can move stands still until a script lets it."""
    made = svg(figure(name, hand=hand, numbers={"system": system}), prefix=f"{_PREFIX}{hand}")
    return made.replace('class="drawing"', 'class="drawing d-still"', 1) if "d-frame" in made else made
