"""The files that let a browser run `calc/`: Pyodide and the package itself, all from the site's own origin.

The contract with the browser's worker
--------------------------------------
All of it lies in one folder of the built site, `assets/runtime/`:

    manifest.json        {"pyodide": "pyodide.mjs", "calc": "calc-<hash>.zip", "lock": {"info": {...}, "packages": {}}}
    pyodide.mjs          the module to import; exports `loadPyodide`
    pyodide.asm.mjs, pyodide.asm.wasm, python_stdlib.zip      what it loads for itself from the same folder
    calc-<hash>.zip      the calculation package; unpacked into a folder on `sys.path` it is `import calc`

File names in the manifest are relative to the manifest. A worker does, in this order:

1. fetch `manifest.json`, then start to fetch the zip that `calc` names;
2. import the module that `pyodide` names and call `loadPyodide` with `indexURL` and `packageBaseUrl` both set to this
   folder's address and `lockFileContents` set to `lock` (as given, or as JSON text), so that nothing is asked of
   another host and no `pyodide-lock.json` is looked for;
3. `unpackArchive(bytes, "zip", {extractDir: ...})`, put the folder on `sys.path`, `from calc import bridge`.

`<hash>` changes when, and only when, a file of `calc/` does, so the zip may be kept for ever. The other names do
not change with their content.

The site's hooks call `files()` and give each entry to MkDocs; nothing is written into `docs/`.
"""

import hashlib
import io
import json
import zipfile
from pathlib import Path
from typing import Any

from site_build.npm import package_folder
from site_build.places import ROOT

FOLDER = "assets/runtime"
MANIFEST = f"{FOLDER}/manifest.json"
PYODIDE_FILES = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm", "python_stdlib.zip")
_LONG_AGO = (1980, 1, 1, 0, 0, 0)  # the earliest time a zip can hold


def calc_files(root: Path = ROOT) -> dict[str, bytes]:
    """Name inside the zip and content of every file the browser needs of `calc/`, sorted by name."""
    folder = root / "calc"
    wanted = [*folder.rglob("*.py"), *(folder / "data").rglob("*.toml")]
    named = {path.relative_to(root).as_posix(): path for path in wanted}
    return {name: named[name].read_bytes() for name in sorted(named)}


def content_hash(contents: dict[str, bytes]) -> str:
    """Sixteen hexadecimal digits that change when a name or a content does."""
    digest = hashlib.sha256()
    for name, content in contents.items():
        digest.update(f"{name}\0{len(content)}\0".encode())
        digest.update(content)
    return digest.hexdigest()[:16]


def zipped(contents: dict[str, bytes]) -> bytes:
    """Zip with the entries in the order given, without clock, owner or system in it."""
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w") as archive:
        for name, content in contents.items():
            entry = zipfile.ZipInfo(name, _LONG_AGO)
            entry.create_system = 3
            entry.external_attr = 0o644 << 16
            archive.writestr(entry, content, zipfile.ZIP_DEFLATED, 9)
    return buffer.getvalue()


def manifest(calc: dict[str, bytes], pyodide: Path) -> dict[str, Any]:
    """Say what the worker reads first: see the top of this file."""
    lock = json.loads((pyodide / "pyodide-lock.json").read_text(encoding="utf-8"))
    return {
        "pyodide": "pyodide.mjs",
        "calc": f"calc-{content_hash(calc)}.zip",
        "lock": {"info": lock["info"], "packages": {}},
    }


def files() -> dict[str, Path | bytes]:
    """Everything under `assets/runtime/`: address in the site, and the file or the bytes to put there.

    Raises
    ------
    PlainError
        When the Pyodide package has not been brought yet.
    """
    pyodide = package_folder("pyodide")
    calc = calc_files()
    start = manifest(calc, pyodide)
    made: dict[str, Path | bytes] = {f"{FOLDER}/{name}": pyodide / name for name in PYODIDE_FILES}
    made[f"{FOLDER}/{start['calc']}"] = zipped(calc)
    made[MANIFEST] = (json.dumps(start, indent=1, sort_keys=True) + "\n").encode()
    return made
