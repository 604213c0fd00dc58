"""`python3 -m site_build serve | test | build | lock`; any Python can read this file, to say that it is too old."""

import importlib
import sys

OLDEST = (3, 11)


def too_old(major: int, minor: int) -> str:
    """Return what to do about a Python that is too old, or an empty text."""
    if (major, minor) >= OLDEST:
        return ""
    wanted = ".".join(map(str, OLDEST))
    return f"This needs Python {wanted} or newer and is run by {major}.{minor}: start it with a newer one."


def main() -> int:
    """Hand over to the commands."""
    sentence = too_old(*sys.version_info[:2])
    if sentence:
        sys.stderr.write(sentence + "\n")
        return 1
    command = importlib.import_module("site_build.cli.commands")
    return int(importlib.import_module("calc.console").run(lambda: command.main(sys.argv[1:])))


if __name__ == "__main__":
    sys.exit(main())
