"""The short way to read digits and a unit reads what the long way reads, to the last bit."""

from __future__ import annotations

from typing import TYPE_CHECKING, get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.errors import DomainError
from calc.units import Quantity, System, read
from calc.units.reading import understand
from calc.units.tables import UNITS

if TYPE_CHECKING:
    from collections.abc import Callable

    from calc.errors import Problem

pytestmark = pytest.mark.exact
NAMES = sorted({name for names in UNITS.values() for name in names})
TYPED = st.builds(
    lambda number, space, unit: f"{number}{space}{unit}",
    st.from_regex(r"[0-9]{1,10}(\.[0-9]{0,10})?", fullmatch=True),
    st.sampled_from(["", " "]),
    st.sampled_from([*NAMES, "x", "in"]),
)


@settings(derandomize=True, deadline=None, max_examples=1500)
@given(TYPED, st.sampled_from(get_args(Quantity)), st.sampled_from(get_args(System)), st.booleans())
def test_both_ways_agree(text: str, quantity: Quantity, system: System, whole: bool) -> None:  # noqa: FBT001
    def quick() -> float:
        return read("n", text, quantity, low=0.0, high=1e30, system=system, whole=whole)

    def long() -> float:
        return float(understand("n", text, quantity, low=0.0, high=1e30, system=system, whole=whole).value)

    assert said(quick) == said(long)


def said(answer: Callable[[], float]) -> float | Problem:
    try:
        return answer()
    except DomainError as error:
        return error.problem
