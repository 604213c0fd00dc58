"""The built site behind a server: with the scripts it was made from, and with this machine's own Python where asked."""

from __future__ import annotations

import threading

from calc import bridge
from site_build.cli import serving
from site_build.setup.paths import SITE, WEB

_SOURCE, _WORKER, _ASKED = "/source/", "/assets/web/worker.js", "/asked"
_PASSES_ON = f"""
let before = Promise.resolve();
self.onmessage = ({{ data }}) => {{
  before = before.then(async () => {{
    const reply = await fetch('{_ASKED}', {{ method: 'POST', body: data }});
    self.postMessage(await reply.text());
  }});
}};
self.postMessage('{{"v": 1, "stage": "ready"}}');
"""


class OwnSite(serving.Server):
    """Serves the built site; `natively` has this machine's own Python answer in place of the worker's."""

    def __init__(self, *, natively: bool = False) -> None:
        super().__init__(SITE, 0)
        self.RequestHandlerClass = lambda *given: _Handler(*given, directory=str(SITE))
        self.natively = natively
        self.turn = threading.Lock()


class _Handler(serving.Handler):
    server: OwnSite

    def translate_path(self, path: str) -> str:
        """Return the file asked for: a script as it is written, or one of the site's."""
        return str(WEB / path.removeprefix(_SOURCE)) if path.startswith(_SOURCE) else super().translate_path(path)

    def do_GET(self) -> None:  # noqa: N802 - the parent class names it so
        if self.server.natively and self.path == _WORKER:
            self._say(_PASSES_ON, serving.TYPES[".js"])
        else:
            super().do_GET()

    def do_POST(self) -> None:  # noqa: N802 - as above
        if not self.server.natively or self.path != _ASKED:
            self.send_error(404)
            return
        text = self.rfile.read(int(self.headers["Content-Length"])).decode("utf-8")
        with self.server.turn:
            reply = bridge.handle(text)
        self._say(reply, serving.TYPES[".json"])

    def _say(self, text: str, kind: str) -> None:
        content = text.encode("utf-8")
        self.send_response(200)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(content)))
        self.end_headers()
        self.wfile.write(content)
