"""What stands in the place of some modules of Python's library that nothing here uses: event loops, and packages.

Pyodide imports them as it starts, and with them a fifth of the snapshot. What each saves is measured in DEVELOPERS.md.
"""

_NO_ASYNCIO = """\
def get_event_loop():
    raise RuntimeError("there is no event loop here")
"""
_NO_LOOP = """\
from pyodide_js._api import scheduleCallback  # a snapshot of the memory is not taken without


def _initialize_event_loop():
    pass
"""
_NO_PACKAGES = """\
from pyodide_js import loadedPackages  # as above


class _Place:
    def __init__(self, path):
        self.path = path

    def __str__(self):
        return self.path


DSO_DIR = SITE_PACKAGES = _Place("/usr/lib")


def init_loaded_packages():
    pass
"""
STAND_INS: dict[str, str] = {
    # no event loop
    "asyncio/__init__.py": _NO_ASYNCIO,
    "pyodide/webloop.py": _NO_LOOP,
    # no packages: theirs are the only files anybody unpacks
    "pyodide/_package_loader.py": _NO_PACKAGES,
    "pyodide/common.py": "",
}


def replaced(library: dict[str, bytes]) -> dict[str, bytes]:
    """Return modules of the library, by name, as they are packed.

    Raises
    ------
    ValueError
        When one of those that others stand in for is not there.
    """
    gone = STAND_INS.keys() - library.keys()
    if gone:
        msg = f"Python's library has no {', '.join(sorted(gone))}: see whether `stand_ins.py` is still right"
        raise ValueError(msg)
    return library | {name: text.encode() for name, text in STAND_INS.items()}
