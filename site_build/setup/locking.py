"""Making the lock files: `python3 -m site_build lock`, with `--upgrade` to take newer versions from PyPI.

Those from the npm registry are named in `package.json` with their exact versions.
"""

from __future__ import annotations

import json
import shutil
from typing import TYPE_CHECKING

from site_build.setup import packages
from site_build.setup.environment import python
from site_build.setup.paths import LOCKS
from site_build.setup.programs import run_logged
from site_build.setup.progress import StopError, step
from site_build.setup.reasons import reason

if TYPE_CHECKING:
    from pathlib import Path

_HEADER = "# Made by `python3 -m site_build lock` from {source}: for every system and Python 3.11 or newer.\n"
_OPTIONS = (
    *("--no-config", "--universal", "--python-version", "3.11", "--generate-hashes"),
    *("--no-header", "--no-annotate", "--no-emit-index-url", "--no-emit-find-links", "--quiet"),
)
SOURCES = {
    "test": ("pyproject.toml", ("--group", "test")),
    "site": ("pyproject.toml", ("--group", "site", "--constraint", "locks/test.txt")),  # the same versions
    "mutation": ("pyproject.toml", ("--group", "mutation", "--constraint", "locks/test.txt")),
    "node": ("locks/node.in", ("locks/node.in",)),
}


def lock(*, upgrade: bool) -> None:
    """Write every lock file anew.

    Raises
    ------
    StopError
        When uv is not there or cannot find versions that go together.
    """
    uv = shutil.which("uv") or shutil.which("uv", path=str(python().parent))
    if uv is None:
        raise StopError(
            f"uv makes the lock files and is not here: run `{python()} -m pip install uv`, then this again."
        )
    for name, (source, words) in SOURCES.items():
        target = LOCKS / f"{name}.txt"
        with step(f"Locking {name}"):
            asked = [uv, "pip", "compile", *words, *_OPTIONS, "--output-file", str(target)]
            ran = run_logged([*asked, *(["--upgrade"] if upgrade else [])], "uv")
            if ran.code:
                raise StopError(reason(f"Locking {name}", ran.output, "uv"))
        content = target.read_text(encoding="utf-8")
        if "://" in content or "file:" in content:
            raise StopError(f"locks/{name}.txt names an address: take it out of uv's settings, then run this again.")
        target.write_text(_HEADER.format(source=source) + content, encoding="utf-8")
    lock_npm()


def lock_npm(folder: Path = packages.HERE) -> None:
    """Write `package-lock.json` from `package.json`, with hashes and without any host.

    Raises
    ------
    StopError
        When npm cannot find versions that go together.
    """
    with step("Locking what comes from npm"):
        asked = ("install", "--package-lock-only", "--omit-lockfile-registry-resolved", *packages.QUIET)
        ran = run_logged([*packages.node_tool("npm"), *asked], "npm", folder=folder)
        if ran.code:
            raise StopError(reason("Locking what comes from npm", ran.output, "npm"))
    path = folder / "package-lock.json"
    content = json.loads(path.read_text(encoding="utf-8"))
    for each in content["packages"].values():
        each.pop("funding", None)
    path.write_text(json.dumps(content, indent=2) + "\n", encoding="utf-8")
