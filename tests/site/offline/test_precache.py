"""The list of files to keep, and the service worker that holds it."""

from __future__ import annotations

import hashlib
import json
import re
from typing import TYPE_CHECKING, Any

import pytest

from site_build.offline import precache

if TYPE_CHECKING:
    from pathlib import Path

FILES = {
    "404.html": "nothing here",
    "index.html": "home",
    "guides/brace/index.html": "brace",
    "assets/web/page.js": "page",
    "assets/web/page.js.map": "map",
    "assets/javascripts/lunr/tinyseg.js": "another language",
    "sitemap.xml": "map of the site",
    "sitemap.xml.gz": "the same",
    "assets/runtime/manifest.json": "{}",
    "assets/runtime/wasm-1.wasm": "heavy",
    "assets/runtime/snapshot-1.txt": "memory",
    precache.SCRIPT: "the script",
}


@pytest.fixture
def site(tmp_path: Path) -> Path:
    for name, text in FILES.items():
        place = tmp_path / name
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_text(text, encoding="utf-8")
    return tmp_path


def held(site: Path) -> dict[str, Any]:
    """Return the list in the service worker."""
    text = (site / precache.WORKER).read_text(encoding="utf-8").partition("\n};\n")[0].removeprefix("const LIST = ")
    plain = re.sub(r",(\s*})", r"\1", re.sub(r"^(last|pages|heavy):", r'"\1":', text + "\n}", flags=re.MULTILINE))
    found: dict[str, Any] = json.loads(plain)
    return found


def test_every_file_a_reader_needs_is_listed_by_its_address_hash_and_size(site: Path) -> None:
    precache.install(site)
    found = held(site)
    assert list(found["pages"]) == ["404.html", "assets/web/page.js", "guides/brace/", "", "sitemap.xml"]
    runtime = [f"assets/runtime/{name}" for name in ("manifest.json", "snapshot-1.txt", "wasm-1.wasm")]
    assert list(found["heavy"]) == runtime
    assert found["pages"]["guides/brace/"] == [hashlib.sha256(b"brace").hexdigest()[:16], 5]
    assert found["last"] == "assets/runtime/manifest.json"


def test_the_script_stands_at_the_root_alone(site: Path) -> None:
    precache.install(site)
    assert (site / precache.WORKER).read_text(encoding="utf-8").endswith("};\nthe script")
    assert not (site / precache.SCRIPT).exists()


def test_installing_again_lists_anew_and_a_changed_word_changes_its_own_line_alone(site: Path) -> None:
    precache.install(site)
    before = (site / precache.WORKER).read_text(encoding="utf-8").splitlines()
    precache.install(site)
    assert (site / precache.WORKER).read_text(encoding="utf-8").splitlines() == before
    (site / "guides/brace/index.html").write_text("braced", encoding="utf-8")
    precache.install(site)
    after = (site / precache.WORKER).read_text(encoding="utf-8").splitlines()
    changed = [(old, new) for old, new in zip(before, after, strict=True) if old != new]
    assert [new.partition(":")[0] for _, new in changed] == ['"guides/brace/"']


def test_a_page_says_how_the_site_is_installed_from_where_it_lies() -> None:
    page = precache.installable('<link rel="icon" href="../../assets/mark.svg"><p>rest</p>')
    assert '<link rel="manifest" href="../../assets/app.webmanifest">' in page
    assert page.index("popstate") < page.index("</script>")
    assert page.endswith("<p>rest</p>")
    assert precache.installable("<p>no icon</p>") == "<p>no icon</p>"
