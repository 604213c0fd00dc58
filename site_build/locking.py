"""Making the lock files: `python3 -m site_build lock`, with `--upgrade` to take newer versions."""

from __future__ import annotations

import shutil

from site_build.environment import python
from site_build.places import LOCKS
from site_build.programs import run_logged
from site_build.reasons import reason
from site_build.tell import StopError, step

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
