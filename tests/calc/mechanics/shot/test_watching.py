"""How long the string is watched once the arrow has gone, and motions no steps can follow."""

from __future__ import annotations

import pytest

from calc.errors import DomainError
from calc.mechanics.bow import Bow
from calc.mechanics.shot import ShotString, shot
from calc.mechanics.shot import trajectory as under_test
from calc.numerics import NoStepError

pytestmark = pytest.mark.exact
STRING = ShotString(3e4, 0.007)


@pytest.mark.parametrize("stiffness_n", [1.5e4, 3e4, 1e5])
@pytest.mark.parametrize("nock_m", [1.2, 1.8])
def test_the_string_is_watched_until_its_peak_is_past(nock_m: float, stiffness_n: float) -> None:
    string = ShotString(stiffness_n, 0.007)
    found = shot(
        Bow(nock_m, 0.2, "uniform"), 0.16, 0.4 * nock_m, 180.0, arrow_kg=0.025, string=string, limb_mass_kg=0.16
    )
    after = [each for each in found.moments if each.time_s > found.leaves_s]
    most = [max(each.tension_n for each in after[: k + 1]) for k in range(len(after))]
    done = [
        each.time_s >= 1.4 * found.leaves_s and each.tension_n < 0.6 * top
        for each, top in zip(after, most, strict=True)
    ]
    assert done[-1] or after[-1].time_s == pytest.approx(2.5 * found.leaves_s)
    assert not any(done[3:-1:4])
    assert found.peak_after_n >= most[-1]
    longer = shot(
        Bow(nock_m, 0.2, "uniform"), 0.16, 0.4 * nock_m, 180.0, arrow_kg=0.025, string=string, limb_mass_kg=0.16,
        after_s=after[-1].time_s - found.leaves_s,
    )  # fmt: skip
    assert longer.peak_after_n == pytest.approx(found.peak_after_n, rel=1e-3)


def test_a_tension_that_will_not_fall_is_left_after_one_and_a_half_times(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(under_test, "FALLEN", 0.0)
    found = shot(Bow(1.7, 0.2, "tapered"), 0.16, 0.7, 180.0, arrow_kg=0.025, string=STRING, limb_mass_kg=0.16)
    assert found.moments[-1].time_s == pytest.approx(2.5 * found.leaves_s, rel=1e-9)


@pytest.mark.parametrize("fault", ["step", "legs"])
def test_a_motion_no_steps_can_follow_is_named(fault: str, monkeypatch: pytest.MonkeyPatch) -> None:
    def never(*_: object) -> None:
        raise NoStepError("never")

    if fault == "step":
        monkeypatch.setattr(under_test, "next_step", never)
    else:
        monkeypatch.setattr(under_test, "_MOST_STEPS", 3)
    with pytest.raises(DomainError) as caught:
        shot(Bow(1.7, 0.2, "tapered"), 0.16, 0.7, 180.0, arrow_kg=0.025, string=STRING, limb_mass_kg=0.16)
    assert (caught.value.problem.field, caught.value.problem.reason) == ("string", "wild")
