"""What the bench holds against each other, each served as an ordinary host does: kept a while, compressed if asked."""

from __future__ import annotations

import json
import shutil
import threading
import time
from pathlib import Path
from typing import TYPE_CHECKING

from calc.worksheets import catalogue
from calc.worksheets.core import usual
from site_build.bench.sizes import STOCK
from site_build.cli import serving
from site_build.runtime import bundle
from site_build.runtime.zips import zipped
from site_build.setup import packages

if TYPE_CHECKING:
    from collections.abc import Callable

KEY = "string"
LENGTH = "61 in"
LINK_BYTES_A_S = 9e6 / 8
LINK_WAIT_S = 0.06
_PIECE = 16_384
_DONE = "<!doctype html><meta charset=utf-8><title>{name}</title><p id=answer></p><script type=module>{script}</script>"
_KEEP = """
const kept = navigator.serviceWorker.register('sw.js').then(() => navigator.serviceWorker.ready);
kept.then(() => { window.kept = true; });"""
_SHOW = "document.querySelector('#answer').textContent = JSON.stringify(told); window.done = performance.now();"
_WORKER = (
    "const worker = new Worker('worker.js', {type: 'module'}); worker.onmessage = ({data: told}) => {" + _SHOW + "};"
)
_STOCK_WORKER = """
import { loadPyodide } from './pyodide.mjs';
const archive = fetch('calc.zip').then((found) => found.arrayBuffer());
const python = await loadPyodide({ indexURL: new URL('./', import.meta.url).href });
python.unpackArchive(await archive, 'zip', { extractDir: '/calculations' });
python.runPython('import sys; sys.path.insert(0, "/calculations")');
const handle = python.runPython('from calc import bridge; bridge.handle');
self.postMessage(JSON.parse(handle(ASK)));
"""
_MICRO_WORKER = """
import { loadMicroPython } from './micropython.mjs';
const python = await loadMicroPython({ url: new URL('micropython.wasm', import.meta.url).href });
python.runPython(`from math import sqrt, pi
def taken_up(turns, d):
    return sqrt(1 + (pi * d * turns) ** 2) - 1
`);
self.postMessage(python.globals.get('taken_up')(40, 0.003));
"""
_SCRIPT = "const told = Math.sqrt(1 + (Math.PI * 0.003 * 40) ** 2) - 1;" + _SHOW
_SERVICE_WORKER = """
self.addEventListener('install', (event) => event.waitUntil(caches.open('all').then((cache) => cache.addAll(FILES))));
self.addEventListener('activate', (event) => event.waitUntil(self.clients.claim()));
self.addEventListener('fetch', (event) => {
  event.respondWith(caches.match(event.request).then((found) => found ?? fetch(event.request)));
});
"""


def ask() -> str:
    """Return the sum that is asked everywhere, as the bridge takes it."""
    inputs = usual(catalogue()[KEY], {"nock_to_nock": LENGTH})
    return json.dumps({"v": 1, "id": 1, "worksheet": KEY, "system": "inch", "inputs": inputs})


def make(folder: Path, site: Path) -> dict[str, Path]:
    """Write what is compared; each has an `index.html` that sets `window.done` with its first answer, but this site."""
    made = {"this site": site}
    pyodide, micro = packages.fetch("pyodide"), packages.fetch("@micropython/micropython-webassembly-pyscript")
    stock_files: dict[str, Path | bytes] = {name: pyodide / name for name in STOCK}
    stock_files["calc.zip"] = zipped(bundle.calc_files())
    stock_files["worker.js"] = _STOCK_WORKER.replace("ASK", json.dumps(ask())).encode()
    micro_files: dict[str, Path | bytes] = {name: micro / name for name in ("micropython.mjs", "micropython.wasm")}
    micro_files["worker.js"] = _MICRO_WORKER.encode()
    for name, script, files in (
        ("stock Pyodide", _WORKER, stock_files),
        ("MicroPython", _WORKER, micro_files),
        ("plain JavaScript", _SCRIPT, {}),
    ):
        place = folder / name.replace(" ", "-")
        place.mkdir(parents=True)
        for each, content in files.items():
            if isinstance(content, Path):
                shutil.copy(content, place / each)
            else:
                (place / each).write_bytes(content)
        (place / "index.html").write_text(_DONE.format(name=name, script=script + _KEEP), encoding="utf-8")
        listed = json.dumps(["./", *sorted(files)])
        (place / "sw.js").write_text(_SERVICE_WORKER.replace("FILES", listed), encoding="utf-8")
        made[name] = place
    return made


class SharedLink:
    """A link that all share: so many bytes a second, and a wait before each answer."""

    def __init__(self) -> None:
        self.guard = threading.Lock()
        self.free_at = 0.0

    def send(self, content: bytes, write: Callable[[bytes], object]) -> None:
        """Send at the pace of the link."""
        time.sleep(LINK_WAIT_S)
        for start in range(0, len(content), _PIECE):
            piece = content[start : start + _PIECE]
            with self.guard:
                self.free_at = max(self.free_at, time.monotonic()) + len(piece) / LINK_BYTES_A_S
                wait = self.free_at - time.monotonic()
            time.sleep(max(0.0, wait))
            write(piece)


class BenchHost(serving.Server):
    """Serves a folder whose files a browser may keep for ten minutes; over a link, brotli as it was packed before."""

    def __init__(self, folder: Path, link: SharedLink | None = None, packed: dict[str, bytes] | None = None) -> None:
        super().__init__(folder, 0)
        self.RequestHandlerClass = lambda *given: _Handler(*given, directory=str(folder))
        self.link = link
        self.packed = packed or {}


class _Handler(serving.Handler):
    server: BenchHost

    def end_headers(self) -> None:
        self.send_header("Cache-Control", "max-age=600")
        super(serving.Handler, self).end_headers()

    def log_request(self, code: int | str = "-", size: int | str = "-") -> None:
        """Say nothing."""

    def do_GET(self) -> None:  # noqa: N802 - the parent class names it so
        if self.server.link is None:
            super().do_GET()
            return
        path = self.path.partition("?")[0].lstrip("/")
        name = f"{path}index.html" if path.endswith("/") or not path else path
        content = self.server.packed.get(name)
        self.send_response(200 if content is not None else 404)
        self.send_header("Content-Type", self.guess_type(name))
        self.send_header("Content-Encoding", "br")
        self.send_header("Content-Length", str(len(content or b"")))
        self.end_headers()
        self.server.link.send(content or b"", self.wfile.write)
