"""How many bytes a visit takes: as they lie on the disk, compressed by gzip, and by brotli."""

from __future__ import annotations

import hashlib
import json
import re
import subprocess
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple
from urllib.parse import urljoin

from site_build.checks.site_faults import read
from site_build.runtime import bundle
from site_build.setup import packages
from site_build.setup.paths import CACHE
from site_build.setup.programs import surroundings

if TYPE_CHECKING:
    from collections.abc import Iterable

HERE = Path(__file__).parent
STOCK = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm", "python_stdlib.zip", "pyodide-lock.json")
"""What a page with Pyodide as published fetches before it can do anything."""
HARDEST = 11
ON_THE_WAY = 9  # as a host packs what it has not packed before
_IMPORT = re.compile(r"^import .* from '\./([\w-]+\.js)';$", re.MULTILINE)
_STYLE_LOADS = re.compile(r"""url\(\s*['"]?(?!data:|#)([^'")\s]+)""")
_NOT_YET = ("app.webmanifest", "icon-192.png")  # fetched when the site is installed


class Bytes(NamedTuple):
    """Bytes of some files together."""

    raw: int
    gzip: int
    brotli: int


def measured(files: Iterable[Path], quality: int = HARDEST) -> Bytes:
    """Return what files take together, each compressed by itself.

    Parameters
    ----------
    quality : int, 0 to 11
        Of brotli.
    """
    return Bytes(*(sum(each) for each in zip(*(_sizes(path, quality) for path in files), strict=True)))


def packed(files: Iterable[Path], quality: int = HARDEST) -> list[bytes]:
    """Return each file's content as brotli packs it, from the last time if it is the same."""
    return [_packed(path, quality) for path in files]


def _packed(path: Path, quality: int) -> bytes:
    kept = CACHE / "bytes" / f"{hashlib.sha256(path.read_bytes()).hexdigest()}-{quality}.br"
    if not kept.is_file():
        kept.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(dir=kept.parent) as folder:
            _asked([path], quality, folder)
            (Path(folder) / "0").replace(kept)
    return kept.read_bytes()


def _sizes(path: Path, quality: int) -> list[int]:
    """Return a file's sizes, from the last time if it is the same: the largest takes half a minute.

    Those of Pyodide's large files are kept for good, by their hash.
    """
    name = hashlib.sha256(path.read_bytes()).hexdigest()
    for_good: dict[str, list[int]] = json.loads((HERE / "brotli-sizes.json").read_text(encoding="utf-8"))
    if quality == HARDEST and name in for_good:
        return for_good[name]
    kept = CACHE / "bytes" / f"{name}-{quality}.json"
    if not kept.is_file():
        kept.parent.mkdir(parents=True, exist_ok=True)
        kept.write_text(json.dumps(_asked([path], quality)[0]), encoding="utf-8")
    sizes: list[int] = json.loads(kept.read_text(encoding="utf-8"))
    return sizes


def _asked(files: Iterable[Path], quality: int, into: str = "") -> list[list[int]]:
    asked = json.dumps({"quality": quality, "files": [str(path) for path in files], "into": into})
    command = [*packages.node_tool("node"), str(HERE / "brotli-sizes.mjs")]
    ran = subprocess.run(command, input=asked, capture_output=True, text=True, check=True, env=surroundings())
    told: list[list[int]] = json.loads(ran.stdout)
    return told


def ours(site: Path) -> list[Path]:
    """Return what the browser's Python fetches of this site before its first sum."""
    start = json.loads((site / bundle.MANIFEST).read_text(encoding="utf-8"))
    names = [start[part] for part in ("loader", "script", "wasm", "snapshot")]
    return [site / bundle.FOLDER / name for name in names]


def stock() -> list[Path]:
    """Return what Pyodide as published fetches, without any package."""
    folder = packages.fetch("pyodide")
    return [folder / name for name in STOCK]


def page(site: Path, name: str) -> list[Path]:
    """Return a page and all it loads before Python: styles, scripts and what these import, faces, pictures."""
    found = [site / name]
    told = read(found[0].read_text(encoding="utf-8"))
    loads = [urljoin(name, each) for each in told.loads if not each.endswith(_NOT_YET)]
    for path in (site / each for each in dict.fromkeys(loads)):
        _gather(path, found)
    return found


def _gather(path: Path, found: list[Path]) -> None:
    if path in found:
        return
    found.append(path)
    inner: list[str] = []
    if path.suffix == ".js":
        inner = _IMPORT.findall(path.read_text(encoding="utf-8"))
    elif path.suffix == ".css":
        inner = [each.partition("#")[0] for each in _STYLE_LOADS.findall(path.read_text(encoding="utf-8"))]
    for each in inner:
        _gather((path.parent / each).resolve(), found)
