"""Zips that are the same whenever and wherever they are made."""

from __future__ import annotations

import hashlib
import io
import zipfile

_LONG_AGO = (1980, 1, 1, 0, 0, 0)  # the earliest time a zip can hold


def content_hash(contents: dict[str, bytes]) -> str:
    """Return sixteen hexadecimal digits that change when a name or a content does."""
    digest = hashlib.sha256()
    for name, content in contents.items():
        digest.update(f"{name}\0{len(content)}\0".encode())
        digest.update(content)
    return digest.hexdigest()[:16]


def zipped(contents: dict[str, bytes], *, packed: bool = True) -> bytes:
    """Return a zip with the entries in the order given, packed or as they are, without clock, owner or system in it."""
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w") as archive:
        for name, content in contents.items():
            entry = zipfile.ZipInfo(name, _LONG_AGO)
            entry.create_system = 3
            entry.external_attr = 0o644 << 16
            archive.writestr(entry, content, zipfile.ZIP_DEFLATED if packed else zipfile.ZIP_STORED, 9)
    return buffer.getvalue()


def checksum(content: bytes) -> str:
    """Return the first sixteen digits of the SHA-256, by which the service worker knows a file again.

    >>> checksum(b"")
    'e3b0c44298fc1c14'
    """
    return hashlib.sha256(content).hexdigest()[:16]
