"""The commands' own sense: what they refuse, where they look, what they try next."""

from __future__ import annotations

import hashlib
import os
import zipfile
from io import BytesIO
from typing import TYPE_CHECKING

import pytest

from site_build import browser, environment, packages, runtime, serving
from site_build.tell import StopError

if TYPE_CHECKING:
    from pathlib import Path

pytestmark = pytest.mark.exact


def test_a_package_with_another_hash_is_refused(tmp_path: Path) -> None:
    archive = tmp_path / "a.tgz"
    archive.write_bytes(b"not it")
    packages.check(archive, hashlib.sha256(b"not it").hexdigest(), "a")
    with pytest.raises(StopError, match="not the file recorded"):
        packages.check(archive, "0" * 64, "a")


def test_every_package_is_pinned_with_a_hash_and_a_reason() -> None:
    for row in packages.table().values():
        assert len(row["sha256"]) == 64
        assert row["version"][0].isdigit()
        assert row["why"]
        assert row["licence"]


def test_locks_pin_with_hashes_and_name_no_host() -> None:
    for lock in environment.LOCKS.glob("*.txt"):
        text = lock.read_text(encoding="utf-8")
        assert "--hash=sha256:" in text
        assert "://" not in text
        assert "find-links" not in text


def test_a_named_chromium_comes_first(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    named = tmp_path / "chromium"
    named.touch()
    monkeypatch.setenv("CHROMIUM", str(named))
    assert browser.installed() == str(named)


def test_without_a_browser_each_way_is_tried_and_the_end_is_a_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    tried: list[str] = []

    def way(name: str) -> str:
        tried.append(name)
        return ""

    monkeypatch.setattr(browser, "installed", lambda: way("installed"))
    monkeypatch.setattr(browser, "_from_playwright", lambda: way("playwright"))
    monkeypatch.setattr(browser, "_from_debian", lambda: way("debian"))
    with pytest.raises(StopError, match="--no-browser"):
        browser.ensure()
    assert tried == ["installed", "playwright", "debian"]


def test_the_interpreter_stands_where_the_platform_keeps_it(monkeypatch: pytest.MonkeyPatch) -> None:
    assert environment.python().name.startswith("python")
    monkeypatch.setattr(os, "name", "nt")
    assert environment.python().as_posix().endswith(".venv/Scripts/python.exe")


def test_a_lock_that_changed_is_not_still_good(tmp_path: Path) -> None:
    lock = tmp_path / "a.txt"
    lock.write_text("a==1")
    before = environment.stamp_of(lock)
    lock.write_text("a==2")
    assert environment.stamp_of(lock) != before


def test_a_taken_port_gives_the_next(tmp_path: Path) -> None:
    first = serving.server(tmp_path, 0)
    second = serving.server(tmp_path, first.server_port)
    try:
        assert second.server_port > first.server_port
    finally:
        first.server_close()
        second.server_close()


def test_the_package_for_the_browser_is_the_same_each_time_and_whole() -> None:
    assert runtime.calc_zip() == runtime.calc_zip()
    with zipfile.ZipFile(BytesIO(runtime.calc_zip())) as archive:
        names = archive.namelist()
    assert names == sorted(names)
    assert {"calc/bridge.py", "calc/data/fibres.toml", "calc/worksheets/rows.toml"} <= set(names)
