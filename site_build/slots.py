"""Fill the slots of a page with data, by the same few rules as `web/fill.js`.

The build writes an answer into the HTML with this module, the page script writes the next one over it. Both read
the slots from the page itself, so a block of HTML is written down once, in `web/worksheet.html`:

``data-text="a.b"``
    The text at this path, ``this`` being the item itself; an element without text is hidden.
``data-said="a"``
    The same, with fractions set as fractions, and a number on one line with its unit.
``data-svg="a"``
    A drawing, as markup.
``data-show="a=b"``
    Shown only where the text at ``a`` is ``b``; ``a!=b`` where it is not.
``data-set="name:a other:b"``
    Attributes with the texts at ``a`` and ``b``.
``data-each="a"``
    One copy of the ``<template>`` inside for each item at ``a``, of those with ``data-where="b=c"``.
"""

from __future__ import annotations

import re
from copy import deepcopy
from typing import TYPE_CHECKING, Any
from xml.etree import ElementTree as ET
from xml.sax.saxutils import unescape

if TYPE_CHECKING:
    from collections.abc import Iterator

UNITS = (
    "turns/in|strands|turns/m|bundles|ft·lbf|strand|bundle|times|turns|ft/s|turn"
    "|lbf|m/s|tex|gr|in|kN|mm|oz|yd|°C|°F|J|N|g|h|m|s"
)
"""What is kept on the line of the number before it: units, and what a maker counts; longer ones first."""
_AMOUNT = re.compile(
    rf"((?:\b[0-9]+ )?)\b([0-9]+)/([0-9]+)\b((?: (?:{UNITS})(?!\w))?)|\b([0-9]+(?:[.,][0-9]+)* (?:{UNITS})(?!\w))",
    re.ASCII,
)
_MARK = "\ue000"
"""Stands round markup that goes into the page as it is; a private character that no text of ours uses."""


def at(data: Any, path: str) -> Any:  # noqa: ANN401 - decoded JSON is of any shape
    """Return what stands at a dotted path, or the empty text.

    >>> at({"rows": [{"shown": "62 in"}]}, "rows.0.shown"), at({}, "rows.0.shown")
    ('62 in', '')
    """
    if path == "this":
        return data
    for step in path.split("."):
        if isinstance(data, dict):
            data = data.get(step, "")
        elif isinstance(data, list) and step.isdigit() and int(step) < len(data):
            data = data[int(step)]
        else:
            return ""
    return data


def fill(root: ET.Element, data: Any) -> None:  # noqa: ANN401 - decoded JSON is of any shape
    """Fill every slot below and at an element; a template stays as it is."""
    for element in list(_outside_templates(root)):
        _fill_one(element, data)


def _outside_templates(root: ET.Element) -> Iterator[ET.Element]:
    if root.tag != "template":
        yield root
        for child in root:
            yield from _outside_templates(child)


def _fill_one(element: ET.Element, data: Any) -> None:  # noqa: ANN401 - decoded JSON is of any shape
    told = element.attrib
    if "data-each" in told:
        _hide(element, hidden=not _repeat(element, data))
    if "data-text" in told:
        element.text = str(at(data, told["data-text"]))
        _hide(element, hidden=not element.text)
    if "data-said" in told:
        _set_amounts(element, str(at(data, told["data-said"])))
    if "data-svg" in told:
        element.text = f"{_MARK}{at(data, told['data-svg'])}{_MARK}"
    if "data-show" in told:
        _hide(element, hidden=not _holds(told["data-show"], data))
    if "data-set" in told:
        for pair in told["data-set"].split():
            name, path = pair.split(":")
            element.set(name, str(at(data, path)))


def _set_amounts(element: ET.Element, text: str) -> None:
    """Put text with its fractions set; a number, its fraction and its unit stay on one line."""
    before, *rest = _AMOUNT.split(text)
    element.text = before
    for whole, above, below, unit, plain, after in zip(*(rest[start::6] for start in range(6)), strict=True):
        span = ET.SubElement(element, "span", {"class": "amount" if plain else "fraction"})
        span.text, span.tail = plain or whole, after
        if not plain:
            top, bottom = ET.SubElement(span, "sup"), ET.SubElement(span, "sub")
            top.text, top.tail, bottom.text, bottom.tail = above, "\u2044", below, unit
    _hide(element, hidden=not text)


def _repeat(container: ET.Element, data: Any) -> int:  # noqa: ANN401 - decoded JSON is of any shape
    template = container[0]
    template.tail = None
    where = container.get("data-where", "")
    items = [item for item in at(data, container.attrib["data-each"]) or () if not where or _holds(where, item)]
    for item in items:
        copy = deepcopy(template)
        _append_text(container, copy.text or "")
        for child in copy:
            fill(child, item)
            container.append(child)
    return len(items)


def _append_text(container: ET.Element, text: str) -> None:
    container[-1].tail = (container[-1].tail or "") + text


def _holds(condition: str, data: Any) -> bool:  # noqa: ANN401 - decoded JSON is of any shape
    path, wanted = condition.split("=")
    return (str(at(data, path.removesuffix("!"))) == wanted) != path.endswith("!")


def _hide(element: ET.Element, *, hidden: bool) -> None:
    if hidden:
        element.set("hidden", "")
    else:
        element.attrib.pop("hidden", None)


def to_html(root: ET.Element) -> str:
    """Write an element as HTML."""
    text = ET.tostring(root, encoding="unicode", method="html")
    return re.sub(f"{_MARK}(.*?){_MARK}", lambda found: unescape(found[1]), text, flags=re.DOTALL)
