"""What a notebook's file holds: a table for each kind of record, and its JSON schema, from `calc.records`."""

from __future__ import annotations

import json
from html import escape
from typing import TYPE_CHECKING

from calc.records import KINDS, PLURALS, DateField, ReferenceField, TextField, fields_of, schema
from calc.worksheets.core import Choice, Number, Tip

if TYPE_CHECKING:
    from calc.worksheets.core import Field
    from site_build.pages.reference.citations import Citing

SCHEMA = "assets/notebook.schema.json"


def schema_text() -> str:
    """Return the JSON schema of a notebook's file as text."""
    return json.dumps(schema(), indent=1, ensure_ascii=False) + "\n"


def records(_: Citing) -> str:
    """Return a table for each kind of record: its fields by name, what they are, and the words beside them."""
    return "\n\n".join(_table(kind) for kind in KINDS)


def _table(kind: str) -> str:
    about = (KINDS[kind].__doc__ or "").split("\n")[0]
    rows = "".join(
        f'<tr><th scope="row"><code>{each.key}</code></th><td>{escape(each.label)}</td><td>{escape(_shape(each))}</td>'
        f"<td>{escape(each.hint)}</td></tr>"
        for each in fields_of(kind).values()
    )
    heads = "".join(f'<th scope="col">{head}</th>' for head in ("Name", "What", "Written as", "In words"))
    return (
        f"### {PLURALS[kind].capitalize()}\n\n{about}\n\n"
        f'<div class="wide" tabindex="0" role="region" aria-label="{PLURALS[kind].capitalize()}">'
        f"<table><thead><tr>{heads}</tr></thead><tbody>{rows}</tbody></table></div>"
    )


def _shape(each: Field) -> str:
    if isinstance(each, Choice):
        return " or ".join(option.value for option in each.options)
    if isinstance(each, Number):
        return "a whole number" if each.whole else f"a number with its unit ({each.quantity.replace('_', ' ')})"
    if isinstance(each, Tip):
        return "a limb tip"
    if isinstance(each, DateField):
        return "a day, like 2026-05-03"
    if isinstance(each, ReferenceField):
        return f"the id of a {' or a '.join(each.kinds)}"
    return "lines of text" if isinstance(each, TextField) and each.lines else "text"
