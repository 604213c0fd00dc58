"""The files that let a built site compute on its own: Pyodide, the calculation package, and the font beside them.

The contract with the browser's worker
--------------------------------------
All it loads lies in one folder of the built site, `assets/runtime/`:

    manifest.json        {"wasm": "wasm-<hash>.wasm", "script": "script-<hash>.mjs", "loader": "loader-<hash>.mjs",
                          "snapshot": "snapshot-<hash>.txt", "calc": "calc-<hash>.txt", "library": "library-<hash>.txt",
                          "head": 128, "integrity": {"wasm": "sha256-...", ...},
                          "lock": {"info": {...}, "packages": {}}}
    loader-<hash>.mjs    `pyodide.mjs` as published; exports `loadPyodide`
    wasm-<hash>.wasm     Pyodide's WebAssembly, `pyodide.asm.wasm` as published
    script-<hash>.mjs    its script, `pyodide.asm.mjs` as published
    snapshot-<hash>.txt  the snapshot of Python's memory; `head` is the bytes of its head (`web/worker/snapshot.js`)

and, to start without the snapshot:

    library-<hash>.txt   a zip: what the package needs of Python's own library, compiled
    calc-<hash>.txt      a zip: the calculation package, compiled; unpacked into a folder on `sys.path`, `import calc`

While the snapshot is still being made, `serve` shows a plain site: its manifest names no snapshot, `library` is
Python's own as Pyodide brings it, and `calc` the package's sources.

The zips hold their entries as they are; what ends in `.txt` does so that the simplest host compresses it on the way.
File names in the manifest are relative to it. The worker has the manifest in its first line too, as `START`, so that it
need not wait for it. In `web/worker/`, `runtime-files.js` brings the files and holds them to `integrity`; `python.js`
hands them to `loadPyodide`, with `lock` as `lockFileContents`, so that nothing is asked of another host and no
`pyodide-lock.json` is looked for: it is not there.

`<hash>` is the first sixteen digits of the file's SHA-256, so these files may be kept for ever. The other names do
not change with their content.

The font lies in `assets/fonts/`: the files of `FONT_FILES`, and its licence.

`install()` puts all of it into a site that MkDocs has just built; nothing is written into `docs/`.
"""

from __future__ import annotations

import base64
import hashlib
import json
from typing import TYPE_CHECKING, Any

from site_build.runtime.snapshot import is_made, trimmed
from site_build.runtime.zips import checksum, zipped
from site_build.setup import packages
from site_build.setup.paths import ROOT

if TYPE_CHECKING:
    from pathlib import Path

FOLDER = "assets/runtime"
FONTS = "assets/fonts"
MANIFEST = f"{FOLDER}/manifest.json"
WORKER = "assets/web/worker.js"
FORMULAS = "formulas.toml"
"""What only the reference pages and the tests read."""
_FIRST = "const START = "
FONT_FILES = ("atkinson-hyperlegible-latin-400-normal.woff2", "atkinson-hyperlegible-latin-700-normal.woff2")


def calc_files(root: Path = ROOT) -> dict[str, bytes]:
    """Return every file the browser needs of `calc/`: its name inside the zip and its content, sorted."""
    folder = root / "calc"
    tables = (path for path in folder.rglob("*.toml") if path.name != FORMULAS)
    wanted = [*folder.rglob("*.py"), *tables]
    named = {path.relative_to(root).as_posix(): path for path in wanted}
    return {name: named[name].read_bytes() for name in sorted(named)}


def manifest(names: dict[str, str], pyodide: Path) -> dict[str, Any]:
    """Return what the worker reads first: see the top of this file."""
    lock = json.loads((pyodide / "pyodide-lock.json").read_text(encoding="utf-8"))
    return {**names, "lock": {"info": lock["info"], "packages": {}}}


def snapshot_is_made() -> bool:
    """Tell whether there is a snapshot for the sources as they are now."""
    return is_made(packages.fetch("pyodide"), calc_files())


def make_snapshot() -> None:
    """Make the snapshot for the sources as they are now, unless it is there.

    Raises
    ------
    StopError
        When the package does not run.
    """
    trimmed(packages.fetch("pyodide"), calc_files())


def files(*, plain: bool = False) -> dict[str, bytes]:
    """Return everything that joins a built site: the address in it, and the bytes to put there."""
    pyodide = packages.fetch("pyodide")
    face = packages.fetch("@fontsource/atkinson-hyperlegible")
    parts = {
        "loader": ((pyodide / "pyodide.mjs").read_bytes(), "mjs"),
        "script": ((pyodide / "pyodide.asm.mjs").read_bytes(), "mjs"),
        "wasm": ((pyodide / "pyodide.asm.wasm").read_bytes(), "wasm"),
        **(_plain_parts(pyodide) if plain else _snapshot_parts(pyodide)),
    }
    names = {part: f"{part}-{checksum(content)}.{ending}" for part, (content, ending) in parts.items()}
    start = manifest(names, pyodide)
    start["integrity"] = {part: integrity(content) for part, (content, _) in parts.items()}
    if not plain:
        start["head"] = int.from_bytes(parts["snapshot"][0][4:8], "little")
    return {
        **{f"{FOLDER}/{names[part]}": content for part, (content, _) in parts.items()},
        MANIFEST: (json.dumps(start, indent=1, sort_keys=True) + "\n").encode(),
        **{f"{FONTS}/{name}": (face / "files" / name).read_bytes() for name in FONT_FILES},
        f"{FONTS}/LICENSE": (face / "LICENSE").read_bytes(),
    }


def _snapshot_parts(pyodide: Path) -> dict[str, tuple[bytes, str]]:
    made = trimmed(pyodide, calc_files())
    return {"calc": (made.package, "txt"), "library": (made.library, "txt"), "snapshot": (made.snapshot, "txt")}


def _plain_parts(pyodide: Path) -> dict[str, tuple[bytes, str]]:
    sources = zipped(calc_files(), packed=False)
    return {"calc": (sources, "txt"), "library": ((pyodide / "python_stdlib.zip").read_bytes(), "txt")}


def integrity(content: bytes) -> str:
    """Return the SHA-256 as browsers write it: W3C, Subresource Integrity, 3.1.

    >>> integrity(b"")
    'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='
    """
    return f"sha256-{base64.b64encode(hashlib.sha256(content).digest()).decode()}"


def install(site: Path, *, plain: bool = False) -> None:
    """Put runtime and font into a built site, and the manifest above its worker."""
    made = files(plain=plain)
    for name, content in made.items():
        target = site / name
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content)
    worker = site / WORKER
    script = worker.read_text(encoding="utf-8")
    if script.startswith(_FIRST):  # not the first time
        script = script.split("\n", 1)[1]
    worker.write_text(f"{_FIRST}{json.dumps(json.loads(made[MANIFEST]))};\n{script}", encoding="utf-8")
