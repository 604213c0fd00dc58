"""Where things lie in a clone."""

import os
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
SITE = ROOT / "site"
VENV = ROOT / ".venv"
CACHE = ROOT / ".cache"
NPM = CACHE / "npm"
LOCKS = ROOT / "locks"
PACKAGES = ROOT / "site_build" / "packages.toml"


def venv_program(name: str, venv: Path = VENV, *, windows: bool = os.name == "nt") -> Path:
    """Path of a program inside a virtual environment."""
    if windows:
        return venv / "Scripts" / f"{name}.exe"
    return venv / "bin" / name


def shown(path: Path) -> str:
    """Path as a person in the clone would type it."""
    try:
        return path.relative_to(ROOT).as_posix()
    except ValueError:
        return str(path)
