"""Starting other programs: in silence with a log, or in full view."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING

from site_build.setup.paths import LOGS, ROOT

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence
    from pathlib import Path

    Command = Sequence[object]  # words; paths among them

NOT_STARTED = 127
TOO_LATE = 124


@dataclass(frozen=True, slots=True)
class Ran:
    """What a program left behind: its exit code and all it printed."""

    code: int
    output: str


def surroundings(more: Mapping[str, str] | None = None) -> dict[str, str]:
    """Return environment variables for programs that import this project."""
    steady = {"PYTHONPATH": str(ROOT), "PYTHONHASHSEED": "0", "PYTHONUTF8": "1", "PIP_USER": "0"}
    return {**os.environ, **steady, **(more or {})}


def run_logged(
    command: Command,
    log: str,
    *,
    folder: Path = ROOT,
    more: Mapping[str, str] | None = None,
    seconds: float | None = None,
) -> Ran:
    """Run a program without showing it; all it prints goes to `.cache/log/<log>.txt` and to the caller."""
    words = [str(word) for word in command]
    try:
        done = subprocess.run(
            words,
            cwd=folder,
            env=surroundings(more),
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            timeout=seconds,
            check=False,
        )
        ran = Ran(done.returncode, done.stdout.decode("utf-8", "replace"))
    except subprocess.TimeoutExpired:
        ran = Ran(TOO_LATE, f"{words[0]} gave no answer in {seconds:.0f} s")
    except OSError as error:
        ran = Ran(NOT_STARTED, str(error))
    LOGS.mkdir(parents=True, exist_ok=True)
    (LOGS / f"{log}.txt").write_text(ran.output, encoding="utf-8")
    return ran


@contextmanager
def beside(command: Command, log: str) -> Iterator[Callable[[], Ran]]:
    """Run a program beside others, silent; what is lent waits for it. It is ended if nobody has waited."""
    LOGS.mkdir(parents=True, exist_ok=True)
    path = LOGS / f"{log}.txt"
    with path.open("wb") as file:
        words = [str(word) for word in command]
        program = subprocess.Popen(
            words, cwd=ROOT, env=surroundings(), stdin=subprocess.DEVNULL, stdout=file, stderr=subprocess.STDOUT
        )

    def wait() -> Ran:
        return Ran(program.wait(), path.read_text(encoding="utf-8", errors="replace"))

    try:
        yield wait
    finally:
        if program.poll() is None:
            program.terminate()
            program.wait()


def run_shown(command: Command, *, more: Mapping[str, str] | None = None) -> int:
    """Run a program that prints where we print, and return its exit code."""
    sys.stdout.flush()
    try:
        return subprocess.run([str(word) for word in command], cwd=ROOT, env=surroundings(more), check=False).returncode
    except OSError as error:
        print(error, flush=True)
        return NOT_STARTED


def run_to_its_end(command: Command, *, more: Mapping[str, str] | None = None) -> int:
    """Run a program as `run_shown` does; told to stop, hand that on and let it say what it has."""
    sys.stdout.flush()
    before = signal.signal(signal.SIGTERM, _interrupt)
    try:
        program = subprocess.Popen([str(word) for word in command], cwd=ROOT, env=surroundings(more))
        try:
            return program.wait()
        except KeyboardInterrupt:
            program.terminate()
            return program.wait()
    finally:
        signal.signal(signal.SIGTERM, before)


def _interrupt(_number: int, _frame: object) -> None:
    raise KeyboardInterrupt
