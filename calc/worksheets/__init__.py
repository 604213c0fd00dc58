"""One folder a worksheet: what it asks, what it answers; no HTML.

A worksheet is any folder of this package whose ``sheet.py`` defines ``WORKSHEET``; nothing else has to know its name.
"""

from __future__ import annotations

import re
from functools import cache
from importlib import import_module
from importlib.util import find_spec
from pkgutil import iter_modules
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from calc.worksheets.core import Worksheet


CORE = "core"
"""The folder of what all worksheets share."""
_ID = re.compile(r"[a-z][a-z0-9-]*")


@cache
def catalogue() -> dict[str, Worksheet]:
    """Return every worksheet by its id, in the order of the job.

    >>> "string" in catalogue()
    True
    """
    found: dict[str, Worksheet] = {}
    for module in iter_modules(__path__):
        if module.name != CORE:
            worksheet = import_module(f"{__name__}.{module.name}.sheet").WORKSHEET
            found[worksheet.id] = worksheet
    return {each.id: each for each in sorted(found.values(), key=lambda each: (each.place, each.id))}


def one(key: str) -> Worksheet:
    """Return one worksheet by its id, without loading the others where its file goes by its name.

    Parameters
    ----------
    key : str
        As `catalogue` names it.

    Raises
    ------
    KeyError
        When there is none.

    Examples
    --------
    >>> one("cord-test").id
    'cord-test'
    """
    name = key.replace("-", "_")
    if _ID.fullmatch(key) and name != CORE and find_spec(f"{__name__}.{name}"):
        found: Worksheet = import_module(f"{__name__}.{name}.sheet").WORKSHEET
        if found.id == key:
            return found
    return catalogue()[key]
