"""A pytest plugin: what kind of check each test is, how many of each passed, and a limit of time.

With ``--seconds N`` the tests that were quick before come first, then new ones, then slow ones, and what would not be
done within N seconds of work is skipped. The seconds count from the first test on, and waiting for other programs does
not count. Where no test could be run, pytest fails. The file that ``--times`` names keeps how long each test took.
"""

from __future__ import annotations

import json
import time
from collections import Counter, defaultdict
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from collections.abc import Iterable

KINDS = ("published", "recalled", "transcribed", "practice", "exact", "contract", "pinned")
QUICK = 0.2  # seconds
_KIND = "kind"
_TOOK = pytest.StashKey[dict[str, float]]()
_BEGAN = pytest.StashKey[float]()
_NO_TIME = "no time for these in a quick look of {:g} s; the whole test command runs them"


def pytest_addoption(parser: pytest.Parser) -> None:
    """Add the two options."""
    parser.addoption("--seconds", type=float, default=None, help="skip what is left after this time")
    parser.addoption("--times", type=Path, default=None, help="file that keeps how long each test took")


def pytest_configure(config: pytest.Config) -> None:
    """Read how long each test took before."""
    config.stash[_TOOK] = read_times(config.getoption("times"))


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Note each test's kind, refuse one that claims two, and put quick ones first if time is short."""
    for item in items:
        item.user_properties.append((_KIND, _kind(item)))  # reports carry it from every core to where they are counted
    if config.getoption("seconds") is not None:
        items.sort(key=lambda item: config.stash[_TOOK].get(item.nodeid, QUICK))


def _kind(item: pytest.Item) -> str:
    """Return the kind that stands nearest to the test: its own mark before its file's."""
    for node in reversed(item.listchain()):
        kinds = [kind for kind in KINDS if any(mark.name == kind for mark in node.own_markers)]
        if len(kinds) > 1:
            raise pytest.UsageError(f"{item.nodeid} is marked {' and '.join(kinds)}: a test is one kind of check.")
        if kinds:
            return kinds[0]
    return "other"


def pytest_collection_finish(session: pytest.Session) -> None:
    """Note when the tests begin."""
    session.config.stash[_BEGAN] = time.process_time()


def pytest_runtest_setup(item: pytest.Item) -> None:
    """Skip a test for which too little time is left."""
    limit = item.config.getoption("seconds")
    if limit is None:
        return
    spent = time.process_time() - item.config.stash[_BEGAN]
    if spent + item.config.stash[_TOOK].get(item.nodeid, 0.0) > limit:
        pytest.skip(_NO_TIME.format(limit))


@pytest.hookimpl(trylast=True)
def pytest_sessionfinish(session: pytest.Session, exitstatus: int) -> None:
    """Let a quick look fail for which no test was run."""
    if (
        session.config.getoption("seconds") is not None
        and exitstatus == pytest.ExitCode.OK
        and not _ran(session.config)
    ):
        session.exitstatus = pytest.ExitCode.NO_TESTS_COLLECTED


def _ran(config: pytest.Config) -> int:
    """Return how many tests came to an end, whatever it was, and were not left out."""
    stats = config.pluginmanager.getplugin("terminalreporter").stats
    return sum(len(stats.get(kind, [])) for kind in ("passed", "failed", "xfailed", "xpassed"))


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter, config: pytest.Config) -> None:
    """Print the counts above pytest's own closing line, and keep the times."""
    if config.getoption("seconds") is not None:
        ran, left = _ran(config), len(terminalreporter.stats.get("skipped", []))
        terminalreporter.write_line(f"{ran} of {ran + left} tests ran{'' if ran else ': that is no check'}")
    passed = terminalreporter.stats.get("passed", [])
    terminalreporter.write_line(summary(dict(report.user_properties)[_KIND] for report in passed))
    times: Path | None = config.getoption("times")
    if times is not None:
        took: defaultdict[str, float] = defaultdict(float)
        for kind in ("passed", "failed"):
            for report in terminalreporter.stats.get(kind, []):
                took[report.nodeid] += report.duration
        times.parent.mkdir(parents=True, exist_ok=True)
        times.write_text(json.dumps(config.stash[_TOOK] | took, indent=0, sort_keys=True), encoding="utf-8")


def read_times(times: Path | None) -> dict[str, float]:
    """Return how long each test took when it last ran; a file that cannot be read counts as none."""
    try:
        kept = json.loads(times.read_text(encoding="utf-8")) if times else {}
    except (OSError, ValueError):
        return {}
    return {str(name): float(seconds) for name, seconds in kept.items()}


def summary(passed: Iterable[str]) -> str:
    """Return how many tests of each kind passed.

    >>> summary(["exact", "published", "exact"])
    'Passed by kind: 1 published, 2 exact'
    """
    counts = Counter(passed)
    return "Passed by kind: " + ", ".join(f"{counts[kind]} {kind}" for kind in (*KINDS, "other") if counts[kind])
