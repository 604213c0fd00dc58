"""The posts of an endless string and the served string in its nock."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.draw import Circle, Group
from calc.draw.string import endless_posts, serving_in_throat

if TYPE_CHECKING:
    from collections.abc import Callable

    from calc.draw import Drawing

pytestmark = pytest.mark.exact


def throat(core: float, thread: float, wide: float) -> Drawing:
    return serving_in_throat(core, thread, wide, core_text="core", served_text="served", throat_text="throat")


def rims(drawing: Drawing) -> tuple[Circle, Circle]:
    groups = {each.key: each for each in drawing.shapes if isinstance(each, Group)}
    outer, core = groups["serving"].shapes[0], groups["core"].shapes[0]
    assert isinstance(outer, Circle)
    assert isinstance(core, Circle)
    return outer, core


@settings(max_examples=25, deadline=None)
@given(st.floats(0.001, 0.006), st.floats(0.0002, 0.001), st.floats(0.002, 0.006))
def test_diameters_are_to_scale_and_too_thick_stays_out(core: float, thread: float, wide: float) -> None:
    outer, inner = rims(throat(core, thread, wide))
    assert outer.radius / inner.radius == pytest.approx((core + 2 * thread) / core)
    assert outer.radius / 48.0 == pytest.approx((core + 2 * thread) / wide)
    bottom = outer.centre[1] + outer.radius
    if core + 2 * thread < wide:
        assert bottom == pytest.approx(0.0, abs=1e-6)
    elif core + 2 * thread > wide * 1.001:
        assert outer.centre[1] < -2.0 * 48.0  # above where any string that fits can stand: it is at rest on the lips


@settings(max_examples=25, deadline=None)
@given(st.floats(0.001, 0.006), st.floats(0.0002, 0.001), st.floats(0.002, 0.006), st.integers(0, 60))
def test_the_throat_is_sound(core: float, thread: float, wide: float, strands: int) -> None:
    drawing = serving_in_throat(
        core, thread, wide, core_text="a", served_text="b", throat_text="c", verdict="d e f", strands=strands
    )
    assert all(drawing.frame.holds(each.box()) for each in drawing.shapes)


@pytest.mark.parametrize("wraps", [1, 5, 30])
def test_the_posts_are_sound(wraps: int, sound: Callable[[Drawing], str]) -> None:
    drawing = endless_posts(
        wraps, spacing_text="1588 mm", serve_text="54 mm", bound_text="60 mm", wraps_text=f"{wraps} times"
    )
    text = sound(drawing)
    assert ">1588 mm<" in text
    assert f"{wraps} times" in drawing.desc
