"""Tables with one source for all their rows: read as the files stand."""

from __future__ import annotations

from math import e, exp

import pytest

from calc.data import (
    PEAK_TERMS,
    PeakMiddle,
    packing_ratios,
    peak_table,
    peak_terms,
    pipe_diameters,
    ropes,
    source,
    table_sources,
    woods,
)

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


def test_peaks_stand_for_every_shape_and_lie_the_way_shapes_do() -> None:
    rows = peak_table().rows
    middles = [exp(rows[shape].powers[0]) for shape in ("tapered", "arc", "uniform")]
    assert middles == sorted(middles)
    assert 2.5 < middles[0] < middles[-1] < 6.0
    for row in rows.values():
        assert len(row.powers) == len(PEAK_TERMS)
        assert row.rest.low < 1.0 < row.rest.high
        assert all(power > 0.0 for power in row.powers[1:4]), "heavier limbs, stiffer and heavier strings: harder"


def test_terms_are_logarithms_their_squares_and_their_products() -> None:
    terms = peak_terms(PeakMiddle(2.0, 3.0, 5.0), limb=2.0 * e, stiffness=3.0 * e**2, string=5.0 * e**3)
    assert terms == pytest.approx((1, 1, 2, 3, 1, 4, 9, 2, 3, 6))
    assert len(terms) == len(PEAK_TERMS)


def test_ropes_are_one_of_each_fibre_and_size() -> None:
    table = ropes()
    assert len({(each.fibre, each.size_m) for each in table}) == len(table) == 9
    thickest = max(table, key=lambda each: each.size_m)
    assert thickest.size_m == pytest.approx(0.010, rel=1e-12)


@pytest.mark.transcribed
def test_woods_are_those_of_the_printed_table() -> None:
    """S. J. Record, The Mechanical Properties of Wood (1914), Table XII: 32 woods, green, lbf; average of all faces.

    Its average has the end face in it, a little harder than the sides, so each middle lies within a twelfth below it.
    """
    average = {
        "osage": 1971, "honey_locust": 1851, "oak_white": 1164, "oak_red": 1043, "white_ash": 1046, "maple_sugar": 937,
        "elm_rock": 910, "yellow_birch": 778, "maple_red": 671, "elm_white": 496, "douglas_fir": 410,
    }  # fmt: skip
    assert [each.id for each in woods()] == [
        "osage", "honey_locust", "oak_white", "oak_red", "white_ash", "maple_sugar", "elm_rock", "yellow_birch",
        "maple_red", "elm_white", "douglas_fir",
    ]  # fmt: skip
    for each in woods():
        middle = each.hardness_n.value / 4.4482216152605
        assert average[each.id] * 11 / 12 < middle < average[each.id] * 1.04, each.id
        assert each.hardness_n.low <= each.hardness_n.value <= each.hardness_n.high
