"""The lock files: exact, hashed, the same everywhere, and free of any machine's traces."""

from __future__ import annotations

import re
import tomllib

import pytest

from site_build.setup import locking
from site_build.setup.paths import LOCKS, ROOT
from site_build.setup.programs import Ran
from site_build.setup.progress import StopError

NAMES = ("site", "test", "mutation", "node")


def requirements(name: str) -> dict[str, str]:
    """Return each requirement line of a lock with the hashes that follow it."""
    content = (LOCKS / f"{name}.txt").read_text(encoding="utf-8").replace("\\\n", " ")
    lines = [line for line in content.splitlines() if line and not line.startswith("#")]
    return {line.split(" --hash=")[0].strip(): line for line in lines}


@pytest.mark.parametrize("name", NAMES)
def test_every_requirement_is_pinned_and_hashed(name: str) -> None:
    rows = requirements(name)
    assert rows
    for requirement, line in rows.items():
        assert re.match(r"^[a-z0-9.-]+==\S+( ; .+)?$", requirement), requirement
        assert re.findall(r"--hash=sha256:[0-9a-f]{64}", line), requirement


@pytest.mark.parametrize("name", NAMES)
def test_no_address_and_no_path_of_a_machine_is_in_a_lock(name: str) -> None:
    content = (LOCKS / f"{name}.txt").read_text(encoding="utf-8")
    for trace in ("://", "file:", "find-links", "index-url", "trusted-host", "/home", "/root", "/opt", " @ "):
        assert trace not in content


def test_site_lock_is_a_part_of_the_test_lock() -> None:
    """The same versions with the same hashes, for the same systems or for all of them."""
    every = requirements("test")
    for requirement, line in requirements("site").items():
        there = every.get(requirement) or every.get(requirement.partition(" ; ")[0])
        assert there, requirement
        assert re.findall(r"--hash=\S+", there) == re.findall(r"--hash=\S+", line), requirement


@pytest.mark.parametrize("group", ["site", "test", "mutation"])
def test_every_dependency_of_the_project_is_in_its_lock(group: str) -> None:
    groups = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["dependency-groups"]
    wanted = {re.split(r"[<>=!~\[ ]", entry)[0] for entry in groups[group] if isinstance(entry, str)}
    locked = {requirement.split("==")[0] for requirement in requirements(group)}
    assert wanted <= locked


def test_a_lock_that_names_an_address_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    class FakeLocks:
        def __truediv__(self, name: str) -> FakeLock:
            return FakeLock(name)

    class FakeLock:
        def __init__(self, name: str) -> None:
            self.name = name

        def read_text(self, **_: str) -> str:
            return "--index-url https://example.org\na==1 --hash=sha256:0\n"

    monkeypatch.setattr(locking, "LOCKS", FakeLocks())
    monkeypatch.setattr("shutil.which", lambda _name, **_: "uv")
    monkeypatch.setattr(locking, "run_logged", lambda *_, **__: Ran(0, ""))
    with pytest.raises(StopError, match=r"locks/test\.txt names an address: take it out of uv's settings"):
        locking.lock(upgrade=False)


def test_locking_without_uv_says_how_to_get_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("shutil.which", lambda _name, **_: None)
    with pytest.raises(StopError, match="pip install uv"):
        locking.lock(upgrade=True)
