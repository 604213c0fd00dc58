"""A bow in a picture: known bows seen by known cameras, marked by a hand that is off by 3 pixels of 800."""

from __future__ import annotations

from functools import cache
from math import atan2, pi
from random import Random
from typing import TYPE_CHECKING

import numpy as np
import pytest

from calc.data import practice
from calc.geometry.photo import Marked, fit_line, leaning, plane_of
from calc.mechanics.bow import Bow, limb_outline
from calc.mechanics.photo import Photo, bend_between, even, middle_of_bend, seen
from calc.numerics import Spread
from tests.calc.mechanics.photo.pictured import STIFF, Camera, Pictured, bent, corners, tapped, weak

if TYPE_CHECKING:
    from collections.abc import Callable

    from calc.mechanics.bow import LimbShape
    from calc.mechanics.photo import SeenBow

pytestmark = pytest.mark.exact
LIMB_M, HANDLE_M = 0.738, 0.2
OFF = 3.0 / 800.0
BOARD = (1.2, 0.9)


@cache
def bow(name: str) -> Pictured:
    """Return a bow by name: `arc`, `uniform`, `tapered`, or `weak` with a lower limb that is weak in one place."""
    one = STIFF["arc" if name == "weak" else name]
    other = weak(0.6, 0.4) if name == "weak" else one
    return Pictured(bent(one, 0.25), bent(other, 0.24), LIMB_M, HANDLE_M)


def none() -> float:
    return 0.0


def pictured(
    made: Pictured,
    camera: Camera,
    off: Callable[[], float] = none,
    count: int = 9,
    board: tuple[float, float] | None = None,
) -> SeenBow:
    limbs, string, grip = tapped(made, camera, count, off)
    return seen(
        Photo(
            limbs=limbs,
            string=string,
            grip=grip,
            marks=corners(camera, *board, off) if board else (),
            sides_m=board,
            nock_to_nock_m=made.long_m,
            hold="braced",
        )
    )


def size_px(camera: Camera) -> float:
    return camera.px_m * (2.0 * LIMB_M + HANDLE_M)


@pytest.mark.parametrize("name", ["arc", "uniform", "tapered", "weak"])
@pytest.mark.parametrize(
    ("camera", "board"),
    [
        (Camera(roll=0.4), None),
        (Camera(yaw=0.3, pitch=-0.2, far_m=4.0), BOARD),
        (Camera(pitch=0.35, roll=-0.3, far_m=3.0), BOARD),
    ],
)
def test_points_that_are_where_they_should_be_give_the_bow_back(
    name: str, camera: Camera, board: tuple[float, float] | None
) -> None:
    found = pictured(bow(name), camera, count=12, board=board).found
    for key, true in bow(name).figures().items():
        within = {"reach": 2e-3, "string": 1e-3, "handle": 1e-3, "balance": 0.1}.get(key, 0.04)
        assert found[key].value == pytest.approx(true, abs=within), key


def held(
    camera: Callable[[Random], Camera], board: tuple[float, float] | None, seed: int, spread: str
) -> dict[str, float]:
    """Return how often the told spread held the truth, figure by figure."""
    lot = Random(seed)  # noqa: S311
    hits: dict[str, list[bool]] = {}
    for name in ("arc", "uniform", "tapered", "weak") * 6:
        eye = camera(lot)
        off_px = OFF * size_px(eye)
        ways = {
            "normal": lambda off_px=off_px: lot.gauss(0.0, off_px),
            "even": lambda off_px=off_px: lot.uniform(-off_px, off_px),
        }
        found = pictured(bow(name), eye, ways[spread], board=board).found
        for key, true in bow(name).figures().items():
            hits.setdefault(key, []).append(found[key].low <= true <= found[key].high)
    return {key: sum(each) / len(each) for key, each in hits.items()}


@pytest.mark.parametrize(
    ("camera", "board", "spread"),
    [
        (lambda lot: Camera(roll=lot.uniform(-1, 1), yaw=lot.uniform(-0.04, 0.04)), None, "normal"),
        (lambda lot: Camera(yaw=lot.uniform(-0.3, 0.3), pitch=lot.uniform(-0.3, 0.3), far_m=3.5), BOARD, "normal"),
        (lambda lot: Camera(yaw=lot.uniform(-0.04, 0.04), pitch=lot.uniform(-0.04, 0.04)), None, "even"),
    ],
    ids=["square", "aslant with a board", "each tap within 3 pixels"],
)
def test_the_spread_holds_the_truth_nine_times_in_ten(
    camera: Callable[[Random], Camera], board: tuple[float, float] | None, spread: str
) -> None:
    rates = held(camera, board, 5, spread)
    assert sum(rates.values()) / len(rates) >= 0.9, rates


def test_the_spread_is_no_wider_than_it_need_be() -> None:
    """Within four times what such taps do: a spread that always holds tells nothing."""
    lot = Random(9)  # noqa: S311
    eye = Camera()
    off_px = OFF * size_px(eye)
    tries = [pictured(bow("arc"), eye, lambda: lot.gauss(0.0, off_px)).found for _ in range(12)]
    for key in ("reach", "string", "bend_upper", "upper_1"):
        true = bow("arc").figures()[key]
        wrong = (sum((each[key].value - true) ** 2 for each in tries) / len(tries)) ** 0.5
        width = sum(each[key].high - each[key].low for each in tries) / len(tries) / 2.0
        assert width < 4.0 * wrong, key


@pytest.mark.parametrize("shape", ["arc", "tapered", "uniform"])
def test_our_own_elastica_is_read_as_well_as_the_other(shape: LimbShape) -> None:
    own = Bow(2.0 * LIMB_M + HANDLE_M, HANDLE_M, shape)
    curve = limb_outline(own, 0.25 * LIMB_M)[1:]
    found = fit_line([Marked(each, 1e-4) for each in curve[::4]])
    steep = atan2(curve[-1][1] - curve[-2][1], curve[-1][0] - curve[-2][0])
    assert found.length == pytest.approx(LIMB_M, rel=1e-4)
    assert found.slope(1.0) == pytest.approx(steep, abs=0.02)
    assert found.slope(0.0) == pytest.approx(0.0, abs=0.01)


@pytest.mark.parametrize("name", ["arc", "tapered", "uniform"])
@pytest.mark.parametrize(("across", "pull_rad"), [(0.2, 0.0), (0.4, 0.3)])
def test_where_the_bend_lies_is_as_the_other_elastica_has_it(name: LimbShape, across: float, pull_rad: float) -> None:
    other = bent(STIFF[name], across, pull_rad)
    slopes = [other.slope((k + 0.5) / 400) for k in range(400)]
    middle = 1.0 - (sum(slopes) / 400 - other.slope(0.0)) / (other.slope(1.0) - other.slope(0.0))
    assert middle_of_bend(name, across, pull_rad) == pytest.approx(middle, abs=3e-3)


def test_the_bend_is_told_between_shapes_with_what_was_known_before() -> None:
    at = {name: middle_of_bend(name, 0.25, 0.0) for name in ("tapered", "arc", "uniform")}
    sure = {name: bend_between(0.25, 0.0, 0.0, Spread.exactly(place)) for name, place in at.items()}
    assert [round(sure[name].value, 6) for name in ("tapered", "arc", "uniform")] == [-1.0, 0.0, 1.0]
    wide = bend_between(0.25, 0.0, 0.0, Spread(0.0, at["uniform"], 1.0))
    before = practice("limb_unknown").spread
    assert wide.high - wide.low < before.high - before.low
    assert 0.0 < wide.value < 1.0


def test_a_homography_is_that_of_numpy() -> None:
    """Hartley and Zisserman's null vector, by a singular value decomposition."""
    seen_at = ((103.0, 80.0), (710.0, 130.0), (650.0, 520.0), (60.0, 470.0))
    rows = []
    for (x, y), (u, v) in zip(seen_at, ((0.0, 0.0), (1.2, 0.0), (1.2, 0.9), (0.0, 0.9)), strict=True):
        rows += [[x, y, 1, 0, 0, 0, -u * x, -u * y, -u], [0, 0, 0, x, y, 1, -v * x, -v * y, -v]]
    other = np.linalg.svd(np.array(rows))[2][-1].reshape(3, 3)
    plane = plane_of(seen_at, 1.2, 0.9)
    for point in ((300.0, 300.0), (700.0, 100.0), (20.0, 500.0)):
        u, v, w = other @ np.array([*point, 1.0])
        assert plane.at(point) == pytest.approx((u / w, v / w), rel=1e-9)
        assert plane.seen(plane.at(point)) == pytest.approx(point, rel=1e-9)


def test_a_slant_is_that_of_a_pinhole() -> None:
    camera = Camera(yaw=0.06, far_m=5.0, px_m=100.0)
    plane = leaning((400.0, 300.0), 500.0, (0.06, 0.0))
    for point in ((1.0, 0.3), (-0.8, -0.5), (0.2, 0.9)):
        x, y = plane.at(camera.sees(point))
        assert ((x - 400.0) / 100.0, (300.0 - y) / 100.0) == pytest.approx(point, abs=1e-9)


def test_an_even_bend_is_a_circle_with_the_limbs_ends() -> None:
    turns = [k * pi / 12 for k in range(7)]
    line = fit_line([Marked((np.sin(turn), 1.0 - np.cos(turn)), 1e-4) for turn in turns])
    for x, y in even(line):
        assert x**2 + (1.0 - y) ** 2 == pytest.approx(1.0, abs=1e-3)


def test_a_picture_upside_down_or_mirrored_tells_the_same() -> None:
    plain = pictured(bow("weak"), Camera()).found
    limbs, string, grip = tapped(bow("weak"), Camera(), 9, none)
    flipped = [tuple((x, -y) for x, y in limb) for limb in limbs]
    found = seen(
        Photo(
            limbs=(flipped[0], flipped[1]),
            string=(string[0], -string[1]),
            grip=(grip[0], -grip[1]),
            nock_to_nock_m=bow("weak").long_m,
            hold="braced",
        )
    ).found
    for key, each in plain.items():
        assert found[key].value == pytest.approx(each.value, abs=1e-6), key
