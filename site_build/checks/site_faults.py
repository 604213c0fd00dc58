"""Looking over a built site: links that lead somewhere, nothing from elsewhere, one policy, the runtime whole."""

from __future__ import annotations

import io
import json
import re
import zipfile
import zlib
from collections import Counter
from dataclasses import dataclass, field
from html.parser import HTMLParser
from typing import TYPE_CHECKING
from urllib.parse import unquote, urldefrag, urljoin, urlsplit

from site_build.pages import policy
from site_build.runtime.bundle import FOLDER, FONT_FILES, FONTS, MANIFEST

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

_LOADING_LINKS = {
    "stylesheet",
    "icon",
    "preload",
    "modulepreload",
    "prefetch",
    "preconnect",
    "dns-prefetch",
    "manifest",
}
_BASE = "http://site/"  # a name to resolve addresses against, never asked
_CSS_LOADS = re.compile(r"""(?:url\(\s*['"]?|@import\s+['"])(?!data:|#)([^'")\s]+)""")
_MOST_BYTES = {f"{FOLDER}/calc-*.txt": 800_000, f"{FOLDER}/library-*.txt": 1_250_000, f"{FONTS}/*.woff2": 40_000}
"""As they travel: text is compressed on the way, here by gzip."""


@dataclass(slots=True)
class Page:
    """What one page says of itself."""

    ids: Counter[str] = field(default_factory=Counter)
    links: list[str] = field(default_factory=list)
    loads: list[str] = field(default_factory=list)
    headings: Counter[str] = field(default_factory=Counter)
    language: str = ""
    bare_images: int = 0


class _Reader(HTMLParser):
    """Fills a `Page` from HTML."""

    def __init__(self) -> None:
        super().__init__()
        self.page = Page()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        if "id" in given:
            self.page.ids[given["id"]] += 1
        if tag == "a" and "href" in given:
            self.page.links.append(given["href"])
        if tag == "link" and _LOADING_LINKS & set(given.get("rel", "").split()):
            self.page.loads.append(given.get("href", ""))
        if tag in {"script", "img", "iframe", "source", "video", "audio", "embed"} and "src" in given:
            self.page.loads.append(given["src"])
        if tag == "img" and "alt" not in given:
            self.page.bare_images += 1
        if tag == "html":
            self.page.language = given.get("lang", "")
        self.page.headings[tag] += 1


def read(html: str) -> Page:
    """Return what a page links to, loads and names."""
    reader = _Reader()
    reader.feed(html)
    reader.close()
    return reader.page


def faults(site: Path) -> list[str]:
    """Return what is wrong with a built site, a sentence each, sorted."""
    texts = {path.relative_to(site).as_posix(): path.read_text(encoding="utf-8") for path in site.rglob("*.html")}
    pages = {name: read(text) for name, text in texts.items()}
    found = [fault for name, page in pages.items() for fault in _page_faults(site, name, page, pages)]
    return sorted({*found, *policy.faults(texts), *_style_faults(site), *_runtime_faults(site), *_size_faults(site)})


def _page_faults(site: Path, name: str, page: Page, pages: dict[str, Page]) -> Iterator[str]:
    yield from (f"{name}: the id {each} is there {times} times" for each, times in page.ids.items() if times > 1)
    yield from (f"{name}: loads {address} from elsewhere" for address in page.loads if _elsewhere(address))
    if page.headings["h1"] != 1:
        yield f"{name}: has {page.headings['h1']} headings of the first rank instead of one"
    if not page.language:
        yield f"{name}: does not say its language"
    if page.bare_images:
        yield f"{name}: has {page.bare_images} images without alt"
    for address in (*page.links, *page.loads):
        if not urlsplit(address).scheme and not address.startswith("//"):
            yield from _target_faults(site, name, address, pages)


def _target_faults(site: Path, name: str, address: str, pages: dict[str, Page]) -> Iterator[str]:
    bare, anchor = urldefrag(address)
    target = unquote(urlsplit(urljoin(f"{_BASE}{name}", bare)).path).lstrip("/") if bare else name
    if target.endswith("/") or not target:
        target += "index.html"
    if not (site / target).is_file():
        yield f"{name}: {address} leads nowhere"
    elif anchor and target in pages and not pages[target].ids[unquote(anchor)]:
        yield f"{name}: {address} names a place that {target} does not have"


def _elsewhere(address: str) -> bool:
    return bool(urlsplit(address).netloc) or urlsplit(address).scheme in {"http", "https"}


def _style_faults(site: Path) -> Iterator[str]:
    for path in site.rglob("*.css"):
        name = path.relative_to(site).as_posix()
        for address in _CSS_LOADS.findall(path.read_text(encoding="utf-8")):
            if _elsewhere(address):
                yield f"{name}: loads {address} from elsewhere"
            else:
                yield from _target_faults(site, name, address, {})


def _runtime_faults(site: Path) -> Iterator[str]:
    wanted = [*(f"{FONTS}/{name}" for name in FONT_FILES), MANIFEST]
    missing = [name for name in wanted if not (site / name).is_file()]
    yield from (f"{name}: is not there" for name in missing)
    if MANIFEST in missing:
        return
    start = json.loads((site / MANIFEST).read_text(encoding="utf-8"))
    named = {start[each] for each in start["integrity"]}
    lacking = [name for name in sorted(named) if not (site / FOLDER / name).is_file()]
    yield from (f"{MANIFEST}: names {name}, which is not there" for name in lacking)
    if lacking:
        return
    archive = site / FOLDER / start["calc"]
    held = zipfile.ZipFile(io.BytesIO(archive.read_bytes())).namelist()
    if "calc/bridge.pyc" not in held:
        yield f"{FOLDER}/{start['calc']}: has no calc/bridge.pyc"
    others = {path.name for path in (site / FOLDER).glob("*-*.*")} - named
    yield from (f"{FOLDER}/{name}: is named by no manifest" for name in sorted(others))


def _size_faults(site: Path) -> Iterator[str]:
    for pattern, most in _MOST_BYTES.items():
        for path in site.glob(pattern):
            size = len(zlib.compress(path.read_bytes(), 9)) if path.suffix == ".txt" else path.stat().st_size
            if size > most:
                yield f"{path.relative_to(site).as_posix()}: takes {size} bytes to send, more than {most}"
