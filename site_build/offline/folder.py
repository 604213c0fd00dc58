"""The folder to carry: the built site so that it opens by a double click, without any server."""

from __future__ import annotations

import base64
import gzip
import json
import re
import shutil
from fnmatch import fnmatchcase
from typing import TYPE_CHECKING

from site_build.offline import precache
from site_build.runtime import bundle
from site_build.runtime.preload import MARKED
from site_build.runtime.zips import zipped
from site_build.setup import packages
from site_build.setup.paths import ROOT, WEB

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

PLACE = ROOT / "to-carry"
NAME = "plied-true"
SCRIPTS = "assets/web"
SEARCH = "search/search_index.json"
PAGE_SCRIPT, NOTEBOOK = "site.js", "notebook.js"
_LEFT_OUT = (
    *precache.LEFT_OUT,
    "404.html",
    "sitemap.xml",
    "*.webmanifest",
    f"{bundle.FOLDER}/*",
    f"{SCRIPTS}/*.js",
    SEARCH,
)
_MODULES = re.compile(r'\s*<script src="([^"]*)assets/web/[\w-]+\.js" type="module"></script>')
_THEME = re.compile(r'<script src="([^"]*)assets/javascripts/bundle')
_HOSTED = re.compile(r'\s*<(?:link rel="(?:manifest|preload)"|meta http-equiv="Content-Security-Policy")[^>]*>')
_LINK = re.compile(r'(<a\b[^>]*?\shref=")([^":#?]*)([#?"])')
_INSTANT = re.compile(r'"navigation\.instant[\w.]*",? ?')


def page(html: str) -> str:
    """Return a page as it stands in the folder: links name their file, scripts are plain ones."""
    html = _LINK.sub(lambda found: f"{found[1]}{filed(found[2])}{found[3]}", _HOSTED.sub("", MARKED.sub("", html)))
    html = _THEME.sub(r'<script src="\1assets/web/folder-search.js"></script>\n      \g<0>', html)
    html = _INSTANT.sub("", html)
    up = _MODULES.search(html)
    if up is None:
        return html
    tag = f'\n<script src="{up[1]}{SCRIPTS}/folder.js"></script>\n</body>'
    return _MODULES.sub("", html).replace("</body>", tag)


def filed(address: str) -> str:
    """Return the file of a relative address.

    >>> filed("../brace/"), filed(".."), filed(""), filed("assets/mark.svg")
    ('../brace/index.html', '../index.html', '', 'assets/mark.svg')
    """
    if address.endswith("/"):
        return f"{address}index.html"
    return f"{address}/index.html" if address and not address.strip("./") else address


def search_script(index: str) -> str:
    """Return the search index as the theme reads it from a folder."""
    held = json.loads(index)
    for entry in held["docs"]:
        address, mark, place = entry["location"].partition("#")
        entry["location"] = (filed(address) or "index.html") + mark + place
    return f"var __index = {json.dumps(held, separators=(',', ':'))};\n"


def scripts(modules: Mapping[str, str]) -> str:
    """Return the script of every page, with the worker's as text inside."""
    parts = {name: (WEB / "offline" / f"folder-{name}.js").read_text(encoding="utf-8") for name in ("page", "worker")}
    apart = f"{parts['worker']}FOLDER.begin(() => {{\n{_apart(modules['worker.js'])}}});\n"
    own = _apart(modules[PAGE_SCRIPT]).replace("new Worker(", "new FOLDER.Worker(")
    return f"{parts['page']}window.FOLDER_WORKER = {json.dumps(apart)};\n(() => {{\n{own}}})();\n"


def _apart(script: str) -> str:
    """Let a script find its files where a folder has them."""
    return "'use strict';\n" + script.replace("import.meta.url", "FOLDER.here")


def packed(folder: Path) -> str:
    """Return all that Python needs as one script: its files by name, each compressed and in letters."""
    files = {path.name: path.read_bytes() for path in sorted(folder.iterdir())}
    letters = {name: base64.b64encode(gzip.compress(content, 9, mtime=0)).decode() for name, content in files.items()}
    return f"window.FOLDER_RUNTIME = {json.dumps(letters, indent=0)};\n"


def contents(site: Path) -> dict[str, bytes]:
    """Return every file of the folder by its name, sorted."""
    found = {path.relative_to(site).as_posix(): path for path in site.rglob("*") if path.is_file()}
    wanted = {name: found[name] for name in found if not any(fnmatchcase(name, each) for each in _LEFT_OUT)}
    made = {name: path.read_bytes() for name, path in wanted.items() if path.suffix != ".html"}
    shim = (packages.fetch("iframe-worker") / "shim" / "index.js").read_text(encoding="utf-8")
    modules = {path.name: path.read_text(encoding="utf-8") for path in (site / SCRIPTS).glob("*.js")}
    texts = {name: page(path.read_text(encoding="utf-8")) for name, path in wanted.items() if path.suffix == ".html"}
    texts |= {
        f"{SCRIPTS}/folder-search.js": f"window.PlainWorker = window.Worker;\n{shim}",
        f"{SCRIPTS}/folder.js": scripts(modules),
        f"{SCRIPTS}/{NOTEBOOK}": modules[NOTEBOOK],
        f"{SCRIPTS}/folder-runtime.js": packed(site / bundle.FOLDER),
        SEARCH.removesuffix("on"): search_script((site / SEARCH).read_text(encoding="utf-8")),
    }
    made |= {name: text.encode() for name, text in texts.items()}
    return {name: made[name] for name in sorted(made)}


def make(site: Path, place: Path = PLACE) -> list[Path]:
    """Write the folder and its zip from a built site, and return both."""
    files = contents(site)
    folder, archive = place / NAME, place / f"{NAME}.zip"
    shutil.rmtree(place, ignore_errors=True)
    for name, content in files.items():
        target = folder / name
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content)
    archive.write_bytes(zipped({f"{NAME}/{name}": content for name, content in files.items()}))
    return [folder, archive]
