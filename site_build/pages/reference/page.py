"""Markdown blocks of the reference pages: ``::: reference KEY`` becomes formulas, tables, a chart or sources."""

from __future__ import annotations

import re
from functools import cache
from html import escape
from inspect import signature
from typing import TYPE_CHECKING

from calc.data import source
from calc.data.reference import READ_WORDS
from calc.draw import svg
from site_build.pages.blocks import BlockError
from site_build.pages.reference import charts, measured, notebook, tables, worked_bow
from site_build.pages.reference.citations import Citing, spoken, with_unit
from site_build.pages.reference.formulas import MATHS, formulas, function, groups
from site_build.setup.paths import ROOT

if TYPE_CHECKING:
    from collections.abc import Callable

    from calc.draw import Drawing
    from site_build.pages.reference.formulas import Formula

CHARTS = {"take-up": charts.take_up, "fibre-curves": charts.fibre_curves}
TABLES: dict[str, Callable[[Citing], str]] = {
    "fibre-numbers": tables.fibre_numbers,
    "fibre-classes": tables.fibre_classes,
    "ropes": tables.rope_strengths,
    "worked-strings": worked_bow.strings,
    "worked-pulls": worked_bow.pulls,
    "worked-shot": worked_bow.one_shot,
    "bow-misses": measured.misses,
    "notebook-records": notebook.records,
}
_LINE = re.compile(r"^::: reference (?P<key>[\w-]+)\s*$", re.MULTILINE)


def write_reference(markdown: str) -> str:
    """Replace the blocks of a reference page by Markdown and HTML; other pages stay as they are.

    Raises
    ------
    BlockError
        For a key that is not known.
    """
    citing = Citing()

    def block(found: re.Match[str]) -> str:
        key = found["key"]
        if key in groups():
            return "\n\n".join(_entry(each, citing) for each in groups()[key])
        if key in CHARTS:
            return _figure(CHARTS[key]())
        if key in TABLES:
            return TABLES[key](citing)
        if key == "sources":
            return _sources(citing)
        line = markdown[: found.start()].count("\n") + 1
        known = ", ".join((*groups(), *CHARTS, *TABLES, "sources"))
        raise BlockError(line, f"there is no reference {key}; there are: {known}.")

    return _LINE.sub(block, markdown)


@cache
def page_of(key: str) -> str:
    """Return which page of the reference has a block.

    Raises
    ------
    KeyError
        When none has.
    """
    pages = (ROOT / "docs" / "reference").glob("*.md")
    return {key: path.stem for path in pages for key in _LINE.findall(path.read_text(encoding="utf-8"))}[key]


def _figure(drawing: Drawing) -> str:
    return f'<figure class="pt-chart" id="{drawing.key}">{svg(drawing, prefix=f"chart-{drawing.key}")}</figure>'


def _entry(this: Formula, citing: Citing) -> str:
    return (
        f"### {this.title}\n\n"
        f'<div class="pt-formula" id="f-{this.name}">'
        f"<p>{citing.html(with_unit(this.words, this.unit))}</p>{_equations(this)}{_symbols(this, citing)}"
        f'<p class="pt-from"><b>From:</b> {citing.html(this.source)}</p>'
        + (f'<p class="pt-leaves">{citing.html(this.leaves_out)}</p></div>' if this.leaves_out else "</div>")
    )


def _equations(this: Formula) -> str:
    return "".join(f'<p class="pt-equation">{equation(each)}</p>' for each in this.lines)


def _symbols(this: Formula, citing: Citing) -> str:
    items = "".join(
        f"<dt><i>{spoken(name)}</i></dt><dd>{citing.html(with_unit(each.words, each.unit))}</dd>"
        for name, each in this.symbols.items()
    )
    return f"<dl>{items}</dl>" if items else ""


_TOKEN = re.compile(
    r"\*\*\((?P<group>[^()]*(?:\([^()]*\)[^()]*)*)\)|\*\*(?P<power>\w+)|(?P<name>[A-Za-z_]\w*)|[^A-Za-z_*]+|\*"
)
_CALL = re.compile(r"(?P<name>[a-z_]{2,})\((?P<given>[\w, ]+)\)")


def equation(formula: str) -> str:
    """Return an equation as HTML: powers raised, products and roots as they are written by hand.

    >>> equation("retraction = tan(surface_rad / 2)**2")
    '<i>retraction</i> = tan(<i>surface</i> / 2)<sup>2</sup>'
    >>> equation("radius_m = radius_ratio(bundles, lay_rad) * diameter_m")
    '<i>radius</i> = <i>radius ratio</i> × <i>diameter</i>'
    """

    def part(found: re.Match[str]) -> str:
        if found["group"] or found["power"]:
            return f"<sup>{equation(found['group'] or found['power'])}</sup>"
        name = found["name"]
        if name:
            return {"sqrt": "√", "pi": "π"}.get(name) or (name if name in MATHS else f"<i>{spoken(name)}</i>")
        return escape(found[0]).replace("*", "×").replace("-", "−")

    return _TOKEN.sub(part, _CALL.sub(_of_the_same, formula))


def _of_the_same(found: re.Match[str]) -> str:
    """Return a function called with what it always takes as its name alone."""
    if found["name"] not in formulas():
        return found[0]
    takes = list(signature(function(found["name"])).parameters)
    return found["name"] if found["given"].split(", ") == takes else found[0]


def _sources(citing: Citing) -> str:
    items = "".join(
        f'<li id="source-{at}">{escape(source(key).words)}. <i>{READ_WORDS[source(key).read]}</i></li>'
        for at, key in enumerate(citing.keys, start=1)
    )
    return f'<ol class="pt-sources">{items}</ol>'
