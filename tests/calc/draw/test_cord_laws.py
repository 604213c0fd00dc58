"""Laws any cord keeps, whatever its line: finite, within its frame, small, mirrored exactly, measured along itself."""

from __future__ import annotations

from math import pi, radians
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from calc.draw import Arc, Box, CubicTo, Drawing, Many, To, svg, turned_over
from calc.draw.cord import CordStation, Laid, Way, even, painted, served
from calc.draw.path_data import compact
from calc.geometry.lay import lay as geometry_lay

if TYPE_CHECKING:
    from collections.abc import Callable

    from calc.draw import Shape

pytestmark = pytest.mark.exact
Spot = tuple[float, float]
SPOTS = st.lists(st.tuples(st.integers(0, 7), st.integers(0, 4)), min_size=3, max_size=6, unique=True)
CALM = settings(max_examples=20, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])


def line(spots: list[tuple[int, int]]) -> Way:
    return Way.smooth(*((45.0 * x, 45.0 * y) for x, y in spots))


def sheet(*shapes: Shape) -> Drawing:
    return Drawing(key="k", title="t", desc="d", shapes=shapes)


@given(SPOTS, st.floats(3.0, 14.0), st.floats(-32.0, 32.0), st.integers(1, 3))
@CALM
def test_any_cord_is_sound(
    sound: Callable[[Drawing], str],
    spots: list[tuple[int, int]],
    bundle: float,
    deg: float,
    bundles: int,
) -> None:
    way = line(spots)
    cord = even(way, bundle, radians(deg), bundles=bundles)
    sound(sheet(*painted(cord, 0.0, min(way.length, 400.0), halo=bundle > 7.0, strands=bundle > 12.0)))


@given(SPOTS, st.floats(3.0, 14.0), st.floats(1.0, 4.0), st.floats(1.0, 4.0))
@CALM
def test_any_opening_is_sound(
    sound: Callable[[Drawing], str], spots: list[tuple[int, int]], bundle: float, first: float, last: float
) -> None:
    way = line(spots)
    stops = (CordStation(0.0, bundle, 0.4), CordStation(40.0, bundle, 0.4), CordStation(60.0, bundle, 0.0, first),
             CordStation(way.length, bundle, 0.0, last))  # fmt: skip
    sound(sheet(*painted(Laid(way, stops, zero_at=60.0), strands=False)))


@given(SPOTS, st.floats(6.0, 30.0), st.floats(3.0, 9.0), st.sampled_from(["S", "Z"]))
@CALM
def test_any_serving_is_sound(
    sound: Callable[[Drawing], str], spots: list[tuple[int, int]], width: float, pitch: float, hand: str
) -> None:
    way = line(spots)
    sound(sheet(*served(way, 0.0, way.length, width=width, pitch=pitch, hand=hand)))  # type: ignore[arg-type]


@given(SPOTS, st.floats(8.0, 30.0))
@CALM
def test_the_other_hand_on_the_mirrored_line_is_the_mirror_image(spots: list[tuple[int, int]], deg: float) -> None:
    """Turning a Z cord of two over its level line gives an S cord, its bundles on other sides, as deep as before."""
    way = line(spots)
    one = even(way, 9.0, radians(deg))
    two = even(Way([(x, -y) for x, y in way.points]), 9.0, -radians(deg))
    for share in (0.1, 0.45, 0.8):
        at = share * way.length
        for bundle in (0, 1):
            x, y = one.axis(at, bundle)
            assert two.axis(at, 1 - bundle) == pytest.approx((x, -y), abs=1e-6)
            assert two.depth(at, 1 - bundle) == pytest.approx(one.depth(at, bundle), abs=1e-6)


@given(st.floats(5.0, 33.0), st.floats(2.0, 20.0), st.sampled_from([2, 3]))
@CALM
def test_radius_and_turns_are_the_geometrys(deg: float, bundle: float, bundles: int) -> None:
    known = geometry_lay(bundle, bundles, radians(deg))
    cord = even(Way([(0.0, 0.0), (500.0, 0.0)]), bundle, radians(deg), bundles=bundles)
    assert cord.here(100.0).radius == pytest.approx(known.radius_m)
    assert (cord.phase(500.0, 0) - cord.phase(0.0, 0)) / (2 * pi) == pytest.approx(500.0 * known.turns_per_m, rel=1e-6)
    assert cord.thickness == pytest.approx(known.cord_diameter_m)


@given(st.lists(st.tuples(st.floats(-400, 400), st.floats(-400, 400)), min_size=7, max_size=7), st.sampled_from([1, 2]))
@CALM
def test_compact_path_data_says_the_same_points(
    points: Callable[[str], list[Spot]], spots: list[Spot], digits: int
) -> None:
    steps = (To(spots[1]), CubicTo(spots[2], spots[3], spots[4]), To(spots[5]))
    read = points(compact(Many(((spots[0], steps),), digits=digits)))
    slack = 0.51 * 10.0**-digits + 1e-9
    for found, wanted in zip(read, spots[:6], strict=True):
        assert found == pytest.approx(wanted, abs=slack)


@given(st.lists(st.floats(-90, 90), min_size=6, max_size=6), st.sampled_from([1, 2]), st.floats(-4, 4))
@CALM
def test_a_handle_is_left_out_only_where_the_last_one_carries_straight_on(
    points: Callable[[str], list[Spot]], levels: list[float], digits: int, bend: float
) -> None:
    """Read back with the handle that SVG then puts there, every point and handle is as it was, but for rounding."""
    unit = 10.0**-digits
    (a, b, c, d, e, f), half = levels, bend * unit
    first = CubicTo((10.0, b), (20.0, c), (30.0, d))
    second = CubicTo((40.0, 2 * d - c + half), (50.0, e), (60.0, f))
    data = compact(Many((((0.0, a), (first, second)),), digits=digits))
    found = points(data)
    wanted = [(0.0, a), *(point for each in (first, second) for point in (each.first, each.second, each.end))]
    for one, other in zip(found, wanted, strict=True):
        assert one == pytest.approx(other, abs=3.1 * unit)
    assert "s" not in data or abs(bend) < 3.1


def test_a_curve_that_runs_straight_on_is_written_short() -> None:
    first, bent = CubicTo((1.0, 0.0), (2.0, 1.0), (3.0, 1.0)), CubicTo((4.0, 3.0), (5.0, 1.0), (6.0, 1.0))
    straight = CubicTo((4.0, 1.0), (5.0, 1.0), (6.0, 1.0))
    assert compact(Many((((0.0, 0.0), (first, straight)),))) == "M0 0c1 0 2 1 3 1s2 0 3 0"
    assert compact(Many((((0.0, 0.0), (first, bent)),))) == "M0 0c1 0 2 1 3 1 1 2 2 0 3 0"


def test_parts_follow_each_other_from_where_the_last_one_stopped(points: Callable[[str], list[Spot]]) -> None:
    parts = (((5.0, 5.0), (To((9.0, 5.0)), To((9.0, 8.0)))), ((20.0, 1.0), (To((21.0, 1.0)),)))
    wanted = [(5.0, 5.0), (9.0, 5.0), (9.0, 8.0), (20.0, 1.0), (21.0, 1.0)]
    for closed in (False, True):
        assert points(compact(Many(parts, closed=closed))) == wanted


def test_a_way_is_as_long_as_its_steps() -> None:
    way = Way.along((0.0, 0.0), To((100.0, 0.0)), Arc((100.0, 60.0), 30.0, clockwise=True), To((0.0, 60.0)))
    assert way.length == pytest.approx(200.0 + 30.0 * pi, rel=1e-3)
    assert way.aside(50.0, 5.0) == pytest.approx((50.0, -5.0))
    assert way.shifted(10.0).length == pytest.approx(200.0 + 40.0 * pi, rel=3e-3)
    assert way.back().at(0.0) == pytest.approx((0.0, 60.0))
    assert way.nearest((130.0, 30.0)) == pytest.approx(100.0 + 15.0 * pi, abs=1.5)


def test_a_way_needs_two_points() -> None:
    with pytest.raises(ValueError, match="Way: got 1"):
        Way([(1.0, 1.0), (1.0, 1.0)])


@pytest.mark.parametrize("bundles", [0, 4])
def test_a_cord_has_one_to_three_bundles(bundles: int) -> None:
    with pytest.raises(ValueError, match="Laid: got"):
        even(Way([(0.0, 0.0), (9.0, 0.0)]), 3.0, 0.3, bundles=bundles)


def test_turned_over_cords_keep_their_roles() -> None:
    shapes = painted(even(Way([(0.0, 5.0), (90.0, 5.0)]), 9.0, 0.4))
    roles = [each.role for each in shapes if isinstance(each, Many)]
    assert [each.role for each in map(turned_over, shapes) if isinstance(each, Many)] == roles


def test_a_band_has_an_ink_or_the_look_of_a_bundle() -> None:
    one = ((0.0, 0.0), (To((9.0, 0.0)),))
    with pytest.raises(ValueError, match="Many: got a band filled with none"):
        svg(sheet(Many((one,), None, band=4.0)), prefix="p")
    assert 'class="d-line-a"' in svg(sheet(Many((one,), None, "a", band=4.0)), prefix="p")
    assert 'stroke="url(#p-b)" stroke-width="4"' in svg(sheet(Many((one,), None, "b", band=4.0)), prefix="p")
    assert Many((one,), None, "a", band=4.0).box() == Box(0.0, -2.0, 9.0, 2.0)
