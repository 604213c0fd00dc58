"""A guide's figure with a person's own numbers in it, by the names that worksheets give them.

Ask with ``{"figure": "strands-cut", "hand": "Z", "system": "inch", "numbers": {"cut_length": "70 3/8 in"},
"ident": "own-1"}`` to get ``{"ok": true, "svg": ...}``. ``numbers`` are results and fields of worksheets as they are
printed or typed, or plain numbers in SI; ``ident`` starts every id in the drawing. What is shown is printed anew from
what was read.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from math import pi, radians
from typing import TYPE_CHECKING, Any

from calc import units
from calc.draw import svg
from calc.draw.figures import FIGURES, figure
from calc.errors import DomainError

if TYPE_CHECKING:
    from collections.abc import Iterator

    from calc.units import Quantity, System

HANDS = ("S", "Z")
WARMED = "body-turns"
"""A figure that has places for numbers and a cord in it, so that drawing it loads what figures need."""
_LONGEST = 60
"""Characters of a printed number."""
_IDENT = re.compile(r"[A-Za-z][A-Za-z0-9_-]{0,60}")


@dataclass(frozen=True, slots=True)
class NumberPlace:
    """A place for a number in figures.

    Parameters
    ----------
    name : str
        Of the result or field of a worksheet that belongs there.
    words : str
        What it is, for somebody who reads why it could not be drawn.
    quantity : str
        Of what kind; lengths are given to figures in metres, since some draw a tape with them.
    low, high : float
        Between which it still makes a drawing, in SI.
    """

    name: str
    words: str
    quantity: Quantity = "length"
    low: float = 0.001
    high: float = 10.0


NUMBER_PLACES: Mapping[str, NumberPlace] = {
    "body_raw": NumberPlace("body_raw", "the body between the loop marks"),
    "brace_height": NumberPlace("brace_height", "the brace height", high=1.0),
    "cut_length": NumberPlace("cut_length", "the cut length"),
    "handle": NumberPlace("handle_length", "the stiff handle", high=1.0),
    "lay": NumberPlace("lay_angle", "the lay angle", "angle", radians(1.0), pi / 2.0),
    "loop_lower": NumberPlace("loop_lower", "the lower loop", high=2.0),
    "loop_upper": NumberPlace("loop_upper", "the upper loop", high=2.0),
    "nock_throat": NumberPlace("nock_throat", "the nock throat", "thickness", 0.0001, 0.1),
    "nock_to_nock": NumberPlace("nock_to_nock", "the length from nock to nock", low=0.1, high=4.0),
    "post_spacing": NumberPlace("post_spacing", "the spacing of the posts"),
    "serve_length": NumberPlace("loop_served_upper", "the served stretch of the loop", high=2.0),
    "serving_above": NumberPlace("above_nock", "the serving above the nock", high=1.0),
    "serving_below": NumberPlace("below_nock", "the serving below the nock", high=1.0),
    "step": NumberPlace("strand_step", "the step of the strand ends", high=0.1),
    "strands": NumberPlace("strands", "the number of strands", "count", 1.0, 999.0),
    "string_length": NumberPlace("string_length_slack", "the length of the slack string", low=0.1, high=4.0),
    "tail": NumberPlace("tail_length", "the tail", high=2.0),
    "turns_body": NumberPlace("turns_body", "the turns in the body", "turns", 0.0, 999.0),
    "weight": NumberPlace("hanging_weight", "the hanging weight", "force", 0.1, 9999.0),
}
"""By the name that figures have for it. The string is measured slack, so that is the length drawn."""


class _Watched(Mapping[str, "str | float"]):
    """Numbers that note which of them were asked for, and have none."""

    def __init__(self) -> None:
        self.seen: set[str] = set()

    def __getitem__(self, key: str) -> str | float:
        self.seen.add(key)
        raise KeyError(key)

    def __iter__(self) -> Iterator[str]:
        return iter(())

    def __len__(self) -> int:
        return 1  # not nothing: figures then look


@cache
def number_places(name: str) -> dict[str, str]:
    """Return which numbers a figure has places for: a worksheet's name of each, and the figure's own.

    A lay alone is no number to show: a figure that has no other place has none.

    Parameters
    ----------
    name : str
        Of the figure.

    Raises
    ------
    KeyError
        For a figure that is not there.

    Examples
    --------
    >>> number_places("strands-cut"), number_places("two-bundle-ply")
    ({'cut_length': 'cut_length', 'strands': 'strands'}, {})
    """
    watched = _Watched()
    figure(name, numbers=watched)
    found = {NUMBER_PLACES[key].name: key for key in sorted(watched.seen & NUMBER_PLACES.keys())}
    return {} if found.keys() == {"lay_angle"} else found


def draw_figure(message: Mapping[str, Any]) -> dict[str, Any]:
    """Answer an ask for a figure.

    Parameters
    ----------
    message : mapping
        See above; ``hand`` is Z and ``system`` inch unless given otherwise, ``ident`` the figure's name.

    Returns
    -------
    dict
        ``ok`` true with ``svg``, or ``ok`` false with ``errors``, each a ``field`` and a ``text``.
    """
    name = message["figure"]
    if not isinstance(name, str) or name not in FIGURES:
        return _wrong({"figure": "There is no figure of this name."})
    hand = message.get("hand", "Z")
    if hand not in HANDS:
        return _wrong({"hand": "The lay is S or Z."})
    ident, given = message.get("ident", name), message.get("numbers", {})
    if not isinstance(ident, str) or not _IDENT.fullmatch(ident):
        return _wrong({"ident": "The drawing needs a plain name: a letter, then letters, figures, - or _."})
    if not isinstance(given, Mapping):
        return _wrong({"numbers": "The numbers of a figure come by their names."})
    system: System = "metric" if message.get("system") == "metric" else "inch"
    numbers: dict[str, str | float] = {"system": system}
    wrong: dict[str, str] = {}
    for key, told in given.items():
        place = number_places(name).get(key)
        if place is None:
            wrong[key] = "This figure has no place for this number."
        elif (value := _read(NUMBER_PLACES[place], told, system)) is None:
            wrong[key] = _limits(NUMBER_PLACES[place], system)
        else:
            numbers[place] = _printed(NUMBER_PLACES[place], value, system)
    if wrong:
        return _wrong(wrong)
    drawing = figure(name, hand="S" if hand == "S" else "Z", numbers=numbers, ident=ident)
    return {"ok": True, "svg": svg(drawing, prefix=ident)}


def _wrong(texts: Mapping[str, str]) -> dict[str, Any]:
    return {"ok": False, "errors": [{"field": key, "others": [], "text": text} for key, text in texts.items()]}


def _limits(place: NumberPlace, system: System) -> str:
    low = units.show_limit(place.low, place.quantity, system, side="min")
    high = units.show_limit(place.high, place.quantity, system, side="max")
    return f"This cannot be drawn as {place.words}: it takes a number from {low} to {high}."


def _read(place: NumberPlace, told: object, system: System) -> float | None:
    """Return a number in SI, or None for what is none or cannot be drawn."""
    if isinstance(told, int | float) and not isinstance(told, bool) and place.low <= told <= place.high:
        return float(told)
    if not isinstance(told, str) or len(told) > _LONGEST:
        return None
    whole = place.quantity == "count"
    try:
        return units.read(place.name, told, place.quantity, low=place.low, high=place.high, system=system, whole=whole)
    except DomainError:
        return None


def _printed(place: NumberPlace, value: float, system: System) -> str | float:
    """Return what a figure takes: lengths in metres, the lay in radians, all else as printed."""
    return value if place.quantity in {"length", "angle"} else units.show(value, place.quantity, system)
