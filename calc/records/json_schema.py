"""The shape of a notebook's file as a JSON schema, made from the declarations of its records."""

from __future__ import annotations

from typing import Any

from calc.records.files import FORMAT, ID, VERSION
from calc.records.kinds import PLURALS, WORDS_MOST, fields_of
from calc.records.questions import DateField, ReferenceField
from calc.records.record import DELETED
from calc.records.stamps import DEVICE, TIME
from calc.worksheets.core import Choice, Field
from calc.worksheets.core.read import MEASURED

_STAMP = f"^{TIME.pattern}/{DEVICE.pattern}$"


def schema() -> dict[str, Any]:
    """Return the JSON schema (draft 2020-12) of a notebook's file."""
    return {
        "$schema": "json-schema.org/draft/2020-12/schema",
        "title": "A notebook of bows, cords, hands and strings",
        "type": "object",
        "properties": {
            "format": {"const": FORMAT},
            "version": {"enum": list(range(1, VERSION + 1))},
            **{plural: {"type": "array", "items": _record(kind)} for kind, plural in PLURALS.items()},
        },
        "required": ["format", "version"],
        "additionalProperties": False,
    }


def _record(kind: str) -> dict[str, Any]:
    values = {name: _text(each) for name, each in fields_of(kind).items()}
    values[DELETED] = {"type": "string", "description": "The changes a deletion had seen; empty when it was undone."}
    names = sorted(values)
    stamps = {"type": "string", "pattern": _STAMP}
    return {
        "type": "object",
        "properties": {
            "id": {"type": "string", "pattern": f"^{ID.pattern}$"},
            "values": {"type": "object", "properties": values, "additionalProperties": False},
            "changed": {
                "description": "By time and device: the values that were changed then.",
                "type": "object",
                "propertyNames": stamps,
                "additionalProperties": {"type": "array", "items": {"enum": names}, "uniqueItems": True},
            },
            "earlier": {
                "description": "Values changed on two devices at once: the earlier ones, by time and device.",
                "type": "object",
                "propertyNames": {"enum": names},
                "additionalProperties": {
                    "type": "object",
                    "propertyNames": stamps,
                    "additionalProperties": {"type": "string"},
                },
            },
            "seen": {
                "description": "By device: the time of the last change that is in this record.",
                "type": "object",
                "propertyNames": {"pattern": f"^{DEVICE.pattern}$"},
                "additionalProperties": {"type": "string", "pattern": f"^{TIME.pattern}$"},
            },
        },
        "required": ["id", "values", "changed", "seen"],
        "additionalProperties": False,
    }


def _text(each: Field) -> dict[str, Any]:
    told: dict[str, Any] = {"type": "string", "title": each.label, "description": each.hint}
    if isinstance(each, Choice):
        chosen = {"enum": ["", *(option.value for option in each.options)]}
        return told | ({"anyOf": [chosen, {"pattern": MEASURED}]} if each.measured else chosen)
    if isinstance(each, DateField):
        return told | {"pattern": r"^(\d{4}-\d\d-\d\d)?$"}
    if isinstance(each, ReferenceField):
        return told | {"description": f"{each.hint} Its id.", "pattern": f"^({ID.pattern})?$"}
    return told | {"maxLength": WORDS_MOST}
