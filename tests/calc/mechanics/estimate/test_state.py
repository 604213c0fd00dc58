"""Where secants miss, a rise is searched for."""

import pytest

from calc.mechanics.estimate.state import _searched

pytestmark = pytest.mark.exact


def test_a_rise_that_secants_miss_is_searched_for() -> None:
    """Roots known beforehand: none, one between, and one above what limbs are worked out for."""
    assert _searched(lambda up_m: up_m + 1.0, 0.01, 0.3) == 0.01
    assert _searched(lambda up_m: up_m**3 - 0.008, 0.0, 0.3) == pytest.approx(0.2, abs=1e-9)
    assert _searched(lambda up_m: up_m - 1.0, 0.0, 0.3) == 0.3
