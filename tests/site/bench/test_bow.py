"""The bench of the bow's sums: it runs all of them and its figures are in order; how long they take is no test."""

from __future__ import annotations

import pytest

from calc.data import peak_table
from site_build.bench.bow import bow_times
from site_build.bench.peak_table import ENDS, MIDDLE, SHAPES, row, usual

pytestmark = pytest.mark.exact


def test_every_sum_is_timed() -> None:
    times = bow_times(2)
    assert len(times) == 6
    for middle, least, most in times.values():
        assert 0.0 < least <= middle <= most


def test_a_row_of_the_table_of_peaks_is_what_its_script_makes() -> None:
    made, found = row("tapered"), peak_table().rows["tapered"]
    assert found.powers == pytest.approx(made.powers, abs=1e-3)
    assert (found.rest.low, found.rest.high) == pytest.approx(made.rest, abs=1e-3)
    assert set(peak_table().rows) == set(SHAPES)
    assert peak_table().middle == MIDDLE
    assert peak_table().ends == ENDS


def test_what_nobody_measured_is_what_its_script_draws() -> None:
    for name, each in usual().items():
        found = peak_table().usual[name]
        assert (found.low, found.value, found.high) == pytest.approx((each.low, each.value, each.high), rel=5e-3)
