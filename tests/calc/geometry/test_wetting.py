"""A wet cord: exact cases, a second way by adding up layers of helices, and which fibres do what."""

from __future__ import annotations

from math import cos, pi, sin, tan

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.data import fibre, fibres, practice
from calc.errors import DomainError
from calc.geometry.lay import wet_length
from calc.making.tuning import soaks, wet_change

exact = pytest.mark.exact


@exact
def test_straight_fibres_change_as_one_fibre_and_no_swelling_changes_nothing() -> None:
    assert wet_length(0.0, 0.4, 0.05) == 1.05
    assert wet_length(0.3, 0.0) == pytest.approx(1.0, rel=1e-15)


@exact
def test_of_a_small_lay_three_quarters_of_its_square_are_taken_up() -> None:
    """Half by the lay and a quarter by the twist of the bundles, each with the square of how thick it has grown."""
    change = 1.0 - wet_length(0.01, 0.5)
    assert change == pytest.approx(0.75 * (1.5**2 - 1.0) * 0.01**2, rel=1e-3)


def by_layers(lay_rad: float, swelling: float, along: float) -> float:
    """Return the same by fibres in a hundred rings of a bundle, each a helix, the bundle's axis another."""
    rings = (np.arange(100) + 0.5) / 100.0
    turns = tan(lay_rad) / (2.0 * pi)  # in a bundle of radius 1, so much of it along
    fibre_m = float(np.average(np.hypot(1.0, 2.0 * pi * rings * turns), weights=rings))

    def kept(longer: float, wider: float) -> float:
        low, high = 0.0, 2.0
        for _ in range(60):
            middle = (low + high) / 2.0
            length = float(np.average(np.hypot(middle, 2.0 * pi * rings * wider * turns), weights=rings))
            low, high = (middle, high) if length < longer * fibre_m else (low, middle)
        return low

    bundle = kept(1.0 + along, 1.0 + swelling)
    around = sin(lay_rad) * (1.0 + swelling)
    return float(np.sqrt(bundle**2 - around**2)) / cos(lay_rad)


@exact
@given(st.floats(0.02, 0.35), st.floats(0.0, 0.4), st.floats(0.0, 0.07))
@settings(derandomize=True, deadline=None, max_examples=60)
def test_layers_of_helices_give_the_same(lay_rad: float, swelling: float, along: float) -> None:
    change = wet_length(lay_rad, swelling, along) - 1.0
    assert change == pytest.approx(by_layers(lay_rad, swelling, along) - 1.0, rel=0.06, abs=1.5e-3)


@pytest.mark.published
def test_sinew_swells_as_was_printed() -> None:
    """X. A. Gouws and others, arXiv:2312.08771, abstract: radius 40 %, length 5 %."""
    assert practice("swell_sinew").spread.value == 0.40
    assert practice("along_sinew").spread.value == 0.05


@exact
def test_plant_shortens_sinew_lengthens_and_the_rest_is_not_told() -> None:
    for name in ("linen", "hemp"):
        change = wet_change(fibre(name))
        assert change is not None
        assert -0.03 < change.low < change.value < change.high < 0.0
    sinew = wet_change(fibre("sinew"))
    assert sinew is not None
    assert 0.0 < sinew.value < sinew.high < 0.07
    assert {each.id for each in fibres() if soaks(each)} == {"cotton", "hemp", "linen", "ramie", "sinew"}
    assert wet_change(fibre("polyester")) is None


@exact
def test_what_no_cord_does_is_named() -> None:
    for told, field in (
        ((-0.1, 0.1), "lay_rad"),
        ((1.6, 0.1), "lay_rad"),
        ((0.1, -0.1), "swelling"),
        ((1.2, 0.4), "swelling"),
    ):
        with pytest.raises(DomainError) as caught:
            wet_length(*told)
        assert caught.value.problem.field == field
    with pytest.raises(DomainError):
        wet_length(0.1, 0.1, -1.0)
