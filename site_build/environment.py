"""The project's own Python environment, made from the lock files."""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
import venv
from pathlib import Path

from site_build.tell import StopError, step

ROOT = Path(__file__).resolve().parent.parent
CACHE = ROOT / ".cache"
VENV = ROOT / ".venv"
LOCKS = ROOT / "locks"


def python() -> Path:
    """Return the environment's interpreter, where each platform keeps it."""
    return VENV / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def surroundings() -> dict[str, str]:
    """Return environment variables for programs that import this project."""
    return {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONDONTWRITEBYTECODE": "1", "PYTHONHASHSEED": "0"}


def stamp_of(lock: Path) -> str:
    """Return what must not have changed for an installed lock to be still good."""
    return hashlib.sha256(lock.read_bytes() + sys.version.encode() + sys.executable.encode()).hexdigest()


def ensure(name: str) -> None:
    """Install one lock file into the environment, unless that was done already.

    Parameters
    ----------
    name : str
        ``site``, ``test`` or ``node``: a file of ``locks/``.

    Raises
    ------
    StopError
        With what to do, when the environment cannot be made or a package cannot be had.
    """
    lock = LOCKS / f"{name}.txt"
    stamp = VENV / f"plied-{name}.stamp"
    wanted = stamp_of(lock)
    if python().exists() and stamp.exists() and stamp.read_text() == wanted:
        return
    if not python().exists():
        with step("Making the Python environment .venv"):
            _make()
    with step(f"Installing what locks/{name}.txt lists"):
        done = subprocess.run(
            [
                str(python()),
                "-m",
                "pip",
                "install",
                "--quiet",
                "--disable-pip-version-check",
                "--require-hashes",
                "--only-binary",
                ":all:",
                "-r",
                str(lock),
            ],
            check=False,
        )
    if done.returncode:
        msg = f"Installing locks/{name}.txt failed. Check the network, then run the same command again."
        raise StopError(msg)
    stamp.write_text(wanted)


def _make() -> None:
    try:
        venv.EnvBuilder(with_pip=True, clear=VENV.exists()).create(VENV)
    except (OSError, subprocess.CalledProcessError) as error:
        msg = (
            f"Could not make {VENV}: {error}. On Debian install the package python3-venv; check disk space and rights."
        )
        raise StopError(msg) from error
