"""Limb-tip sections: outlines against elliptic integrals, pipes against an independent table."""

from __future__ import annotations

from math import cos, pi, sin

import numpy as np
import pytest
from fluids.piping import NPS40, S40o
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.special import ellipe, ellipeinc

from calc.data import pipe_diameters
from calc.errors import DomainError
from calc.geometry.ends import EllipseTip, FlatTip, RoundTip, Section, flattened, perimeter, pipe
from calc.geometry.ends.sections import outline_ahead, outline_behind, touch
from tests.tolerances import CLOSED_FORM, SOLVED

pytestmark = pytest.mark.exact

SIZES = st.floats(1e-3, 0.1)
law = settings(derandomize=True, deadline=None, max_examples=100)


@st.composite
def sections(draw: st.DrawFn) -> Section:
    """Draw a section of any kind."""
    wide, deep = draw(SIZES), draw(SIZES)
    kinds: list[Section] = [RoundTip(wide), EllipseTip(wide, deep)]
    kinds.append(FlatTip(wide, deep, draw(st.floats(0.0, 0.5)) * min(wide, deep)))
    return draw(st.sampled_from(kinds))


def test_the_outline_of_an_ellipse_is_the_elliptic_integral() -> None:
    rng = np.random.default_rng(21)
    wide, normal = 10.0 ** rng.uniform(-3, -1, 600), rng.uniform(0.0, pi / 2.0, 600)
    deep = wide * 10.0 ** rng.uniform(-1.5, 1.5, 600)
    eccentric = np.arctan2(deep * np.sin(normal), wide * np.cos(normal))
    squash = 1.0 - (wide / deep) ** 2
    ahead = [outline_ahead(EllipseTip(w, d), n) for w, d, n in zip(wide, deep, normal, strict=True)]
    np.testing.assert_allclose(ahead, deep / 2.0 * ellipeinc(eccentric, squash), rtol=CLOSED_FORM, atol=1e-18)
    behind = [outline_behind(EllipseTip(w, d)) for w, d in zip(wide, deep, strict=True)]
    np.testing.assert_allclose(behind, deep / 2.0 * ellipe(squash), rtol=CLOSED_FORM)
    girth = [perimeter(EllipseTip(w, d)) for w, d in zip(wide, deep, strict=True)]
    np.testing.assert_allclose(girth, 2.0 * deep * ellipe(squash), rtol=CLOSED_FORM)


@pytest.mark.parametrize("eccentric", [1e-6, 1e-5, 1e-4, 1e-3, 1e-2])
def test_the_end_of_a_very_flat_ellipse_turns_in_next_to_no_width(eccentric: float) -> None:
    """Half axes 1 and 1e-6: near the end of the width the outline goes along the depth, then along the width."""
    normal = np.arctan2(np.tan(eccentric), 1e-6)
    arc, _ = quad(
        lambda u: np.hypot(np.sin(u), 1e-6 * np.cos(u)), 0.0, eccentric, points=(1e-6,), epsabs=0.0, epsrel=1e-12
    )
    assert outline_ahead(EllipseTip(2.0, 2e-6), float(normal)) == pytest.approx(arc, rel=SOLVED)


def test_a_very_flat_ellipse_is_gone_round_twice() -> None:
    assert perimeter(EllipseTip(0.02, 2e-8)) == pytest.approx(0.04, rel=1e-9)
    assert perimeter(EllipseTip(2e-8, 0.02)) == pytest.approx(0.04, rel=1e-9)


def test_an_ellipse_that_is_all_but_round_is_a_circle_of_the_mean_width() -> None:
    """Half axes of 1 and 1 + e: the girth is 2 pi (1 + e / 2), the next term of its series is e^2 / 16."""
    for e in (1e-9, 4e-9, 1e-8, 1e-7):
        for tip in (EllipseTip(2.0, 2.0 * (1.0 + e)), EllipseTip(2.0 * (1.0 + e), 2.0)):
            assert perimeter(tip) == pytest.approx(2.0 * pi * (1.0 + e / 2.0), rel=1e-13)


@law
@given(SIZES, st.floats(0.0, pi / 2.0))
def test_a_round_ellipse_and_a_round_flat_are_round(size_m: float, normal_rad: float) -> None:
    for other in (EllipseTip(size_m, size_m), FlatTip(size_m, size_m, size_m / 2.0)):
        assert perimeter(other) == pytest.approx(perimeter(RoundTip(size_m)), rel=1e-12)
        at, expected = touch(other, normal_rad), touch(RoundTip(size_m), normal_rad)
        assert at.reach_m == pytest.approx(expected.reach_m, rel=1e-12)
        assert at.slide_m == pytest.approx(expected.slide_m, abs=1e-12 * size_m)
        assert outline_ahead(other, normal_rad) == pytest.approx(outline_ahead(RoundTip(size_m), normal_rad), rel=1e-9)
        assert outline_behind(other) == pytest.approx(outline_behind(RoundTip(size_m)), rel=1e-12)


def _corner(section: FlatTip, normal_rad: float) -> tuple[float, float]:
    x = section.width_m / 2.0 - section.corner_m + section.corner_m * cos(normal_rad)
    return x, section.depth_m / 2.0 - section.corner_m + section.corner_m * sin(normal_rad)


@law
@given(sections(), st.floats(0.0, pi / 2.0))
def test_a_line_touches_at_its_foot_and_slide(section: Section, normal_rad: float) -> None:
    at = touch(section, normal_rad)
    x = at.reach_m * cos(normal_rad) - at.slide_m * sin(normal_rad)
    y = at.reach_m * sin(normal_rad) + at.slide_m * cos(normal_rad)
    if isinstance(section, EllipseTip):
        inside = (2.0 * x / section.width_m) ** 2 + (2.0 * y / section.depth_m) ** 2
        assert inside == pytest.approx(1.0, rel=1e-9)
    else:
        flat = FlatTip(section.width_m, section.depth_m, section.corner_m)
        assert (x, y) == pytest.approx(_corner(flat, normal_rad), abs=1e-12)


@law
@given(sections(), st.floats(0.1, 10.0))
def test_outlines_grow_with_the_section(section: Section, k: float) -> None:
    if isinstance(section, RoundTip):
        larger: Section = RoundTip(k * section.width_m)
    elif isinstance(section, EllipseTip):
        larger = EllipseTip(k * section.width_m, k * section.depth_m)
    else:
        larger = FlatTip(k * section.width_m, k * section.depth_m, k * section.corner_m)
    assert perimeter(larger) == pytest.approx(k * perimeter(section), rel=1e-9)
    half = outline_behind(section) + outline_ahead(section, pi / 2.0) - touch(section, pi / 2.0).slide_m
    assert perimeter(section) == pytest.approx(2.0 * half, rel=1e-9)
    assert perimeter(section) >= pi * min(section.width_m, section.depth_m) * (1.0 - 1e-12)


def test_corners_cut_a_rectangle_short() -> None:
    assert perimeter(FlatTip(3.0, 2.0)) == 10.0
    assert perimeter(FlatTip(3.0, 2.0, 0.5)) == pytest.approx(10.0 - 4.0 + pi, rel=1e-12)
    assert outline_behind(FlatTip(3.0, 2.0, 0.5)) == pytest.approx(1.0 + pi / 4.0 + 1.0, rel=1e-12)


@law
@given(SIZES, st.floats(0.01, 1.0))
def test_a_flattened_pipe_keeps_its_girth(diameter_m: float, share: float) -> None:
    flat = flattened(diameter_m, share * diameter_m)
    assert perimeter(flat) == pytest.approx(pi * diameter_m, rel=1e-12)
    assert flat.depth_m == share * diameter_m
    assert flat.corner_m == flat.depth_m / 2.0
    assert flat.width_m >= flat.depth_m


def test_a_pipe_is_not_pressed_thicker() -> None:
    with pytest.raises(DomainError) as caught:
        flattened(0.02, 0.021)
    assert (caught.value.problem.field, caught.value.problem.code, caught.value.problem.limit) == (
        "depth_m",
        "max",
        0.02,
    )


@pytest.mark.transcribed
@pytest.mark.parametrize("size", ["1/8", "1/4", "3/8", "1/2", "3/4", "1", "1 1/4", "1 1/2", "2"])
def test_pipes_agree_with_an_independent_table(size: str) -> None:
    """The package fluids carries the same standard in millimetres."""
    inches = sum(float(part.split("/")[0]) / float((part + "/1").split("/")[1]) for part in size.split())
    outside_mm = dict(zip(NPS40, S40o, strict=True))[inches]
    assert 1000.0 * pipe(size) == pytest.approx(outside_mm, abs=0.051)


def test_every_size_has_its_metric_name() -> None:
    table = pipe_diameters()
    metric = {name: size for name, size in table.items() if name.startswith("dn ")}
    assert sorted(metric.values()) == sorted(size for name, size in table.items() if not name.startswith("dn "))


@pytest.mark.parametrize(
    "typed",
    ["3/4", "3/4 in", '3/4"', " 3/4 inch ", "3/4 inches", "3/4″", "3/4”", "DN 20", "dn20", "DN  20", "3/4 IN"],
)
def test_a_pipe_is_read_as_it_is_printed(typed: str) -> None:
    assert pipe(typed) == pytest.approx(1.050 * 0.0254, rel=1e-12)
    assert pipe("1 1/4'") == pytest.approx(1.660 * 0.0254, rel=1e-12)


@pytest.mark.parametrize("typed", ["", "5", "3/5", "dn 21", "round", "1.1"])
def test_other_pipes_are_refused(typed: str) -> None:
    with pytest.raises(DomainError) as caught:
        pipe(typed)
    assert (caught.value.problem.field, caught.value.problem.code) == ("nominal", "choice")


def test_a_corner_is_no_rounder_than_the_section() -> None:
    with pytest.raises(DomainError) as caught:
        FlatTip(0.02, 0.01, 0.00501)
    assert (caught.value.problem.field, caught.value.problem.limit) == ("corner_m", 0.005)
