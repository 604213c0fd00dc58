"""The jam and the limit that warns of it, against searches that use no closed form."""

from __future__ import annotations

from math import degrees, pi, radians, sin, tan

import numpy as np
import pytest
from scipy.optimize import minimize_scalar

from calc.errors import DomainError
from calc.geometry.lay import jam, jam_turns, lay_of_turns, radius_ratio, warn_lay

pytestmark = pytest.mark.exact

# Own table of the reference sheet, section 1.3, worked by another program: helix angle, cord / strand, a / D,
# turns x D per strand length, turns x D per cord length, lay length / D.
SHEET = {
    2: (50.6229, 0.63442, 0.52294, 0.23526, 0.37082, 2.6967),
    3: (47.1646, 0.67989, 0.71762, 0.16263, 0.23921, 4.1805),
    4: (46.1649, 0.69259, 0.93078, 0.12334, 0.17809, 5.6152),
}


def _turns(bundles: int, pitch_rad: float) -> float:
    """Give turns x diameter per strand length of touching strands, by a fine grid over the distance."""
    t = np.linspace(0.0, pi, 200001)
    across, along = 2.0 * np.cos(pitch_rad) ** 2, np.sin(pitch_rad) ** 2
    least = min(
        float(np.min(across * (1.0 - np.cos(t - 2.0 * pi * k / bundles)) + along * t * t))
        for k in range(1, bundles // 2 + 1)
    )
    return float(np.sqrt(least) / (2.0 * pi))


@pytest.mark.parametrize("bundles", [2, 3, 4])
def test_the_jam_is_the_most_turns_there_are(bundles: int) -> None:
    found = minimize_scalar(
        lambda angle: -_turns(bundles, angle), bounds=(0.4, 1.2), method="bounded", options={"xatol": 1e-10}
    )
    assert jam(bundles).turns_times_diameter == pytest.approx(-found.fun, rel=1e-9)
    assert jam(bundles).pitch_rad == pytest.approx(found.x, abs=1e-4)


@pytest.mark.parametrize("bundles", [2, 3, 4])
def test_the_jam_agrees_with_the_table(bundles: int) -> None:
    limit = jam(bundles)
    angle, ratio, radius, per_strand, per_cord, pitch = SHEET[bundles]
    assert degrees(limit.lay_rad) == pytest.approx(angle, abs=5.1e-5)
    assert degrees(limit.pitch_rad) == pytest.approx(90.0 - angle, abs=5.1e-5)
    assert limit.ratio == pytest.approx(ratio, abs=5.1e-6)
    assert limit.take_up == pytest.approx(1.0 - ratio, abs=5.1e-6)
    assert limit.radius_ratio == pytest.approx(radius, abs=5.1e-6)
    assert limit.turns_times_diameter == pytest.approx(per_strand, abs=5.1e-6)
    assert limit.cord_turns_times_diameter == pytest.approx(per_cord, abs=5.1e-6)
    assert 1.0 / limit.cord_turns_times_diameter == pytest.approx(pitch, abs=5.1e-5)
    assert limit.bundles == bundles


@pytest.mark.parametrize("bundles", [2, 3, 4])
def test_the_parts_of_a_jam_agree(bundles: int) -> None:
    limit = jam(bundles)
    assert limit.radius_ratio == pytest.approx(radius_ratio(bundles, limit.lay_rad), rel=1e-12)
    assert limit.turns_times_diameter == pytest.approx(sin(limit.lay_rad) / (2 * pi * limit.radius_ratio), rel=1e-12)
    assert limit.cord_turns_times_diameter == pytest.approx(
        tan(limit.lay_rad) / (2 * pi * limit.radius_ratio), rel=1e-12
    )


def test_two_bundles_jam_at_twice_the_number_that_is_its_own_cosine() -> None:
    found = 0.7390851332151607
    assert np.cos(found) == pytest.approx(found, abs=1e-15)
    assert 2.0 * pi * jam(2).turns_times_diameter == pytest.approx(2.0 * found, rel=1e-14)


@pytest.mark.parametrize(("bundles", "most"), [(2, 117.6), (3, 81.3), (4, 61.7)])
def test_the_most_turns_of_a_metre_of_2_mm_bundle(bundles: int, most: float) -> None:
    assert jam_turns(0.002, bundles, 1.0) == pytest.approx(most, abs=0.051)
    assert jam_turns(0.002, bundles, 3.0) == pytest.approx(3.0 * jam_turns(0.002, bundles, 1.0), rel=1e-12)
    assert jam_turns(0.001, bundles, 1.0) == pytest.approx(2.0 * jam_turns(0.002, bundles, 1.0), rel=1e-12)


@pytest.mark.parametrize("bundles", [2, 3, 4])
def test_past_the_warning_a_turn_costs_more_cord_than_it_lies_on(bundles: int) -> None:
    def balance(turns: float) -> float:
        step = 1e-4 * turns
        less, more = (lay_of_turns(1.0, bundles, turns + each, 1.0) for each in (-step, step))
        return (less.ratio - more.ratio) / (2.0 * step) - lay_of_turns(1.0, bundles, turns, 1.0).pitch_m

    at = sin(warn_lay(bundles)) / (2.0 * pi * radius_ratio(bundles, warn_lay(bundles)))
    assert balance(0.999 * at) < 0.0 < balance(1.001 * at)
    assert 0.9 < at / jam(bundles).turns_times_diameter < 0.96


def test_the_warning_comes_after_all_that_hands_lay() -> None:
    assert degrees(warn_lay(2)) == pytest.approx(45.0, abs=1e-12)
    assert all(radians(35.0) < warn_lay(bundles) < jam(bundles).lay_rad for bundles in (2, 3, 4))


@pytest.mark.parametrize("ask", [jam, warn_lay])
def test_other_counts_are_refused(ask: object) -> None:
    assert callable(ask)
    with pytest.raises(DomainError, match="bundles: choice"):
        ask(5)
