"""Asks that reach what any person's asks would, to find the code they need: every example, every field gone wrong."""

import json
from collections.abc import Iterator

from calc.bridge import handle
from calc.draw.figures import FIGURES
from calc.own_figures import PLACES, WARMED, places
from calc.worksheets import catalogue
from calc.worksheets.asking import usual
from calc.worksheets.schema import Choice, Field

SYSTEMS = ("inch", "metric")
ODD = (
    *("", "0", "-1", "1e-320", "9" * 400, "nan", "1/0", "1 1/2 in", "3 ft 7½ in", "12,5 cm"),
    *("٣ größer\u2003als\u0000\U0001f3f9", "\ud800", "x" * 5000, "1\n2\t3;4"),
)
FACTORS = (0.31, 1.07, 3.3)
BROKEN = (
    *("", "null", "[]", "{", '"\\ud800"', '{"open": "%%%"}', '{"open": "string~AAAA"}', '{"figure": "none"}'),
    *('{"worksheet": "none"}', '{"worksheet": "string"}', '{"worksheet": "string", "system": "none", "inputs": {}}'),
)


def asks() -> str:
    """Return the asks, in JSON, as a list in JSON."""
    return json.dumps([*BROKEN, *(json.dumps(each) for each in _asks())])


def _asks() -> Iterator[dict[str, object]]:
    for key, worksheet in catalogue().items():
        for example in worksheet.examples:
            inputs = usual(worksheet, example.inputs)
            for system in SYSTEMS:
                yield {"worksheet": key, "system": system, "inputs": inputs}
                yield {"convert": key, "to": system, "inputs": inputs, "system": system}
                share: dict[str, object] = {"share": key, "system": system, "inputs": inputs}
                yield share
                fragment = json.loads(handle(json.dumps(share))).get("fragment")
                if fragment:
                    yield {"open": fragment, "system": system}
                    yield {"open": fragment[:-3], "system": system}
                yield {"part": key, "system": system, "inputs": inputs, "from": 0, "to": 2}
                yield {"line": key, "system": system, "inputs": inputs, "at": 1}
        for field in worksheet.fields:
            for typed in _typed(field):
                inputs = usual(worksheet) | {field.key: typed}
                yield {"worksheet": key, "system": "inch", "inputs": inputs}
                yield {"convert": key, "to": "metric", "inputs": inputs}
            yield {"share": key, "system": "metric", "inputs": inputs}
    for turns in ("60", "1e9", "", "x"):
        yield {"figure": WARMED, "numbers": {"turns_body": turns}}
    for name in FIGURES:
        wanted = {key: PLACES[own] for key, own in places(name).items()}
        numbers = {key: (place.low * place.high) ** 0.5 or place.high / 9.0 for key, place in wanted.items()}
        yield {"figure": name, "hand": "S", "system": "metric", "numbers": numbers}
        yield {"figure": name, "hand": "Z", "system": "inch", "numbers": dict.fromkeys(numbers, "7"), "ident": "own-1"}


def _typed(field: Field) -> tuple[str, ...]:
    """Return every option of a choice, or odd texts and texts beside the usual one."""
    if isinstance(field, Choice):
        return tuple(each.value for each in field.options)
    number, space, unit = field.example.partition(" ")
    try:
        return (*(f"{float(number) * each:.4g}{space}{unit}" for each in FACTORS), *ODD)
    except ValueError:
        return ODD
