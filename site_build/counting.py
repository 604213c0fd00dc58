"""A pytest plugin: what kind of check each test is, and how many of each kind passed."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

KINDS = ("published", "practice", "exact", "pinned")
_KIND_OF = pytest.StashKey[dict[str, str]]()


def kinds_of(item: pytest.Item) -> list[str]:
    """Return which of the four kinds a test carries."""
    return [kind for kind in KINDS if item.get_closest_marker(kind)]


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Note each test's kind, and refuse one that claims two."""
    noted = config.stash.setdefault(_KIND_OF, {})
    for item in items:
        kinds = kinds_of(item)
        if len(kinds) > 1:
            raise pytest.UsageError(f"{item.nodeid} is marked {' and '.join(kinds)}: a test is one kind of check.")
        noted[item.nodeid] = kinds[0] if kinds else "other"


def summary(passed: Iterable[str], kind_of: Mapping[str, str]) -> str:
    """Return how many tests of each kind passed.

    >>> summary(["a", "b"], {"a": "exact", "b": "published", "c": "exact"})
    'Passed by kind: 1 published, 0 practice, 1 exact, 0 pinned, 0 other'
    """
    counts = Counter(kind_of.get(name, "other") for name in passed)
    return "Passed by kind: " + ", ".join(f"{counts[kind]} {kind}" for kind in (*KINDS, "other"))


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter, config: pytest.Config) -> None:
    """Print the counts above pytest's own closing line."""
    passed = [report.nodeid for report in terminalreporter.stats.get("passed", [])]
    noted: dict[str, str] = config.stash.get(_KIND_OF, {})
    terminalreporter.write_line(summary(passed, noted))
