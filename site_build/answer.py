"""The HTML of an answer: written once, used by the build and, through the worker, by the page.

Standard library and `calc` only, since it also runs in the browser.
"""

from __future__ import annotations

import json
from html import escape
from typing import Any

from calc.bridge import handle

_KINDS = {"derived": "worked out", "measured": "measured", "practice": "trade practice", "exact": "exact"}


def reply(text: str) -> str:
    """Answer one message as `calc.bridge.handle` does, with the answer's HTML put in.

    Parameters
    ----------
    text : str
        JSON of an ask.

    Returns
    -------
    str
        JSON of the reply; ``answer`` and ``working`` hold HTML where there is an outcome.
    """
    message: dict[str, Any] = json.loads(handle(text))
    if "outcome" in message:
        message["answer"] = answer(message["outcome"])
        message["working"] = working(message["outcome"])
    return json.dumps(message, ensure_ascii=False)


def answer(outcome: dict[str, Any]) -> str:
    """Return headlines, cautions and drawings."""
    lines = "".join(_headline(each) for each in outcome["headlines"])
    drawings = "".join(f'<figure class="pt-figure">{each["svg"]}</figure>' for each in outcome["figures"])
    said = "".join(
        f'<p class="pt-{each["level"]}"><strong>{each["level"].capitalize()}:</strong> {escape(each["text"])}</p>'
        for each in outcome["cautions"]
    )
    return f'<dl class="pt-lines">{lines}</dl>{drawings}<div class="pt-cautions">{said}</div>'


def _headline(each: dict[str, str]) -> str:
    span = f'<span class="pt-range">{escape(each["range"])}</span>' if each["range"] else ""
    return (
        f'<div><dt>{escape(each["lead"])}</dt><dd><span class="pt-big">{escape(each["text"])}</span>{span}</dd></div>'
    )


def working(outcome: dict[str, Any]) -> str:
    """Return every line of the working, and what is left out."""
    rows = "".join(_row(each) for each in outcome["rows"])
    left = "".join(f"<li>{escape(each)}</li>" for each in outcome["leaves_out"])
    return (
        "<details><summary>Working: every line</summary><p>What it is, the number and how far it may be off, how it "
        f'comes about, where it is from.</p><ul class="pt-rows">{rows}</ul></details>'
        f"<h2>What this leaves out</h2><ul>{left}</ul>"
    )


def _row(each: dict[str, str]) -> str:
    symbol = f'<span class="pt-symbol">{escape(each["symbol"])}</span> ' if each["symbol"] else ""
    span = f' <span class="pt-range">{escape(each["range"])}</span>' if each["range"] else ""
    return (
        f'<li data-key="{escape(each["key"])}"><span class="pt-words">{symbol}{escape(each["words"])}</span>'
        f'<span class="pt-number"><b>{escape(each["shown"])}</b>{span}</span>'
        f'<span class="pt-how">{escape(each["working"])}</span>'
        f'<span class="pt-source">{_KINDS[each["kind"]]}: {escape(each["source_words"])}</span></li>'
    )
