"""From `docs/` and `calc/` to a whole site in `site/`."""

from __future__ import annotations

import hashlib
import shutil
import subprocess
from typing import TYPE_CHECKING

from site_build import environment, runtime
from site_build.environment import ROOT
from site_build.tell import StopError, step

if TYPE_CHECKING:
    from pathlib import Path

SITE = ROOT / "site"
WATCHED = ("calc", "docs", "site_build", "locks")


def sources() -> list[Path]:
    """Return every file a site is built from, sorted."""
    found = [ROOT / "mkdocs.yml"]
    for folder in WATCHED:
        found += [path for path in (ROOT / folder).rglob("*") if path.is_file() and "__pycache__" not in path.parts]
    return sorted(found)


def fingerprint() -> str:
    """Return a hash of all of them."""
    total = hashlib.sha256()
    for path in sources():
        total.update(path.relative_to(ROOT).as_posix().encode() + b"\0" + path.read_bytes())
    return total.hexdigest()


def build(into: Path = SITE) -> None:
    """Build the site, unless the one that stands there is still good.

    Raises
    ------
    StopError
        When the pages cannot be built.
    """
    stamp = environment.CACHE / f"{into.name}.stamp"
    wanted = fingerprint()
    if into.exists() and stamp.exists() and stamp.read_text() == wanted:
        return
    fresh = environment.CACHE / f"{into.name}-fresh"
    shutil.rmtree(fresh, ignore_errors=True)
    with step("Building the site"):
        command = [str(environment.python()), "-m", "mkdocs", "build", "--strict", "--quiet", "--site-dir", str(fresh)]
        done = subprocess.run(command, cwd=ROOT, env=environment.surroundings(), check=False)
        if done.returncode:
            msg = "The pages could not be built; the lines above name the page. Mend it and run the command again."
            raise StopError(msg)
        runtime.install(fresh)
        (fresh / "sitemap.xml.gz").unlink(missing_ok=True)  # holds the hour of its making
    shutil.rmtree(into, ignore_errors=True)
    shutil.move(fresh, into)
    environment.CACHE.mkdir(exist_ok=True)
    stamp.write_text(wanted)
