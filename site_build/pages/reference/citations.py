"""Numbers for the sources a page cites, and the texts of formulas as HTML."""

from __future__ import annotations

import re
from html import escape

from calc.data import sources
from site_build.pages.reference.formulas import constant

_SOURCE = re.compile(r"\(``([\w.:-]+)``\)|``([\w.:-]+)``")
_WRITTEN = re.compile(r"``(.+?)``")
_NAMED = re.compile(r"`(\w+)`")
_POWER = re.compile(r"\^(\d)")
_STRONG = re.compile(r"(?<![\w*])\*(\w+)\*(?![\w*])")
_SPOKEN = {"cord_of_bundle": "cord", "packing_of": "packing", "take_up": "take-up", "warn_lay": "warning lay"}
_SPOKEN |= {"brace_m": "brace height", "draw_n": "string pull", "draw_m": "full draw", "w": "weight per metre"}
_UNITS = re.compile(r"_(n_per_kg_m|kg_m3|kg_m|m_s|kg|rad|m|n|j|s|k)$")
_PER = {"_per_strand_m": " per m of bundle", "_per_flat_m": " per m laid flat", "_per_m": " per m"}
_EXACT = {"-": "", "turn/m": "turns in a metre", "turn": "turns", "rad": "radians", "kg/m^3": "kg/m³", "m^2": "m²"}


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
        """Return the text of a formula as HTML, its sources as links.

        >>> Citing().html("own derivation (``derived:unroll``) of `take_up`.")
        'own derivation <a href="#source-1">[1]</a> of <i>take-up</i>.'
        """
        said = escape(text, quote=False).replace(" x ", " × ")
        said = _SOURCE.sub(self._cited, said)
        said = _WRITTEN.sub(lambda found: f"<i>{_POWER.sub(_raised, _spaced(found[1]))}</i>", said)
        said = _NAMED.sub(_named, said)
        return _STRONG.sub(r"<em>\1</em>", said)

    def _cited(self, found: re.Match[str]) -> str:
        key = found[1] or found[2]
        return self.number(key) if key in self._known else found[0]


def spoken(name: str) -> str:
    """Return a name of the code as a reader sees it.

    >>> spoken("cord_diameter_m"), spoken("turns_per_strand_m"), spoken("linear_density_kg_m")
    ('cord diameter', 'turns per m of bundle', 'linear density')
    """
    if name in _SPOKEN:
        return _SPOKEN[name]
    for ending, words in _PER.items():
        if name.endswith(ending) and not name.endswith("_n_per_kg_m"):
            return name.removesuffix(ending).replace("_", " ") + words
    return _UNITS.sub("", name).replace("_", " ")


def with_unit(words: str, unit: str) -> str:
    """Return what a number is, with its unit as a reader sees it.

    >>> with_unit("Of one bundle.", "m"), with_unit("How many.", "-"), with_unit("Its lay.", "turn/m")
    ('Of one bundle. (m)', 'How many.', 'Its lay. (turns in a metre)')
    """
    shown = _EXACT.get(unit, unit)
    return f"{words} ({shown})" if shown else words


def _named(found: re.Match[str]) -> str:
    """Write a function by its spoken name, a constant by its value."""
    name = found[1]
    return f"{constant(name):g}" if name.isupper() else f"<i>{spoken(name)}</i>"


def _spaced(text: str) -> str:
    return text.replace("_", " ") if text.isidentifier() else text


def _raised(found: re.Match[str]) -> str:
    return f"<sup>{found[1]}</sup>"
