"""Files compressed once and handed out often, as a web host does."""

from __future__ import annotations

import gzip
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

SUFFIXES = frozenset({".css", ".html", ".js", ".json", ".mjs", ".svg", ".txt", ".wasm", ".webmanifest", ".xml"})
"""Kinds of files that get smaller; pictures, faces and archives are compressed as they are."""
LEAST_BYTES = 1024
"""Below this a compressed file saves nothing that a reader would notice."""
LEVEL = 6
"""What hosts use by default."""


def accepts_gzip(told: str) -> bool:
    """Tell whether a browser takes gzip, from what it says in `Accept-Encoding`.

    >>> accepts_gzip("gzip, deflate, br"), accepts_gzip("br;q=1.0, gzip;q=0.5, *;q=0")
    (True, True)
    >>> accepts_gzip(""), accepts_gzip("gzip;q=0"), accepts_gzip("identity, *"), accepts_gzip("gzip;q=no")
    (False, False, True, False)
    """
    weights: dict[str, float] = {}
    for each in told.split(","):
        name, _, weight = each.partition(";")
        try:
            weights[name.strip().lower()] = float(weight.strip().removeprefix("q=") or 1)
        except ValueError:
            weights[name.strip().lower()] = 0.0
    return weights.get("gzip", weights.get("*", 0.0)) > 0.0


class Compressions:
    """Compressed contents of files, kept until a file changes."""

    def __init__(self) -> None:
        self._kept: dict[Path, tuple[tuple[int, int], bytes]] = {}

    def of(self, place: Path) -> bytes:
        """Return what a file holds, compressed; only once for each time and size of it."""
        mark = _mark(place)
        kept = self._kept.get(place)
        if kept is None or kept[0] != mark:
            kept = mark, gzip.compress(place.read_bytes(), LEVEL, mtime=0)
            self._kept[place] = kept
        return kept[1]

    def current(self, place: Path) -> bool:
        """Tell whether a file is still the one that was compressed."""
        return place in self._kept and place.is_file() and self._kept[place][0] == _mark(place)


def worth(place: Path) -> bool:
    """Tell whether a file is there, of a kind that gets smaller, and not tiny."""
    return place.suffix.lower() in SUFFIXES and place.is_file() and place.stat().st_size >= LEAST_BYTES


def _mark(place: Path) -> tuple[int, int]:
    told = place.stat()
    return told.st_mtime_ns, told.st_size
