"""A host with faults, at any subpath, of a copy of the built site that may change under its readers."""

from __future__ import annotations

import os
import re
import shutil
import time
from contextlib import contextmanager
from typing import TYPE_CHECKING

from site_build.cli import serving
from site_build.offline import precache
from site_build.setup.paths import SITE

if TYPE_CHECKING:
    import io
    from collections.abc import Iterator
    from pathlib import Path
    from typing import BinaryIO

NO_SIGNAL = "no signal"
ABSENT = "absent"
CUT = "cut short"
DAMAGED = "damaged"
FAILS = "fails"
HANGS = "hangs"
FLIPPED = "one bit is wrong"
FLIPPED_ONCE = "one bit is wrong the first time"


class Host(serving.Server):
    """Serves a folder below a subpath; every request can be made to go wrong."""

    def __init__(self, folder: Path, subpath: str) -> None:
        super().__init__(folder, 0)
        self.RequestHandlerClass = lambda *given: _Handler(*given, directory=str(folder))
        self.subpath = subpath
        self.signal = True
        self.wrong: dict[str, str] = {}
        """What goes wrong, by address below the subpath."""
        self.last_before_silence: str | None = None
        """The address after which there is no signal."""
        self.headers: dict[str, str] = {}
        """What is said in place of the usual headers; nothing for an empty one."""
        self.asked: list[str] = []

    @property
    def address(self) -> str:
        """The site's first page."""
        return f"http://{serving.HOST}:{self.server_port}{self.subpath}"


class _Handler(serving.Handler):
    server: Host

    def do_GET(self) -> None:  # noqa: N802 - the parent class names it so
        path = self.path.partition("?")[0].removeprefix(self.server.subpath)
        wrong = self.server.wrong.get(path)
        if not self.server.signal or wrong == NO_SIGNAL or not self.path.startswith(self.server.subpath):
            self.close_connection = True
            return
        self.server.asked.append(path)
        if path == self.server.last_before_silence:
            self.server.signal = False
        if wrong == ABSENT:
            self.send_error(404)
        elif wrong == FAILS:
            self.send_error(500)
        elif wrong == HANGS:
            while self.server.wrong.get(path) == HANGS:
                time.sleep(0.05)
            self.close_connection = True
        elif wrong in {FLIPPED, FLIPPED_ONCE}:
            if wrong == FLIPPED_ONCE:
                del self.server.wrong[path]
            self._flipped(path)
        elif wrong in {CUT, DAMAGED}:
            self._broken(path, whole_length=wrong == CUT)
        else:
            self.path = "/" + path
            super().do_GET()

    def send_head(self) -> io.BytesIO | BinaryIO | None:
        """Leave out when a file was written: nothing may lean on it."""
        del self.headers["If-Modified-Since"]
        return super().send_head()

    def send_header(self, keyword: str, value: str) -> None:
        """Say what this host wants said in its place, or nothing."""
        said = self.server.headers.get(keyword, value)
        if said:
            super().send_header(keyword, said)

    def end_headers(self) -> None:
        """Say until when a file may be taken for fresh, where this host does."""
        if "Expires" in self.server.headers:
            self.send_header("Expires", "")
        super().end_headers()

    def log_request(self, code: int | str = "-", size: int | str = "-") -> None:
        """Say nothing: what goes wrong here is meant to."""

    def _broken(self, path: str, *, whole_length: bool) -> None:
        place = self.server.folder / path
        content = (place / "index.html" if place.is_dir() else place).read_bytes()
        sent = content[: len(content) // 2]
        self._send(place, sent, len(content if whole_length else sent))

    def _flipped(self, path: str) -> None:
        place = self.server.folder / path
        content = bytearray(place.read_bytes())
        content[-len(content) // 3] ^= 1
        self._send(place, bytes(content), len(content))

    def _send(self, place: Path, sent: bytes, length: int) -> None:
        self.send_response(200)
        self.send_header("Content-Type", self.guess_type(str(place) if place.suffix else "index.html"))
        self.send_header("Content-Length", str(length))
        self.end_headers()
        self.wfile.write(sent)
        self.close_connection = True


@contextmanager
def hosted(folder: Path, subpath: str = "/") -> Iterator[Host]:
    """Serve a copy of the built site; its files are links, so it is made at once."""
    if not folder.exists():
        shutil.copytree(SITE, folder, copy_function=os.link)
    host = Host(folder, subpath)
    with serving.running(host):
        yield host


def kept_files(site: Path) -> tuple[list[str], list[str]]:
    """Return the addresses that the service worker keeps, in its order: pages, and what Python needs."""
    text = (site / precache.WORKER).read_text(encoding="utf-8").partition("\n};\n")[0]
    pages, heavy = text.partition("pages: {")[2].split("heavy: {")
    addresses = [re.findall(r'^"(.*?)": \[', part, re.MULTILINE) for part in (pages, heavy)]
    return addresses[0], addresses[1]


def rewrite(site: Path, name: str, old: str, new: str) -> None:
    """Change a word of one page, as an update does."""
    place = site / name
    text = place.read_text(encoding="utf-8")
    assert old in text
    replace(place, text.replace(old, new))
    worker = (site / precache.WORKER).read_text(encoding="utf-8")
    (site / precache.WORKER).unlink()
    (site / precache.WORKER).write_text(worker, encoding="utf-8")
    precache.install(site)


def replace(place: Path, text: str) -> None:
    """Write a file anew without writing into the one it is linked to."""
    place.unlink()
    place.write_text(text, encoding="utf-8")
    later = time.time() + 60
    os.utime(place, (later, later))
