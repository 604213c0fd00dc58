"""What a newcomer meets first: the pages at the root, the editor's settings, the hook before a commit."""

from __future__ import annotations

import re
import subprocess
import sys
from collections import Counter
from configparser import ConfigParser
from typing import TYPE_CHECKING

import pytest
import yaml  # type: ignore[import-untyped]  # it comes without types

from site_build.setup.paths import ROOT

if TYPE_CHECKING:
    from pathlib import Path

pytestmark = pytest.mark.exact
ONE_PAGE, TEN_MINUTES = 60, 150
MADE = {".cache/npm"}
"""Folders that are made when they are needed."""
HOOKS = ROOT / ".pre-commit-config.yaml"
BINARY = {".png", ".woff2"}
OURS = ("calc", "docs", "locks", "site_build", "tests")


def text_files() -> list[Path]:
    """Return every text file of the project."""
    inside = [path for folder in OURS for path in (ROOT / folder).rglob("*") if path.is_file()]
    here = [path for path in ROOT.iterdir() if path.is_file() and path.name not in {".git", ".coverage"}]
    return [path for path in (*here, *inside) if path.suffix not in {*BINARY, ".pyc"}]


@pytest.mark.parametrize("made", [".venv", ".cache", "site", "to-carry"])
def test_what_is_made_is_left_out_whether_folder_or_link(made: str) -> None:
    """A pattern with a stroke at its end leaves out folders alone, and a link of that name gets committed."""
    assert f"/{made}" in (ROOT / ".gitignore").read_text(encoding="utf-8").splitlines()


def test_every_file_is_written_as_the_editor_is_told() -> None:
    settings = ConfigParser()
    settings.read_string("[top]\n" + (ROOT / ".editorconfig").read_text("utf-8"))
    every = settings["*"]
    assert (every["charset"], every["end_of_line"], every["indent_style"]) == ("utf-8", "lf", "space")
    assert every.getboolean("insert_final_newline")
    assert every.getboolean("trim_trailing_whitespace")
    for path in text_files():
        text = path.read_bytes().decode("utf-8")
        assert "\r" not in text, path
        assert "\t" not in text, path
        assert text.endswith("\n"), path
        assert not re.search(r"[ \t]+$", text, re.MULTILINE), path


def test_no_two_public_classes_share_a_name() -> None:
    files = [path for folder in ("calc", "site_build") for path in (ROOT / folder).rglob("*.py")]
    names = Counter(name for path in files for name in re.findall(r"(?m)^class ([A-Za-z]\w*)", path.read_text("utf-8")))
    assert [name for name, count in names.items() if count > 1] == []


def test_the_hook_before_a_commit_is_the_projects_own_command() -> None:
    (repo,) = yaml.safe_load(HOOKS.read_text("utf-8"))["repos"]
    (hook,) = repo["hooks"]
    assert repo["repo"] == "local"
    assert hook["language"] == "system"
    assert hook["entry"] == "python3 -m site_build test --fast"
    assert "://" not in HOOKS.read_text("utf-8")
    checked = subprocess.run(
        [sys.executable, "-m", "pre_commit", "validate-config", HOOKS], capture_output=True, text=True, check=False
    )
    assert checked.returncode == 0, checked.stdout


def test_contributing_is_one_page_and_its_commands_exist() -> None:
    text = (ROOT / "CONTRIBUTING.md").read_text("utf-8")
    assert len(text.splitlines()) <= ONE_PAGE
    helped = subprocess.run(
        [sys.executable, "-m", "site_build", "--help"], cwd=ROOT, capture_output=True, text=True, check=True
    ).stdout
    for command in re.findall(r"python3 -m site_build (\w+)", text):
        assert command in helped


def test_developers_is_read_in_ten_minutes_and_every_path_in_it_is_there() -> None:
    text = (ROOT / "DEVELOPERS.md").read_text("utf-8")
    assert len(text.splitlines()) <= TEN_MINUTES
    named = re.findall(r"`([\w.-]+/[\w./-]+)`", text)
    assert len(named) > 10
    assert [path for path in named if path not in MADE and not (ROOT / path).exists()] == []


@pytest.mark.parametrize("name", ["README.md", "DEVELOPERS.md", "CONTRIBUTING.md", "CHANGELOG.md"])
def test_every_file_that_a_page_at_the_root_links_to_is_there(name: str) -> None:
    for target in re.findall(r"\]\(([^)#:]+)\)", (ROOT / name).read_text("utf-8")):
        assert (ROOT / target).exists(), target


def test_every_number_that_moved_has_its_old_value_its_new_value_and_a_reason() -> None:
    lines = (ROOT / "CHANGELOG.md").read_text("utf-8").splitlines()
    for row in (line for line in lines if line.startswith("| ") and "---" not in line):
        cells = [cell.strip() for cell in row.strip("|").split(" | ")]
        assert len(cells) == 5, row
        assert all(cells), row
        assert cells[2] != cells[3], row
