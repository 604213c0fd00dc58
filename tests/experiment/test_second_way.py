"""What the experiment's own bows, cords and shots are held against: closed forms, and tables worked out elsewhere."""

from __future__ import annotations

from math import asin, cos, pi, sqrt, tan

import numpy as np
import pytest

from tests.experiment.cords import (
    Fibres,
    Piece,
    by_lay,
    by_turns,
    crept,
    fibre_path,
    off_axis,
    splice_stretch,
    stretch,
    throat,
)
from tests.experiment.limbs import Limbs, drawn
from tests.experiment.shots import Shots

IN = 0.0254
TWO = np.array([2.0])


def bows(nock_in: list[float], taper: list[float], *, set_in: float = 0.0) -> Limbs:
    """Return bows with 8 in of handle, flush with the belly."""
    nock = np.array(nock_in) * IN
    return Limbs(
        (nock - 8 * IN) / 2, np.full_like(nock, 4 * IN), np.array(taper), np.full_like(nock, set_in * IN), 0 * nock
    )


@pytest.mark.exact
def test_limbs_that_taper_or_do_not_bend_as_elastica_do() -> None:
    """Strings for 6 in of brace, pulls and angle at 28 in: elastica solved by shooting over continuous limbs."""
    limbs = bows([60, 60, 68, 68, 72], [1, 0, 1, 0, 1])
    brace = np.full(5, 6 * IN)
    string = limbs.braced.at(brace, limbs.braced.string_m) / IN
    assert string == pytest.approx([57.941, 58.255, 66.228, 66.496, 70.344], abs=0.005)
    full = drawn(limbs, brace, np.full(5, 28 * IN))
    assert limbs.braced.at(brace, limbs.braced.load) / full.force == pytest.approx(
        [1.191, 1.364, 1.505, 1.688, 1.656], rel=0.005
    )
    assert full.load / full.force == pytest.approx([0.969, 1.002, 1.115, 1.151, 1.187], rel=0.005)
    assert np.degrees(full.pull_rad) == pytest.approx([31.07, 29.95, 26.65, 25.76, 24.91], abs=0.05)


@pytest.mark.exact
def test_a_limb_hardly_bent_takes_the_load_of_euler() -> None:
    limbs = bows([60], [0.0])
    assert limbs.braced.load[0, 0] == pytest.approx(pi**2 / 4, rel=0.004)


@pytest.mark.exact
def test_set_takes_pull_from_the_braced_string() -> None:
    """A rigid limb on a spring: pull goes with the angle it is bent by; set of a third takes a third."""
    straight, followed = (bows([68], [0.5], set_in=each) for each in (0.0, 2.0))
    pulls = [each.braced.at(np.array([6 * IN]), each.braced.load)[0] for each in (straight, followed)]
    assert pulls[1] / pulls[0] == pytest.approx(1 - 2 / 6, abs=0.03)


@pytest.mark.exact
def test_two_bundles_with_turns_lie_on_helices() -> None:
    """50 turns in a metre of 2 mm bundles: sine of the lay is pi x diameter x turns / length."""
    one = np.array([1.0])
    made = by_turns(one, 0.002 * one, TWO, 50 * one, 50 * one * cos(asin(pi * 0.002 * 50)))
    assert made.lay_rad[0] == pytest.approx(asin(pi * 0.1), rel=1e-9)
    assert made.cord_m[0] == pytest.approx(sqrt(1 - (pi * 0.1) ** 2), rel=1e-9)
    again = by_lay(one, 0.002 * one, TWO, made.lay_rad, 0 * one)
    assert (again.cord_m[0], again.turns[0]) == pytest.approx((made.cord_m[0], 50.0), rel=1e-9)


@pytest.mark.exact
def test_three_bundles_stand_off_the_axis_as_tubes_do_that_touch() -> None:
    """Least distance between helices; 0.57735 is three circles in a ring."""
    lays = np.radians([0.0, 10.0, 20.0, 30.0])
    assert off_axis(np.full(4, 3.0), lays) == pytest.approx([0.57735, 0.57964, 0.58781, 0.60729], abs=2e-5)


@pytest.mark.exact
def test_fibres_of_a_twisted_bundle_run_as_far_as_an_integral_says() -> None:
    for surface in (0.05, 0.3, 0.6):
        shares = (np.arange(20000) + 0.5) / 20000
        mean = float(np.mean(2 * shares * np.sqrt(1 + (surface * shares) ** 2)))
        assert fibre_path(np.array([surface]))[0] == pytest.approx(mean, rel=1e-7)


@pytest.mark.exact
def test_a_loop_is_as_long_as_its_circle_and_legs() -> None:
    """Legs at 30 degrees on a thread round a post of radius 1: the throat stands at 2, legs of root 3, arc 4 pi / 3."""
    long = 2 * sqrt(3) + 4 * pi / 3
    assert throat(np.array([long]), np.array([2.0]), np.array([1e-9]))[0] == pytest.approx(2.0, rel=1e-6)


@pytest.mark.exact
def test_a_string_stretches_by_hooke() -> None:
    """Straight strands below the knee: pull / (stiffness x weight); slanted ones by three cosines."""
    one = np.array([1.0])
    polyester = Fibres(10e6 * one, 0.8e6 * one, 0.13 * one, 0.1e6 * one)
    piece = Piece(one, 0 * one, 0 * one, 0 * one)
    assert stretch(polyester, piece, 100 * one, 1e-3 * one, TWO)[0] == pytest.approx(0.005, rel=1e-6)
    slanted = Piece(one, one, 0.3 * one, 0 * one)
    assert stretch(polyester, slanted, 100 * one, 1e-3 * one, TWO)[0] == pytest.approx(0.005 / cos(0.3) ** 3, rel=1e-6)
    half = splice_stretch(polyester, piece, 100 * one, 1e-3 * one, TWO, held=0.4 * one)
    assert half[0] == pytest.approx(0.005 * 0.8, rel=1e-6)  # tails take a fifth on the whole
    linen = Fibres(18e6 * one, 0.5e6 * one, 0.03 * one, 0 * one)
    assert linen.strain(0.5e6 * one)[0] == pytest.approx(0.03, rel=1e-9)
    assert linen.strain(1e3 * one)[0] == pytest.approx(1e3 / 18e6, rel=1e-3)


@pytest.mark.exact
def test_creep_goes_with_the_logarithm_of_time() -> None:
    one = np.array([1.0])
    assert crept(0.001 * one, one, 0.3 * one, 60 * 999 * one, 60 * one)[0] == pytest.approx(0.003, rel=1e-9)


@pytest.mark.exact
def test_a_shot_keeps_its_energy_and_goes_as_a_finer_chain_has_it() -> None:
    """24 links for each limb, another programme: 53.2, 53.5 and 53.8 m/s, 3.5, 3.5 and 3.4 times the draw weight."""
    three = np.ones(3)
    limbs = Limbs(0.8128 * three, 0.1016 * three, three, 0 * three, 0 * three)
    shots = Shots(
        limbs=limbs, brace_m=0.1524 * three, draw_m=0.7112 * three, weight_n=152.297 * three, limb_kg=0.1625 * three,
        arrow_kg=0.025 * three, string_kg=0.0068 * three, pull_n=np.array([20e3, 30e3, 80e3]),
    )  # fmt: skip
    found = shots.loose()
    assert found.stored_j / 152.297 / 0.7112 == pytest.approx(0.4074, rel=0.001)
    assert found.speed_m_s == pytest.approx([53.2, 53.5, 53.8], rel=0.01)
    assert found.peak_n / 152.297 == pytest.approx([3.5, 3.5, 3.4], rel=0.13)
    assert np.all(0.0125 * found.speed_m_s**2 < found.stored_j)


@pytest.mark.exact
def test_twist_left_in_a_bundle_costs_length() -> None:
    """A bundle whose surface fibres slant by an angle gives up the square of the tangent of half of it, nearly."""
    one = np.array([1.0])
    lay = 0.33
    kept = (
        by_lay(one, 0.002 * one, TWO, lay * one, one).cord_m / by_lay(one, 0.002 * one, TWO, lay * one, 0 * one).cord_m
    )
    assert kept[0] == pytest.approx(1 - tan(lay / 2) ** 2, abs=4e-4)
