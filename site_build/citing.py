"""Numbers for the sources a page cites, and the texts of docstrings as HTML."""

from __future__ import annotations

import re
from html import escape

from calc.data import sources

_SOURCE = re.compile(r"\(``([\w.:-]+)``\)|``([\w.:-]+)``")
_WRITTEN = re.compile(r"``(.+?)``")
_NAMED = re.compile(r"`(\w+)`")
_POWER = re.compile(r"\^(\d)")
_STRONG = re.compile(r"(?<![\w*])\*(\w+)\*(?![\w*])")
_UNIT = re.compile(r" ?\[([^\[\]]+)\](?!\()")
_EXACT = {"-": "", "turn/m": "turns in a metre", "turn": "turns", "rad": "radians", "kg/m^3": "kg/m³"}


class Citing:
    """The sources cited so far, in their order; each keeps its number."""

    def __init__(self) -> None:
        self.keys: list[str] = []
        self._known = {each.key for each in sources()}

    def number(self, key: str) -> str:
        """Return the link to a source by its number."""
        if key not in self.keys:
            self.keys.append(key)
        at = self.keys.index(key) + 1
        return f'<a href="#source-{at}">[{at}]</a>'

    def html(self, text: str) -> str:
        """Return a docstring's text as HTML, its sources as links.

        >>> Citing().html("own derivation (``derived:unroll``) of `take_up`. [m]")
        'own derivation <a href="#source-1">[1]</a> of <i>take up</i>. (m)'
        """
        said = _UNIT.sub(_unit, escape(text, quote=False)).replace(" x ", " × ")
        said = _SOURCE.sub(self._cited, said)
        said = _WRITTEN.sub(lambda found: f"<i>{_POWER.sub(_raised, found[1])}</i>", said)
        said = _NAMED.sub(lambda found: f"<i>{found[1].replace('_', ' ')}</i>", said)
        return _STRONG.sub(r"<em>\1</em>", said)

    def _cited(self, found: re.Match[str]) -> str:
        key = found[1] or found[2]
        return self.number(key) if key in self._known else found[0]


def _raised(found: re.Match[str]) -> str:
    return f"<sup>{found[1]}</sup>"


def _unit(found: re.Match[str]) -> str:
    words = _EXACT.get(found[1], found[1])
    return f" ({words})" if words else ""
