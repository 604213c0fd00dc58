"""The site on this machine's own address, built again when a source changes."""

from __future__ import annotations

import threading
import time
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from typing import TYPE_CHECKING

from site_build import building
from site_build.tell import StopError, complain, say

if TYPE_CHECKING:
    from pathlib import Path

FIRST_PORT = 8000
_PORTS = 50
_LOOK_S = 1.0


class Handler(SimpleHTTPRequestHandler):
    """Files with the types a browser needs to run the sums, and no log."""

    extensions_map = {  # noqa: RUF012 - the base class declares it so
        **SimpleHTTPRequestHandler.extensions_map,
        ".wasm": "application/wasm",
        ".mjs": "text/javascript",
        ".js": "text/javascript",
    }

    def log_message(self, *_: object) -> None:
        """Say nothing for each file."""


def server(site: Path, port: int) -> ThreadingHTTPServer:
    """Return a server on a port, or on the next free one; port 0 takes any.

    Raises
    ------
    StopError
        When no port is free.
    """
    for tried in range(port, port + (_PORTS if port else 1)):
        try:
            return ThreadingHTTPServer(("127.0.0.1", tried), partial(Handler, directory=str(site)))
        except OSError:
            continue
    msg = f"No port from {port} to {port + _PORTS - 1} is free. Name one with --port."
    raise StopError(msg)


def serve(port: int) -> None:
    """Serve until Ctrl-C."""
    running = server(building.SITE, port)
    threading.Thread(target=running.serve_forever, daemon=True).start()
    say(f"The site is at http://127.0.0.1:{running.server_port}/  (Ctrl-C ends)")
    seen = building.fingerprint()
    try:
        while True:
            time.sleep(_LOOK_S)
            now = building.fingerprint()
            if now != seen:
                seen = now
                try:
                    building.build()
                except StopError as stop:
                    complain(str(stop))
    except KeyboardInterrupt:
        running.shutdown()
        say("Ended.")
