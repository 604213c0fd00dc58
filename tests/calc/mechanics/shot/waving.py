"""A third way to loose an arrow: the string is a row of masses on springs, free to wave, with weights tied to some.

Half a bow of rigid links, as in `chain.py`; here nothing makes the string straight.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
from scipy.integrate import solve_ivp

from tests.calc.mechanics.shot.chain import Case, Chain

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Vector = NDArray[np.float64]

LINKS, PARTS = 8, 10


class Waving(Chain):
    """Links, and half a string of masses; the first part hangs on the tip, the last mass is the nock with its arrow."""

    def __init__(self, case: Case, tied: dict[int, float] | None = None) -> None:
        """Tie weights to masses of the half string: 0 is at the tip, `PARTS` at the nock. [kg], on either half."""
        super().__init__(case, LINKS)
        part_kg = case.string_kg / 2.0 / PARTS
        self.masses = np.full(PARTS + 1, part_kg)
        self.masses[[0, -1]] = part_kg / 2.0
        for at, weight_kg in (tied or {}).items():
            self.masses[at] += weight_kg
        self.part_m, self.part_spring = self.slack_m / PARTS, case.stiffness_n / (self.slack_m / PARTS)

    def begin(self) -> Vector:
        """Return the drawn bow at rest: angles, places of the free masses along and across, the nock across; rates."""
        along, across = self.place(self.angles)
        shares = np.arange(1, PARTS) / PARTS
        free = [along * (1.0 - shares), across + (self.case.draw_m - across) * shares]
        at = np.concatenate([self.angles, *free, [self.case.draw_m]])
        return np.concatenate([at, np.zeros_like(at)])

    def moved(self, _: float, state: Vector) -> Vector:
        """Return the rates of a state."""
        count = len(self.springs)
        at, rates = np.split(state, 2)
        angles, spins = at[:count], rates[:count]
        cosines, sines = self.link_m * np.cos(angles), self.link_m * np.sin(angles)
        free = (at[count:-1]).reshape(2, PARTS - 1)
        tip = [self.half_handle_m + cosines.sum(), sines.sum()]
        places = np.column_stack([tip, free, [0.0, at[-1]]])
        gaps = np.diff(places)
        lengths = np.hypot(*gaps)
        pulls = self.part_spring * np.maximum(0.0, lengths - self.part_m) * gaps / lengths
        weight = self.inertia / self.link_m**2 + self.masses[0]
        swing = weight * (np.outer(sines, cosines) - np.outer(cosines, sines))
        torque = pulls[1, 0] * cosines - pulls[0, 0] * sines - self.bend * (self.springs @ angles) - swing @ spins**2
        turned = np.linalg.solve(weight * (np.outer(cosines, cosines) + np.outer(sines, sines)), torque)
        pushed = np.diff(pulls) / self.masses[1:-1]
        nock = -pulls[1, -1] / (self.masses[-1] + self.case.arrow_kg / 2.0)
        return np.concatenate([rates, turned, pushed.ravel(), [nock]])

    def speed(self) -> float:
        """Return the speed of the arrow when the nock has come up to the tips [m/s]."""
        count = len(self.springs)

        def level(_: float, state: Vector) -> float:
            return float(state[len(state) // 2 - 1]) - self.place(state[:count])[1]

        level.terminal = True  # type: ignore[attr-defined]
        run: Any = solve_ivp(self.moved, (0.0, 0.1), self.begin(), method="DOP853", rtol=1e-5, atol=1e-6, events=level)
        assert run.t_events[0].size
        return -float(run.y[-1, -1])


ARROWS_KG = tuple(float(each) for each in np.linspace(0.020, 0.034, 8))
TIED_KG, PLACES = 0.002, (10, 8, 5, 3, 1)


def case_of(shape: str, arrow_kg: float) -> Case:
    """Return a 66 in bow of 40 lbf with a string of 85 grains."""
    return Case(shape, 1.6764, 0.2032, 0.165, 0.66, 178.0, arrow_kg, 0.17, 18000.0, 0.0055)  # type: ignore[arg-type]


if __name__ == "__main__":
    lines = []
    for limbs in ("tapered", "uniform"):
        for kg in ARROWS_KG:
            case = case_of(limbs, kg)
            speeds = [Waving(case).speed(), *(Waving(case, {at: TIED_KG / 2.0}).speed() for at in PLACES)]
            lines.append(
                f'  {{ shape = "{limbs}", arrow_kg = {kg:.3f}, speeds = {[round(each, 3) for each in speeds]} }},\n'
            )
    head = "# Speeds [m/s] bare, then with 2 g tied at the places in waving.py; made by waving.py.\n"
    Path(__file__).with_name("waves.toml").write_text(f"{head}rows = [\n{''.join(lines)}]\n", encoding="utf-8")
