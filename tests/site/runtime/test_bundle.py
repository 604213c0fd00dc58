"""The runtime's files: whole, the same for the same sources, and able to run."""

from __future__ import annotations

import base64
import hashlib
import io
import json
import os
import subprocess
import sys
import zipfile
from typing import TYPE_CHECKING

import pytest

from calc import bridge, worksheets
from site_build.runtime import bundle, snapshot, zips
from site_build.setup import packages

if TYPE_CHECKING:
    from pathlib import Path


def test_the_zip_is_the_same_whatever_the_clock_says(tmp_path: Path) -> None:
    for name in ("first", "second"):
        data = tmp_path / name / "calc" / "data"
        data.mkdir(parents=True)
        (data.parent / "b.py").write_bytes(b"b = 1\n")
        (data / "a.toml").write_bytes(b"a = 1\n")
    os.utime(tmp_path / "second" / "calc" / "b.py", (1, 1))
    first, second = (bundle.calc_files(tmp_path / name) for name in ("first", "second"))
    assert zips.zipped(first) == zips.zipped(second)
    assert zips.content_hash(first) == zips.content_hash(second)


def test_the_name_changes_with_a_name_or_a_content() -> None:
    hashes = {
        zips.content_hash(contents)
        for contents in ({"a": b"b"}, {"a": b"c"}, {"ab": b""}, {"a": b"", "b": b""}, {"a": b"b", "c": b""})
    }
    assert len(hashes) == 5
    assert all(len(each) == 16 for each in hashes)


def test_only_modules_and_data_travel(tmp_path: Path) -> None:
    data = tmp_path / "calc" / "data"
    data.mkdir(parents=True)
    for name in ("__init__.py", "notes.md", "data/a.toml", "data/a.csv", "a.pyc", "formulas.toml"):
        (tmp_path / "calc" / name).touch()
    assert list(bundle.calc_files(tmp_path)) == ["calc/__init__.py", "calc/data/a.toml"]


def test_what_travels_answers_on_its_own_as_it_does_here(tmp_path: Path) -> None:
    zipfile.ZipFile(io.BytesIO(zips.zipped(bundle.calc_files()))).extractall(tmp_path)
    sheets = worksheets.catalogue()
    asks = [json.dumps({"v": 1, "id": 1, "worksheet": key, "system": "inch", "inputs": {}}) for key in sheets]
    program = (
        f"import json, sys; sys.path.insert(0, {str(tmp_path)!r}); from calc import bridge\n"
        "for ask in json.load(sys.stdin): print(bridge.handle(ask).encode('unicode_escape').decode())\n"
    )
    done = subprocess.run(
        [sys.executable, "-I", "-c", program], input=json.dumps(asks), capture_output=True, text=True, check=True
    )
    answers = [bridge.handle(ask) for ask in asks]
    assert answers
    assert all("fault" not in json.loads(answer) for answer in answers)
    assert done.stdout.splitlines() == [answer.encode("unicode_escape").decode() for answer in answers]


@pytest.fixture
def brought(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Pretended packages whose files hold their own names."""
    (tmp_path / "files").mkdir()
    for name in (
        "pyodide.mjs",
        "pyodide.asm.mjs",
        "pyodide.asm.wasm",
        *(f"files/{face}" for face in bundle.FONT_FILES),
        "LICENSE",
    ):
        (tmp_path / name).write_text(name)
    (tmp_path / "pyodide-lock.json").write_text('{"info": {"python": "3.14.2"}, "packages": {"many": {}}}')
    monkeypatch.setattr(packages, "fetch", lambda _name: tmp_path)
    made = snapshot.Trimmed(b"library", b"package", b"snap\x30\0\0\0memory")
    monkeypatch.setattr(bundle, "trimmed", lambda _pyodide, _calc: made)
    return tmp_path


@pytest.mark.usefixtures("brought")
def test_a_site_gets_the_runtime_its_manifest_names(tmp_path: Path) -> None:
    site = tmp_path / "site"
    worker = site / bundle.WORKER
    worker.parent.mkdir(parents=True)
    worker.write_text("first\nsecond\n")
    for _ in range(2):
        bundle.install(site)
    start = json.loads((site / bundle.MANIFEST).read_text())
    folder = site / bundle.FOLDER
    assert {path.name for path in folder.iterdir()} == {
        "manifest.json",
        *(start[part] for part in start["integrity"]),
    }
    line, rest = worker.read_text().split("\n", 1)
    assert json.loads(line.removeprefix("const START = ").removesuffix(";")) == start
    assert rest == "first\nsecond\n"
    assert start["head"] == 0x30
    for part, told in start["integrity"].items():
        digest = hashlib.sha256((folder / start[part]).read_bytes())
        assert digest.hexdigest()[:16] in start[part]
        assert base64.b64encode(digest.digest()).decode() == told.removeprefix("sha256-")
    for part, published in (
        ("loader", "pyodide.mjs"),
        ("script", "pyodide.asm.mjs"),
        ("wasm", "pyodide.asm.wasm"),
    ):
        assert (folder / start[part]).read_text() == published
    assert start["lock"] == {"info": {"python": "3.14.2"}, "packages": {}}
    assert (folder / start["calc"]).read_bytes() == b"package"
    assert (folder / start["library"]).read_bytes() == b"library"
    assert {path.name for path in (site / bundle.FONTS).iterdir()} == {*bundle.FONT_FILES, "LICENSE"}


@pytest.mark.usefixtures("brought")
def test_a_plain_site_names_no_snapshot_and_brings_python_as_published(tmp_path: Path) -> None:
    (tmp_path / "python_stdlib.zip").write_bytes(b"whole library")
    made = bundle.files(plain=True)
    start = json.loads(made[bundle.MANIFEST])
    assert not {"snapshot", "head"} & set(start)
    assert "snapshot" not in start["integrity"]
    assert made[f"{bundle.FOLDER}/{start['library']}"] == b"whole library"
    archive = zipfile.ZipFile(io.BytesIO(made[f"{bundle.FOLDER}/{start['calc']}"]))
    assert {name: archive.read(name) for name in archive.namelist()} == bundle.calc_files()
    assert {each.compress_type for each in archive.infolist()} == {
        zipfile.ZIP_STORED
    }  # as `web/worker/unzip.js` reads it
