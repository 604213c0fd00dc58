"""Tables with one source for all their rows: read as the files stand."""

from __future__ import annotations

from itertools import product

import pytest

from calc.data import packing_ratios, peak_rows, pipe_diameters, ropes, source, table_sources

pytestmark = pytest.mark.exact


def test_their_sources_are_known() -> None:
    assert table_sources()
    assert all(source(key).title for key in table_sources())


def test_packing_ratios_start_with_the_trivial_ones() -> None:
    table = packing_ratios()
    assert (table[1], table[2], table[7]) == (1.0, 2.0, 3.0)
    assert list(table) == list(range(1, len(table) + 1))


def test_pipes_are_in_metres_and_have_metric_names() -> None:
    table = pipe_diameters()
    assert table["3/4"] == pytest.approx(0.02667, rel=1e-12)
    assert table["dn 20"] == table["3/4"]


def test_peaks_fall_with_heavier_arrows_and_stand_for_every_shape() -> None:
    for limbs, shape in product(("wood", "pipe"), ("arc", "tapered", "uniform")):
        rows = [row for row in peak_rows() if (row.limbs, row.shape) == (limbs, shape)]
        weights = [row.grains_per_pound for row in rows]
        assert weights == sorted(weights)
        assert (weights[0], weights[-1]) == (5.0, 15.0)
        middles = [row.ratio.value for row in rows]
        assert middles == sorted(middles, reverse=True)


def test_ropes_are_one_of_each_fibre_and_size() -> None:
    table = ropes()
    assert len({(each.fibre, each.size_m) for each in table}) == len(table) == 9
    thickest = max(table, key=lambda each: each.size_m)
    assert thickest.size_m == pytest.approx(0.010, rel=1e-12)
