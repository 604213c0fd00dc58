"""A command whose reader has gone ends without a word."""

from __future__ import annotations

import os
import subprocess
import sys

import pytest

from calc.console import PIPE_CLOSED
from site_build.setup.paths import ROOT

pytestmark = [
    pytest.mark.exact,
    pytest.mark.skipif(os.name == "nt", reason="Windows tells of a closed pipe in another way"),
]
COMMANDS = (
    ("calc",),
    ("calc", "string"),
    ("calc", "string", "--json"),
    ("calc", "string", "--help"),
    ("site_build", "--help"),
    ("site_build", "serve", "--help"),
)


@pytest.mark.parametrize("words", COMMANDS, ids=" ".join)
def test_a_closed_pipe_ends_a_command_quietly(words: tuple[str, ...]) -> None:
    reader, writer = os.pipe()
    buffered = {name: value for name, value in os.environ.items() if name != "PYTHONUNBUFFERED"}
    command = [sys.executable, "-m", *words]
    program = subprocess.Popen(command, stdout=writer, stderr=subprocess.PIPE, cwd=ROOT, env=buffered)
    os.close(writer)
    os.close(reader)
    complaints = program.communicate()[1]
    assert (program.returncode, complaints) == (PIPE_CLOSED, b"")


def test_the_first_lines_come_through_a_pipe() -> None:
    line = f'"{sys.executable}" -m calc string | head -3'
    shown = subprocess.run(line, shell=True, capture_output=True, text=True, check=True, cwd=ROOT)  # noqa: S602
    assert len(shown.stdout.splitlines()) == 3
    assert shown.stdout.startswith("Plan a string\n")
    assert shown.stderr == ""
