"""The files that let a built site compute on its own: Pyodide, the calculation package, and the font beside them.

The contract with the browser's worker
--------------------------------------
All it loads lies in one folder of the built site, `assets/runtime/`:

    manifest.json        {"pyodide": "pyodide.mjs", "calc": "calc-<hash>.zip", "lock": {"info": {...}, "packages": {}}}
    pyodide.mjs          the module to import; exports `loadPyodide`
    pyodide.asm.mjs, pyodide.asm.wasm, python_stdlib.zip      what it loads for itself from the same folder
    calc-<hash>.zip      the calculation package; unpacked into a folder on `sys.path` it is `import calc`

File names in the manifest are relative to the manifest. A worker does, in this order:

1. fetch `manifest.json`, then start to fetch the zip that `calc` names;
2. import the module that `pyodide` names and call `loadPyodide` with `indexURL` and `packageBaseUrl` both set to this
   folder's address and `lockFileContents` set to `lock` (as given, or as JSON text), so that nothing is asked of
   another host and no `pyodide-lock.json` is looked for: it is not there;
3. `unpackArchive(bytes, "zip", {extractDir: ...})`, put the folder on `sys.path`, `from calc import bridge`.

`<hash>` changes when, and only when, a file of `calc/` does, so the zip may be kept for ever. The other names do
not change with their content.

The font lies in `assets/fonts/`: the files of `FONT_FILES`, and its licence.

`install()` puts all of it into a site that MkDocs has just built; nothing is written into `docs/`.
"""

from __future__ import annotations

import hashlib
import io
import json
import zipfile
from typing import TYPE_CHECKING, Any

from site_build import packages
from site_build.places import ROOT

if TYPE_CHECKING:
    from pathlib import Path

FOLDER = "assets/runtime"
FONTS = "assets/fonts"
MANIFEST = f"{FOLDER}/manifest.json"
PYODIDE_FILES = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm", "python_stdlib.zip")
FONT_FILES = ("atkinson-hyperlegible-latin-400-normal.woff2", "atkinson-hyperlegible-latin-700-normal.woff2")
_LONG_AGO = (1980, 1, 1, 0, 0, 0)  # the earliest time a zip can hold


def calc_files(root: Path = ROOT) -> dict[str, bytes]:
    """Return every file the browser needs of `calc/`: its name inside the zip and its content, sorted."""
    folder = root / "calc"
    wanted = [*folder.rglob("*.py"), *folder.rglob("*.toml")]
    named = {path.relative_to(root).as_posix(): path for path in wanted}
    return {name: named[name].read_bytes() for name in sorted(named)}


def content_hash(contents: dict[str, bytes]) -> str:
    """Return sixteen hexadecimal digits that change when a name or a content does."""
    digest = hashlib.sha256()
    for name, content in contents.items():
        digest.update(f"{name}\0{len(content)}\0".encode())
        digest.update(content)
    return digest.hexdigest()[:16]


def zipped(contents: dict[str, bytes]) -> bytes:
    """Return a zip with the entries in the order given, without clock, owner or system in it."""
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w") as archive:
        for name, content in contents.items():
            entry = zipfile.ZipInfo(name, _LONG_AGO)
            entry.create_system = 3
            entry.external_attr = 0o644 << 16
            archive.writestr(entry, content, zipfile.ZIP_DEFLATED, 9)
    return buffer.getvalue()


def manifest(calc: dict[str, bytes], pyodide: Path) -> dict[str, Any]:
    """Return what the worker reads first: see the top of this file."""
    lock = json.loads((pyodide / "pyodide-lock.json").read_text(encoding="utf-8"))
    return {
        "pyodide": PYODIDE_FILES[0],
        "calc": f"calc-{content_hash(calc)}.zip",
        "lock": {"info": lock["info"], "packages": {}},
    }


def files() -> dict[str, bytes]:
    """Return everything that joins a built site: the address in it, and the bytes to put there."""
    pyodide = packages.fetch("pyodide")
    face = packages.fetch("font")
    calc = calc_files()
    start = manifest(calc, pyodide)
    return {
        **{f"{FOLDER}/{name}": (pyodide / name).read_bytes() for name in PYODIDE_FILES},
        f"{FOLDER}/{start['calc']}": zipped(calc),
        MANIFEST: (json.dumps(start, indent=1, sort_keys=True) + "\n").encode(),
        **{f"{FONTS}/{name}": (face / "files" / name).read_bytes() for name in FONT_FILES},
        f"{FONTS}/LICENSE": (face / "LICENSE").read_bytes(),
    }


def install(site: Path) -> None:
    """Put runtime and font into a built site."""
    for name, content in files().items():
        target = site / name
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content)
