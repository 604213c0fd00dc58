"""Changes to the code: they are found, put where the code is called from, and kept to the process that was forked."""

from __future__ import annotations

import pytest

from calc.numerics.roots import find_root
from site_build.checks.mutating import ROOT, Mutation, _forked, changes, put, report

pytestmark = pytest.mark.exact
ROOTS = ROOT / "calc" / "numerics" / "roots.py"


def _half() -> float:
    return find_root(lambda x: x - 0.5, 0.0, 1.0)


def _of(words: str) -> list[Mutation]:
    return [each for each in changes(ROOTS) if each.words == words and each.function == "find_root"]


def test_every_change_has_a_key_of_its_own() -> None:
    keys = [each.key for each in changes(ROOTS)]
    assert len(keys) == len(set(keys)) > 50
    assert not any("strict" in each for each in keys)


def test_a_change_is_made_in_the_forked_process_alone() -> None:
    found = _of("nothing returned")
    assert found
    assert {_forked(lambda each=each: f"{put(each)} {_half()}", 5.0) for each in found} >= {"True None"}  # type: ignore[misc]
    assert _half() == pytest.approx(0.5)


def test_one_that_never_ends_is_ended() -> None:
    def endless() -> str:
        while True:
            pass

    assert _forked(endless, 1.0) == ""


def test_results_are_counted_by_file() -> None:
    found = [
        {"key": "calc/a.py:1:0 f: Add to Sub", "file": "calc/a.py", "result": "failed tests/x.py::test_y"},
        {"key": "calc/a.py:2:0 f: 1 to 2", "file": "calc/a.py", "result": "survived"},
    ]
    lines = report(found).splitlines()
    assert "| calc/a.py | 2 | 1 | 0 | 1 | 0 | 0 |" in lines
    assert lines[-1] == "calc/a.py:2:0 f: 1 to 2"
