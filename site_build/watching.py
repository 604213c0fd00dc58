"""Serving the site while its sources change."""

from __future__ import annotations

import time
from typing import TYPE_CHECKING

from site_build import building
from site_build.places import ROOT, SITE
from site_build.serving import open_server, running
from site_build.tell import StopError, complain, say

if TYPE_CHECKING:
    from contextlib import AbstractContextManager
    from pathlib import Path

WATCHED = ("docs", "calc", "site_build", "mkdocs.yml")
_LOOK_EVERY = 0.7
_SETTLE = 0.3


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
    state = settled({})
    _build_first()
    server = open_server(SITE, port)
    with running(server):
        say(f"The site is at {server.address} (Ctrl-C ends this)")
        while True:
            time.sleep(_LOOK_EVERY)
            now = settled(state)
            names = changed(state, now)
            state = now
            if names:
                build_again(names, server.guard)


def _look(root: Path, before: dict[str, tuple[int, int]]) -> dict[str, tuple[int, int]]:
    try:
        return seen(root)
    except FileNotFoundError:  # a file went while we looked; look again next time
        return before


def _build_first() -> None:
    say("Building the site ...")
    start = time.monotonic()
    building.publish()
    say(f"Building the site: {time.monotonic() - start:.1f} s")


def build_again(names: list[str], guard: AbstractContextManager[object]) -> None:
    """Publish after a change; a build that fails is told and changes nothing."""
    more = f" and {len(names) - 1} more" if len(names) > 1 else ""
    start = time.monotonic()
    try:
        building.publish(guard)
    except StopError as stop:
        complain(str(stop))
        say(f"{names[0]}{more} changed; the site as it was before is still served.")
    else:
        say(f"{names[0]}{more} changed: built again in {time.monotonic() - start:.1f} s")
