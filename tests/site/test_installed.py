"""The command `plied-true`: its wheel, installed into an empty environment, answers as `python3 -m calc` does.

Nothing here needs a network: the build backend is one of the locked packages, and the wheel depends on nothing.
"""

from __future__ import annotations

import subprocess
import sys
import zipfile
from typing import TYPE_CHECKING

import pytest

from site_build.setup.paths import ROOT, python_in

if TYPE_CHECKING:
    from pathlib import Path

pytestmark = pytest.mark.exact
PIP = (sys.executable, "-m", "pip", "--disable-pip-version-check", "--quiet")
OFFLINE = ("--no-deps", "--no-index")


def run(folder: Path, *command: object) -> subprocess.CompletedProcess[str]:
    """Run a program in a folder that is not the project's."""
    return subprocess.run([str(word) for word in command], cwd=folder, capture_output=True, text=True, check=False)


def done(folder: Path, *command: object) -> str:
    """Run a program that must succeed, and return what it prints."""
    ran = run(folder, *command)
    assert ran.returncode == 0, ran.stdout + ran.stderr
    return ran.stdout


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the project's wheel."""
    folder = tmp_path_factory.mktemp("wheel")
    done(folder, *PIP, "wheel", *OFFLINE, "--no-build-isolation", "--wheel-dir", folder, ROOT)
    (built,) = folder.glob("*.whl")
    return built


@pytest.fixture(scope="module")
def command(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the command of an environment that holds the wheel and nothing else."""
    venv = tmp_path_factory.mktemp("installed") / "venv"
    done(venv.parent, sys.executable, "-m", "venv", "--without-pip", venv)
    done(venv.parent, *PIP, "--python", python_in(venv), "install", *OFFLINE, wheel)
    return python_in(venv).with_name("plied-true.exe" if sys.platform == "win32" else "plied-true")


def test_every_module_and_table_of_calc_is_in_the_wheel_and_nothing_else(wheel: Path) -> None:
    ours = {path.relative_to(ROOT).as_posix() for path in (ROOT / "calc").rglob("*") if path.suffix in {".py", ".toml"}}
    with zipfile.ZipFile(wheel) as held:
        assert {name for name in held.namelist() if ".dist-info/" not in name} == ours


@pytest.mark.parametrize("words", [("string", "--json"), ("club",), ("strands", "draw_weight=55 lb", "--json")])
def test_the_command_answers_as_the_module_does(command: Path, tmp_path: Path, words: tuple[str, ...]) -> None:
    assert done(tmp_path, command, *words) == done(ROOT, sys.executable, "-m", "calc", *words)


def test_the_command_goes_by_its_own_name_in_its_help(command: Path, tmp_path: Path) -> None:
    assert "plied-true WORKSHEET --help" in done(tmp_path, command)
    assert done(tmp_path, command, "string", "--help").startswith("usage: plied-true string ")
    assert done(ROOT, sys.executable, "-m", "calc", "string", "--help").startswith("usage: python3 -m calc string ")


def test_a_bad_input_ends_the_command_with_2_and_a_sentence(command: Path, tmp_path: Path) -> None:
    ran = run(tmp_path, command, "string", "nock_to_nock=long")
    assert (ran.returncode, ran.stdout) == (2, "")
    assert ran.stderr.startswith("nock_to_nock: ")
