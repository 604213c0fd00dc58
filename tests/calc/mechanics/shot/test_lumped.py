"""The reference sheet's own models written out again: its figures at its tolerances, and how far ours is from them.

Section 3.4: rigid limbs with an elastic, massive string. Section 3.5: links with a third of the string's mass at
either end. The string of ours moves evenly between its ends; what that changes stands on the page of checks.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from calc.mechanics.bow import Bow
from calc.mechanics.shot import ShotString, shot
from calc.mechanics.shot.full_draw import full_draw_state
from tests.calc.mechanics.shot.chain import Case, Chain

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Vector = NDArray[np.float64]

pytestmark = pytest.mark.exact
FORCE_N, ARM_M, ROOT_M, STRING_KG, ARROW_KG, TIP_KG = 152.297, 0.6096, 0.3048, 0.0068, 0.025, 0.0108333
HINGED, TAPERED = Bow(1.8288, 0.2032, "hinged"), Bow(1.8288, 0.2032, "tapered")
CHECKS = Path(__file__).parents[4] / "docs" / "reference" / "checks.md"


def two_degrees(stiff_n: float, *, even: bool) -> tuple[float, float, float]:
    """Return speed and most tension before and after, by the sheet's equations in scipy."""
    string = ShotString(stiff_n, STRING_KG, even=even)
    ready = full_draw_state(HINGED, 0.1524, 0.7112, FORCE_N, string=string, limb_mass_kg=0.1625)
    bend, slack_m, mu = ready.model.stiffness_nm[0][0], ready.model.slack_m, STRING_KG / 2.0
    spring = stiff_n / slack_m

    def pull(at: Vector) -> tuple[float, float, float, float]:
        along, over = ROOT_M + ARM_M * np.cos(at[0]), at[1] - ARM_M * np.sin(at[0])
        length = float(np.hypot(along, over))
        return max(0.0, spring * (length - slack_m)), length, float(along), float(over)

    def rates(at: Vector, arrow_kg: float) -> Vector:
        tension, length, along, over = pull(at)
        turn, lean = ARM_M * np.cos(at[0]), ARM_M * np.sin(at[0])
        by_angle = (-over * turn - along * lean) / length
        cross = mu / 6.0 if even else 0.0
        mass = np.array([[(TIP_KG + mu / 3.0) * ARM_M**2, cross * turn], [cross * turn, arrow_kg / 2.0 + mu / 3.0]])
        right = np.array([-bend * at[0] - tension * by_angle, -tension * over / length + cross * lean * at[2] ** 2])
        return np.concatenate([at[2:], np.linalg.solve(mass, right)])

    def straight(_: float, at: Vector) -> float:
        return pull(at)[3]

    straight.terminal = True  # type: ignore[attr-defined]
    state, found = np.array([ready.state[0], 0.7112, 0.0, 0.0]), []
    for arrow_kg, time_s, events in ((ARROW_KG, 0.1, straight), (0.0, 0.006, None)):
        run = solve_ivp(
            lambda _, at, kg=arrow_kg: rates(at, kg),
            (0.0, time_s), state, method="DOP853", rtol=1e-9, atol=1e-9, max_step=5e-5, events=events,
        )  # fmt: skip
        state = run.y[:, -1]
        found.append((-float(state[3]), max(pull(at)[0] for at in run.y.T)))
    return found[0][0], found[0][1], found[1][1]


SHEET = [
    (20e3, True, 54.42, 0.833, 2.23, 4.31),
    (20e3, False, 55.07, 0.853, 2.20, 4.11),
    (30e3, True, 55.32, 0.858, 2.41, 4.53),
    (80e3, True, 55.99, 0.875, 3.17, 5.85),
]


@pytest.mark.parametrize("row", SHEET)
def test_the_sheets_equations_give_its_figures_and_ours(row: tuple[float, bool, float, float, float, float]) -> None:
    """The sheet's 0.5 % of speed and 3 % of peaks; its efficiency, which goes as speed squared, then twice 0.5 %."""
    stiff, even, speed, efficiency, before, after = row
    found = two_degrees(stiff, even=even)
    assert found[0] == pytest.approx(speed, rel=0.005)
    assert found[1] / FORCE_N == pytest.approx(before, rel=0.03)
    assert found[2] / FORCE_N == pytest.approx(after, rel=0.03)
    string = ShotString(stiff, STRING_KG, even=even)
    ours = shot(HINGED, 0.1524, 0.7112, FORCE_N, arrow_kg=ARROW_KG, string=string, limb_mass_kg=0.1625, after_s=0.006)
    assert ARROW_KG * found[0] ** 2 / 2.0 / ours.energy_j == pytest.approx(efficiency, rel=0.01)
    assert ours.speed_m_s == pytest.approx(found[0], rel=1e-4)
    assert ours.peak_before_n == pytest.approx(found[1], rel=3e-3)
    assert ours.peak_after_n == pytest.approx(found[2], rel=3e-3)


class Lumped(Chain):
    """Links with a third of the string's mass at either end, and the rest of it forgotten."""

    def rates(self, state: Vector, arrow_kg: float) -> Vector:
        """Return the rates of angles, nock and their speeds."""
        count, third_kg = len(self.springs), self.case.string_kg / 6.0
        angles, nock_m, spins = state[:count], state[count], state[count + 1 : -1]
        cosines, sines = self.link_m * np.cos(angles), self.link_m * np.sin(angles)
        along, behind = self.half_handle_m + cosines.sum(), nock_m - sines.sum()
        length = np.hypot(along, behind)
        tension = max(0.0, self.spring_n_m * (length - self.slack_m))
        weight = self.inertia / self.link_m**2 + third_kg
        mass = weight * (np.outer(cosines, cosines) + np.outer(sines, sines))
        swing = weight * (np.outer(sines, cosines) - np.outer(cosines, sines))
        force = tension * (sines * along + cosines * behind) / length - self.bend * (self.springs @ angles)
        nock = -tension * behind / length / (arrow_kg / 2.0 + third_kg)
        return np.concatenate([spins, state[-1:], np.linalg.solve(mass, force - swing @ spins**2), [nock]])


@pytest.mark.parametrize(("stiff", "speed", "peak"), [(20e3, 53.2, 3.5), (30e3, 53.5, 3.5), (80e3, 53.8, 3.4)])
def test_the_sheets_links_give_its_figures_to_the_last_digit_and_ours_lumped(
    stiff: float, speed: float, peak: float
) -> None:
    case = Case("tapered", 1.8288, 0.2032, 0.1524, 0.7112, FORCE_N, ARROW_KG, 0.1625, stiff, STRING_KG)
    found = Lumped(case).loose()
    most = max(found.before_n, found.after_n)
    assert found.speed_m_s == pytest.approx(speed, abs=0.05)
    assert most / FORCE_N == pytest.approx(peak, abs=0.05)
    string = ShotString(stiff, STRING_KG, even=False)
    ours = shot(TAPERED, 0.1524, 0.7112, FORCE_N, arrow_kg=ARROW_KG, string=string, limb_mass_kg=0.1625)
    assert ours.speed_m_s == pytest.approx(found.speed_m_s, rel=0.005)
    assert ours.peak_n == pytest.approx(most, rel=0.05)


def test_the_page_tells_what_a_lumped_string_would_change() -> None:
    """Every number of that line, worked out again."""
    text = re.search(
        r"\*\*A third of the string at either end\.\*\*(.*?)(?:\n- |\n\n)", CHECKS.read_text("utf-8"), re.DOTALL
    )
    assert text is not None
    told = [float(each) for each in re.findall(r"\d+\.\d+", text[1])]
    even, lumped = (
        shot(
            TAPERED, 0.1524, 0.7112, FORCE_N, arrow_kg=ARROW_KG, string=ShotString(20e3, STRING_KG, even=each),
            limb_mass_kg=0.1625,
        )
        for each in (True, False)
    )  # fmt: skip
    made = [
        even.speed_m_s, lumped.speed_m_s, 100.0 * even.efficiency, 100.0 * lumped.efficiency,
        even.peak_n / FORCE_N, lumped.peak_n / FORCE_N,
    ]  # fmt: skip
    assert told == pytest.approx(made, abs=0.0501)
