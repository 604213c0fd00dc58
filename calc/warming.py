"""Goes once through everything a page may ask, so that what is needed has been loaded and remembered."""

from __future__ import annotations

import json
import traceback
from typing import TYPE_CHECKING

from calc import bridge
from calc.own_figures import WARMED
from calc.worksheets import catalogue
from calc.worksheets.asking import usual

if TYPE_CHECKING:
    from collections.abc import Iterator

SYSTEMS = ("inch", "metric")


def warm(examples: int | None = None) -> int:
    """Answer, convert, pass on and open the first examples of every worksheet, or all; return how many were answered.

    A figure with a person's number in it is drawn too.

    >>> warm(1) >= 2
    True
    """
    answered = 0
    for ask in _asks(examples):
        reply = json.loads(bridge.handle(json.dumps(ask)))
        answered += "outcome" in reply
        if "fragment" in reply:
            bridge.handle(json.dumps({"open": reply["fragment"], "system": ask["system"]}))
    bridge.handle(json.dumps({"figure": WARMED, "numbers": {"turns_body": "60"}}))
    bridge.handle("what cannot be read gets words too")
    traceback.format_stack(limit=1)
    return answered


def _asks(examples: int | None) -> Iterator[dict[str, object]]:
    for key, worksheet in catalogue().items():
        for example in worksheet.examples[:examples]:
            inputs = usual(worksheet, example.inputs)
            for system in SYSTEMS:
                yield {"worksheet": key, "system": system, "inputs": inputs}
                yield {"convert": key, "to": system, "inputs": inputs, "system": system}
                yield {"share": key, "system": system, "inputs": inputs}
