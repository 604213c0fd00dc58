"""Finding a Firefox for the tests in a second engine, or bringing one."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

from site_build.setup.chromium import may_use_apt
from site_build.setup.programs import run_logged
from site_build.setup.progress import StopError, say, step

VARIABLE = "FIREFOX"
PACKAGE = "firefox-esr"
_NAMES = ("firefox", "firefox-esr")
_UNASKED = {"DEBIAN_FRONTEND": "noninteractive"}


def installed() -> Path | None:
    """Return this machine's Firefox, if there is one.

    Raises
    ------
    StopError
        When the environment names one that is not there.
    """
    named = os.environ.get(VARIABLE)
    if named:
        if shutil.which(named):
            return Path(named)
        raise StopError(f"{VARIABLE} is set to {named}, which is no program: correct or unset it.")
    return next((Path(found) for found in map(shutil.which, _NAMES) if found), None)


def bring() -> Path | None:
    """Return a Firefox, from Debian's package where this machine has none and we are its administrator."""
    if installed() is None and may_use_apt():
        with step(f"Installing Debian's {PACKAGE} package"):
            run_logged(["apt-get", "update"], "apt-update", seconds=600)
            wanted = ["apt-get", "install", "--yes", "--no-install-recommends", PACKAGE]
            run_logged(wanted, "apt", seconds=1200, more=_UNASKED)
    found = installed()
    say(f"In {found}" if found else "There is no Firefox here, and none could be brought: its tests are skipped.")
    return found
