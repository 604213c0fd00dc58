"""Makes `calc/data/bow.toml`: how hard shots pull, over bows, strings and arrows.

`python3 -m site_build.bench.peak_table`
"""

from __future__ import annotations

from math import exp, log
from random import Random
from statistics import quantiles
from typing import TYPE_CHECKING

from calc.data import practice
from calc.mechanics.bow import Bow
from calc.mechanics.shot import ShotString, shot
from calc.units import GRAIN, INCH, POUND_FORCE
from site_build.setup.paths import ROOT

if TYPE_CHECKING:
    from calc.mechanics.bow import LimbShape

TABLE = ROOT / "calc" / "data" / "bow.toml"
SHAPES: tuple[LimbShape, ...] = ("arc", "tapered", "uniform")
GRAINS = (5.0, 7.0, 9.0, 11.0, 13.0, 15.0)
SHOTS = 200
STEPS = 1e-3
_HEAD = """\
# Hardest pull in the string of a shot / draw weight, by limb shape and grains of arrow per pound of draw weight: five,
# fifty and ninety-five of a hundred of {shots} shots each. Made by `python3 -m site_build.bench.peak_table`. Bows of
# 46 to 72 in nock to nock with 0 to 10 in of handle, braced 5 1/2 to 7 1/2 in, drawn 0.36 to 0.44 of their length, of
# 15 to 70 lbf; strings of 15 to 100 kN and 4 to 16 g; limbs over the whole range of `limb_mass` in the constants. Rigid
# limbs on a hinge are left out: they cannot give way and overstate the peak.
source = "derived:links"
"""


def ratio(shape: LimbShape, grains_per_pound: float, draw: Random) -> float:
    """Return the hardest pull of one shot by a bow drawn at random / draw weight."""
    nock_m, brace_m = draw.uniform(46.0, 72.0) * INCH, draw.uniform(5.5, 7.5) * INCH
    draw_m, force_n = nock_m * draw.uniform(0.36, 0.44), draw.uniform(15.0, 70.0) * POUND_FORCE
    heavy = practice("limb_mass").spread
    limb_kg = force_n * (draw_m - brace_m) * exp(draw.uniform(log(heavy.low), log(heavy.high)))
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


def row(shape: LimbShape, grains_per_pound: float) -> tuple[float, float, float]:
    """Return what five, fifty and ninety-five of a hundred shots stay below."""
    draw = Random(f"{shape} {grains_per_pound}")  # noqa: S311 - a seeded sample, no secret
    cuts = quantiles((ratio(shape, grains_per_pound, draw) for _ in range(SHOTS)), n=20)
    return cuts[0], cuts[9], cuts[18]


def text() -> str:
    """Return the whole table as TOML."""
    parts = [_HEAD.format(shots=SHOTS)]
    for shape in SHAPES:
        for grains in GRAINS:
            low, value, high = row(shape, grains)
            parts.append(
                f'\n[[peak]]\nshape = "{shape}"\ngrains_per_pound = {grains}\n'
                f"low = {low:.2f}\nvalue = {value:.2f}\nhigh = {high:.2f}\n"
            )
    return "".join(parts)


if __name__ == "__main__":
    TABLE.write_text(text(), encoding="utf-8")
