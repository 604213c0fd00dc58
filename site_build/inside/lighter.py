"""Modules of Python's library that start faster for what is asked of them here: sums, one after another, nothing else.

Each change says which text it takes the place of; when a new version no longer has that text, the build stops.
"""

_NOT_A_FIELD = """\
    if "Var" not in annotation and "KW_ONLY" not in annotation:
        return False
    match = _MODULE_IDENTIFIER_RE.match(annotation)
"""
CHANGES: dict[str, tuple[tuple[str, str], ...]] = {
    # annotations are read only where they may be no field's, and nobody misses the signatures that would stand where
    # docstrings were
    "dataclasses.py": (
        ("import inspect\n", ""),
        ("if not getattr(cls, '__doc__'):", "if False:"),
        ("    match = _MODULE_IDENTIFIER_RE.match(annotation)\n", _NOT_A_FIELD),
        ("inspect.unwrap(member)", "getattr(member, '__wrapped__', member)"),
    ),
    # no addresses of other hosts, and no numbers by chance
    "urllib/parse.py": (("import ipaddress\n", ""),),
    "statistics.py": (("import random\n", ""), ("_random = random\n", "")),
    # what only they need, and only where they are called
    "_pyodide/__init__.py": (
        ("    import traceback\n", ""),
        ("sys.excepthook = traceback.print_exception", "pass"),
    ),
}
_NO_COLOURS = """\
class _None(str):
    def __getattr__(self, name):
        return self


def get_theme(**how):
    return _None()


def can_colorize(**how):
    return False


ANSIColors = _None()
"""
_NO_ASYNCIO = """\
def get_event_loop():
    raise RuntimeError("there is no event loop here")
"""
_NO_LOOP = """\
from pyodide_js._api import scheduleCallback  # a picture of the memory is not taken without


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
STANDING_IN: dict[str, str] = {
    # no event loop
    "asyncio/__init__.py": _NO_ASYNCIO,
    "pyodide/webloop.py": _NO_LOOP,
    # no packages: theirs are the only files anybody unpacks
    "pyodide/_package_loader.py": _NO_PACKAGES,
    "pyodide/common.py": "",
    # no terminal
    "_colorize.py": _NO_COLOURS,
    # nobody reads what Pyodide's own methods are for
    "_pyodide/docstring.py": "def get_cmeth_docstring(method):\n    return ''\n",
}


def changed(name: str, source: bytes) -> bytes:
    """Return a module of the library as it is packed.

    Raises
    ------
    ValueError
        When it is not the text that the change was written for.
    """
    if name in STANDING_IN:
        return STANDING_IN[name].encode()
    text = source.decode()
    for old, new in CHANGES.get(name, ()):
        if old not in text:
            msg = f"{name} has no {old!r}: see whether this change is still right"
            raise ValueError(msg)
        text = text.replace(old, new)
    return text.encode()
