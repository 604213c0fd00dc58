"""The figures of guides, drawn for both hands."""

from __future__ import annotations

from importlib import import_module
from importlib.util import find_spec
from typing import Any

from calc.draw import Drawing, svg

_ROOM = "calc.draw.figures"


def _room() -> Any:  # noqa: ANN401 - a module
    return import_module(_ROOM) if find_spec(_ROOM) else None


def drawn(name: str) -> bool:
    """Return whether a figure of that name can be drawn."""
    room = _room()
    return room is not None and name in room.FIGURES


def picture(name: str, prefix: str) -> str:
    """Return a figure for a Z string and for an S string, as HTML; empty when nobody has drawn it yet.

    Parameters
    ----------
    name : str
        Of the figure.
    prefix : str
        Starts the ids in it; no two pictures of a page share one.
    """
    if not drawn(name):
        return ""
    z, s = (_svg(name, hand, prefix) for hand in ("Z", "S"))
    if z == s.replace(f"{prefix}-S", f"{prefix}-Z"):
        return f'<div class="pt-figure">{z}</div>'
    return f'<div class="pt-figure"><div data-hand="Z">{z}</div><div data-hand="S" hidden>{s}</div></div>'


def _svg(name: str, hand: str, prefix: str) -> str:
    made = _room().figure(name, hand=hand)
    return svg(made, prefix=f"{prefix}-{hand}") if isinstance(made, Drawing) else str(made)
