"""Plain progress lines, and the one way to stop: a sentence that says what to do."""

from __future__ import annotations

import sys
import time
from contextlib import contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator


class StopError(Exception):
    """Carries the sentence a person needs to go on."""


def say(line: str) -> None:
    """Print one line at once."""
    print(line, flush=True)


def complain(sentence: str) -> None:
    """Print a sentence on the error stream."""
    print(sentence, file=sys.stderr, flush=True)


@contextmanager
def step(words: str) -> Iterator[None]:
    """Say what is being done, and how long it took."""
    say(f"{words} ...")
    start = time.monotonic()
    yield
    say(f"{words}: {time.monotonic() - start:.1f} s")
