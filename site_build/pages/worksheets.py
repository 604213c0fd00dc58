"""Markdown blocks: a line ``::: worksheet ID`` becomes a whole worksheet, with its usual example answered.

``::: worksheets all`` becomes a list of them.
"""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache
from typing import TYPE_CHECKING, Any
from xml.etree import ElementTree as ET

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from calc import bridge
from calc.worksheets import catalogue
from calc.worksheets.core import Number, mattering
from site_build.pages import by_hand
from site_build.pages.blocks import BlockError
from site_build.pages.slots import filled
from site_build.setup.paths import WEB

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from calc.units import System

SYSTEMS: tuple[System, System] = ("inch", "metric")
TIP_SHAPES = ("round", "flat", "pipe")
_LINE = re.compile(r"^:::\s*(?P<kind>[\w-]+)\s+(?P<key>[\w-]+)\s*$")
_FENCE = re.compile(r"^\s{0,3}(```+|~~~+)")
_RADIOS_AT_MOST = 5
_SHORT = 8
"""Letters of an option that stands beside the others, not below."""
_CHECK_FIRST = 4
"""So many fields to check are named beside an answer; `web/worksheet/origins.js` names as many."""
_ASKED_FIRST = 3
"""So many questions stand beside the drawing, before the answer."""
_DIGITS_ONLY = {"count": SYSTEMS, "force": SYSTEMS, "length": ("metric",), "thickness": ("metric",)}
"""Where a keypad of digits does: not for fractions of an inch, units of yarn, or below zero."""


@dataclass(frozen=True, slots=True)
class Written:
    """Markdown whose blocks are placeholders, and the HTML that belongs in their place."""

    markdown: str
    title: str
    blocks: Mapping[str, str]

    def put_into(self, html: str) -> str:
        """Put the blocks into the HTML made from the Markdown."""
        for placeholder, block in self.blocks.items():
            html = html.replace(placeholder, block)
        return html


_CARDS = {
    "string": "Print its card",
    "club": "Print all for the afternoon",
    "endless": "Print a strip for the posts",
}
"""Worksheets with something else to print, and what the button says."""


def write_blocks(markdown: str) -> Written:
    """Take the blocks out of a page's Markdown and write their HTML.

    Parameters
    ----------
    markdown : str
        Text of a page; lines inside code fences are left alone.

    Returns
    -------
    Written
        ``title`` is the first block's, for the page's heading; empty without blocks.

    Raises
    ------
    BlockError
        For a block that is not known, with the nearest name that is.
    """
    blocks: dict[str, str] = {}
    title, fence, lines = "", "", []
    for number, line in enumerate(markdown.split("\n"), start=1):
        fence = _fence_after(fence, line)
        found = None if fence else _LINE.match(line)
        if found:
            placeholder = f'<div data-block="{len(blocks)}"></div>'
            if found["kind"] == "worksheets":
                lines += [f"- [{each.title}]({each.id}.md) {each.purpose}" for each in catalogue().values()]
                continue
            key = _checked_key(found["kind"], found["key"], number)
            blocks[placeholder] = worksheet_html(key) + by_hand.table(key)
            heading = "" if title or any(each.startswith("# ") for each in lines) else f"# {catalogue()[key].title}\n\n"
            title = title or catalogue()[key].title
            lines.append(f"{heading}{placeholder}\n")
        else:
            lines.append(line)
    return Written("\n".join(lines), title, blocks)


def _fence_after(fence: str, line: str) -> str:
    """Return the mark of the code fence that is open after a line, if any."""
    found = _FENCE.match(line)
    if not found:
        return fence
    if not fence:
        return found[1]
    return "" if found[1].startswith(fence) else fence


def _checked_key(kind: str, key: str, line: int) -> str:
    if kind != "worksheet":
        raise BlockError(line, f"there is no block {kind}: did you mean worksheet?")
    if key not in catalogue():
        near = get_close_matches(key, catalogue(), n=1, cutoff=0.0)
        raise BlockError(line, f"there is no worksheet {key}: did you mean {near[0]}?")
    return key


def worksheet_html(key: str) -> str:
    """Return a worksheet with its form and the answer to its usual example."""
    return worksheets_html()[key]


@cache
def worksheets_html() -> dict[str, str]:
    """Return all worksheets by their id.

    Raises
    ------
    ValueError
        When one does not answer its own usual example.
    """
    return dict(zip(catalogue(), filled(map(_worksheet, catalogue())), strict=True))


def _worksheet(key: str) -> tuple[str, dict[str, Any]]:
    """Return a worksheet with empty slots, and the answer that belongs into them."""
    told = [bridge.describe(key, system) for system in SYSTEMS]
    inputs = {field["key"]: field["example"] for group in told[0]["groups"] for field in group["fields"]}
    ask = {"v": 1, "id": 0, "worksheet": key, "system": "inch", "inputs": inputs}
    reply = json.loads(bridge.handle(json.dumps(ask)))
    if not reply.get("ok"):
        msg = f"worksheet {key} does not answer its usual example: {reply}"
        raise ValueError(msg)
    return _form(told[0], told[1], _quantities(key), mattering(catalogue()[key])), reply["outcome"]


def _quantities(key: str) -> dict[str, str]:
    return {field.key: field.quantity for field in catalogue()[key].fields if isinstance(field, Number)}


def _form(
    inch: Mapping[str, Any], metric: Mapping[str, Any], quantities: Mapping[str, str], matters: Iterable[str] = ()
) -> str:
    """Return a worksheet with empty slots, from its description in both systems of units.

    `matters` are the fields its answer hangs on most, strongest first.
    """
    keys = tuple(matters)
    units = {field["key"]: field["unit_hint"] for group in metric["groups"] for field in group["fields"]}
    groups = [
        {
            "title": group["title"],
            "folded": group["folded"],
            "fields": [
                _field(field, units[field["key"]], quantities.get(field["key"], "")) for field in group["fields"]
            ],
        }
        for group in inch["groups"]
    ]
    leading = _leading(groups, keys)
    text = _template().render(
        **{name: inch[name] for name in ("id", "title", "purpose", "guides", "parts")},
        leading=leading,
        groups=[rest for rest in (_without(group, leading) for group in groups) if rest["fields"]],
        matters=" ".join(keys),
        first=_first(groups, keys),
        cards=_CARDS.get(inch["id"], ""),
    )
    root = ET.fromstring(text)  # noqa: S314 - our own template, nothing from outside
    return ET.tostring(root, encoding="unicode", method="html")


def _leading(groups: Sequence[Mapping[str, Any]], matters: Sequence[str]) -> list[Mapping[str, Any]]:
    """Return the few fields that are asked first, in the order of the form: the strongest that take a tape or a scale.

    A choice is asked first only where too few others matter.
    """
    asked = [field for group in groups if not group["folded"] for field in group["fields"]]
    fields = {field["key"]: field for field in asked}
    strongest = [fields[key] for key in (*matters, *fields) if key in fields]
    measured = [field for field in strongest if field["shape"] not in {"radios", "select"}]
    taken = [field["key"] for field in (*measured, *strongest)]
    first = list(dict.fromkeys(taken))[:_ASKED_FIRST]
    return [field for field in asked if field["key"] in first]


def _without(group: Mapping[str, Any], leading: Iterable[Mapping[str, Any]]) -> dict[str, Any]:
    return {**group, "fields": [field for field in group["fields"] if field not in leading]}


def _first(groups: Sequence[Mapping[str, Any]], matters: Sequence[str]) -> dict[str, Any]:
    """Return how many values the example has, and the fields to check first, as `origins.js` tells them."""
    fields = {field["key"]: field for group in groups for field in group["fields"]}
    filled = [key for key, field in fields.items() if field["text"] or not field["open"]]
    check = [fields[key] for key in matters if key in filled]
    ends = {"radios": "-first", "tip": "-shape-first"}
    return {
        "of": len(filled),
        "fields": [
            {
                "control": field["key"] + ends.get(field["shape"], ""),
                "label": field["label"][:1].lower() + field["label"][1:],
            }
            for field in check[:_CHECK_FIRST]
        ],
        "more": max(0, len(check) - _CHECK_FIRST),
    }


@cache
def _template() -> Any:  # noqa: ANN401 - jinja2 has no types of its own
    room = Environment(
        loader=FileSystemLoader(WEB / "worksheet"), autoescape=True, undefined=StrictUndefined, trim_blocks=True
    )
    return room.get_template("worksheet.html")


def _field(field: Mapping[str, Any], metric_unit: str, quantity: str) -> dict[str, Any]:
    text = "" if field["absent"] and field["example"] == field["absent"] else field["example"]
    shape = field["kind"]
    if shape == "choice":
        shape = "radios" if len(field["options"]) <= _RADIOS_AT_MOST else "select"
    chosen, options = "", field["options"]
    if shape == "tip":
        options = [{"value": each, "label": each} for each in TIP_SHAPES]
        chosen, text = split_tip(text)
    digits = _DIGITS_ONLY.get(quantity, ())
    return {
        **{name: field[name] for name in ("key", "label", "hint", "how")},
        "shape": shape,
        "text": text,
        "open": bool(field["absent"]),
        "chosen": chosen,
        "options": options,
        "short": all(len(each["label"]) <= _SHORT for each in options),
        "unit": {"inch": field["unit_hint"], "metric": metric_unit},
        "mode": {system: "decimal" if system in digits else "text" for system in SYSTEMS},
    }


def split_tip(text: str) -> tuple[str, str]:
    """Part a limb-tip text into its shape and its size.

    >>> split_tip("flat 5/8 x 3/8 in")
    ('flat', '5/8 x 3/8 in')
    """
    first, _, rest = text.partition(" ")
    return (first, rest) if first in TIP_SHAPES else (TIP_SHAPES[0], text)
