"""Turns of a bundle: by hand for a lay, the ends of what can be turned, and both ways to one number."""

from __future__ import annotations

from math import atan, cos, pi, sin, tan

import pytest

from calc.errors import DomainError
from calc.geometry.lay import torque_free_ratio
from calc.making.string.turns import counter_each, plied, raw_for, turned_to_count, turned_to_lay

pytestmark = pytest.mark.exact
BUNDLE_M = 0.0015


def test_a_bundle_plied_by_hand() -> None:
    """Two bundles wind round half a thickness; what plying leaves in one takes tan^2 of half its angle."""
    lay = 0.3
    made = plied(0.8, BUNDLE_M, 2, lay)
    each = 1.0 / torque_free_ratio(lay, 1.0)
    assert counter_each(lay) == pytest.approx(each, rel=1e-12)
    per_m = sin(lay) / (pi * BUNDLE_M)
    angle = atan(pi * BUNDLE_M * (each - cos(lay)) * per_m)
    kept = 1.0 - tan(angle / 2.0) ** 2
    assert made.turns == pytest.approx(0.8 * kept * per_m, rel=1e-9)
    assert made.cord_m == pytest.approx(0.8 * kept * cos(lay), rel=1e-9)
    assert made.counter == pytest.approx(made.turns * each, rel=1e-12)
    assert made.take_up == pytest.approx(1.0 - kept * cos(lay), rel=1e-9)
    assert raw_for(made.cord_m, BUNDLE_M, 2, lay).raw_m == pytest.approx(0.8, rel=1e-12)


def test_hardly_any_lay_takes_hardly_anything() -> None:
    assert plied(1.0, BUNDLE_M, 2, 1e-4).take_up == pytest.approx(5e-9, rel=0.02)


@pytest.mark.parametrize("lay", [0.05, 0.12, 0.3, 0.45])
def test_a_lay_and_its_count_are_one_answer_and_obey_the_helix(lay: float) -> None:
    """Each turn of the end takes the cosine of the lay out of a bundle's own twist."""
    start = plied(1.2, BUNDLE_M, 2, 0.2)
    made = turned_to_lay(start, BUNDLE_M, 2, lay)
    again = turned_to_count(start, BUNDLE_M, 2, made.turns)
    assert again.turns == made.turns
    assert again.cord_m == pytest.approx(made.cord_m, rel=1e-9)
    assert again.take_up == pytest.approx(1.0 - made.cord_m / 1.2, rel=1e-9)
    assert (again.raw_m, again.counter, made.raw_m, made.counter) == (1.2, start.counter, 1.2, start.counter)
    twisted_m = made.cord_m / cos(lay)
    assert made.turns == pytest.approx(twisted_m * sin(lay) / (pi * BUNDLE_M), rel=1e-9)
    left = start.counter - made.turns * cos(lay)
    angle = atan(pi * BUNDLE_M * abs(left) / twisted_m)
    assert twisted_m == pytest.approx(1.2 * (1.0 - tan(angle / 2.0) ** 2), rel=1e-9)


def test_bundles_that_would_give_up_all_their_length_are_refused() -> None:
    start = plied(1.0, BUNDLE_M, 2, 0.2)._replace(counter=2000.0)
    with pytest.raises(DomainError) as refused:
        turned_to_lay(start, BUNDLE_M, 2, 0.3)
    problem = refused.value.problem
    assert (problem.field, problem.code, problem.reason) == ("turns", "model", "overtwisted")
