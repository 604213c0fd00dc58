"""Building beside the site, putting it in place, and following changes, with a pretended MkDocs."""

from __future__ import annotations

import os
import threading
from contextlib import nullcontext
from pathlib import Path
from typing import Any

import pytest

from site_build.cli import watching
from site_build.offline import precache
from site_build.pages import building, search
from site_build.runtime import bundle
from site_build.setup.programs import Ran
from site_build.setup.progress import StopError


@pytest.fixture
def clone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(building, "SITE", tmp_path / "site")
    monkeypatch.setattr(building, "CACHE", tmp_path / ".cache")
    return tmp_path


def write_page(words: str, site: Path, *, plain: bool = False) -> None:
    """Stand for a whole build."""
    del plain
    site.mkdir()
    (site / "index.html").write_text(words)


def test_a_new_site_takes_the_old_ones_place_whole(clone: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for words in ("one", "two"):
        monkeypatch.setattr(building, "build", lambda site, words=words, **how: write_page(words, site, **how))
        building.publish()
        assert (clone / "site" / "index.html").read_text() == words
    assert list((clone / ".cache").iterdir()) == []


def test_a_failed_build_leaves_the_old_site(clone: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write_page("good", clone / "site")

    def half(site: Path, *, plain: bool) -> None:
        write_page("half", site, plain=plain)
        raise StopError("no")

    monkeypatch.setattr(building, "build", half)
    with pytest.raises(StopError, match="no"):
        building.publish()
    assert (clone / "site" / "index.html").read_text() == "good"
    assert list((clone / ".cache").iterdir()) == []


def test_what_mkdocs_complains_of_is_shown(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    said = "WARNING -  Doc file 'index.md' contains a link 'gone.md'\n\nAborted with 1 warnings in strict mode!\n"
    monkeypatch.setattr(building, "run_logged", lambda *_, **__: Ran(1, said))
    with pytest.raises(StopError, match=r"(?s)^WARNING -  Doc file.*\nAborted.*\nThe site did not build: put right"):
        building.build(tmp_path)


def test_a_whole_build_is_strict_dated_by_the_commit_and_gets_the_runtime(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[tuple[list[str], dict[str, str]]] = []

    def mkdocs(command: list[object], log: str, *, more: dict[str, str]) -> Ran:
        assert log == "mkdocs"
        asked.append(([str(word) for word in command], more))
        return Ran(0, "")

    installed: list[Path] = []
    monkeypatch.setattr(building, "run_logged", mkdocs)
    monkeypatch.setattr(bundle, "make_snapshot", lambda: asked.append((["snapshot"], {})))
    monkeypatch.setattr(bundle, "install", lambda site, *, plain: installed.extend([site] * (not plain)))
    monkeypatch.setattr(search, "install", installed.append)
    monkeypatch.setattr(precache, "install", installed.append)
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1234")
    building.build(tmp_path)
    assert (["snapshot"], {}) in asked
    command, more = next(each for each in asked if each[0] != ["snapshot"])
    assert command[1:4] == ["-m", "mkdocs", "build"]
    assert "--strict" in command
    assert more["SOURCE_DATE_EPOCH"] == "1234"
    assert installed == [tmp_path, tmp_path, tmp_path]


def test_outside_git_the_date_is_fixed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(tmp_path.parent))
    assert building.last_commit(tmp_path) == "0"
    monkeypatch.setattr("shutil.which", lambda _name: None)
    assert building.last_commit() == "0"


def test_folders_are_compared_by_name_and_byte(tmp_path: Path) -> None:
    for folder in ("a", "b"):
        (tmp_path / folder / "sub").mkdir(parents=True)
        (tmp_path / folder / "same.txt").write_text("same")
    assert building.differences(tmp_path / "a", tmp_path / "b") == []
    (tmp_path / "a" / "sub" / "only.txt").touch()
    (tmp_path / "b" / "same.txt").write_text("samE")
    assert building.differences(tmp_path / "a", tmp_path / "b") == ["same.txt", "sub/only.txt"]


def test_a_folder_that_stays_open_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(self: Path, target: Path) -> None:
        raise PermissionError(13, "in use", str(self), None, str(target))

    monkeypatch.setattr(Path, "rename", refused)
    monkeypatch.setattr("time.sleep", lambda _seconds: None)
    with pytest.raises(StopError, match="is held open by another program"):
        building.swap(tmp_path / "new", tmp_path / "site", tmp_path / "old")


def test_every_kind_of_change_to_a_source_is_seen(tmp_path: Path) -> None:
    docs = tmp_path / "docs"
    docs.mkdir()
    for name in ("kept.md", "gone.md", "edited.md", "touched.md"):
        (docs / name).write_text("one")
    (tmp_path / "mkdocs.yml").touch()
    (tmp_path / "README.md").touch()
    before = watching.seen(tmp_path)
    assert sorted(before) == ["docs/edited.md", "docs/gone.md", "docs/kept.md", "docs/touched.md", "mkdocs.yml"]
    (docs / "gone.md").unlink()
    (docs / "edited.md").write_text("longer")
    os.utime(docs / "touched.md", (1, 1))
    (docs / "new.md").touch()
    (docs / "passed-over.pyc").touch()
    after = watching.seen(tmp_path)
    assert watching.changed(before, after) == ["docs/edited.md", "docs/gone.md", "docs/new.md", "docs/touched.md"]


def test_sources_are_taken_when_they_have_stopped_changing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    looks = iter([{"a": (1, 1)}, {"a": (2, 1)}, {"a": (3, 1)}, {"a": (3, 1)}])
    monkeypatch.setattr(watching, "seen", lambda _root: next(looks))
    monkeypatch.setattr("time.sleep", lambda _seconds: None)
    assert watching.settled({}, tmp_path) == {"a": (3, 1)}


@pytest.fixture
def looked(monkeypatch: pytest.MonkeyPatch) -> dict[str, Any]:
    """Pretended sources and builds: `sources` as they are, those for which a snapshot is `made`, what was `built`."""
    here: dict[str, Any] = {"sources": {"calc/a.py": (1, 1)}, "made": [], "built": []}

    def publish(guard: object, *, plain: bool) -> None:
        del guard
        here["built"].append("plain" if plain else "whole")

    monkeypatch.setattr(watching, "seen", lambda _root: dict(here["sources"]))
    monkeypatch.setattr("time.sleep", lambda _seconds: None)
    monkeypatch.setattr(building, "publish", publish)
    monkeypatch.setattr(bundle, "snapshot_is_made", lambda: here["sources"] in here["made"])
    return here


def test_a_site_is_served_plainly_until_its_snapshot_is_there(
    looked: dict[str, Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    making, made = threading.Event(), threading.Event()

    def make_snapshot() -> None:
        now = dict(looked["sources"])
        making.wait()
        looked["made"].append(now)
        made.set()

    monkeypatch.setattr(bundle, "make_snapshot", make_snapshot)
    follower = watching.Follower()
    follower.begin()
    follower.look(nullcontext())  # starts the making
    follower.look(nullcontext())  # nothing new
    assert looked["built"] == ["plain"]
    making.set()
    assert made.wait(10)
    follower.look(nullcontext())
    follower.look(nullcontext())
    assert looked["built"] == ["plain", "whole"]
    looked["sources"] = {"calc/a.py": (2, 2)}
    follower.look(nullcontext())
    assert looked["built"] == ["plain", "whole", "plain"]


def test_a_snapshot_that_cannot_be_made_is_told_once_for_the_same_sources(
    looked: dict[str, Any], monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    told = threading.Event()

    def make_snapshot() -> None:
        told.set()
        raise StopError("calc/a.py does not run.")

    monkeypatch.setattr(bundle, "make_snapshot", make_snapshot)
    follower = watching.Follower()
    follower.begin()
    for _ in range(3):
        follower.look(nullcontext())
        assert told.wait(10)
        for thread in threading.enumerate():
            if thread.daemon and thread is not threading.current_thread():
                thread.join(10)
    assert looked["built"] == ["plain"]
    assert capsys.readouterr().err == "calc/a.py does not run.\n"


def test_a_change_that_does_not_build_keeps_the_site_and_the_server(
    looked: dict[str, Any], monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def publish(guard: object, *, plain: bool) -> None:
        del guard, plain
        raise StopError("The site did not build: put right what stands above.")

    follower = watching.Follower()
    looked["sources"] = {"docs/a.md": (1, 1), "docs/b.md": (1, 1)} | looked["sources"]
    monkeypatch.setattr(building, "publish", publish)
    follower.look(nullcontext())
    told = capsys.readouterr()
    assert told.err == "The site did not build: put right what stands above.\n"
    assert told.out == "docs/a.md and 1 more changed; the site as it was before is still served.\n"
