"""Looking over a built site: every fault it knows, found in a small site that has just that one."""

from __future__ import annotations

import json
import zipfile
import zlib
from random import Random
from typing import TYPE_CHECKING

import pytest

from calc.paper import print_styles
from site_build.checks import site_faults
from site_build.pages import policy
from site_build.runtime import bundle

if TYPE_CHECKING:
    from pathlib import Path

HEAD = policy.with_policy('<meta charset="utf-8">', policy.policy([], print_styles()))
PAGE = f'<!doctype html><html lang="en">{HEAD}<title>x</title><h1 id="top">x</h1>{{}}</html>'


@pytest.fixture
def site(tmp_path: Path) -> Path:
    """Make a site without a fault."""
    for folder in (bundle.FOLDER, bundle.FONTS, "sub"):
        (tmp_path / folder).mkdir(parents=True)
    for name in bundle.FONT_FILES:
        (tmp_path / bundle.FONTS / name).write_bytes(b"x")
    with zipfile.ZipFile(tmp_path / bundle.FOLDER / "calc-1.txt", "w") as archive:
        archive.writestr("calc/bridge.pyc", "")
    names = {"wasm": "wasm-1.wasm", "snapshot": "snapshot-1.txt"}
    for name in names.values():
        (tmp_path / bundle.FOLDER / name).write_bytes(b"x")
    (tmp_path / bundle.MANIFEST).write_text(
        json.dumps({**names, "calc": "calc-1.txt", "integrity": dict.fromkeys([*names, "calc"])})
    )
    links = '<a href="sub/">s</a> <a href="sub/#top">s</a> <a href="#top">t</a> <a href="https://example.org/">e</a>'
    (tmp_path / "index.html").write_text(PAGE.format(links + '<link rel="canonical" href="https://example.org/">'))
    (tmp_path / "sub" / "index.html").write_text(PAGE.format('<a href="..">up</a> <a href="../index.html#top">up</a>'))
    (tmp_path / "404.html").write_text(PAGE.format('<a href="/sub/">s</a>'))
    (tmp_path / "a.css").write_text("@import 'b.css'; a { background: url(sub/x.png) url('data:,') url(#mark) }")
    (tmp_path / "b.css").touch()
    (tmp_path / "sub" / "x.png").touch()
    return tmp_path


def test_a_good_site_has_no_faults(site: Path) -> None:
    assert site_faults.faults(site) == []


@pytest.mark.parametrize(
    ("body", "fault"),
    [
        ('<a href="gone/">g</a>', "gone/ leads nowhere"),
        ('<a href="/gone.html?a=1#b">g</a>', "/gone.html?a=1#b leads nowhere"),
        ('<a href="sub/#gone">g</a>', "sub/#gone names a place that sub/index.html does not have"),
        ('<a href="#gone">g</a>', "#gone names a place that index.html does not have"),
        ('<p id="top">', "the id top is there 2 times"),
        ('<script src="https://example.org/a.js"></script>', "loads https://example.org/a.js from elsewhere"),
        ('<script src="//example.org/a.js"></script>', "loads //example.org/a.js from elsewhere"),
        ('<link rel="preconnect" href="https://example.org">', "loads https://example.org from elsewhere"),
        ('<img alt="" src="gone.png">', "gone.png leads nowhere"),
        ('<img src="a.css">', "has 1 images without alt"),
        ('<p style="color: red">', "has the attribute style, which its policy refuses"),
        ('<img alt="" onerror="x()">', "has the attribute onerror, which its policy refuses"),
        ("<h1>again</h1>", "has 2 headings of the first rank instead of one"),
    ],
)
def test_a_fault_on_a_page_is_named(site: Path, body: str, fault: str) -> None:
    (site / "index.html").write_text(PAGE.format(body))
    assert site_faults.faults(site) == [f"index.html: {fault}"]


def test_a_page_says_its_language(site: Path) -> None:
    (site / "index.html").write_text(f"<html>{HEAD}<h1 id='top'>x</h1></html>")
    assert site_faults.faults(site) == ["index.html: does not say its language"]


def test_every_page_has_the_policy_that_all_of_them_need(site: Path) -> None:
    (site / "index.html").write_text(PAGE.format("<script>ran()</script>"))
    without = "does not have the policy of the site"
    assert site_faults.faults(site) == [f"{name}: {without}" for name in ("404.html", "index.html", "sub/index.html")]
    policy.install(site)
    assert site_faults.faults(site) == []
    (site / "404.html").write_text(PAGE.format("").replace(HEAD, ""))
    assert site_faults.faults(site) == [f"404.html: {without}"]


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("@import 'https://example.org/a.css'", "loads https://example.org/a.css from elsewhere"),
        ("a { src: url(//example.org/a.woff2) }", "loads //example.org/a.woff2 from elsewhere"),
        ('a { src: url("../gone.woff2") format("woff2") }', "../gone.woff2 leads nowhere"),
    ],
)
def test_a_style_that_loads_what_it_must_not_is_named(site: Path, text: str, fault: str) -> None:
    (site / "sub" / "a.css").write_text(text)
    assert site_faults.faults(site) == [f"sub/a.css: {fault}"]


def test_a_runtime_that_is_not_whole_is_named(site: Path) -> None:
    folder = site / bundle.FOLDER
    noise = Random(1).randbytes(800_001)  # noqa: S311 - bytes that do not compress
    (folder / "calc-2.txt").write_bytes(noise)
    with zipfile.ZipFile(folder / "calc-1.txt", "w") as archive:
        archive.writestr("calc/other.py", "")
    assert site_faults.faults(site) == [
        "assets/runtime/calc-1.txt: has no calc/bridge.pyc",
        "assets/runtime/calc-2.txt: is named by no manifest",
        f"assets/runtime/calc-2.txt: takes {len(zlib.compress(noise, 9))} bytes to send, more than 800000",
    ]
    (folder / "calc-1.txt").unlink()
    assert "assets/runtime/manifest.json: names calc-1.txt, which is not there" in site_faults.faults(site)
    (folder / "snapshot-1.txt").unlink()
    assert "assets/runtime/manifest.json: names snapshot-1.txt, which is not there" in site_faults.faults(site)
    (site / bundle.MANIFEST).unlink()
    assert "assets/runtime/manifest.json: is not there" in site_faults.faults(site)
