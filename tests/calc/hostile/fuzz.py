"""As many messages as one likes for the bridge: `python -m tests.calc.hostile.fuzz 200000`.

With atheris installed, each message that reaches lines which none reached before is kept and changed further; without,
all are random. `docs/reference/code/fuzzing.md` tells how.
"""

from __future__ import annotations

import random
import sys
import tempfile
import time
from contextlib import nullcontext
from importlib import import_module
from importlib.util import find_spec
from itertools import islice
from pathlib import Path
from typing import Any

MOST_BYTES = 4096
SLOWEST_S = 2.0
EVERY = 10_000
BEGINNINGS = 200
"""Random inputs that atheris begins with: one that is too short makes no message."""


class Run:
    """What came of a run so far: how many messages, and the slowest."""

    def __init__(self, check: Any) -> None:  # noqa: ANN401 - a function that takes a message and returns its reply
        self.check = check
        self.count = self.answered = 0
        self.slowest_s, self.slowest = 0.0, ""
        self.begun = time.monotonic()

    def take(self, text: str) -> None:
        """Send one message; a reply that is not well formed, or takes too long, is an `AssertionError`."""
        begun = time.process_time()
        self.answered += self.check(text)["ok"]
        took = time.process_time() - begun
        assert took < SLOWEST_S, f"{took:.1f} s for {text[:2000]!r}"
        self.count += 1
        if took > self.slowest_s:
            self.slowest_s, self.slowest = took, text
        if self.count % EVERY == 0:
            self.tell()

    def tell(self) -> None:
        """Say how far it is."""
        print(  # noqa: T201 - a run is watched by a person
            f"{self.count} messages in {time.monotonic() - self.begun:.0f} s, {self.answered} of them answered; "
            f"the slowest took {self.slowest_s:.2f} s: {self.slowest[:100]}",
            flush=True,
        )


def main(inputs: int, *more: str) -> None:
    """Go on until so many inputs are taken, or one of them fails.

    Parameters
    ----------
    inputs : int
        Some make no message and count all the same.
    more : str
        Options and folders for atheris.
    """
    atheris: Any = import_module("atheris") if find_spec("atheris") else None
    with atheris.instrument_imports(include=["calc"]) if atheris else nullcontext():
        tests: Any = import_module("tests.calc.hostile.test_messages")
    run = Run(tests.well_formed)
    test = tests.test_every_message_gets_a_well_formed_reply
    tests.well_formed = run.take
    chance = random.Random(1)  # noqa: S311 - no secret
    chosen = (chance.randbytes(chance.randrange(64, MOST_BYTES)) for _ in range(inputs))
    if atheris:
        with tempfile.TemporaryDirectory() as folder:
            for at, each in enumerate(islice(chosen, BEGINNINGS)):
                (Path(folder) / str(at)).write_bytes(each)
            options = (f"-runs={inputs}", f"-max_len={MOST_BYTES}", "-len_control=0", *more, folder)
            atheris.Setup(["fuzz", *options], test.hypothesis.fuzz_one_input)
            atheris.Fuzz()  # ends the program
    for each in chosen:
        test.hypothesis.fuzz_one_input(each)
    run.tell()


if __name__ == "__main__":
    main(int(sys.argv[1]), *sys.argv[2:])
