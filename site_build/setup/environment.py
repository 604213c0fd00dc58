"""The project's own Python environment, made from the lock files."""

from __future__ import annotations

import hashlib
import importlib.util
import re
import shutil
import sys
from typing import TYPE_CHECKING

from site_build.setup.paths import LOCKS, VENV, python_in
from site_build.setup.programs import run_logged
from site_build.setup.progress import StopError, say, step
from site_build.setup.reasons import reason

if TYPE_CHECKING:
    from pathlib import Path

INCLUDES = {"site": ("site",), "test": ("site", "test"), "node": ("node",)}  # what installing one lock also settles
_QUIET = ("--quiet", "--disable-pip-version-check", "--no-input", "--progress-bar", "off")
_EXACT = ("--require-hashes", "--no-deps", "--only-binary", ":all:")


def python() -> Path:
    """Return the environment's interpreter."""
    return python_in(VENV)


def made_with(venv: Path) -> str:
    """Return the Python version an environment was made with, or an empty text.

    ``venv`` writes ``version``, other makers ``version_info``.
    """
    settings = venv / "pyvenv.cfg"
    if not settings.is_file() or not python_in(venv).exists():
        return ""
    found = re.search(r"^version(?:_info)?\s*=\s*(\d+\.\d+\.\d+)", settings.read_text(encoding="utf-8"), re.MULTILINE)
    return found[1] if found else ""


def same_python(version: str, running: tuple[int, int]) -> bool:
    """Tell whether a version like 3.11.7 is the language version that runs now.

    >>> same_python("3.11.7", (3, 11)), same_python("3.11.7", (3, 12)), same_python("", (3, 11))
    (True, False, False)
    """
    return version.split(".")[:2] == [str(part) for part in running]


def stamp_of(lock: bytes, version: str) -> str:
    """Return what must not have changed for an installed lock to be still good."""
    return f"{hashlib.sha256(lock).hexdigest()} Python {version}\n"


def count(lock: str) -> int:
    r"""Return how many packages a lock lists, all its alternatives counted once.

    >>> count("a==1 ; python_version < '3.12'\na==2 ; python_version >= '3.12'\nb==1\n    --hash=x\n")
    2
    """
    return len(set(re.findall(r"^([A-Za-z0-9._-]+)==", lock, re.MULTILINE)))


def ensure(name: str) -> None:
    """Install one lock file into the environment, unless that was done already.

    Parameters
    ----------
    name : str
        ``site``, ``test`` or ``node``: a file of ``locks/``. ``test`` holds all of ``site``.

    Raises
    ------
    StopError
        With what to do, when the environment cannot be made or a package cannot be had.
    """
    lock = LOCKS / f"{name}.txt"
    content = lock.read_bytes()
    stamp = _stamp(name)
    version = made_with(VENV)
    good = same_python(version, sys.version_info[:2])
    if good and stamp.is_file() and stamp.read_text(encoding="utf-8") == stamp_of(content, version):
        return
    if not good or run_logged([python(), "-m", "pip", "--version"], "pip").code:
        make()
    what = f"Installing what locks/{name}.txt lists (packages: {count(content.decode())})"
    with step(what):
        ran = run_logged([python(), "-m", "pip", "install", *_QUIET, *_EXACT, "-r", lock], "pip")
        if ran.code:
            raise StopError(reason(what, ran.output, "pip"))
    for settled in INCLUDES[name]:
        part = (LOCKS / f"{settled}.txt").read_bytes()
        _stamp(settled).write_text(stamp_of(part, made_with(VENV)), encoding="utf-8")


def make() -> None:
    """Make the environment anew.

    Raises
    ------
    StopError
        When Python came without the parts this needs, or the folder cannot be written.
    """
    missing = [part for part in ("venv", "ensurepip") if importlib.util.find_spec(part) is None]
    if missing:
        package = f"python{sys.version_info[0]}.{sys.version_info[1]}-venv"
        raise StopError(
            f"This Python came without {' and '.join(missing)}: install it (on Debian or Ubuntu as root: "
            f"apt-get install {package}), then run this again."
        )
    if VENV.exists():
        say(".venv was made with another Python or is broken: making it anew.")
        shutil.rmtree(VENV)
    with step("Making the Python environment .venv"):
        ran = run_logged([sys.executable, "-m", "venv", VENV], "venv")
        if ran.code:
            raise StopError(reason("Making .venv", ran.output, "venv"))


def _stamp(name: str) -> Path:
    return VENV / f"installed-{name}.txt"
