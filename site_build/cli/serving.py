"""A small server for the built site, on this machine only."""

from __future__ import annotations

import errno
import io
import os
import sys
import threading
from contextlib import contextmanager
from http import HTTPStatus
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import TYPE_CHECKING, Any, BinaryIO

from site_build.cli.compressing import SUFFIXES, Compressions, accepts_gzip, worth
from site_build.setup.progress import StopError, say

if TYPE_CHECKING:
    import socket
    from collections.abc import Iterator

    Request = socket.socket | tuple[bytes, socket.socket]

HOST = "127.0.0.1"
FIRST_PORT = 8000
LAST_PORT = 8099
TYPES = {
    ".css": "text/css; charset=utf-8",
    ".html": "text/html; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".json": "application/json",
    ".mjs": "text/javascript; charset=utf-8",
    ".png": "image/png",
    ".svg": "image/svg+xml",
    ".txt": "text/plain; charset=utf-8",
    ".wasm": "application/wasm",
    ".webmanifest": "application/manifest+json",
    ".woff2": "font/woff2",
    ".xml": "application/xml",
    ".zip": "application/zip",
    "": "application/octet-stream",
}
_TAKEN = {errno.EADDRINUSE, errno.EACCES, getattr(errno, "WSAEADDRINUSE", 0), getattr(errno, "WSAEACCES", 0)}


class Handler(SimpleHTTPRequestHandler):
    """Gives out files of one folder; the system's own table of types is not asked."""

    protocol_version = "HTTP/1.1"
    extensions_map = TYPES
    server: Server
    compressed: bytes | None = None
    """What is sent in place of the file."""

    def guess_type(self, path: str | os.PathLike[str]) -> str:
        """Return the type for a file's suffix."""
        return TYPES.get(os.path.splitext(path)[1].lower(), TYPES[""])  # noqa: PTH122 - the parent class hands over text

    def send_head(self) -> io.BytesIO | BinaryIO | None:
        """Open the file asked for, not while the site is being replaced; compressed where that is worth it."""
        place = self._place()
        compressed = None
        if self.server.compresses and accepts_gzip(self.headers.get("Accept-Encoding", "")) and worth(place):
            compressed = self.server.compressions.of(place)
        with self.server.guard:
            self.compressed = compressed if self.server.compressions.current(place) else None
            found = super().send_head()
        if found is None or self.compressed is None:
            return found
        found.close()
        return io.BytesIO(self.compressed)

    def _place(self) -> Path:
        """Return the file asked for, be it there or not."""
        place = Path(self.translate_path(self.path))
        return place / "index.html" if self.path.partition("?")[0].endswith("/") else place

    def send_header(self, keyword: str, value: str) -> None:
        """Say the length of what is sent."""
        if keyword == "Content-Length" and self.compressed is not None:
            super().send_header("Content-Encoding", "gzip")
            value = str(len(self.compressed))
        super().send_header(keyword, value)

    def end_headers(self) -> None:
        """Let the browser ask each time whether a file has changed."""
        if self.server.compresses and self._place().suffix.lower() in SUFFIXES:
            self.send_header("Vary", "Accept-Encoding")
        self.send_header("Cache-Control", "no-cache")
        super().end_headers()

    def list_directory(self, path: str | os.PathLike[str]) -> None:
        """Show no folder's content."""
        del path
        self.send_error(HTTPStatus.NOT_FOUND)

    def send_error(self, code: int, message: str | None = None, explain: str | None = None) -> None:
        """Answer with the site's own page when something is not there."""
        self.compressed = None
        page = self.server.folder / "404.html"
        if code != HTTPStatus.NOT_FOUND or not page.is_file():
            super().send_error(code, message, explain)
            return
        content = page.read_bytes()
        self.send_response(code, message)
        self.send_header("Content-Type", TYPES[".html"])
        self.send_header("Content-Length", str(len(content)))
        self.end_headers()
        if self.command != "HEAD":
            self.wfile.write(content)

    def log_request(self, code: int | str = "-", size: int | str = "-") -> None:
        """Say only what did not go well."""
        del size
        if isinstance(code, int) and code >= HTTPStatus.BAD_REQUEST:
            say(f"{int(code)} for {self.path}")

    def log_error(self, format: str, *args: object) -> None:  # noqa: A002 - the parent class names it so
        """Say nothing: `log_request` has."""


class Server(ThreadingHTTPServer):
    """Serves one folder; `guard` is held by whoever replaces it, `compresses` does so where a browser takes gzip."""

    daemon_threads = True
    allow_reuse_address = os.name != "nt"  # on Windows it would let two servers share a port

    def __init__(self, folder: Path, port: int, *, compresses: bool = False) -> None:
        self.folder = folder
        self.compresses = compresses
        self.compressions = Compressions()
        self.guard = threading.Lock()
        super().__init__((HOST, port), lambda *given: Handler(*given, directory=str(folder)))

    @property
    def address(self) -> str:
        """The site's first page."""
        return f"http://{HOST}:{self.server_port}/"

    def handle_error(self, request: Request, client_address: Any) -> None:  # noqa: ANN401 - as in the parent class
        """Pass over a browser that went away."""
        if not isinstance(sys.exc_info()[1], ConnectionError):
            super().handle_error(request, client_address)


def open_server(folder: Path, port: int | None) -> Server:
    """Return a server on the port asked for, or on the first that is free from 8000 on.

    Raises
    ------
    StopError
        When the port, or every port, is taken.
    """
    for each in [port] if port is not None else range(FIRST_PORT, LAST_PORT + 1):
        try:
            return Server(folder, each, compresses=True)
        except OSError as error:
            if error.errno not in _TAKEN:
                raise
    if port is not None:
        raise StopError(f"Port {port} is taken or not allowed: choose another with --port.")
    raise StopError(f"Every port from {FIRST_PORT} to {LAST_PORT} is taken: choose another with --port.")


@contextmanager
def running(server: Server) -> Iterator[Server]:
    """Let a server answer in the background, and end it afterwards."""
    thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.1}, daemon=True)
    thread.start()
    try:
        yield server
    finally:
        server.shutdown()
        server.server_close()
        thread.join()
