"""Modules of Python's library that start faster for what is asked of them here: sums, one after another, nothing else.

Each change says which text it takes the place of; when a new version no longer has that text, the build stops.
"""

_LOOKED_UP = """\
    if isstring(p):
        known = remembered.PATTERNS.get((p, int(flags)))
        if known:
            return _sre.compile(p, *known)
        pattern = p
"""
CHANGES: dict[str, tuple[tuple[str, str], ...]] = {
    # code is looked up before it is compiled; nobody reads the signatures it would write where docstrings were
    "dataclasses.py": (
        ("import inspect\n", "import remembered\n"),
        ("exec(txt, self.globals, ns)", "exec(remembered.code(txt), self.globals, ns)"),
        ("if not getattr(cls, '__doc__'):", "if False:"),
        ("inspect.unwrap(member)", "getattr(member, '__wrapped__', member)"),
    ),
    "re/_compiler.py": (
        ("import _sre\n", "import _sre\nimport remembered\n"),
        ("    if isstring(p):\n        pattern = p\n", _LOOKED_UP),
    ),
    # what only they need, and only where they are called
    "_pyodide/__init__.py": (
        ("    import traceback\n", ""),
        ("sys.excepthook = traceback.print_exception", "pass"),
    ),
}
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
