"""The browser's modules joined: a worker fetches one file, and a page opened from a folder may not load modules.

It knows the few forms that the modules of `web/` are written in and stops at any other.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from site_build.tell import StopError

if TYPE_CHECKING:
    from collections.abc import Mapping

_IMPORT = re.compile(r"^import \{ ([\w ,]+) \} from '\./([\w-]+\.js)';$", re.MULTILINE)
_EXPORT = re.compile(r"^export ((?:async )?function|class|const) (\w+)", re.MULTILINE)
_OTHER = re.compile(r"^(?:import|export)\b.*", re.MULTILINE)


def joined(modules: Mapping[str, str], *entries: str) -> str:
    """Return modules, and those they import, as one script.

    Parameters
    ----------
    modules : mapping of str to str
        Text of each module by its name.
    entries : str
        Names of those to run, in this order; each module runs once.

    Raises
    ------
    StopError
        For an import or export in a form that is not known.
    """
    wrapped = (_wrapped(name, modules[name]) for name in gathered(modules, *entries))
    return "\n".join(["(() => {", "const held = {};", *wrapped, "})();", ""])


def gathered(modules: Mapping[str, str], *entries: str) -> list[str]:
    """Return the names of modules, and of those they import, each after what it imports."""
    order: list[str] = []
    for entry in entries:
        _gather(entry, modules, order)
    return order


def _gather(name: str, modules: Mapping[str, str], order: list[str]) -> None:
    if name in order:
        return
    for found in _IMPORT.finditer(modules[name]):
        _gather(found[2], modules, order)
    order.append(name)


def _wrapped(name: str, text: str) -> str:
    names = [found[2] for found in _EXPORT.finditer(text)]
    text = _IMPORT.sub(lambda found: f"const {{ {found[1].replace(' as ', ': ')} }} = held['{found[2]}'];", text)
    text = _EXPORT.sub(r"\1 \2", text)
    other = _OTHER.search(text)
    if other:
        raise StopError(f"{name}: scripts cannot be joined with `{other[0]}`: write it as the other scripts do.")
    return f"held['{name}'] = (() => {{\n'use strict';\n{text}\nreturn {{ {', '.join(names)} }};\n}})();"
