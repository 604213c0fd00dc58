"""A second, plain way to loose an arrow: many rigid links for each limb, scipy for the equations.

Run as a script it writes `shots.toml`: what the corners and 136 seeded cases do.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import root

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    Vector = NDArray[np.float64]

IN, LBF, GRAIN = 0.0254, 4.4482216152605, 64.79891e-6
LINKS = 24


@dataclass(frozen=True, slots=True)
class Case:
    """A bow, its string and an arrow, SI throughout; masses of one limb and of the whole string."""

    shape: Literal["tapered", "uniform"]
    nock_to_nock_m: float
    handle_length_m: float
    brace_m: float
    draw_m: float
    force_n: float
    arrow_kg: float
    limb_kg: float
    stiffness_n: float
    string_kg: float


@dataclass(frozen=True, slots=True)
class Loosed:
    """Speed of the arrow, most tension until it leaves and in the time after, and stored energy."""

    speed_m_s: float
    before_n: float
    after_n: float
    energy_j: float
    brace_n: float
    draw_n: float


class Chain:
    """Half a bow of rigid links: masses at their ends, springs between them."""

    def __init__(self, case: Case, links: int = LINKS) -> None:
        self.case = case
        limb_m = (case.nock_to_nock_m - case.handle_length_m) / 2.0
        self.half_handle_m = case.handle_length_m / 2.0
        self.link_m = limb_m / links
        ends = np.arange(links + 1) / links
        tapered = case.shape == "tapered"
        joints = 1.0 - ends[:-1] if tapered else np.ones(links)
        springs = joints / self.link_m
        springs[0] *= 2.0
        self.springs = np.diag(springs) + np.diag(np.append(springs[1:], 0.0))
        self.springs -= np.diag(springs[1:], 1) + np.diag(springs[1:], -1)
        gone = 2.0 * ends - ends**2 if tapered else ends
        parts = case.limb_kg * np.diff(gone)
        masses = np.append((parts[:-1] + parts[1:]) / 2.0, parts[-1] / 2.0)
        beyond = np.cumsum(masses[::-1])[::-1]
        order = np.maximum.outer(np.arange(links), np.arange(links))
        self.inertia = self.link_m**2 * beyond[order]
        self.stand()

    def place(self, angles: Vector) -> tuple[float, float]:
        """Return where the tip is, along and across."""
        return self.half_handle_m + self.link_m * float(np.cos(angles).sum()), self.link_m * float(np.sin(angles).sum())

    def stand(self) -> None:
        """Find the braced bow, then the drawn one with how stiff its limbs are and how long its slack string is."""
        case, count = self.case, len(self.springs)

        def braced(at: Vector) -> Vector:
            angles, load = at[:-1], at[-1]
            off = self.springs @ angles - load * self.link_m * np.sin(angles)
            return np.append(off * self.link_m, self.place(angles)[1] - case.brace_m)

        limb_m = count * self.link_m
        guess = np.append(2.0 * case.brace_m / limb_m * (np.arange(count) + 1.0) / count, 2.5 / limb_m**2)
        held = root(braced, guess, tol=1e-12)
        assert held.success, held.message
        unit_n, half_m = held.x[-1], self.place(held.x[:-1])[0]

        def drawn(at: Vector, draw_m: float) -> Vector:
            angles, tension, bend = at[:-2], at[-2] * case.force_n, at[-1] * case.force_n / unit_n
            slack_m = half_m / (1.0 + bend * unit_n / case.stiffness_n)
            along, across = self.place(angles)
            length = float(np.hypot(along, draw_m - across))
            arm = self.link_m * (np.sin(angles) * along + np.cos(angles) * (draw_m - across)) / length
            off = self.springs @ angles * bend - tension * arm
            pull = 2.0 * tension * (draw_m - across) / length / case.force_n - draw_m_share(draw_m)
            stretch = length / slack_m - 1.0 - tension / case.stiffness_n
            return np.array([*off * self.link_m / bend, pull, stretch])

        def draw_m_share(draw_m: float) -> float:
            return (draw_m - case.brace_m) / (case.draw_m - case.brace_m)

        at = np.array([*held.x[:-1], 1.5, 1.5])
        for share in np.linspace(0.1, 1.0, 10):
            found = root(drawn, at, args=(case.brace_m + share * (case.draw_m - case.brace_m),), tol=1e-11)
            assert found.success, found.message
            at = found.x
        self.angles, self.draw_n, self.bend = at[:-2], at[-2] * case.force_n, at[-1] * case.force_n / unit_n
        self.brace_n = self.bend * unit_n
        self.slack_m = half_m / (1.0 + self.brace_n / case.stiffness_n)
        self.spring_n_m = case.stiffness_n / self.slack_m
        self.energy_j = float(
            self.bend * (self.angles @ self.springs @ self.angles - held.x[:-1] @ self.springs @ held.x[:-1])
            + (self.draw_n**2 - self.brace_n**2) / self.spring_n_m
        )

    def string(self, state: Vector) -> tuple[float, float]:
        """Return tension and how far the nock is behind the tips."""
        count = len(self.springs)
        along, across = self.place(state[:count])
        behind = float(state[count]) - across
        return self.spring_n_m * (float(np.hypot(along, behind)) - self.slack_m), behind

    def rates(self, state: Vector, arrow_kg: float) -> Vector:
        """Return the rates of angles, nock and their speeds."""
        count, half_kg = len(self.springs), self.case.string_kg / 2.0
        angles, nock_m, spins = state[:count], state[count], state[count + 1 : -1]
        cosines, sines = self.link_m * np.cos(angles), self.link_m * np.sin(angles)
        along, behind = self.half_handle_m + cosines.sum(), nock_m - sines.sum()
        length = np.hypot(along, behind)
        tension = max(0.0, self.spring_n_m * (length - self.slack_m))
        weight = self.inertia / self.link_m**2 + half_kg / 3.0
        mass = np.empty((count + 1, count + 1))
        mass[:count, :count] = weight * (np.outer(cosines, cosines) + np.outer(sines, sines))
        mass[count, :count] = mass[:count, count] = half_kg / 6.0 * cosines
        mass[count, count] = arrow_kg / 2.0 + half_kg / 3.0
        squares = spins**2
        swing = weight * (np.outer(sines, cosines) - np.outer(cosines, sines))
        force = np.empty(count + 1)
        force[:count] = tension * (sines * along + cosines * behind) / length - self.bend * (self.springs @ angles)
        force[:count] -= swing @ squares
        force[count] = half_kg / 6.0 * (sines @ squares) - tension * behind / length
        return np.concatenate([spins, state[-1:], np.linalg.solve(mass, force)])

    def run(self, state: Vector, arrow_kg: float, time_s: float, rtol: float) -> Any:  # noqa: ANN401 - scipy's own
        """Follow the motion, with an arrow until the string is straight."""

        def straight(_: float, state: Vector) -> float:
            return self.string(state)[1]

        straight.terminal = arrow_kg > 0.0  # type: ignore[attr-defined]
        return solve_ivp(
            lambda _, y: self.rates(y, arrow_kg),
            (0.0, time_s),
            state,
            method="DOP853",
            rtol=rtol,
            atol=rtol * 0.1,
            events=straight if arrow_kg > 0.0 else None,
            dense_output=True,
            first_step=1e-6,
        )

    def top(self, found: Any) -> float:  # noqa: ANN401 - scipy's own
        """Return the most tension of a motion."""
        times = np.linspace(0.0, found.t[-1], 1200)
        return max(self.string(state)[0] for state in found.sol(times).T)

    def first(self, found: Any) -> float:  # noqa: ANN401 - scipy's own
        """Return the most tension of a motion until it has fallen to six tenths of that, not before 0.4 of the shot."""
        times = np.linspace(0.0, found.t[-1], 4000)
        most = 0.0
        for time_s, state in zip(times, found.sol(times).T, strict=True):
            tension = self.string(state)[0]
            most = max(most, tension)
            if time_s >= found.t[-1] * 0.4 / 1.5 and tension < 0.6 * most:
                break
        return most

    def loose(self, rtol: float = 1e-5) -> Loosed:
        """Loose the arrow and watch the string after it, for one and a half times as long as the arrow took at most."""
        case, count = self.case, len(self.springs)
        start = np.concatenate([self.angles, [case.draw_m], np.zeros(count + 1)])
        shot = self.run(start, case.arrow_kg, 0.2, rtol)
        after = self.run(shot.y[:, -1], 0.0, 1.5 * float(shot.t[-1]), rtol)
        return Loosed(
            -float(shot.y[-1, -1]), self.top(shot), self.first(after), self.energy_j, self.brace_n, float(self.draw_n)
        )


def corners() -> Iterator[Case]:
    """Yield the 64 corners of what the worksheets are for."""
    for shape, nock, force, grains, kn, grams in product(
        ("tapered", "uniform"), (46.0, 72.0), (15.0, 70.0), (5.0, 15.0), (15.0, 100.0), (4.0, 16.0)
    ):
        yield Case(
            shape=shape,  # type: ignore[arg-type]
            nock_to_nock_m=nock * IN,
            handle_length_m=8.0 * IN,
            brace_m=6.5 * IN,
            draw_m=0.4 * nock * IN,
            force_n=force * LBF,
            arrow_kg=force * grains * GRAIN,
            limb_kg=0.1625 * force * (0.4 * nock - 6.5) / (34.24 * 22.0),
            stiffness_n=1000.0 * kn,
            string_kg=0.001 * grams,
        )


def cases(seed: int, count: int) -> Iterator[Case]:
    """Yield bows, strings and arrows within them."""
    rng = np.random.default_rng(seed)
    for k in range(count):
        nock = rng.uniform(46.0, 72.0)
        brace, draw = rng.uniform(5.5, 7.5), nock * rng.uniform(0.36, 0.44)
        force = rng.uniform(15.0, 70.0)
        limb = 0.1625 * force * (draw - brace) / (34.24 * 22.0) * rng.uniform(0.6, 1.5)
        yield Case(
            shape="tapered" if k % 2 else "uniform",
            nock_to_nock_m=float(nock * IN),
            handle_length_m=float(rng.uniform(0.0, 10.0) * IN),
            brace_m=float(brace * IN),
            draw_m=float(draw * IN),
            force_n=float(force * LBF),
            arrow_kg=float(force * rng.uniform(5.0, 15.0) * GRAIN),
            limb_kg=float(limb),
            stiffness_n=float(np.exp(rng.uniform(np.log(15e3), np.log(100e3)))),
            string_kg=float(rng.uniform(0.004, 0.016)),
        )


def every_case() -> list[Case]:
    """Return corners first, then seeded cases: 200 in all."""
    return [*corners(), *cases(1, 136)]


if __name__ == "__main__":
    rows = (Chain(case).loose() for case in every_case())
    lines = [f"  [{row.speed_m_s:.3f}, {row.before_n:.2f}, {row.after_n:.2f}],\n" for row in rows]
    head = "# Speed [m/s] and peaks before and after [N] of the cases in chain.py, 24 links; made by chain.py.\n"
    Path(__file__).with_name("shots.toml").write_text(f"{head}shots = [\n{''.join(lines)}]\n", encoding="utf-8")
