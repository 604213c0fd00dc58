"""Keeping the whole site on a reader's device: the list of its files by content, written into the service worker.

The script is `web/offline/sw.js`; in the built site it stands at the root, so that it works at any subpath, with the
list above it. A file is listed by the address it is fetched at, with the first sixteen digits of its SHA-256 and its
bytes. An update of the site changes the service worker in the entries of the files that changed, and in nothing else.
"""

from __future__ import annotations

import json
import re
from fnmatch import fnmatchcase
from typing import TYPE_CHECKING

from site_build.runtime import bundle, preload
from site_build.runtime.zips import checksum
from site_build.setup.paths import WEB

if TYPE_CHECKING:
    from pathlib import Path

SCRIPT = "assets/web/sw.js"
WORKER = "sw.js"
LEFT_OUT = (
    WORKER,
    SCRIPT,
    "*.map",
    "*.gz",
    "assets/javascripts/lunr/*",  # for other languages than English
    "assets/licences/*",
    "reference/code/*/index.html",  # for who writes code, which is not done at the range
)
_BEFORE_THEME = WEB / "before-theme.js"
_ICON = re.compile(r'<link rel="icon" href="([^"]*)assets/mark\.svg">')
_INSTALLED = r"""\g<0>
      <link rel="manifest" href="\1assets/app.webmanifest">
      <link rel="apple-touch-icon" href="\1assets/icon-192.png">
      <meta name="theme-color" media="(prefers-color-scheme: light)" content="#faf6ec">
      <meta name="theme-color" media="(prefers-color-scheme: dark)" content="#15181d">
      <script>{}</script>"""
_END = "\n};\n"
Files = dict[str, tuple[str, int]]


def address(name: str) -> str:
    """Return the address of a file from the root of the site, as readers have it.

    >>> address("guides/brace/index.html"), address("index.html"), address("404.html")
    ('guides/brace/', '', '404.html')
    """
    return name.removesuffix("index.html") if f"/{name}".endswith("/index.html") else name


def installable(html: str) -> str:
    """Name, beside a page's icon, what a device needs to install the site, and what runs before the theme."""
    return _ICON.sub(_INSTALLED.format(preload.script(_BEFORE_THEME)), html, count=1)


def listed(site: Path) -> Files:
    """Return the files to keep, sorted: address, first sixteen digits of the SHA-256, and bytes."""
    found = {path.relative_to(site).as_posix(): path for path in site.rglob("*") if path.is_file()}
    wanted = [name for name in sorted(found) if not any(fnmatchcase(name, pattern) for pattern in LEFT_OUT)]
    contents = {address(name): found[name].read_bytes() for name in wanted}
    return {name: (checksum(content), len(content)) for name, content in contents.items()}


def worker(site: Path, script: str) -> str:
    """Return the service worker of a built site.

    Parameters
    ----------
    site : Path
        A site with its runtime.
    script : str
        Text of `web/offline/sw.js`.
    """
    files = listed(site)
    heavy = {name: files.pop(name) for name in list(files) if name.startswith(f"{bundle.FOLDER}/")}
    lines = [f"last: {json.dumps(bundle.MANIFEST)},"]
    for name, part in (("pages", files), ("heavy", heavy)):
        entries = [f"{json.dumps(path)}: {json.dumps(told, separators=(',', ':'))}," for path, told in part.items()]
        lines += [f"{name}: {{", *entries, "},"]
    return "\n".join(["const LIST = {", *lines]) + _END + script


def install(site: Path) -> None:
    """Put the service worker into a site that is otherwise finished."""
    script = site / SCRIPT
    if script.is_file():
        text = script.read_text(encoding="utf-8")
        script.unlink()  # it works at the root alone, below the list
    else:  # not the first time
        text = (site / WORKER).read_text(encoding="utf-8").split(_END, 1)[1]
    (site / WORKER).write_text(worker(site, text), encoding="utf-8")
