"""Tables of draw and force as people write them: what parts a row, which unit counts, which row is named as wrong."""

from __future__ import annotations

import pytest

from calc.errors import DomainError, Problem
from calc.mechanics.bow import read_force_table

pytestmark = pytest.mark.exact
IN, LBF = 0.0254, 4.4482216152605


@pytest.mark.parametrize(
    ("text", "draws_in", "forces_lbf"),
    [
        ("10,5 in 8 lb\n20 in 25 lb", (10.5, 20.0), (8.0, 25.0)),
        ("10 1/2 8\n20 25", (10.5, 20.0), (8.0, 25.0)),
        ("10 8 1/2\n20 25", (10.0, 20.0), (8.5, 25.0)),
        ("10 1/2 8 1/2\n20 25", (10.5, 20.0), (8.5, 25.0)),
        ("10 1/2\t8; 20 1/2\t25", (10.5, 20.5), (8.0, 25.0)),
        ("10 1/2, 8; 20 1/2, 25", (10.5, 20.5), (8.0, 25.0)),
    ],
)
def test_fractions_and_decimal_commas_stay_whole(
    text: str, draws_in: tuple[float, ...], forces_lbf: tuple[float, ...]
) -> None:
    table = read_force_table(text, 0.15)
    assert table.draws_m[1:] == pytest.approx([each * IN for each in draws_in], rel=1e-12)
    assert table.forces_n[1:] == pytest.approx([each * LBF for each in forces_lbf], rel=1e-12)


@pytest.mark.parametrize(
    ("text", "draws_m"),
    [('10" 8#; 20" 25#', (10 * IN, 20 * IN)), ("1' 8#; 2' 25#", (12 * IN, 24 * IN))],
)
def test_marks_for_inches_and_feet_hold_though_bare_numbers_are_metric(text: str, draws_m: tuple[float, ...]) -> None:
    table = read_force_table(text, 0.15, system="metric")
    assert table.draws_m[1:] == pytest.approx(draws_m, rel=1e-12)
    assert table.forces_n[1:] == pytest.approx((8 * LBF, 25 * LBF), rel=1e-12)


@pytest.mark.parametrize(
    "head", ["X cm,F N", "draw cm measured,force N read", "draw_cm;force_N", "draw [cm]\tforce [N]"]
)
def test_the_last_unit_of_a_heading_counts(head: str) -> None:
    mark = next(each for each in "\t;," if each in head)
    table = read_force_table(f"{head}\n25.4{mark}35.6\n50.8{mark}111.2", 0.15)
    assert table.draws_m[1:] == pytest.approx((0.254, 0.508), rel=1e-12)
    assert table.forces_n[1:] == pytest.approx((35.6, 111.2), rel=1e-12)


@pytest.mark.parametrize(
    ("text", "row"),
    [
        ("10 in 8 lb; then a bit", "10 in 8 lb; then a bit"),
        ("10 in 8 lb; 20 in 25 lb; junk", "junk"),
        ("10 8\n30 junk", "30 junk"),
        ("10 8\n20 kg", "20 kg"),
        ("10 8\n20 in 3 kgs of it", "20 in 3 kgs of it"),
        ("just words", "just words"),
        ("10 in 8 lb\n200 in 25 lb", "200 in 25 lb"),
        ("10 in 8 lb\n20 in 2500 lb", "20 in 2500 lb"),
        ("10 in 8 lb\n20 in -5 lb", "20 in -5 lb"),
    ],
)
def test_the_row_that_does_not_read_is_named(text: str, row: str) -> None:
    with pytest.raises(DomainError) as caught:
        read_force_table(text, 0.15)
    assert caught.value.problem == Problem(field="force_table", code="number", reason="table_row", readings=(row,))


@pytest.mark.parametrize("text", ["", "  \n;\n"])
def test_nothing_typed_is_nothing_given(text: str) -> None:
    with pytest.raises(DomainError) as caught:
        read_force_table(text, 0.15)
    assert caught.value.problem == Problem(field="force_table", code="missing")
