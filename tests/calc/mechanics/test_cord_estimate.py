"""A cord of which too little is told, or two things that cannot both be so, is refused by name."""

from __future__ import annotations

from math import pi, sqrt

import pytest

from calc.data import fibre
from calc.errors import DomainError
from calc.mechanics.estimate import CordEstimate

pytestmark = pytest.mark.exact
YARN_KG_M = 2e-3


def test_a_cord_without_weight_and_thickness_is_refused() -> None:
    with pytest.raises(DomainError) as refused:
        CordEstimate(fibre=fibre("polyester"), laid=True, yarn_kg_m=None)
    problem = refused.value.problem
    assert (problem.field, problem.other, problem.reason) == ("yarn_kg_m", "thickness_m", "no_size")


@pytest.mark.parametrize("name", ["polyester", "hmpe", "aramid"])
def test_a_cord_is_no_thinner_than_its_fibre_without_air(name: str) -> None:
    """A round rod of the fibre itself: mass a metre = density x pi / 4 x thickness squared."""
    rod_m = sqrt(YARN_KG_M / (pi / 4.0 * fibre(name).density_kg_m3.value))
    assert CordEstimate(fibre=fibre(name), laid=True, yarn_kg_m=YARN_KG_M, thickness_m=1.001 * rod_m)
    with pytest.raises(DomainError) as refused:
        CordEstimate(fibre=fibre(name), laid=True, yarn_kg_m=YARN_KG_M, thickness_m=0.999 * rod_m)
    problem = refused.value.problem
    assert (problem.field, problem.other, problem.reason) == ("thickness_m", "yarn_kg_m", "too_thin")
    assert problem.limit == pytest.approx(rod_m, rel=1e-12)
