"""Packs, inside Pyodide, what was used there of Python's library, and the package, both compiled.

An entry of a zip holds the code as CPython's `.pyc` files do, without docstrings and without the time of its making.
"""

import marshal
import zipfile
from importlib.util import MAGIC_NUMBER
from pathlib import Path
from types import CodeType

from site_build.runtime.in_pyodide import stand_ins, using

PACKAGE = Path(using.PACKAGE)
LIBRARY = "/library.zip"
HEADER = MAGIC_NUMBER + (1).to_bytes(4, "little") + bytes(8)  # by hash, and never looked up
LONG_AGO = (1980, 1, 1, 0, 0, 0)


def compiled(source: str | bytes, name: str) -> bytes:
    """Return the content of a `.pyc` file."""
    return HEADER + marshal.dumps(lineless(compile(source, name, "exec", dont_inherit=True, optimize=2)))


def lineless(code: CodeType) -> CodeType:
    """Return code that no longer tells which line of the source each part came from."""
    inner = tuple(lineless(each) if isinstance(each, CodeType) else each for each in code.co_consts)
    return code.replace(co_linetable=b"", co_consts=inner)


def packed(sources: dict[str, bytes]) -> dict[str, bytes]:
    """Return files as they are packed, by their names then: code is compiled."""
    code = {f"{name}c": compiled(source, name) for name, source in sources.items() if name.endswith(".py")}
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
    pack("/package.zip", packed({path.relative_to(PACKAGE).as_posix(): path.read_bytes() for path in files}))


def these(names: list[str]) -> None:
    """Write the library anew, with these of its modules alone."""
    with zipfile.ZipFile(LIBRARY) as held:
        kept = {name: held.read(name) for name in names}
    pack(LIBRARY, kept)
