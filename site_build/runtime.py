"""The files a built site needs to compute: Pyodide, the calculation package, the font.

``assets/runtime/manifest.json`` names them: ``{"calc": "calc-HASH.zip"}``; the worker reads it beside ``pyodide.mjs``.
"""

from __future__ import annotations

import hashlib
import io
import json
import shutil
import zipfile
from typing import TYPE_CHECKING

from site_build import packages
from site_build.environment import ROOT

if TYPE_CHECKING:
    from pathlib import Path

PYODIDE_FILES = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm", "python_stdlib.zip", "pyodide-lock.json")
FONT_FILES = ("atkinson-hyperlegible-latin-400-normal.woff2", "atkinson-hyperlegible-latin-700-normal.woff2")
_EPOCH = (1980, 1, 1, 0, 0, 0)


def calc_zip() -> bytes:
    """Return the calculation package as a zip that is the same for the same files."""
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w", zipfile.ZIP_DEFLATED) as archive:
        for path in sorted((ROOT / "calc").rglob("*")):
            if path.suffix in {".py", ".toml"}:
                entry = zipfile.ZipInfo(path.relative_to(ROOT).as_posix(), _EPOCH)
                entry.compress_type = zipfile.ZIP_DEFLATED
                archive.writestr(entry, path.read_bytes())
    return held.getvalue()


def install(site: Path) -> None:
    """Put runtime and font into a built site."""
    runtime = site / "assets" / "runtime"
    runtime.mkdir(parents=True, exist_ok=True)
    pyodide = packages.fetch("pyodide")
    for name in PYODIDE_FILES:
        shutil.copyfile(pyodide / name, runtime / name)
    archive = calc_zip()
    name = f"calc-{hashlib.sha256(archive).hexdigest()[:12]}.zip"
    (runtime / name).write_bytes(archive)
    (runtime / "manifest.json").write_text(json.dumps({"calc": name}) + "\n", encoding="utf-8")
    fonts = site / "assets" / "fonts"
    fonts.mkdir(parents=True, exist_ok=True)
    face = packages.fetch("font")
    for file in FONT_FILES:
        shutil.copyfile(face / "files" / file, fonts / file)
    shutil.copyfile(face / "LICENSE", fonts / "LICENSE")
