"""Where things lie in a clone, on every system."""

from __future__ import annotations

import os
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SITE = ROOT / "site"
VENV = ROOT / ".venv"
CACHE = ROOT / ".cache"
LOGS = CACHE / "log"
NPM = CACHE / "npm"
LOCKS = ROOT / "locks"
DOCS = ROOT / "docs"
WEB = ROOT / "site_build" / "web"


def python_in(venv: Path, *, windows: bool = os.name == "nt") -> Path:
    """Return a virtual environment's interpreter, where each system keeps it."""
    return venv / "Scripts" / "python.exe" if windows else venv / "bin" / "python"


def shown(path: Path) -> str:
    """Return a path as a person who stands in the clone would type it."""
    return path.relative_to(ROOT).as_posix() if path.is_relative_to(ROOT) else str(path)
