"""The bench of the bow's sums: it runs all of them and its figures are in order; how long they take is no test."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from calc.data import peak_rows
from site_build.bench.bow import bow_times
from site_build.bench.peak_table import GRAINS, LIMBS, SHAPES, row

if TYPE_CHECKING:
    from calc.data import Limbs

pytestmark = pytest.mark.exact


def test_every_sum_is_timed() -> None:
    times = bow_times(2)
    assert len(times) == 6
    for middle, least, most in times.values():
        assert 0.0 < least <= middle <= most


@pytest.mark.parametrize("limbs", LIMBS)
def test_a_row_of_the_table_of_peaks_is_what_its_script_makes(limbs: Limbs) -> None:
    low, value, high = row("tapered", 9.0, limbs)
    asked = (limbs, "tapered", 9.0)
    found = next(each for each in peak_rows() if (each.limbs, each.shape, each.grains_per_pound) == asked).ratio
    assert [found.low, found.value, found.high] == pytest.approx([low, value, high], abs=0.011)
    assert len(peak_rows()) == len(LIMBS) * len(SHAPES) * len(GRAINS)
