"""The core that is served: its section goes with the strands."""

from __future__ import annotations

from math import pi

import pytest

from calc.errors import DomainError
from calc.making.string import core_of_strands

pytestmark = pytest.mark.exact


@pytest.mark.parametrize(("strands", "wanted"), [(12, 16), (16, 12), (0.5, 0.25), (9, 9)])
def test_each_strand_has_the_same_share_of_the_section(strands: float, wanted: float) -> None:
    core_m = 0.0023
    made_m = core_of_strands(core_m, strands, wanted)  # type: ignore[arg-type]  # a share of a strand tells one bound
    assert pi * made_m**2 / 4 / wanted == pytest.approx(pi * core_m**2 / 4 / strands, rel=1e-12)


@pytest.mark.parametrize(("strands", "wanted", "field"), [(0, 12, "strands"), (12, -0.5, "wanted")])
def test_counts_that_are_none_are_refused_by_name(strands: int, wanted: float, field: str) -> None:
    with pytest.raises(DomainError) as refused:
        core_of_strands(0.0023, strands, wanted)
    assert (refused.value.problem.field, refused.value.problem.code) == (field, "min")
