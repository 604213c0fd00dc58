"""Every check there is, in order, and what came of each."""

from __future__ import annotations

import time
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING

from site_build.checks import site_faults
from site_build.pages import building
from site_build.setup import chromium, environment, firefox, packages
from site_build.setup.paths import CACHE, ROOT, SITE, WEB
from site_build.setup.programs import beside, run_shown
from site_build.setup.progress import StopError, complain, say
from site_build.setup.reasons import reason_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence
    from pathlib import Path

    from site_build.setup.programs import Command, Ran

LONG = "--long"
PASSED, FAILED, NOT_RUN = "passed", "FAILED", "not run"
SOURCES = ROOT / "site_build"
COVERED = "calc/geometry/*,calc/mechanics/*,calc/units*,calc/bridge.py"  # every line and branch
_TESTS = ("-m", "pytest", "-p", "site_build.checks.pytest_plugin", "-q")
_TYPES = ("-m", "mypy", "calc", "site_build", "tests")
_TYPES_FAILED = "mypy found something: its lines stand above."
_TEST_FAILED = "A test failed, or there was none: pytest's lines above say which."
_CORES = ("-n", "auto", "--dist", "worksteal")
_UNIT = ("-m", "not browser", "tests", "calc", "site_build")
_UNWATCHED = (  # what is counted is run by others as well
    *("tests/calc/worksheets", "tests/calc/draw", "tests/experiment", "tests/site", "tests/calc/test_own_figures.py"),
    *("tests/calc/test_worksheets.py", "tests/calc/test_share.py", "tests/calc/units/test_plain_numbers.py"),
    *("tests/calc/mechanics/shot/test_short_draw.py", "tests/calc/mechanics/estimate/test_weighing_found.py"),
)
_REST = tuple(f"--ignore={path}" for path in _UNWATCHED)
_WATCH = ("--cov", "--cov-report=")  # pyproject.toml says what is watched; watched tests take three times as long
_COVERAGE = CACHE / "coverage"
_TIMES = ("--times", str(CACHE / "times.json"))
_QUICK = ("--seconds", "11")  # with the other checks a quick look stays under 20 s
_FULL = ("--show-missing", "--skip-covered", "--fail-under", "98")


@dataclass(frozen=True, slots=True)
class Check:
    """One check: `run` raises `StopError` when it fails; `needs` names those without which it is pointless."""

    name: str
    run: Callable[[], None]
    needs: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Result:
    """What came of one check."""

    name: str
    state: str
    words: str
    seconds: float


@contextmanager
def every(*, browser: bool = True, long: bool = False) -> Iterator[list[Check]]:
    """Lend all checks in their order; types are checked beside the first of them."""
    with beside([environment.python(), *_TYPES], "types") as types:
        yield listed(browser=browser, long=long, types=types)


def listed(*, browser: bool = True, long: bool = False, types: Callable[[], Ran]) -> list[Check]:
    """Return all checks in their order; `types` waits for what runs beside the first ones.

    The build comes before the tests, which then need not make the snapshot of Python's memory on every core.
    """
    more = (LONG,) if long else ()
    return [
        *_style_checks(),
        Check("scripts", _scripts),
        Check("types", lambda: _waited(types())),
        Check("build", _build),
        Check("site", _site, needs=("build",)),
        Check("tests", lambda: _tests(more)),
        Check("coverage", _coverage, needs=("tests",)),
        Check("others", lambda: _others(more)),
        Check("browser", lambda: _browser(more), needs=("build",)) if browser else Check("browser", _left_out),
    ]


def fast() -> list[Check]:
    """Return the checks for the moment between two edits."""
    return [
        *_style_checks(),
        Check("types", lambda: _must([environment.python(), *_TYPES], _TYPES_FAILED)),
        Check("tests", _fast_tests),
    ]


def run_all(checks: Sequence[Check]) -> list[Result]:
    """Run each check, whatever came of the others unless it needs them, and say how each went."""
    results: list[Result] = []
    for check in checks:
        lost = [result.name for result in results if result.name in check.needs and result.state != PASSED]
        say(f"\n== {check.name}")
        results.append(Result(check.name, NOT_RUN, f"needs {lost[0]}", 0.0) if lost else run_one(check))
        say(f"== {line(results[-1])}")
    return results


def run_one(check: Check) -> Result:
    """Run one check and time it."""
    start = time.monotonic()
    try:
        check.run()
    except LeftOut as left_out:
        state, words = NOT_RUN, str(left_out)
    except StopError as stop:
        complain(str(stop))
        state, words = FAILED, str(stop).splitlines()[-1]
    except OSError as error:
        complain(reason_of(error))
        state, words = FAILED, reason_of(error)
    else:
        state, words = PASSED, ""
    return Result(check.name, state, words, time.monotonic() - start)


def line(result: Result) -> str:
    """Return one result as a line of the summary.

    >>> line(Result("tests", "passed", "", 3.14159))
    'tests    passed     3.1 s'
    """
    return f"{result.name:<8} {result.state:<7} {result.seconds:6.1f} s  {result.words}".rstrip()


def summary(results: Sequence[Result]) -> str:
    """Return all results, and one sentence about them."""
    failed = [result.name for result in results if result.state == FAILED]
    missing = [result.name for result in results if result.state == NOT_RUN]
    closing = f"Failed: {', '.join(failed)}." if failed else "No check failed."
    if missing:
        closing += f" Not run: {', '.join(missing)}."
    return "\n".join(["Summary", *map(line, results), closing])


class LeftOut(Exception):  # noqa: N818 - not an error: someone asked for it
    """A check that was left out on purpose."""


def _style_checks() -> list[Check]:
    return [
        Check("format", lambda: _ruff("format", "--check", ".")),
        Check("lint", lambda: _ruff("check", "--output-format", "concise", ".")),
    ]


def _ruff(*words: str) -> None:
    _must([environment.python(), "-m", "ruff", *words], "ruff found something: its lines stand above.")


def _waited(ran: Ran) -> None:
    say(ran.output.rstrip())
    if ran.code:
        raise StopError(_TYPES_FAILED)


def _must(command: Command, sentence: str, more: dict[str, str] | None = None) -> None:
    if run_shown(command, more=more):
        raise StopError(sentence)


def _scripts() -> None:
    """Look for faults in the browser's scripts and styles, and check the scripts' types."""
    look_over(SOURCES)
    tsc = packages.fetch("typescript") / "lib" / "tsc.js"
    _must(
        [*packages.node_tool("node"), tsc, "-p", WEB / "jsconfig.json"], "tsc found something: its lines stand above."
    )


def look_over(folder: Path) -> None:
    """Let Biome look for faults in every script and style of a folder; a warning is a fault.

    Raises
    ------
    StopError
        When there is one.
    """
    biome = packages.fetch("@biomejs/biome") / "bin" / "biome"
    asked = ("lint", "--error-on-warnings", f"--config-path={ROOT / 'biome.jsonc'}", folder)
    _must([*packages.node_tool("node"), biome, *asked], "Biome found something: its lines stand above.")


def _tests(more: Sequence[str]) -> None:
    """Run all tests that no other check runs, watching which lines and branches of `calc/` they run."""
    data = {"COVERAGE_FILE": str(_COVERAGE)}
    _must([environment.python(), *_TESTS, *_CORES, *_WATCH, *_TIMES, *more, *_UNIT, *_REST], _TEST_FAILED, more=data)


def _coverage() -> None:
    _must(
        [environment.python(), "-m", "coverage", "report", f"--data-file={_COVERAGE}", *_FULL, "--include", COVERED],
        "A line or branch is run by no test: the table above says which.",
    )


def _others(more: Sequence[str]) -> None:
    """Run the tests that cover nothing more, unwatched."""
    _must([environment.python(), *_TESTS, *_CORES, *_TIMES, *more, *_UNWATCHED], _TEST_FAILED)


def _fast_tests() -> None:
    _must([environment.python(), *_TESTS, *_TIMES, *_QUICK, *_UNIT], _TEST_FAILED)


def _build() -> None:
    """Build the site here and from a copy of the sources elsewhere, all of it made anew there, and compare."""
    with building.scratch() as folder, ThreadPoolExecutor() as pool:
        again = pool.submit(building.build_copy, folder / "elsewhere")
        building.publish()
        unlike = building.differences(SITE, again.result())
    if unlike:
        raise StopError(f"Two builds of the same sources differ in {', '.join(unlike)}: find what changes them.")


def _site() -> None:
    found = site_faults.faults(SITE)
    if found:
        raise StopError("\n".join([*found, "The built site has faults: put right what stands above."]))


def _browser(more: Sequence[str]) -> None:
    browser = chromium.ensure()
    say(f"In {browser}")
    firefox.bring()
    _must(
        [environment.python(), *_TESTS, *_CORES, *more, "-m", "browser", "tests/browser"],
        _TEST_FAILED,
        more={chromium.VARIABLE: str(browser)},
    )


def _left_out() -> None:
    raise LeftOut("the tests in tests/browser were left out, as --no-browser asked")
