"""The folder to carry: links that name files, modules as one plain script, everything inside."""

from __future__ import annotations

import base64
import gzip
import json
import zipfile
from typing import TYPE_CHECKING

import pytest

from site_build.offline import folder
from site_build.offline.folder import SCRIPTS
from site_build.pages import scripts
from site_build.setup import packages

if TYPE_CHECKING:
    from pathlib import Path

WORKERS = "assets/javascripts/workers"
PAGE = """<head><link rel="manifest" href="../assets/app.webmanifest">
<link rel="preload" href="../a.woff2" as="font" type="font/woff2" crossorigin></head><body>
<script id="__config">{"features": ["navigation.instant", "navigation.tabs"],
  "search": "../assets/javascripts/workers/search.0a.min.js"}</script>
<a href="../brace/#step-2">brace</a> <a class="x" href="#here">here</a> <a href="..">up</a>
<a href="https://example.org/a/">elsewhere</a>
<script src="../assets/javascripts/bundle.0.min.js"></script>
<script src="../assets/web/site.js" type="module"></script>
</body>"""


def test_links_name_their_file_and_scripts_are_plain() -> None:
    html = folder.page(PAGE)
    assert 'href="../brace/index.html#step-2"' in html
    assert 'href="#here"' in html
    assert 'href="../index.html"' in html
    assert 'href="https://example.org/a/"' in html
    assert '"features": ["navigation.tabs"]' in html
    assert "module" not in html
    assert "manifest" not in html
    assert "preload" not in html
    assert html.index("folder-search.js") < html.index("bundle.0") < html.index("../assets/web/folder.js")


def test_the_search_names_files() -> None:
    index = {"config": {}, "docs": [{"location": "guides/brace/#step-2"}, {"location": ""}, {"location": "#top"}]}
    held = json.loads(folder.search_script(json.dumps(index)).removeprefix("var __index = ").removesuffix(";\n"))
    told = [entry["location"] for entry in held["docs"]]
    assert told == ["guides/brace/index.html#step-2", "index.html", "index.html#top"]


@pytest.fixture
def site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a site with the real scripts and little else."""
    made_scripts = scripts.files()
    shim = tmp_path / "npm" / "shim"
    shim.mkdir(parents=True)
    (shim / "index.js").write_text("shim")
    monkeypatch.setattr(packages, "fetch", lambda _name: tmp_path / "npm")
    made = tmp_path / "site"
    (made / SCRIPTS).mkdir(parents=True)
    for name, text in made_scripts.items():
        if name != scripts.SERVICE_WORKER:
            (made / SCRIPTS / name).write_text(text, encoding="utf-8")
    for name, text in {
        "index.html": PAGE, "404.html": PAGE, "sw.js": "", "guides/brace/index.html": PAGE, "assets/mark.svg": "<svg/>",
        "search/search_index.json": '{"docs": []}',
        f"{WORKERS}/search.0a.min.js": "",
        "assets/runtime/wasm-1.wasm": "wasm",
    }.items():  # fmt: skip
        (made / name).parent.mkdir(parents=True, exist_ok=True)
        (made / name).write_text(text)
    return made


def test_folder_and_zip_hold_the_same_and_nothing_that_needs_a_server(site: Path, tmp_path: Path) -> None:
    place, archive = folder.make(site, tmp_path / "carry")
    held = {path.relative_to(place).as_posix(): path.read_bytes() for path in place.rglob("*") if path.is_file()}
    with zipfile.ZipFile(archive) as packed:
        assert {name.removeprefix("plied-true/"): packed.read(name) for name in packed.namelist()} == held
    scripts = {name for name in held if name.startswith(f"{SCRIPTS}/") and name.endswith(".js")}
    assert scripts == {f"{SCRIPTS}/{name}.js" for name in ("folder", "folder-runtime", "folder-search", "notebook")}
    assert "/workers/search.0a.min.js" in held["index.html"].decode()
    assert {"index.html", "guides/brace/index.html", "assets/mark.svg", "search/search_index.js"} <= held.keys()
    assert not {"404.html", "sw.js", "search/search_index.json", "assets/runtime/wasm-1.wasm"} & held.keys()
    runtime = json.loads(held[f"{SCRIPTS}/folder-runtime.js"].decode().removeprefix("window.FOLDER_RUNTIME = ")[:-2])
    assert list(runtime) == ["wasm-1.wasm"]
    assert gzip.decompress(base64.b64decode(runtime["wasm-1.wasm"])) == b"wasm"


def test_the_same_site_makes_the_same_zip(site: Path, tmp_path: Path) -> None:
    first, second = (folder.make(site, tmp_path / name)[1].read_bytes() for name in ("one", "two"))
    assert first == second
