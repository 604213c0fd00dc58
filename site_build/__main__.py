"""``python3 -m site_build serve | build | test``: needs nothing but Python 3.11 to start."""

from __future__ import annotations

import sys
from argparse import ArgumentParser

OLDEST = (3, 11)


def main() -> int:
    """Run one command; every failure a person can meet ends in one sentence."""
    if sys.version_info < OLDEST:
        print("This needs Python 3.11 or newer. Install it, then run the command with python3.11.", file=sys.stderr)
        return 1
    from site_build import building, checks, environment, serving  # noqa: PLC0415 - older Pythons must get the sentence
    from site_build.tell import StopError, complain  # noqa: PLC0415 - as above

    parser = ArgumentParser(prog="python3 -m site_build")
    commands = parser.add_subparsers(dest="command", required=True)
    serve = commands.add_parser("serve", help="build the site and serve it on this machine")
    serve.add_argument("--port", type=int, default=serving.FIRST_PORT)
    commands.add_parser("build", help="build the site into site/")
    test = commands.add_parser("test", help="every check there is")
    test.add_argument("--fast", action="store_true", help="only format, lint, types and sums")
    test.add_argument("--no-browser", action="store_true", help="leave out the tests that need Chromium")
    options = parser.parse_args()
    try:
        environment.ensure("test" if options.command == "test" else "site")
        if options.command == "test":
            return checks.test(fast=options.fast, with_browser=not options.no_browser)
        building.build()
        if options.command == "serve":
            serving.serve(options.port)
    except (StopError, OSError) as stop:
        complain(str(stop))
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
