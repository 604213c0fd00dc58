"""One file per worksheet: what it asks, what it answers; no HTML.

A worksheet is any module of this package that defines ``WORKSHEET``; nothing else has to know its name.
"""

from __future__ import annotations

from functools import cache
from importlib import import_module
from pkgutil import iter_modules
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from calc.worksheets.schema import Worksheet


@cache
def catalogue() -> dict[str, Worksheet]:
    """Return every worksheet by its id, in the order of the job.

    >>> "string" in catalogue()
    True
    """
    found: dict[str, Worksheet] = {}
    for module in iter_modules(__path__):
        worksheet = getattr(import_module(f"{__name__}.{module.name}"), "WORKSHEET", None)
        if worksheet is not None:
            found[worksheet.id] = worksheet
    return {each.id: each for each in sorted(found.values(), key=lambda each: (each.place, each.id))}
