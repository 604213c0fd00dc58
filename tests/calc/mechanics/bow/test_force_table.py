"""A measured force-draw table: against scipy's monotone cubic, and in place of a bow whose curve is known."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import trapezoid
from scipy.interpolate import PchipInterpolator

from calc.errors import DomainError, Problem
from calc.mechanics.bow import (
    SHAPES,
    Bow,
    ForceTable,
    LimbShape,
    draw_curve,
    force_table,
    measured_curve,
    read_force_table,
    static_tension,
)

pytestmark = pytest.mark.exact
law = settings(derandomize=True, deadline=None, max_examples=200)
IN, LBF = 0.0254, 4.4482216152605

tables = st.lists(st.tuples(st.floats(0.02, 0.2), st.just(0.0) | st.floats(0.1, 300.0)), min_size=1, max_size=12).map(
    lambda reads: ForceTable(
        tuple(float(each) for each in np.cumsum([0.15, *(step for step, _ in reads)])),
        (0.0, *(force for _, force in reads)),
    )
)


@law
@given(tables, st.floats(0.0, 1.0))
def test_force_and_energy_are_those_of_scipys_monotone_cubic(table: ForceTable, share: float) -> None:
    low, high = table.draws_m[0], table.draws_m[-1]
    at = low + share * (high - low)
    if len(table.draws_m) > 2:
        curve = PchipInterpolator(table.draws_m, table.forces_n)
        expected, area = float(curve(at)), float(curve.integrate(low, at))
    else:
        expected = table.forces_n[1] * share
        area = expected * (at - low) / 2.0
    assert table.force_n(at) == pytest.approx(expected, rel=1e-9, abs=1e-9)
    assert table.energy_j(at).value == pytest.approx(area, rel=1e-9, abs=1e-9)


BENDS = [
    (0.0, 100.0),
    (0.0, 80.0, 170.0, 260.0, 300.0),
    (0.0, 80.0, 80.0, 90.0, 90.0),
    (0.0, 0.0, 50.0, 60.0, 20.0),
    (0.0, 1.0, 60.0, 30.0, 29.0),
    (0.0, 40.0, 39.0, 90.0, 1.0),
    (0.0, 5.0, 100.0, 160.0, 170.0),
    (0.0, 0.05, 0.12, 0.16, 0.24),
    (0.0, 60.0, 59.0, 58.0, 10.0),
    (0.0, 30.0, 90.0, 90.0, 89.0),
]


@pytest.mark.parametrize("forces_n", BENDS)
def test_bends_of_every_kind_against_scipys_monotone_cubic(forces_n: tuple[float, ...]) -> None:
    draws_m = (0.15, 0.20, 0.37, 0.46, 0.77)[: len(forces_n)]
    table = ForceTable(draws_m, forces_n)
    curve = PchipInterpolator(draws_m, forces_n) if len(forces_n) > 2 else None
    for at in (0.15, 0.163, 0.2, 0.31, 0.37, 0.41, 0.46, 0.5, 0.7, 0.77):
        if curve is None:
            if at <= draws_m[-1]:
                assert table.force_n(at) == pytest.approx(100.0 * (at - 0.15) / 0.05)
                assert table.energy_j(at).value == pytest.approx(1000.0 * (at - 0.15) ** 2)
            continue
        assert table.force_n(at) == pytest.approx(float(curve(at)), rel=1e-9, abs=1e-9)
        found = table.energy_j(at)
        assert found.value == pytest.approx(float(curve.integrate(0.15, at)), rel=1e-9, abs=1e-9)
        cut = [(draw, force) for draw, force in zip(draws_m, forces_n, strict=True) if draw < at]
        straight = trapezoid(
            [*(force for _, force in cut), np.interp(at, draws_m, forces_n)], [*(d for d, _ in cut), at]
        )
        assert found.high - found.value == pytest.approx(abs(found.value - straight), abs=1e-9)
        assert found.value - found.low == pytest.approx(abs(found.value - straight), abs=1e-9)


@pytest.mark.parametrize(
    ("draws_m", "forces_n", "reason", "limit"),
    [
        ((0.1, 0.3, 0.3), (0.0, 1.0, 2.0), "table_order", 0.3),
        ((0.1, 0.3, 0.2), (0.0, 1.0, 2.0), "table_order", 0.2),
        ((0.1, 0.3), (0.5, 1.0), "table_slack", 0.1),
    ],
)
def test_where_a_table_goes_wrong(
    draws_m: tuple[float, ...], forces_n: tuple[float, ...], reason: str, limit: float
) -> None:
    with pytest.raises(DomainError) as caught:
        ForceTable(draws_m, forces_n)
    assert caught.value.problem == Problem(field="force_table", code="pair", limit=limit, other="draw_m", reason=reason)


def test_every_draw_has_its_force() -> None:
    with pytest.raises(ValueError, match="zip"):
        ForceTable((0.1, 0.2, 0.3), (0.0, 1.0))


def test_small_forces_are_kept_and_a_force_at_brace_is_refused_there() -> None:
    assert force_table(0.15, [(0.7, 0.3), (0.4, 0.1), (0.15, 0.0), (0.1, 0.0)]) == ForceTable(
        (0.15, 0.4, 0.7), (0.0, 0.1, 0.3)
    )
    for read in ((0.15, 0.5), (0.1, 0.5)):
        with pytest.raises(DomainError) as caught:
            force_table(0.15, [read, (0.4, 10.0)])
        assert caught.value.problem == Problem(
            field="force_table", code="pair", limit=0.15, other="draw_m", reason="table_slack"
        )


@law
@given(tables)
def test_the_error_named_is_the_distance_to_the_trapezoid(table: ForceTable) -> None:
    found = table.energy_j(table.draws_m[-1])
    straight = trapezoid(table.forces_n, table.draws_m)
    assert found.high - found.value == pytest.approx(abs(found.value - straight), abs=1e-9)
    assert found.low == pytest.approx(2 * found.value - found.high, abs=1e-9)


@law
@given(tables)
def test_the_curve_never_leaves_the_reads_it_runs_between(table: ForceTable) -> None:
    for (low_m, high_m), (a, b) in zip(pairwise(table.draws_m), pairwise(table.forces_n), strict=True):
        for share in (0.1, 0.35, 0.6, 0.9):
            force = table.force_n(low_m + share * (high_m - low_m))
            assert min(a, b) - 1e-9 <= force <= max(a, b) + 1e-9


@pytest.mark.parametrize("shape", SHAPES)
def test_a_models_curve_read_every_inch_gives_back_its_energy_and_tension(shape: LimbShape) -> None:
    bow = Bow(66 * IN, 8 * IN, shape)
    model = draw_curve(bow, 6 * IN, 28 * IN, 40 * LBF, steps=22)
    table = force_table(6 * IN, [(point.draw_m, point.force_n) for point in model.points])
    found = measured_curve(bow, 6 * IN, 28 * IN, table)
    assert found.energy_j.value == pytest.approx(model.energy_j, rel=1e-3)
    assert found.energy_j.low < model.energy_j < found.energy_j.high
    at_rest = static_tension(bow, 6 * IN, 28 * IN, 40 * LBF)
    assert found.points[0].tension_n == pytest.approx(at_rest.brace_n, rel=1e-6)
    assert found.points[-1].tension_n == pytest.approx(at_rest.draw_n, rel=1e-6)
    assert [point.force_n for point in found.points] == pytest.approx([point.force_n for point in model.points])


def test_a_full_draw_between_two_reads_is_put_in() -> None:
    bow = Bow(66 * IN, 8 * IN, "arc")
    table = force_table(0.15, [(0.4, 80.0), (0.6, 130.0), (0.8, 200.0)])
    points = measured_curve(bow, 0.15, 0.7, table).points
    assert [point.draw_m for point in points] == [0.15, 0.4, 0.6, 0.7]
    assert 130.0 < points[-1].force_n < 200.0


def test_reads_at_or_below_the_brace_asked_about_are_left_out() -> None:
    """A table read at a lower brace serves a higher one from there on."""
    bow = Bow(66 * IN, 8 * IN, "arc")
    table = force_table(0.13, [(0.14, 2.0), (0.15, 4.0), (0.4, 80.0), (0.7, 160.0)])
    points = measured_curve(bow, 0.15, 0.7, table).points
    assert [point.draw_m for point in points] == [0.15, 0.4, 0.7]
    assert points[0].force_n == 0.0
    assert points[0].tension_n > points[1].tension_n


def test_one_read_is_no_table() -> None:
    for draws in ((), (0.15,)):
        with pytest.raises(DomainError) as caught:
            ForceTable(draws, tuple(0.0 for _ in draws))
        assert (caught.value.problem.field, caught.value.problem.code) == ("force_table", "missing")


def test_a_table_needs_a_brace_height() -> None:
    with pytest.raises(DomainError) as caught:
        force_table(0.0, [(0.4, 80.0)])
    problem = caught.value.problem
    assert (problem.field, problem.code, problem.limit) == ("brace_m", "min", 0.0)


INCHES = ((0.254, 0.508), (8 * LBF, 25 * LBF))


@pytest.mark.parametrize(
    "text",
    [
        "10in 8lb; 20in 25lb",
        "10in8lb; 20in25lb",
        "10 in, 8 lb\n20 in, 25 lb",
        "20 25; 10 8",
        "10 8\n\n20 25\n",
        "draw_in,force_lbf\n10,8\n20,25",
        "draw,force\n10,8\n20,25",
        "Draw [in]\tForce [lb]\n10\t8\n20\t25",
        "draw;force\n10,0;8,0\n20,0;25,0",
        "10in,8lb\n20in,25lb",
        '10" 8#; 20" 25#',
        '"10","8"\n"20","25"',
        "10 0/2 in 8 lb; 20 in 25 lb",
        "4 in 0 lb; 10 in 8 lb; 20 in 25 lb",
    ],
)
def test_the_ways_a_table_is_written(text: str) -> None:
    table = read_force_table(text, 0.15)
    assert table.draws_m == pytest.approx((0.15, *INCHES[0]))
    assert table.forces_n == pytest.approx((0.0, *INCHES[1]))


@pytest.mark.parametrize(
    ("text", "system"),
    [
        ("25.4 cm 35.6 N; 508 mm 0.1112 kN", "inch"),
        ("draw cm,force N\n25.4,35.6\n50.8,111.2", "inch"),
        ("draw (mm);force (N)\n254;35,6\n508;111,2", "inch"),
        ("25.4 35.6; 50.8 111.2", "metric"),
    ],
)
def test_metric_tables(text: str, system: str) -> None:
    table = read_force_table(text, 0.15, system=system)  # type: ignore[arg-type]
    assert table.draws_m == pytest.approx((0.15, 0.254, 0.508))
    assert table.forces_n == pytest.approx((0.0, 35.6, 111.2))


@pytest.mark.parametrize(
    ("text", "code", "reason"),
    [
        ("", "missing", ""),
        (" \n ", "missing", ""),
        ("draw,force", "missing", ""),
        ("10 in 8 lb; then a bit", "number", "table_row"),
        ("just words", "number", "table_row"),
        ("10 in; 20 in", "number", "table_row"),
        ("10 in 8 lb; 10 in 9 lb", "pair", "table_order"),
        ("5.905511811023622 in 3 lb; 10 in 9 lb", "pair", "table_slack"),
        ("4 in 3 lb; 10 in 9 lb", "pair", "table_slack"),
    ],
)
def test_what_is_wrong_with_a_table_is_named(text: str, code: str, reason: str) -> None:
    with pytest.raises(DomainError) as caught:
        read_force_table(text, 0.15)
    problem = caught.value.problem
    assert (problem.field, problem.code, problem.reason) == ("force_table", code, reason)


def test_a_table_answers_only_inside_itself() -> None:
    table = force_table(0.15, [(0.4, 80.0)])
    for draw_m, limit in ((0.5, 0.4), (0.1, 0.15)):
        for ask in (table.force_n, table.energy_j):
            with pytest.raises(DomainError) as caught:
                ask(draw_m)
            assert caught.value.problem.reason == "table_short"
            assert caught.value.problem.limit == limit
    for draws, forces, field in (((0.1, 0.2), (0.0, -1.0), "force_n"), ((-0.1, 0.2), (0.0, 1.0), "draw_m")):
        with pytest.raises(DomainError) as caught:
            ForceTable(draws, forces)
        assert (caught.value.problem.field, caught.value.problem.code) == (field, "min")
        assert caught.value.problem.limit == 0.0
