"""The files that let a built site compute on its own: Pyodide, the calculation package, and the font beside them.

The contract with the browser's worker
--------------------------------------
All it loads lies in one folder of the built site, `assets/runtime/`:

    manifest.json        {"pyodide": "pyodide.mjs", "calc": "calc-<hash>.txt", "library": "library-<hash>.txt",
                          "key": "<hash>", "lock": {"info": {...}, "packages": {}}}
    pyodide.mjs          the module to import; exports `loadPyodide`
    pyodide.asm.mjs, pyodide.asm.wasm      what it loads for itself from the same folder
    library-<hash>.txt   a zip: what the package needs of Python's own library, compiled, lighter (`inside/lighter.py`)
    calc-<hash>.txt      a zip: the calculation package, compiled; unpacked into a folder on `sys.path`, `import calc`

The zips hold their entries as they are and end in `.txt`, so that the simplest host compresses them on the way, and
better than a zip would. File names in the manifest are relative to the manifest. A worker does, in this order:

1. start to fetch and compile the WebAssembly; fetch `manifest.json`, then what it names;
2. import the module that `pyodide` names and call `loadPyodide` with `indexURL` and `packageBaseUrl` both set to this
   folder's address, `stdLibURL` to that of `library`, and `lockFileContents` to `lock` (as given, or as JSON text), so
   that nothing is asked of another host and no `pyodide-lock.json` is looked for: it is not there;
3. put the files of `calc` into a folder (`web/unpack.js`), the folder on `sys.path`, and `from calc import bridge`.

`<hash>` changes when, and only when, the file's content does, so these files may be kept for ever; `key` changes when
anything that Python would load does. The other names do not change with their content.

The font lies in `assets/fonts/`: the files of `FONT_FILES`, and its licence.

`install()` puts all of it into a site that MkDocs has just built; nothing is written into `docs/`.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from site_build import packages
from site_build.places import ROOT
from site_build.trimming import trimmed
from site_build.zips import content_hash

if TYPE_CHECKING:
    from pathlib import Path

FOLDER = "assets/runtime"
FONTS = "assets/fonts"
MANIFEST = f"{FOLDER}/manifest.json"
PYODIDE_FILES = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm")
FONT_FILES = ("atkinson-hyperlegible-latin-400-normal.woff2", "atkinson-hyperlegible-latin-700-normal.woff2")


def calc_files(root: Path = ROOT) -> dict[str, bytes]:
    """Return every file the browser needs of `calc/`: its name inside the zip and its content, sorted."""
    folder = root / "calc"
    wanted = [*folder.rglob("*.py"), *folder.rglob("*.toml")]
    named = {path.relative_to(root).as_posix(): path for path in wanted}
    return {name: named[name].read_bytes() for name in sorted(named)}


def manifest(names: dict[str, str], pyodide: Path) -> dict[str, Any]:
    """Return what the worker reads first: see the top of this file."""
    lock = json.loads((pyodide / "pyodide-lock.json").read_text(encoding="utf-8"))
    key = content_hash({**{name: name.encode() for name in names.values()}, "pyodide": pyodide.name.encode()})
    return {"pyodide": PYODIDE_FILES[0], **names, "key": key, "lock": {"info": lock["info"], "packages": {}}}


def files() -> dict[str, bytes]:
    """Return everything that joins a built site: the address in it, and the bytes to put there."""
    pyodide = packages.fetch("pyodide")
    face = packages.fetch("font")
    made = trimmed(pyodide, calc_files())
    zips = {"calc": made.package, "library": made.library}
    names = {name: f"{name}-{content_hash({name: content})}.txt" for name, content in zips.items()}
    start = manifest(names, pyodide)
    return {
        **{f"{FOLDER}/{name}": (pyodide / name).read_bytes() for name in PYODIDE_FILES},
        **{f"{FOLDER}/{names[name]}": content for name, content in zips.items()},
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
