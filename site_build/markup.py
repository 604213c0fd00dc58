"""A worksheet as HTML: its answer first, its form, its working."""

from __future__ import annotations

import json
from html import escape
from typing import Any

from calc.bridge import describe
from site_build.answer import reply


def worksheet(key: str) -> str:
    """Return the whole block for one worksheet, with the usual example answered in it.

    Raises
    ------
    KeyError
        For a worksheet that does not exist.
    ValueError
        When the usual example is not answered.
    """
    told = describe(key, "inch")
    inputs = {each["key"]: each["example"] for group in told["groups"] for each in group["fields"]}
    ask = {"v": 1, "id": 0, "worksheet": key, "system": "inch", "inputs": inputs}
    made = json.loads(reply(json.dumps(ask)))
    if not made.get("ok"):
        msg = f"worksheet {key}: the usual example is not answered: {made}"
        raise ValueError(msg)
    groups = "".join(_group(group) for group in told["groups"])
    return (
        f'<div class="pt-sheet" data-worksheet="{escape(key)}" data-system="inch">'
        f'<p class="pt-purpose">{escape(told["purpose"])}</p>'
        '<div class="pt-strip" aria-hidden="true" hidden></div>'
        f'<section class="pt-answer" aria-label="Answer">{made["answer"]}</section>'
        '<p class="pt-status" role="status" aria-live="polite">The answer shown is for the measures below.</p>'
        '<form class="pt-form" novalidate aria-label="Your measures">'
        '<div class="pt-summary" role="alert" tabindex="-1" hidden></div>'
        '<fieldset class="pt-units"><legend>Units</legend>'
        '<label><input type="radio" name="_system" value="inch" checked> in, lbf</label>'
        '<label><input type="radio" name="_system" value="metric"> mm, N</label></fieldset>'
        f'{groups}<button type="submit" class="pt-go">Work it out</button></form>'
        f'<section class="pt-working" aria-label="Working">{made["working"]}</section></div>'
    )


def _group(group: dict[str, Any]) -> str:
    fields = "".join(_field(each) for each in group["fields"])
    return f"<fieldset><legend>{escape(group['title'])}</legend>{fields}</fieldset>"


def _field(each: dict[str, Any]) -> str:
    key = each["key"]
    hint = f'<span class="pt-hint" id="f-{key}-hint">{escape(each["hint"])}</span>'
    error = f'<span class="pt-error" id="f-{key}-error" hidden></span>'
    if each["kind"] == "choice":
        return _choice(each, hint + error)
    value = "" if each["example"] == each["absent"] else escape(each["example"])
    mode = ' inputmode="decimal"' if each["kind"] == "number" and each["unit_hint"] == "" else ""
    inch, metric = escape(each["unit_hint"]), escape(each["unit_hint_metric"])
    unit = f' (<span data-inch="{inch}" data-metric="{metric}">{inch}</span>)' if inch else ""
    return (
        f'<div class="pt-field"><label for="f-{key}">{escape(each["label"])}{unit}</label>{hint}{error}'
        f'<input type="text" id="f-{key}" name="{key}" value="{value}" autocomplete="off" spellcheck="false"{mode} '
        f'aria-describedby="f-{key}-hint f-{key}-error"></div>'
    )


def _choice(each: dict[str, Any], notes: str) -> str:
    key = each["key"]
    if len(each["options"]) > 5:
        options = "".join(
            f'<option value="{escape(o["value"])}"{" selected" if o["value"] == each["example"] else ""}>'
            f"{escape(o['label'])}</option>"
            for o in each["options"]
        )
        return (
            f'<div class="pt-field"><label for="f-{key}">{escape(each["label"])}</label>{notes}'
            f'<select id="f-{key}" name="{key}" aria-describedby="f-{key}-hint f-{key}-error">{options}</select></div>'
        )
    radios = "".join(
        f'<label><input type="radio" name="{key}" value="{escape(o["value"])}"'
        f"{' checked' if o['value'] == each['example'] else ''}> {escape(o['label'])}</label>"
        for o in each["options"]
    )
    return (
        f'<fieldset class="pt-field pt-radios" id="f-{key}" aria-describedby="f-{key}-hint f-{key}-error">'
        f"<legend>{escape(each['label'])}</legend>{notes}{radios}</fieldset>"
    )
