"""Making `.venv` and installing a lock into it, with a pretended pip."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

import pytest

from site_build.setup import environment
from site_build.setup.paths import python_in
from site_build.setup.programs import Ran
from site_build.setup.progress import StopError

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

RUNNING = ".".join(map(str, sys.version_info[:3]))


class Machine:
    """Stands for pip and venv: notes what is asked, and makes what venv would make."""

    def __init__(self, folder: Path) -> None:
        self.venv = folder / ".venv"
        self.locks = folder / "locks"
        self.asked: list[str] = []
        self.pip = Ran(0, "")
        self.makes = Ran(0, "")

    def __call__(self, command: Sequence[object], log: str, **_: object) -> Ran:
        """Answer for every program."""
        del log
        words = [str(word) for word in command]
        if "venv" in words:
            self.asked.append("make")
            if not self.makes.code:
                self.furnish(RUNNING)
            return self.makes
        if "install" in words:
            assert {"--require-hashes", "--only-binary"} <= set(words)
            self.asked.append(f"install {words[-1].rsplit('/', 1)[-1]}")
            return self.pip
        return Ran(0, "pip 1")

    def furnish(self, version: str) -> None:
        """Make an environment that was made with a Python version."""
        program = python_in(self.venv)
        program.parent.mkdir(parents=True, exist_ok=True)
        program.touch()
        (self.venv / "pyvenv.cfg").write_text(f"home = /usr\nversion = {version}\n")


@pytest.fixture
def machine(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Machine:
    pretended = Machine(tmp_path)
    pretended.locks.mkdir()
    for name in ("site", "test", "node"):
        (pretended.locks / f"{name}.txt").write_text("a==1 --hash=sha256:0\n")
    monkeypatch.setattr(environment, "VENV", pretended.venv)
    monkeypatch.setattr(environment, "LOCKS", pretended.locks)
    monkeypatch.setattr(environment, "run_logged", pretended)
    return pretended


def test_a_new_clone_gets_an_environment_and_the_second_time_nothing_is_done(machine: Machine) -> None:
    environment.ensure("site")
    assert machine.asked == ["make", "install site.txt"]
    environment.ensure("site")
    assert machine.asked == ["make", "install site.txt"]


def test_the_test_lock_settles_the_site_lock_but_not_the_other_way(machine: Machine) -> None:
    environment.ensure("test")
    environment.ensure("site")
    assert machine.asked == ["make", "install test.txt"]
    environment.ensure("node")
    assert machine.asked[-1] == "install node.txt"


def test_a_changed_lock_is_installed_into_the_environment_that_is_there(machine: Machine) -> None:
    environment.ensure("site")
    (machine.locks / "site.txt").write_text("a==2 --hash=sha256:0\n")
    environment.ensure("site")
    assert machine.asked == ["make", "install site.txt", "install site.txt"]


def test_an_environment_made_by_hand_is_taken_over(machine: Machine) -> None:
    machine.furnish(RUNNING)
    environment.ensure("site")
    assert machine.asked == ["install site.txt"]


def test_an_environment_of_another_python_is_made_anew(machine: Machine) -> None:
    machine.furnish("3.9.1")
    left = machine.venv / "left.txt"
    left.touch()
    environment.ensure("site")
    assert machine.asked == ["make", "install site.txt"]
    assert not left.exists()


def test_an_environment_whose_python_is_gone_is_made_anew(machine: Machine) -> None:
    environment.ensure("site")
    python_in(machine.venv).unlink()
    environment.ensure("site")
    assert machine.asked == ["make", "install site.txt"] * 2


def test_a_failed_installation_leaves_no_stamp_and_says_what_to_do(machine: Machine) -> None:
    machine.pip = Ran(1, "WARNING: Retrying ... Temporary failure in name resolution\nERROR: No matching distribution")
    sentence = r"^Installing what locks/site\.txt lists \(packages: 1\): the network gave no answer; connect, then"
    with pytest.raises(StopError, match=sentence):
        environment.ensure("site")
    machine.pip = Ran(0, "")
    environment.ensure("site")
    assert machine.asked == ["make", "install site.txt", "install site.txt"]


def test_a_python_without_ensurepip_names_the_package_to_install(
    machine: Machine, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("importlib.util.find_spec", lambda name: None if name == "ensurepip" else name)
    with pytest.raises(StopError, match=r"came without ensurepip: .*apt-get install python3\.\d+-venv"):
        environment.ensure("site")
    assert machine.asked == []


def test_a_venv_that_cannot_be_made_says_why(machine: Machine) -> None:
    machine.makes = Ran(1, "OSError: [Errno 28] No space left on device")
    with pytest.raises(StopError, match=r"^Making \.venv: the disk is full; free some space, then run this again\.$"):
        environment.ensure("site")


def test_versions_are_read_from_settings_of_either_maker(machine: Machine) -> None:
    machine.furnish("3.12.4")
    assert environment.made_with(machine.venv) == "3.12.4"
    (machine.venv / "pyvenv.cfg").write_text("uv = 0.1\nversion_info = 3.13.0\n")
    assert environment.made_with(machine.venv) == "3.13.0"
    (machine.venv / "pyvenv.cfg").write_text("home = /usr\n")
    assert environment.made_with(machine.venv) == ""


def test_the_interpreter_lies_where_each_system_keeps_it(tmp_path: Path) -> None:
    assert python_in(tmp_path, windows=True) == tmp_path / "Scripts" / "python.exe"
    assert python_in(tmp_path, windows=False) == tmp_path / "bin" / "python"
