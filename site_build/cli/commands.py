"""What a person can ask of `python3 -m site_build`."""

from __future__ import annotations

import argparse
import time
from typing import TYPE_CHECKING

from site_build.checks import suite
from site_build.cli import figure_sheet, watching
from site_build.offline import folder
from site_build.pages import building
from site_build.setup import chromium, environment, locking, packages
from site_build.setup.paths import CACHE, SITE, shown
from site_build.setup.programs import run_to_its_end
from site_build.setup.progress import StopError, complain, say, step
from site_build.setup.reasons import reason_of

if TYPE_CHECKING:
    from collections.abc import Sequence

STOPPED = 130


def main(words: Sequence[str]) -> int:
    """Do what was asked and return the exit code; every failure a person can meet ends in a sentence."""
    asked = _parser().parse_args(words)
    try:
        return int(asked.run(asked))
    except StopError as stop:
        complain(str(stop))
    except BrokenPipeError:
        raise  # `console.run` ends the command
    except OSError as error:
        complain(reason_of(error))
    except KeyboardInterrupt:
        complain("Stopped.")
        return STOPPED
    return 1


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="python3 -m site_build", description="Builds, serves and checks the site.")
    commands = parser.add_subparsers(required=True, metavar="command")
    serve = commands.add_parser("serve", help="build the site, show it on this machine, follow every change")
    serve.add_argument("--port", type=_port, help="the port to use; without it the first free one from 8000 on")
    serve.set_defaults(run=_serve)
    test = commands.add_parser("test", help="run every check there is")
    test.add_argument("--fast", action="store_true", help="only format, lint, types and tests without a browser")
    test.add_argument("--long", action="store_true", help="every seeded run over random inputs at its full length")
    test.add_argument("--no-browser", action="store_true", help="leave out the tests that need Chromium")
    test.set_defaults(run=_test)
    build = commands.add_parser("build", help="build the site into site/")
    build.add_argument("--folder", action="store_true", help="make the folder to carry from it, and its zip, as well")
    build.set_defaults(run=_build)
    commands.add_parser("figures", help="draw every figure, both hands, on one page to look at").set_defaults(
        run=_figures
    )
    commands.add_parser("pictures", help="take the README's pictures of the built site").set_defaults(run=_pictures)
    bench = commands.add_parser("bench", help="measure starts, sums and bytes in Chromium, beside others, as ratios")
    bench.add_argument("--quick", action="store_true", help="one round, shown and not written")
    bench.add_argument("--rounds", type=int, default=5, help="so many; 5 unless told")
    bench.set_defaults(run=_bench)
    lock = commands.add_parser("lock", help="write the lock files anew from pyproject.toml")
    lock.add_argument("--upgrade", action="store_true", help="take the newest versions")
    lock.set_defaults(run=_lock)
    return parser


def _port(text: str) -> int:
    """Return a port number.

    >>> _port("8000")
    8000
    """
    if not text.isdecimal() or not 0 < int(text) < 2**16:
        raise argparse.ArgumentTypeError("a port is a whole number from 1 to 65535")
    return int(text)


def _serve(asked: argparse.Namespace) -> int:
    _set_up("site")
    try:
        watching.serve(asked.port)
    except KeyboardInterrupt:
        say("\nStopped.")
    return 0


def _build(asked: argparse.Namespace) -> int:
    _set_up("site")
    with step("Building the site"):
        building.publish()
    say(f"The site is in {shown(SITE)}/")
    if asked.folder:
        with step("Making the folder to carry"):
            made = folder.make(SITE)
        say(f"It is in {shown(made[0])}/, and packed in {shown(made[1])}: open its index.html")
    return 0


def _figures(asked: argparse.Namespace) -> int:
    del asked
    count = figure_sheet.write(CACHE / "figures.html")
    say(f"{count} figures: open {shown(CACHE / 'figures.html')} in a browser")
    return 0


def _pictures(asked: argparse.Namespace) -> int:
    del asked
    environment.ensure("test")
    more = {chromium.VARIABLE: str(chromium.ensure())}
    return run_to_its_end([environment.python(), "-m", "site_build.cli.pictures"], more=more)


def _test(asked: argparse.Namespace) -> int:
    start = time.monotonic()
    environment.ensure("test")
    if not asked.fast:
        packages.ensure("test")
    if asked.fast:
        results = suite.run_all(suite.fast())
    else:
        with suite.every(browser=not asked.no_browser, long=asked.long) as every:
            results = suite.run_all(every)
    say(f"\n{suite.summary(results)} {time.monotonic() - start:.0f} s in all.")
    return 1 if any(result.state == suite.FAILED for result in results) else 0


def _bench(asked: argparse.Namespace) -> int:
    environment.ensure("test")
    packages.ensure("test")
    with step("Building the site"):
        building.publish()
    more = {chromium.VARIABLE: str(chromium.ensure())}
    command = [
        environment.python(),
        "-m",
        "site_build.bench.run",
        *(["--quick"] if asked.quick else ["--rounds", str(asked.rounds)]),
    ]
    return run_to_its_end(command, more=more)


def _lock(asked: argparse.Namespace) -> int:
    locking.lock(upgrade=asked.upgrade)
    return 0


def _set_up(name: str) -> None:
    environment.ensure(name)
    packages.ensure(name)
