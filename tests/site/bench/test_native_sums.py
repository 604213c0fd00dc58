"""The benchmark measures what it says; how long that takes is not tested."""

from __future__ import annotations

from itertools import count

import pytest

from site_build.bench import native_sums

pytestmark = pytest.mark.exact


def test_every_call_is_timed_and_held_against_the_floor(monkeypatch: pytest.MonkeyPatch) -> None:
    """A clock that steps by one second a look: every round takes a second, shared by its calls."""
    seconds = count()
    monkeypatch.setattr(native_sums, "perf_counter", lambda: float(next(seconds)))
    timed = native_sums.native()
    assert next(iter(timed)) == native_sums.FLOOR
    assert {each.ratio for each in timed.values()} == {1.0}
    assert {(each.least_s, each.median_s, each.most_s) for each in timed.values()} == {(1 / 40, 1 / 40, 1 / 40)}
    for bundles in (2, 3, 4):
        assert sum(f"lay of {bundles} " in name for name in timed) == 3


def test_what_was_timed_is_told_with_its_range_and_its_ratio() -> None:
    timed = {"a lay": native_sums.Timed(3e-5, 2e-5, 5e-5, 1.25)}
    assert native_sums.lines(timed) == ["a lay: 0.030 ms (0.020 to 0.050), 1.2 times the floor"]
