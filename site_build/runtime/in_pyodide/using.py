"""Uses the whole package, inside Pyodide at the build, and lists the standard modules it needed."""

import importlib
import json
import sys
from collections.abc import Iterator
from pathlib import Path

PACKAGE = "/package"
SYSTEMS = ("inch", "metric")
TERMINAL = ("calc.__main__", "calc.console", "calc.notebook_command")


def archive() -> str:
    """Return where Python's library lies."""
    return next(path for path in sys.path if path.endswith(".zip"))


def used() -> list[str]:
    """Use the package; return the name, in its zip, of every module of Python's own library that is loaded then."""
    warm(3)
    before = f"{archive()}/"
    places = {str(getattr(each.__spec__, "origin", "")) for each in list(sys.modules.values()) if each.__spec__}
    return sorted(place.removeprefix(before) for place in places if place.startswith(before))


def warm(examples: int | None = None) -> None:
    """Answer, convert, pass on and open the first examples of every worksheet, or all; draw a figure with numbers.

    Every module is loaded, whatever asks for it later: where Python goes on from a snapshot there are no files.
    """
    if PACKAGE not in sys.path:
        sys.path.insert(0, PACKAGE)
    for name in modules():
        importlib.import_module(name)
    from calc import bridge  # noqa: PLC0415 - the package is found only now
    from calc.notebook_samples import WARMED as NOTEBOOK  # noqa: PLC0415
    from calc.own_figures import WARMED  # noqa: PLC0415

    for ask in _asks(examples):
        reply = json.loads(bridge.handle(json.dumps(ask)))
        if "fragment" in reply:
            bridge.handle(json.dumps({"open": reply["fragment"], "system": ask["system"]}))
    bridge.handle(json.dumps({"figure": WARMED, "numbers": {"turns_body": "60"}}))
    for ask in NOTEBOOK:
        bridge.handle(json.dumps(ask))
    bridge.handle("what cannot be read gets words too")


def modules() -> list[str]:
    """Return the names of the package's modules but for those of the terminal."""
    root = Path(PACKAGE)
    files = {path.with_suffix("").relative_to(root) for path in (root / "calc").rglob("*.py*")}
    names = {".".join(each.parts).removesuffix(".__init__") for each in files if "__pycache__" not in each.parts}
    return sorted(names.difference(TERMINAL))


def _asks(examples: int | None) -> Iterator[dict[str, object]]:
    from calc.worksheets import catalogue  # noqa: PLC0415
    from calc.worksheets.core import usual  # noqa: PLC0415

    for key, worksheet in catalogue().items():
        for example in worksheet.examples[:examples]:
            inputs = usual(worksheet, example.inputs)
            for system in SYSTEMS:
                yield {"worksheet": key, "system": system, "inputs": inputs}
                yield {"convert": key, "to": system, "inputs": inputs, "system": system}
                yield {"share": key, "system": system, "inputs": inputs}
