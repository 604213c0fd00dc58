"""Runs inside Pyodide at the build: uses the package in full, then packs what it needed, compiled.

An entry of a zip holds the code as CPython's `.pyc` files do, without docstrings and without the time of its making.
"""

import marshal
import sys
import zipfile
from importlib.util import MAGIC_NUMBER
from pathlib import Path

PACKAGE = Path("/package")
HEADER = MAGIC_NUMBER + (1).to_bytes(4, "little") + bytes(8)  # by hash, and never looked up
LONG_AGO = (1980, 1, 1, 0, 0, 0)


def compiled(source: bytes, name: str) -> bytes:
    """Return the content of a `.pyc` file."""
    return HEADER + marshal.dumps(compile(source, name, "exec", dont_inherit=True, optimize=2))


def pack(target: str, sources: dict[str, bytes]) -> None:
    """Write a zip without compression, so that the server's own, which is better, has it whole."""
    with zipfile.ZipFile(target, "w") as archive:
        for name, source in sorted(sources.items()):
            code = name.endswith(".py")
            entry = zipfile.ZipInfo(name.removesuffix(".py") + ".pyc" if code else name, LONG_AGO)
            archive.writestr(entry, compiled(source, name) if code else source)


def library_used(archive: str) -> dict[str, bytes]:
    """Return the source of every module of Python's own library that is loaded now."""
    places = {str(getattr(each.__spec__, "origin", "")) for each in list(sys.modules.values()) if each.__spec__}
    names = [place.removeprefix(f"{archive}/") for place in places if place.startswith(f"{archive}/")]
    with zipfile.ZipFile(archive) as held:
        return {name: held.read(name) for name in names}


def main() -> None:
    """Use the package in full, then write the two zips."""
    sys.path.insert(0, str(PACKAGE))
    from calc.warming import warm  # noqa: PLC0415 - the package is found only now

    warm(3)
    pack("/library.zip", library_used(next(path for path in sys.path if path.endswith(".zip"))))
    files = [path for path in PACKAGE.rglob("*") if path.suffix in {".py", ".toml"}]
    pack("/package.zip", {path.relative_to(PACKAGE).as_posix(): path.read_bytes() for path in files})
