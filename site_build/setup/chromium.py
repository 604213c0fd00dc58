"""Finding a Chromium or Chrome for the browser tests, or bringing one."""

from __future__ import annotations

import os
import shutil
import sys
from pathlib import Path, PurePath, PurePosixPath, PureWindowsPath
from typing import TYPE_CHECKING

from site_build.setup import environment
from site_build.setup.programs import run_logged
from site_build.setup.progress import StopError, say, step

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

VARIABLE = "CHROMIUM"
_NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome")
_LINUX = ("/usr/lib/chromium/chromium", "/opt/google/chrome/chrome", "/snap/bin/chromium")
_MAC = ("Google Chrome.app/Contents/MacOS/Google Chrome", "Chromium.app/Contents/MacOS/Chromium")
_WINDOWS = (("Google", "Chrome", "Application", "chrome.exe"), ("Chromium", "Application", "chrome.exe"))
_WINDOWS_HOMES = ("PROGRAMFILES", "PROGRAMFILES(X86)", "LOCALAPPDATA")
_ASK_PLAYWRIGHT = (
    "from playwright.sync_api import sync_playwright\n"
    "with sync_playwright() as play: print(play.chromium.executable_path)"
)
_UNASKED = {"DEBIAN_FRONTEND": "noninteractive"}
_HELP = (
    f"There is no Chromium or Chrome for the browser tests and none could be brought: install one, or set {VARIABLE} "
    "to its path, then run this again; --no-browser leaves these tests out."
)


def usual_places(system: str, env: Mapping[str, str]) -> Iterator[PurePath]:
    r"""Yield where a browser usually lies, for `sys.platform` and the environment's variables.

    >>> [str(place) for place in usual_places("win32", {"LOCALAPPDATA": "C:\\me"})][0]
    'C:\\me\\Google\\Chrome\\Application\\chrome.exe'
    """
    if system == "win32":
        for home in _WINDOWS_HOMES:
            if env.get(home):
                yield from (PureWindowsPath(env[home], *parts) for parts in _WINDOWS)
    elif system == "darwin":
        for home in ("/Applications", f"{env.get('HOME', '')}/Applications"):
            yield from (PurePosixPath(home, name) for name in _MAC)
    else:
        yield from map(PurePosixPath, _LINUX)


def works(browser: Path, system: str = sys.platform) -> bool:
    """Tell whether a browser starts; on Windows, where asking would open a window, whether it is there."""
    if system == "win32":
        return browser.is_file()
    return browser.is_file() and run_logged([browser, "--version"], "chromium", seconds=60).code == 0


def installed() -> Path | None:
    """Return the first browser of this machine that works.

    Raises
    ------
    StopError
        When the environment names a browser that does not work.
    """
    named = os.environ.get(VARIABLE)
    if named:
        if works(Path(named)):
            return Path(named)
        raise StopError(f"{VARIABLE} is set to {named}, which is not a browser that starts: correct or unset it.")
    on_path = [Path(found) for found in map(shutil.which, _NAMES) if found]
    there = [*on_path, *(Path(place) for place in usual_places(sys.platform, os.environ))]
    return next((browser for browser in there if works(browser)), None)


def ensure() -> Path:
    """Return a browser that works, bringing one if this machine has none.

    Raises
    ------
    StopError
        When none can be had.
    """
    browser = installed() or _playwrights()
    if browser:
        return browser
    say("There is no Chromium or Chrome here.")
    with step("Bringing the Chromium that Playwright offers"):
        run_logged([environment.python(), "-m", "playwright", "install", "chromium"], "playwright", seconds=900)
    browser = _playwrights()
    if browser is None and may_use_apt():
        with step("Installing Debian's chromium package"):
            run_logged(["apt-get", "update"], "apt-update", seconds=600)
            run_logged(["apt-get", "install", "--yes", "chromium"], "apt", seconds=1200, more=_UNASKED)
        browser = installed()
    if browser is None:
        raise StopError(_HELP)
    return browser


def may_use_apt() -> bool:
    """Tell whether this is Debian or its kin and we are its administrator."""
    return hasattr(os, "geteuid") and os.geteuid() == 0 and shutil.which("apt-get") is not None


def _playwrights() -> Path | None:
    ran = run_logged([environment.python(), "-c", _ASK_PLAYWRIGHT], "playwright-path", seconds=60)
    lines = ran.output.strip().splitlines()
    browser = Path(lines[-1]) if ran.code == 0 and lines else None
    return browser if browser and works(browser) else None
