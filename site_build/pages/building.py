"""From `docs/` and `calc/` to a finished site, never half written."""

from __future__ import annotations

import os
import shutil
import subprocess
import tempfile
import time
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager, nullcontext
from pathlib import Path
from typing import TYPE_CHECKING

from site_build.offline import precache
from site_build.pages import policy, search
from site_build.runtime import bundle
from site_build.setup import environment
from site_build.setup.paths import CACHE, NPM, ROOT, SITE, VENV, shown
from site_build.setup.programs import run_logged
from site_build.setup.progress import StopError
from site_build.setup.reasons import reason

if TYPE_CHECKING:
    from collections.abc import Iterator
    from contextlib import AbstractContextManager

_TROUBLE = ("WARNING", "ERROR", "Error", "Aborted", "Traceback")
_STRICT = ("--strict", "--quiet", "--clean")
_MADE = shutil.ignore_patterns(
    ".*_cache", ".git", ".hypothesis", CACHE.name, VENV.name, SITE.name, "__pycache__", "to-carry"
)
_PATIENCE = 20  # tries to rename a folder that another program holds open


def build(site: Path, *, plain: bool = False) -> None:
    """Build the whole site into a folder, every warning of MkDocs an error.

    Parameters
    ----------
    site : Path
        The folder.
    plain : bool
        Without the snapshot of Python's memory, which takes longer to make than all else.

    Raises
    ------
    StopError
        With the lines in which MkDocs says what is wrong.
    """
    command = [environment.python(), "-m", "mkdocs", "build", *_STRICT, "--site-dir", site]
    steady = {"NO_MKDOCS_2_WARNING": "1", "SOURCE_DATE_EPOCH": os.environ.get("SOURCE_DATE_EPOCH") or last_commit()}
    with ThreadPoolExecutor() as pool:
        snapshot = None if plain else pool.submit(bundle.make_snapshot)
        ran = run_logged(command, "mkdocs", more=steady)
    if ran.code:
        told = [line for line in ran.output.splitlines() if line.startswith(_TROUBLE) and not line.startswith("Trace")]
        if told:
            raise StopError("\n".join([*told, "The site did not build: put right what stands above."]))
        last = ran.output.strip().splitlines()[-1:]
        raise StopError("\n".join([*last, reason("Building the site", ran.output, "mkdocs")]))
    if snapshot:
        snapshot.result()
    finish(site, plain=plain)


def finish(site: Path, *, plain: bool = False) -> None:
    """Add to what MkDocs built all that is not of its making."""
    search.install(site)
    bundle.install(site, plain=plain)
    policy.install(site)
    precache.install(site)


def last_commit(folder: Path = ROOT) -> str:
    """Return the time of the last commit, so that one commit always builds the same bytes; 0 outside git."""
    git = shutil.which("git")
    if git is None:
        return "0"
    told = subprocess.run(
        [git, "log", "-1", "--format=%ct"], cwd=folder, capture_output=True, text=True, check=False
    ).stdout.strip()
    return told if told.isdigit() else "0"


@contextmanager
def scratch() -> Iterator[Path]:
    """Lend an empty folder on the disk where the site lies."""
    CACHE.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(dir=CACHE, prefix="build-", ignore_cleanup_errors=True) as folder:
        yield Path(folder)


def publish(guard: AbstractContextManager[object] | None = None, *, plain: bool = False) -> None:
    """Build beside the site and put it in place only when it is whole; hold ``guard`` meanwhile."""
    with scratch() as folder:
        build(folder / "new", plain=plain)
        with guard or nullcontext():
            swap(folder / "new", SITE, folder / "old")


def build_copy(folder: Path) -> Path:
    """Copy the sources into a new folder and build there, with the packages of this clone alone; return the site.

    Nothing that was made before is used, neither the snapshot of Python's memory nor anything in the caches.

    Raises
    ------
    StopError
        With what the build says when it fails.
    """
    shutil.copytree(ROOT, folder, ignore=_MADE)
    (folder / VENV.name).symlink_to(VENV, target_is_directory=True)
    (folder / CACHE.name).mkdir()
    (folder / CACHE.name / NPM.name).symlink_to(NPM, target_is_directory=True)
    more = {"SOURCE_DATE_EPOCH": os.environ.get("SOURCE_DATE_EPOCH") or last_commit(), "PYTHONPATH": str(folder)}
    ran = run_logged([environment.python(), "-m", "site_build", "build"], "copy", folder=folder, more=more)
    if ran.code:
        raise StopError(reason("Building a copy of the sources", ran.output, "copy"))
    return folder / SITE.name


def swap(new: Path, place: Path, old: Path) -> None:
    """Put one folder in the place of another."""
    if place.exists():
        _rename(place, old)
    _rename(new, place)


def differences(first: Path, second: Path) -> list[str]:
    """Return the names, sorted, of the files that two folders do not have alike."""
    ours, theirs = _contents(first), _contents(second)
    return sorted(name for name in ours.keys() | theirs.keys() if ours.get(name) != theirs.get(name))


def _contents(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def _rename(source: Path, target: Path) -> None:
    for _ in range(_PATIENCE):
        try:
            source.rename(target)
        except PermissionError:  # Windows, while any file inside is open
            time.sleep(0.1)
        else:
            return
    raise StopError(f"{shown(source)} is held open by another program: close that, then run this again.")
