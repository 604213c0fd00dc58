"""What every command in a terminal shares: how it ends."""

from __future__ import annotations

import os
import sys
from argparse import ArgumentParser
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable

PIPE_CLOSED = 141
"""What a shell reports of a program that wrote to a closed pipe: 128 and the number of SIGPIPE."""


class Parser(ArgumentParser):
    """A parser whose help ends quietly too where nobody reads it: `ArgumentParser` passes over a closed pipe."""

    def print_help(self, file: Any = None) -> None:  # noqa: ANN401 - as ArgumentParser has it
        """Print the help; a closed pipe is told on to `run`."""
        print(self.format_help(), end="", file=file)


def run(command: Callable[[], int]) -> int:
    """Run a command, and end without a word when the reader of its output has gone, as in ``calc string | head -3``.

    Parameters
    ----------
    command : Callable
        Prints what it has to say and returns its exit code.

    Returns
    -------
    int
        The command's own exit code, or `PIPE_CLOSED`.
    """
    try:
        try:
            return command()
        finally:
            sys.stdout.flush()
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())  # Python flushes once more when it ends
        return PIPE_CLOSED
