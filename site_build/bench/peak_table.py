"""Makes `calc/data/bow.toml`: how hard shots pull, over bows, strings and arrows.

`python3 -m site_build.bench.peak_table`
"""

from __future__ import annotations

from itertools import product
from math import exp, log
from random import Random
from statistics import quantiles
from typing import TYPE_CHECKING

from calc.data import pipe_diameters, practice
from calc.mechanics.bow import Bow
from calc.mechanics.shot import ShotString, pipe_limb_mass, shot
from calc.numerics import Spread
from calc.units import GRAIN, INCH, POUND_FORCE
from site_build.setup.paths import ROOT

if TYPE_CHECKING:
    from collections.abc import Callable

    from calc.data import Limbs
    from calc.mechanics.bow import LimbShape

TABLE = ROOT / "calc" / "data" / "bow.toml"
SHAPES: tuple[LimbShape, ...] = ("arc", "tapered", "uniform")
GRAINS = (5.0, 7.0, 9.0, 11.0, 13.0, 15.0)
PIPES = ("1/2", "3/4", "1")
SHOTS = 200
STEPS = 1e-3
_HEAD = """\
# Hardest pull in the string of a shot / draw weight, by limb shape and grains of arrow per pound of draw weight: five,
# fifty and ninety-five of a hundred of {shots} shots each. Made by `python3 -m site_build.bench.peak_table`. Bows of
# 46 to 72 in nock to nock with 0 to 10 in of handle, braced 5 1/2 to 7 1/2 in, drawn 0.36 to 0.44 of their length, of
# 15 to 70 lbf; strings of 15 to 100 kN and 4 to 16 g; wooden limbs over the whole range of `limb_mass` in the
# constants; those of pipe as heavy as pipe of 1/2 to 1 in of both schedules, of up to 50 lbf. Rigid limbs on a hinge
# are left out: they cannot give way and overstate the peak.
source = "derived:links"
"""


def _wood(_: float, stored_j: float, draw: Random) -> float:
    heavy = practice("limb_mass").spread
    return stored_j * exp(draw.uniform(log(heavy.low), log(heavy.high)))


def _pipe(limb_m: float, _: float, draw: Random) -> float:
    whole = pipe_limb_mass(pipe_diameters()[draw.choice(PIPES)], Spread.exactly(limb_m), draw.choice(("40", "80")))
    kept = practice("pipe_kept").spread
    return whole.value / kept.value * draw.uniform(kept.low, kept.high)


LIMBS: dict[Limbs, Callable[[float, float, Random], float]] = {"wood": _wood, "pipe": _pipe}
"""What one limb weighs [kg], from its length, draw weight x way drawn, and chance."""
HARDEST = {"wood": 70.0, "pipe": 50.0}
"""Of the bows, the heaviest draw weight [lbf]."""


def ratio(shape: LimbShape, grains_per_pound: float, draw: Random, limbs: Limbs = "wood") -> float:
    """Return the hardest pull of one shot by a bow drawn at random / draw weight."""
    nock_m, brace_m = draw.uniform(46.0, 72.0) * INCH, draw.uniform(5.5, 7.5) * INCH
    draw_m, force_n = nock_m * draw.uniform(0.36, 0.44), draw.uniform(15.0, HARDEST[limbs]) * POUND_FORCE
    limb_kg = LIMBS[limbs](nock_m / 2.0 - 2.5 * INCH, force_n * (draw_m - brace_m), draw)
    found = shot(
        Bow(nock_m, draw.uniform(0.0, 10.0) * INCH, shape),
        brace_m,
        draw_m,
        force_n,
        arrow_kg=grains_per_pound * GRAIN * force_n / POUND_FORCE,
        string=ShotString(exp(draw.uniform(log(15e3), log(100e3))), draw.uniform(0.004, 0.016)),
        limb_mass_kg=limb_kg,
        within=STEPS,
    )
    return found.peak_n / force_n


def row(shape: LimbShape, grains_per_pound: float, limbs: Limbs = "wood") -> tuple[float, float, float]:
    """Return what five, fifty and ninety-five of a hundred shots stay below."""
    seed = f"{shape} {grains_per_pound}" + " pipe" * (limbs == "pipe")
    draw = Random(seed)  # noqa: S311 - a seeded sample, no secret
    cuts = quantiles((ratio(shape, grains_per_pound, draw, limbs) for _ in range(SHOTS)), n=20)
    return cuts[0], cuts[9], cuts[18]


def text() -> str:
    """Return the whole table as TOML."""
    parts = [_HEAD.format(shots=SHOTS)]
    for limbs, shape, grains in product(LIMBS, SHAPES, GRAINS):
        low, value, high = row(shape, grains, limbs)
        parts.append(
            f'\n[[peak]]\nlimbs = "{limbs}"\nshape = "{shape}"\ngrains_per_pound = {grains}\n'
            f"low = {low:.2f}\nvalue = {value:.2f}\nhigh = {high:.2f}\n"
        )
    return "".join(parts)


if __name__ == "__main__":
    TABLE.write_text(text(), encoding="utf-8")
