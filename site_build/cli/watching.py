"""Serving the site while its sources change."""

from __future__ import annotations

import threading
import time
from contextlib import nullcontext
from typing import TYPE_CHECKING

from site_build.cli.serving import open_server, running
from site_build.pages import building
from site_build.runtime import bundle
from site_build.setup.paths import ROOT, SITE
from site_build.setup.progress import StopError, complain, say

if TYPE_CHECKING:
    from contextlib import AbstractContextManager
    from pathlib import Path

WATCHED = ("docs", "calc", "site_build", "mkdocs.yml")
_LOOK_EVERY = 0.7
_SETTLE = 0.3
_WITHOUT = " (Python starts more slowly until its snapshot is made)"


def seen(root: Path = ROOT) -> dict[str, tuple[int, int]]:
    """Return every source file's name with its time and size."""
    found: dict[str, tuple[int, int]] = {}
    for name in WATCHED:
        place = root / name
        for path in place.rglob("*") if place.is_dir() else [place]:
            if path.suffix == ".pyc" or not path.is_file():
                continue
            told = path.stat()
            found[path.relative_to(root).as_posix()] = (told.st_mtime_ns, told.st_size)
    return found


def changed(before: dict[str, tuple[int, int]], after: dict[str, tuple[int, int]]) -> list[str]:
    """Return the names, sorted, that came, went or changed."""
    return sorted(name for name in before.keys() | after.keys() if before.get(name) != after.get(name))


def settled(before: dict[str, tuple[int, int]], root: Path = ROOT) -> dict[str, tuple[int, int]]:
    """Return the sources once they have stopped changing."""
    now = _look(root, before)
    while now != before:
        before = now
        time.sleep(_SETTLE)
        now = _look(root, before)
    return now


def serve(port: int | None) -> None:
    """Build, serve and build again on every change, until Ctrl-C."""
    follower = Follower()
    follower.begin()
    server = open_server(SITE, port)
    with running(server):
        say(f"The site is at {server.address} (Ctrl-C ends this)")
        while True:
            time.sleep(_LOOK_EVERY)
            follower.look(server.guard)


class Follower:
    """Builds the site whenever its sources change.

    As the snapshot of Python's memory takes longer to make than all else, a site is first shown without one, and is
    built again when the snapshot is there.
    """

    def __init__(self) -> None:
        self._sources = settled({})
        self._plain = False  # what is served has no snapshot
        self._making: threading.Thread | None = None
        self._making_for: dict[str, tuple[int, int]] = {}

    def begin(self) -> None:
        """Build the site for the first time.

        Raises
        ------
        StopError
            When it does not build.
        """
        say("Building the site ...")
        start = time.monotonic()
        self._publish(nullcontext())
        say(f"Building the site: {time.monotonic() - start:.1f} s{_WITHOUT if self._plain else ''}")

    def look(self, guard: AbstractContextManager[object]) -> None:
        """Build again if a source has changed, or if the snapshot is there at last; else see that it is being made."""
        now = settled(self._sources)
        names = changed(self._sources, now)
        self._sources = now
        if names:
            more = f" and {len(names) - 1} more" if len(names) > 1 else ""
            self._publish_again(f"{names[0]}{more} changed", guard)
        elif self._plain and bundle.snapshot_is_made():
            self._publish_again("Python's snapshot is there", guard)
        elif self._plain and self._making_for != now and not (self._making and self._making.is_alive()):
            self._making_for = now
            self._making = threading.Thread(target=_make_snapshot, daemon=True)
            self._making.start()

    def _publish(self, guard: AbstractContextManager[object]) -> None:
        plain = not bundle.snapshot_is_made()
        building.publish(guard, plain=plain)
        self._plain = plain

    def _publish_again(self, what: str, guard: AbstractContextManager[object]) -> None:
        """Publish; a build that fails is told and changes nothing."""
        start = time.monotonic()
        try:
            self._publish(guard)
        except StopError as stop:
            complain(str(stop))
            say(f"{what}; the site as it was before is still served.")
        else:
            say(f"{what}: built again in {time.monotonic() - start:.1f} s{_WITHOUT if self._plain else ''}")


def _make_snapshot() -> None:
    try:
        bundle.make_snapshot()
    except StopError as stop:
        complain(str(stop))


def _look(root: Path, before: dict[str, tuple[int, int]]) -> dict[str, tuple[int, int]]:
    try:
        return seen(root)
    except FileNotFoundError:  # a file went while we looked; look again next time
        return before
