"""An installed Chromium, or one brought for the tests."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path

from site_build import environment
from site_build.tell import StopError, say

_NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome", "msedge")
_PLACES = (
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    "~/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    "%PROGRAMFILES%/Google/Chrome/Application/chrome.exe",
    "%PROGRAMFILES(X86)%/Google/Chrome/Application/chrome.exe",
    "%LOCALAPPDATA%/Google/Chrome/Application/chrome.exe",
    "%LOCALAPPDATA%/Chromium/Application/chrome.exe",
)


def installed() -> str:
    """Return the path of a browser on this machine, empty when there is none."""
    named = os.environ.get("CHROMIUM", "")
    if named and Path(named).exists():
        return named
    for name in _NAMES:
        found = shutil.which(name)
        if found:
            return found
    for place in _PLACES:
        path = Path(os.path.expandvars(place)).expanduser()
        if path.exists():
            return str(path)
    return ""


def ensure() -> str:
    """Return a browser's path, bringing one where there is none.

    Raises
    ------
    StopError
        When none can be had.
    """
    found = installed() or _from_playwright() or _from_debian()
    if not found:
        msg = (
            "No Chromium or Chrome was found and none could be brought. Install one, or set CHROMIUM to its path, or "
            "run with --no-browser."
        )
        raise StopError(msg)
    return found


def _from_playwright() -> str:
    say("No Chromium found; trying playwright install chromium ...")
    subprocess.run([str(environment.python()), "-m", "playwright", "install", "chromium"], check=False)
    ask = "from playwright.sync_api import sync_playwright as s\nwith s() as p: print(p.chromium.executable_path)"
    told = subprocess.run([str(environment.python()), "-c", ask], check=False, capture_output=True, text=True)
    path = told.stdout.strip()
    return path if path and Path(path).exists() else ""


def _from_debian() -> str:
    root = getattr(os, "geteuid", lambda: 1)() == 0
    if not root or not shutil.which("apt-get"):
        return ""
    say("Trying Debian's package chromium ...")
    subprocess.run(["apt-get", "update", "-qq"], check=False)
    subprocess.run(["apt-get", "install", "-y", "-qq", "chromium"], check=False, stdout=subprocess.DEVNULL)
    return installed()
