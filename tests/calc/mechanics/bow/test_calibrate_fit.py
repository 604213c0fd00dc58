"""The fit of a calibrated bow done again by scipy, cause by cause, with readings that stray more to one side."""

from __future__ import annotations

from dataclasses import replace
from math import hypot
from typing import TYPE_CHECKING

import pytest
from scipy import optimize

from calc.data import practice
from calc.mechanics.bow import CENTRAL, Bow, brace_height, brace_limit, brace_per_length, limb_reach, string_length
from calc.mechanics.estimate import Form, Known, Pair, calibrate
from calc.mechanics.estimate import calibration as under_test
from calc.numerics import Spread

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from calc.mechanics.bow import LimbShape

pytestmark = pytest.mark.exact
LOPSIDED = {"tape_reading": Spread(-0.0011, 0.0, 0.0017), "proud_reading": Spread(-0.003, 0.0, 0.005)}


class Constant:
    """One of the constants, its spread set by hand."""

    def __init__(self, name: str) -> None:
        self.spread = LOPSIDED[name] if name in LOPSIDED else practice(name).spread


def reach(shape: LimbShape, mix: float, across: float, follow: float) -> float:
    """Return how far along a limb reaches that strays from its shape by a mix of the ends."""
    here, tapered, uniform = (limb_reach(each, across, follow) for each in (shape, "tapered", "uniform"))
    if shape in {"tapered", "uniform"}:
        return here + mix / 2.0 * (uniform - tapered)
    return here + (mix * (uniform - here) if mix > 0.0 else mix * (here - tapered))


def by_scipy(bow: Bow, pairs: list[Pair], moved: dict[str, float], string_m: float) -> float:
    """Return the brace height of a string from a bow fitted anew with its causes moved."""
    tape_m, proud_m = (LOPSIDED[name].high for name in ("tape_reading", "proud_reading"))
    told_m, nock_m = bow.handle_proud_m + moved.get("proud", 0.0), bow.nock_to_nock_m + moved.get("tape", 0.0)
    hinge = replace(bow, shape="hinged", string_follow_m=0.0)
    read = [
        (each.string_m + moved.get(f"string {at}", 0.0), each.brace_m + moved.get(f"brace {at}", 0.0))
        for at, each in enumerate(pairs)
    ]
    weights = [
        1.0 / (tape_m * hypot(1.0, 1.0 / brace_per_length(hinge, min(brace_m, 0.5 * bow.limb_m))))
        for _, brace_m in read
    ]

    def string(limb_m: float, here_m: float, brace_m: float) -> float:
        kept = reach(bow.shape, moved.get("limb", 0.0), (brace_m + here_m) / limb_m, bow.follow)
        return nock_m - 2.0 * limb_m * (1.0 - kept)

    def wrong(at: NDArray[np.float64]) -> list[float]:
        off = [
            weight * (string(float(at[0]), float(at[1]), brace_m) - long_m)
            for (long_m, brace_m), weight in zip(read, weights, strict=True)
        ]
        return [*off, (float(at[1]) - told_m) / proud_m]

    limb_m, here_m = optimize.least_squares(
        wrong, [bow.limb_m, told_m], xtol=1e-15, ftol=1e-15, gtol=1e-15, x_scale=[0.1, 0.001]
    ).x
    low = abs(bow.follow) * limb_m - here_m + 1e-6
    return float(
        optimize.brentq(lambda brace_m: string(limb_m, here_m, brace_m) - string_m, low, 0.59 * limb_m - here_m)
    )


@pytest.mark.parametrize("shape", ["arc", "uniform"])
@pytest.mark.parametrize("count", [1, 2])
def test_every_cause_moves_the_fit_as_scipys_own(shape: LimbShape, count: int, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(under_test, "practice", Constant)
    bow = Bow(1.613, 0.21, shape, handle_proud_m=0.004, string_follow_m=0.02)
    pairs = [Pair(1.5531, 0.15), Pair(1.5283, 0.185)][:count]
    known = Known(bow, shape_told=True)
    causes = {"limb": known.limb, "tape": LOPSIDED["tape_reading"], "proud": LOPSIDED["proud_reading"]}
    for at in range(count):
        causes |= {f"string {at}": LOPSIDED["tape_reading"], f"brace {at}": LOPSIDED["tape_reading"]}
    middle, up, down = by_scipy(bow, pairs, {}, 1.49), 0.0, 0.0
    for name, cause in causes.items():
        ends = [by_scipy(bow, pairs, {name: end}, 1.49) for end in (cause.low, cause.high)]
        up, down = hypot(up, max(0.0, *ends) - middle), hypot(down, middle - min(ends))
    calibrated = calibrate(known, pairs)
    found = calibrated.brace_height(1.49)
    assert found.value == pytest.approx(middle, abs=1e-7)
    assert found.high - found.value == pytest.approx(up, rel=2e-6)
    assert found.value - found.low == pytest.approx(down, rel=2e-6)
    assert calibrated.now == calibrated.brace_height(1.5531)
    first = known.spread(lambda each: brace_height(each, 1.5531))
    for name in ("low", "value", "high"):
        assert getattr(calibrated.first, name) == pytest.approx(getattr(first, name), rel=1e-9)
    assert calibrated.shrink == pytest.approx(
        (calibrated.now.high - calibrated.now.low) / (calibrated.first.high - calibrated.first.low), rel=1e-12
    )
    assert (calibrated.pairs, calibrated.known) == (tuple(pairs), known)
    assert calibrated.bow.limb_m == pytest.approx(calibrated.form.limb_m, rel=1e-12)
    assert calibrated.bow.handle_proud_m == calibrated.form.proud_m
    assert calibrated.bow.follow == pytest.approx(bow.follow, rel=1e-12)
    both = calibrated.spreads(lambda form: {"brace": form.brace_m(1.49), "limb": form.limb_m})
    assert both["brace"] == found
    assert both["limb"].value == calibrated.form.limb_m


def test_what_recurved_tips_carry_is_no_limb() -> None:
    real = Bow(1.7, 0.2, "arc", contact_m=0.05)
    found = calibrate(Known(replace(real, handle_length_m=0.1)), [Pair(string_length(real, 0.15), 0.15)])
    assert found.bow.handle_length_m == pytest.approx(0.2, abs=1e-6)
    assert found.bow.contact_m == 0.05


@pytest.mark.parametrize("mix", [-1.0, -0.4, 0.0, 0.4, 1.0])
@pytest.mark.parametrize("shape", ["arc", "hinged", "tapered", "uniform"])
def test_a_form_is_a_bow_of_known_limb(shape: LimbShape, mix: float) -> None:
    bow = Bow(1.7, 0.2, shape, string_follow_m=0.03)
    form = Form(bow, mix, 1.69, 0.72, 0.01)
    expected = 1.69 - 2.0 * 0.72 * (1.0 - reach(shape, mix, 0.16 / 0.72, bow.follow))
    assert form.string_m(0.15) == pytest.approx(expected, rel=1e-12)
    assert form.brace_m(expected) == pytest.approx(0.15, abs=1e-9)
    assert form.brace_m(1.69) == pytest.approx(bow.follow * 0.72 - 0.01, rel=1e-12)
    assert form.brace_m(1.0) == pytest.approx(0.6 * 0.72 - 0.01, rel=1e-12)


def test_a_string_just_short_enough_for_the_highest_brace_is_told() -> None:
    real = Bow(1.6, 0.2, CENTRAL, handle_proud_m=0.01)
    high_m = brace_limit(real) - 1e-3
    found = calibrate(Known(real), [Pair(string_length(real, high_m), high_m)])
    assert found.bow.limb_m == pytest.approx(real.limb_m, rel=1e-6)
