"""Markdown blocks of the reference pages: ``::: reference KEY`` becomes formulas, tables, a chart or sources."""

from __future__ import annotations

import re
from html import escape
from inspect import signature
from typing import TYPE_CHECKING

from calc.data import source
from calc.data.reference import READ_WORDS
from calc.draw import svg
from site_build.pages.blocks import BlockError
from site_build.pages.reference import charts, measured, tables, worked_bow
from site_build.pages.reference.citations import Citing, spoken
from site_build.pages.reference.docstrings import MATHS, function, function_text

if TYPE_CHECKING:
    from collections.abc import Callable

    from calc.draw import Drawing
    from site_build.pages.reference.docstrings import FunctionText

FORMULAS: dict[str, dict[str, str]] = {
    "lay": {
        "turned_rad": "Where two bundles touch",
        "radius_ratio": "How far from the middle they lie",
        "lay": "Lay angle, turns and take-up",
        "lay_of_turns": "From turns counted on a bundle",
        "lay_of_cord_turns": "From turns counted on the cord",
        "closing_up": "What a pull presses flat",
    },
    "jam": {
        "jam": "The most turns there can be",
        "warn_lay": "When a worksheet warns",
    },
    "twist": {
        "surface_angle": "How steep the fibres lie",
        "flat_surface_angle": "The same, from turns put in",
        "retraction": "What a bundle gives up to its own twist",
        "modulus_ratio": "What twist leaves of stiffness",
        "cord_of_bundle": "Both levels together",
    },
    "balance": {
        "residual_twist": "What plying takes out of a bundle",
        "counter_twist": "What to put in first",
        "finger_turns": "What the fingers do",
        "balanced_twist": "Fibres straight along the cord",
        "torque_free_ratio": "A cord at rest",
        "transferred": "The second splice",
    },
    "bundles": {
        "bundle_diameter": "From weight to thickness",
        "waxed_diameter": "With wax",
        "rolled_diameter": "Strands rolled together",
        "envelope_ratio": "Round strands in a round outline",
        "pressed": "Pressed flat",
    },
    "loops": {
        "perimeter": "Once round the tip",
        "flattened": "A pipe pressed flat",
        "wall_area": "The wall of a pipe, cut across",
        "loop_nocked": "A loop in its nock",
        "loop_sliding": "A loop that slides over the limb",
        "served_loop": "The loop of an endless string",
        "coil": "Thread wound close",
    },
    "splices": {
        "stagger": "From one strand end to the next",
        "splice": "The thinning tail",
        "wrap_angle": "How far a tail is bent round",
        "holding_angle": "When it holds",
        "holding_length": "How long a tail must be",
    },
    "strength": {
        "strand_strength": "One strand",
        "wet_strength": "One strand, wet",
        "twist_efficiency": "What twisting leaves",
        "lay_efficiency": "What laying leaves",
        "sharing_efficiency": "What uneven strands leave",
        "loop_efficiency": "What a loop holds",
        "assembly": "All of it together",
        "breaking_force": "The made string",
        "rated_strength": "A cord with a load on its label",
        "working_load": "What a rope may carry",
    },
    "stretch": {
        "fibre_strain": "A fibre under load",
        "elastic_stretch": "A string under load",
        "string_stiffness": "Stiffness of a string",
        "creep": "Creep",
        "settle": "Settling, and what is still to come",
    },
    "bow-braced": {
        "Bow": "What the tape gives",
        "string_length": "From brace height to string length",
        "limb_reach": "Limbs that bend by the handle",
        "arc_bend": "Limbs that bend to an arc: how much",
        "arc_across": "Limbs that bend to an arc: where the tip is",
        "brace_per_length": "What a bit off the string does",
    },
    "bow-drawn": {
        "static_tension": "The string's pull",
        "draw_curve": "Draw force and stored energy",
    },
    "bow-shot": {
        "strand_string": "The string as a heavy spring",
        "usual_limb_mass": "Limbs nobody has weighed",
        "shot": "Arrow speed and the hardest pull",
        "peak_force_ratio": "The hardest pull when little is known",
        "dry_fire_peak": "A shot with no arrow",
    },
    "unknown-cord": {
        "linear_density": "A weighed length",
        "wound_diameter": "Wound on a stick",
        "packing_of": "How much of it is fibre",
        "judge": "Which fibre it can be",
    },
}
"""Groups of functions that a page tells of, with the heading of each."""
CHARTS = {"take-up": charts.take_up, "fibre-curves": charts.fibre_curves}
TABLES: dict[str, Callable[[Citing], str]] = {
    "fibre-numbers": tables.fibre_numbers,
    "fibre-classes": tables.fibre_classes,
    "ropes": tables.rope_strengths,
    "worked-strings": worked_bow.strings,
    "worked-pulls": worked_bow.pulls,
    "worked-shot": worked_bow.loosed,
    "bow-misses": measured.misses,
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
        if key in FORMULAS:
            return "\n\n".join(_entry(name, title, citing) for name, title in FORMULAS[key].items())
        if key in CHARTS:
            return _figure(CHARTS[key]())
        if key in TABLES:
            return TABLES[key](citing)
        if key == "sources":
            return _sources(citing)
        line = markdown[: found.start()].count("\n") + 1
        known = ", ".join((*FORMULAS, *CHARTS, *TABLES, "sources"))
        raise BlockError(line, f"there is no reference {key}; there are: {known}.")

    return _LINE.sub(block, markdown)


def _figure(drawing: Drawing) -> str:
    return f'<figure class="pt-chart" id="{drawing.key}">{svg(drawing, prefix=f"chart-{drawing.key}")}</figure>'


def _entry(name: str, title: str, citing: Citing) -> str:
    this = function_text(name)
    return (
        f"### {title}\n\n"
        f'<div class="pt-formula" id="f-{name}">'
        f"<p>{citing.html(this.words)}</p>{_formulas(this)}{_symbols(this, citing)}"
        f'<p class="pt-from"><b>From:</b> {citing.html(this.source)}</p>'
        + (f'<p class="pt-leaves">{citing.html(this.leaves_out)}</p></div>' if this.leaves_out else "</div>")
    )


def _formulas(this: FunctionText) -> str:
    return "".join(f'<p class="pt-equation">{equation(each)}</p>' for each in this.formulas)


def _symbols(this: FunctionText, citing: Citing) -> str:
    known = {each: words for each, words in this.symbols.items() if words}
    items = "".join(f"<dt><i>{spoken(each)}</i></dt><dd>{citing.html(words)}</dd>" for each, words in known.items())
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
    if found["name"] in MATHS:
        return found[0]
    takes = list(signature(function(found["name"])).parameters)
    return found["name"] if found["given"].split(", ") == takes else found[0]


def _sources(citing: Citing) -> str:
    items = "".join(
        f'<li id="source-{at}">{escape(source(key).words)}. <i>{READ_WORDS[source(key).read]}</i></li>'
        for at, key in enumerate(citing.keys, start=1)
    )
    return f'<ol class="pt-sources">{items}</ol>'
