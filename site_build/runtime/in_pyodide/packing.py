"""Packs, inside Pyodide, what was used there of Python's library, and the package, both compiled.

An entry of a zip holds the code as CPython's `.pyc` files do, without docstrings and without the time of its making.
The package's functions come without their annotations, which nothing reads.
"""

import ast
import marshal
import zipfile
from importlib.util import MAGIC_NUMBER
from pathlib import Path

from site_build.runtime.in_pyodide import stand_ins, using
from site_build.runtime.in_pyodide.lines import lineless

PACKAGE = Path(using.PACKAGE)
LIBRARY = "/library.zip"
HEADER = MAGIC_NUMBER + (1).to_bytes(4, "little") + bytes(8)  # by hash, and never looked up
LONG_AGO = (1980, 1, 1, 0, 0, 0)


def compiled(source: ast.Module | bytes, name: str) -> bytes:
    """Return the content of a `.pyc` file."""
    return HEADER + marshal.dumps(lineless(compile(source, name, "exec", dont_inherit=True, optimize=2)))


def unannotated(source: bytes) -> ast.Module:
    """Return a module whose functions have no annotations; those of classes stay, as dataclasses read them."""
    tree = ast.parse(source)
    for node in ast.walk(tree):
        if isinstance(node, ast.arg):
            node.annotation = None
        elif isinstance(node, ast.FunctionDef):
            node.returns = None
    return tree


def packed(sources: dict[str, bytes], *, annotated: bool = True) -> dict[str, bytes]:
    """Return files as they are packed, by their names then: code is compiled."""
    code = {
        f"{name}c": compiled(source if annotated else unannotated(source), name)
        for name, source in sources.items()
        if name.endswith(".py")
    }
    return code | {name: source for name, source in sources.items() if not name.endswith(".py")}


def pack(target: str, contents: dict[str, bytes]) -> None:
    """Write a zip without compression, so that the server's own, which is better, has it whole."""
    with zipfile.ZipFile(target, "w") as archive:
        for name in sorted(contents):
            archive.writestr(zipfile.ZipInfo(name, LONG_AGO), contents[name])


def everything(names: list[str]) -> None:
    """Write both zips: these modules of Python's library as published, and the package."""
    with zipfile.ZipFile(using.archive()) as held:
        library = {name: held.read(name) for name in names}
    pack(LIBRARY, packed(stand_ins.replaced(library)))
    files = [path for path in PACKAGE.rglob("*") if path.suffix in {".py", ".toml"}]
    sources = {path.relative_to(PACKAGE).as_posix(): path.read_bytes() for path in files}
    pack("/package.zip", packed(sources, annotated=False))


def these(names: list[str]) -> None:
    """Write the library anew, with these of its modules alone."""
    with zipfile.ZipFile(LIBRARY) as held:
        kept = {name: held.read(name) for name in names}
    pack(LIBRARY, kept)
