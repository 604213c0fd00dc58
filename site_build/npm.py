"""The rows of `packages.toml`, and where each package lies once it is unpacked."""

import tomllib
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from site_build.places import NPM, PACKAGES
from site_build.plain import PlainError


@dataclass(frozen=True, slots=True)
class Package:
    """One package of the npm registry, held to an exact tarball."""

    name: str
    version: str
    sha256: str
    licence: str
    set: str
    files: tuple[str, ...]
    why: str

    @property
    def slug(self) -> str:
        """Name of its tarball and folder: no scope sign, no slash."""
        return f"{self.name.removeprefix('@').replace('/', '-')}-{self.version}"

    @property
    def spec(self) -> str:
        """What npm calls this version."""
        return f"{self.name}@{self.version}"


def read_packages(table: Path = PACKAGES) -> tuple[Package, ...]:
    """Every package the site and its tests take from npm."""
    rows: list[dict[str, Any]] = tomllib.loads(table.read_text(encoding="utf-8"))["package"]
    return tuple(Package(**{**row, "files": tuple(row["files"])}) for row in rows)


def package_folder(name: str, *, cache: Path = NPM) -> Path:
    """Folder with the unpacked files of one package, by its npm name.

    Raises
    ------
    PlainError
        When the package is not in the table or not there yet.
    """
    for package in read_packages():
        if package.name == name:
            folder = cache / package.slug
            if folder.is_dir():
                return folder
            raise PlainError(f"{package.spec} is not here yet: run `python3 -m site_build build` once, with a network.")
    raise PlainError(f"{name} is not listed in site_build/packages.toml: add a row for it.")
