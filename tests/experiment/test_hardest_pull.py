"""The hardest pull that sheets count on, held against shots of the second way."""

from __future__ import annotations

from math import exp, log
from random import Random

import numpy as np
import pytest

from calc.data import practice
from calc.mechanics.bow import Bow
from calc.mechanics.shot import ShotString, shot
from tests.experiment import asking
from tests.experiment.limbs import Limbs
from tests.experiment.rows import BOWS, STRONG, Experiment
from tests.experiment.shots import Shots

pytestmark = pytest.mark.exact
FEW = 60
_LONG_M, _FORCE_N, _ARROW_KG = 1.6, 180.0, 0.025
_TAPERS = {"arc": 0.5, "tapered": 1.0, "uniform": 0.0}


@pytest.fixture(scope="module")
def tried(share: int) -> Experiment:
    """Return the bows, and what the bench sheet says of each."""
    return Experiment.of(BOWS if share == 1 else FEW)


def test_the_range_holds_the_hardest_pull_with_limbs_guessed_and_weighed(tried: Experiment) -> None:
    """87 to 97 in 100; of 60 bows a little wider. A weighed limb makes the range narrower, and it holds as often."""
    peak_n, limb_kg = tried.hardest_n, tried.true.limb_kg
    least, most = (0.87, 0.97) if len(tried.drawn) >= BOWS else (0.80, 1.0)
    widths = []
    for weighed in (False, True):
        low, high = [], []
        for maker, answer, limb in zip(tried.drawn, tried.answers, limb_kg, strict=True):
            typed = {key: each for key, each in maker.typed.items() if key in _STRANDS}
            typed |= {"strands": f"{answer['strands'].value:.0f}", "bow_kind": _kind(maker.typed)}
            typed |= {"limb_mass": f"{limb} kg"} if weighed else {}
            found = asking.answered("strands", typed)
            assert found is not None
            assert weighed or found["tension_peak"].low == pytest.approx(answer["tension_peak"].low)
            low.append(found["tension_peak"].low)
            high.append(found["tension_peak"].high)
        holds = float(np.mean((peak_n >= np.array(low)) & (peak_n <= np.array(high))))
        assert least <= holds <= most, (weighed, holds)
        widths.append(float(np.median(np.log(np.array(high) / np.array(low)))))
    assert widths[1] < widths[0]


_STRANDS = {
    "draw_weight", "nock_to_nock", "limb_shape", "arrow_mass", "fibre", "yarn", "strand_kind", "strand_thickness",
    "bundles", "handle_length", "tip_upper",
}  # fmt: skip


def _kind(typed: dict[str, str]) -> str:
    return "pipe" if typed["tip_upper"].startswith("pipe") else "wood"


def test_the_low_end_of_safety_holds(tried: Experiment) -> None:
    """What a string holds / the hardest pull of its shot: above the low end that the sheet told, 98 times in 100."""
    told = np.array([each["safety_factor"].low for each in tried.answers])
    share = float(np.mean(tried.held() >= told))
    assert share >= (STRONG if len(tried.drawn) >= BOWS else 56.0 / FEW), share


@pytest.mark.parametrize(("name", "stiffness"), [("peak_soft", 50.0), ("peak_middling", 200.0), ("peak_stiff", 900.0)])
def test_the_second_way_stands_to_the_first_as_the_constants_say(name: str, stiffness: float) -> None:
    """Straight bows, handles flush: five to ninety-five of a hundred lie inside; 80 to 100 of 48."""
    draw = Random(name)  # noqa: S311 - a seeded sample, no secret
    rows = []
    for k in range(48):
        shape = ("arc", "tapered", "uniform")[k % 3]
        rows.append(
            (
                _TAPERS[shape],
                draw.uniform(0.0, 0.16),
                draw.uniform(0.09, 0.115),
                draw.uniform(0.36, 0.44),
                exp(draw.uniform(log(4.0), log(14.0))),
                exp(draw.uniform(log(0.1), log(0.8))),
            )
        )
    taper, handle, brace, full, limb, string = np.array(rows).T
    one = np.ones(len(rows))
    second = Shots(
        limbs=Limbs((1.0 - handle) * _LONG_M / 2.0, handle * _LONG_M / 2.0, taper, 0.0 * one, 0.0 * one),
        brace_m=brace * _LONG_M,
        draw_m=full * _LONG_M,
        weight_n=_FORCE_N * one,
        limb_kg=limb * _ARROW_KG,
        arrow_kg=_ARROW_KG * one,
        string_kg=string * _ARROW_KG,
        pull_n=stiffness * _FORCE_N * one,
    ).loose()
    first = [
        shot(
            Bow(_LONG_M, handle[k] * _LONG_M, ("arc", "tapered", "uniform")[k % 3]),
            brace[k] * _LONG_M,
            full[k] * _LONG_M,
            _FORCE_N,
            arrow_kg=_ARROW_KG,
            string=ShotString(stiffness * _FORCE_N, string[k] * _ARROW_KG),
            limb_mass_kg=limb[k] * _ARROW_KG,
            within=1e-3,
        ).peak_n
        for k in range(len(rows))
    ]
    apart = second.peak_n / np.array(first)
    known = practice(name).spread
    share = float(np.mean((apart >= known.low) & (apart <= known.high)))
    assert share >= 0.8, (np.percentile(apart, [5, 50, 95]), share)
    assert np.percentile(apart, 95) == pytest.approx(known.high, rel=0.1)
    assert np.percentile(apart, 5) == pytest.approx(known.low, rel=0.1)
