"""What the browser's Python starts from: a snapshot of its memory, or its library and the package, both compiled."""

from __future__ import annotations

import shutil
import tempfile
import threading
from dataclasses import dataclass
from pathlib import Path

from site_build.runtime.zips import content_hash, zipped
from site_build.setup import packages
from site_build.setup.paths import CACHE, WEB
from site_build.setup.programs import run_logged
from site_build.setup.progress import StopError, step
from site_build.setup.reasons import reason

INSIDE = Path(__file__).parent / "in_pyodide"
SHARED = (WEB / "worker/unzip.js", WEB / "worker/snapshot.js")
FILES = ("library.zip", "package.zip", "snapshot")
PLACE = CACHE / "trimmed"
KEPT = 4
"""So many are kept: who goes back and forth between two states of the sources waits for each but once."""
_MAKING = threading.Lock()  # of two builds at once the second waits for what the first makes


@dataclass(frozen=True, slots=True)
class Trimmed:
    """Two zips of `.pyc` files and data, and a snapshot of the memory after they had been used."""

    library: bytes
    package: bytes
    snapshot: bytes


def trimmed(pyodide: Path, calc: dict[str, bytes], place: Path = PLACE) -> Trimmed:
    """Return all of it; made anew, by running the package in full, only when something they depend on has changed.

    Parameters
    ----------
    pyodide : Path
        Folder of the npm package.
    calc : dict of str to bytes
        The package's files by name.
    place : Path
        Where the last ones are kept.

    Raises
    ------
    StopError
        When the package does not run.
    """
    kept = _kept(pyodide, calc, place)
    with _MAKING:
        if not kept.is_dir():
            with step("Trimming Python to what the worksheets need"):
                _make(pyodide, calc, kept)
    return Trimmed(*((kept / name).read_bytes() for name in FILES))


def is_made(pyodide: Path, calc: dict[str, bytes], place: Path = PLACE) -> bool:
    """Tell whether `trimmed` has only to read what it made before."""
    return _kept(pyodide, calc, place).is_dir()


def _kept(pyodide: Path, calc: dict[str, bytes], place: Path) -> Path:
    scripts = {path.name: path.read_bytes() for path in [*sorted(INSIDE.iterdir()), *SHARED] if path.is_file()}
    return place / content_hash({**calc, **scripts, "pyodide": pyodide.name.encode()})


def _make(pyodide: Path, calc: dict[str, bytes], kept: Path) -> None:
    kept.parent.mkdir(parents=True, exist_ok=True)
    for old in sorted(kept.parent.iterdir(), key=lambda each: each.stat().st_mtime)[: 1 - KEPT]:
        shutil.rmtree(old, ignore_errors=True)
    with tempfile.TemporaryDirectory(dir=kept.parent.parent) as scratch:
        folder = Path(scratch) / "made"
        folder.mkdir()
        (folder / "calc.zip").write_bytes(zipped(calc))
        for script in ("trim.mjs", "snapshot.mjs"):
            command = [*packages.node_tool("node"), INSIDE / script, pyodide, folder, INSIDE]
            ran = run_logged(command, "trimming")
            if ran.code:
                raise StopError(reason("Running the worksheets in the browser's Python", ran.output, "trimming"))
        try:
            folder.rename(kept)
        except OSError:  # another program has made the same meanwhile
            if not kept.is_dir():
                raise
