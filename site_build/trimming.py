"""What the browser's Python starts from: a snapshot of its memory, or its library and the package, both compiled."""

from __future__ import annotations

import shutil
import tempfile
from dataclasses import dataclass
from pathlib import Path

from site_build import packages
from site_build.places import CACHE
from site_build.programs import run_logged
from site_build.reasons import reason
from site_build.tell import StopError, step
from site_build.zips import content_hash, zipped

HERE = Path(__file__).parent
INSIDE = HERE / "inside"
SHARED = (HERE / "web/unpack.js", HERE / "web/snapshot.js")
FILES = ("library.zip", "package.zip", "snapshot")
PLACE = CACHE / "trimmed"


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
    scripts = {path.name: path.read_bytes() for path in [*sorted(INSIDE.iterdir()), *SHARED] if path.is_file()}
    kept = place / content_hash({**calc, **scripts, "pyodide": pyodide.name.encode()})
    if not kept.is_dir():
        with step("Trimming Python to what the worksheets need"):
            _make(pyodide, calc, kept)
    return Trimmed(*((kept / name).read_bytes() for name in FILES))


def _make(pyodide: Path, calc: dict[str, bytes], kept: Path) -> None:
    shutil.rmtree(kept.parent, ignore_errors=True)
    kept.parent.mkdir(parents=True)
    with tempfile.TemporaryDirectory(dir=kept.parent.parent) as scratch:
        folder = Path(scratch) / "made"
        folder.mkdir()
        (folder / "calc.zip").write_bytes(zipped(calc))
        for script in ("trim.mjs", "snapshot.mjs"):
            command = [*packages.node_tool("node"), INSIDE / script, pyodide, folder, INSIDE]
            ran = run_logged(command, "trimming")
            if ran.code:
                raise StopError(reason("Running the worksheets in the browser's Python", ran.output, "trimming"))
        folder.rename(kept)
