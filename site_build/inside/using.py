"""Uses the package in full, inside Pyodide at the build, and tells what that needed of Python's own library."""

import sys

PACKAGE = "/package"


def archive() -> str:
    """Return where Python's library lies."""
    return next(path for path in sys.path if path.endswith(".zip"))


def used() -> list[str]:
    """Use the package; return the name, in its zip, of every module of Python's own library that is loaded then."""
    sys.path.insert(0, PACKAGE)
    from calc.warming import warm  # noqa: PLC0415 - the package is found only now

    warm(3)
    before = f"{archive()}/"
    places = {str(getattr(each.__spec__, "origin", "")) for each in list(sys.modules.values()) if each.__spec__}
    return sorted(place.removeprefix(before) for place in places if place.startswith(before))
