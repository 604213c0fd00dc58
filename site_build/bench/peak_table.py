"""Makes `calc/data/bow.toml`: how hard shots pull, over bows, strings and arrows.

`python3 -m site_build.bench.peak_table`
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import exp, log
from random import Random
from statistics import quantiles
from typing import TYPE_CHECKING

from calc.data import PEAK_TERMS, PeakMiddle, peak_terms, pipe_diameters, practice
from calc.mechanics.bow import Bow
from calc.mechanics.shot import ShotString, pipe_limb_mass, shot
from calc.numerics import Spread, solve_linear
from calc.units import INCH, POUND_FORCE
from site_build.setup.paths import ROOT

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from calc.data import Limbs
    from calc.mechanics.bow import LimbShape

TABLE = ROOT / "calc" / "data" / "bow.toml"
SHAPES: tuple[LimbShape, ...] = ("arc", "tapered", "uniform")
PIPES = ("1/2", "3/4", "1")
SHOTS = 400
BOWS = 4000
STEPS = 1e-3
MIDDLE = PeakMiddle(limb=8.0, stiffness=200.0, string=0.3)
ENDS = {"limb": (2.0, 40.0), "stiffness": (20.0, 2000.0), "string": (0.05, 2.0)}
"""One limb and the string in weights of the arrow, the string's stiffness in draw weights: from here to there. [-]"""
_LONG_M, _PULL_N, _ARROW_KG = 1.6, 180.0, 0.025
"""A ratio of pulls hangs on ratios of lengths, of pulls and of masses alone: any bow of each kind will do."""
_HEAD = """\
# Hardest pull in the string of a shot / draw weight, by what it hangs on: made by
# `python3 -m site_build.bench.peak_table` from {shots} shots of each limb shape. Each row is the ratio `middle`, where
# one limb weighs as much as {limb:g} arrows, the string {string:g} arrows, and the string is as stiff as {stiffness:g}
# draw weights; and the powers that fit best straight bows with handles flush to the belly, in logarithms of what the
# shot has / that middle. `rest` is what is left: ninety-five of a hundred such shots stay below its high, for handles
# of none to a sixth of the bow, brace heights of 0.09 to 0.115 and draws of 0.36 to 0.44 of its length; and ninety-five
# stay above its low of the same bows with set up to 0.03 and handles that stand proud up to 0.018, which pull less.
# Rigid limbs on a hinge are left out: they cannot give way and overstate the peak.
source = "derived:links"
middle = {{ limb = {limb:g}, stiffness = {stiffness:g}, string = {string:g} }}

# Where the fit begins and ends.
[ends]
{ends}

# Where nobody measured: one limb for each newton of draw weight (kg/N), and the string nock to nock (m); five, fifty
# and ninety-five of a hundred bows of 46 to 72 in, drawn 0.36 to 0.44 of that, of 15 to 70 lbf, wooden limbs over the
# whole range of `limb_mass` in the constants; those of pipe of 1/2 to 1 in of both schedules, of up to 50 lbf.
[usual]
{usual}
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


@dataclass(frozen=True, slots=True)
class FittedPeaks:
    """What the shots of one limb shape make of the table: see `calc.data.PeakRow`."""

    powers: tuple[float, ...]
    rest: tuple[float, float]


def ratios(shape: LimbShape, has: dict[str, float], draw: Random) -> tuple[float, float]:
    """Return the hardest pull of a shot by a bow drawn at random / draw weight: as it was made, and in use.

    Parameters
    ----------
    shape : LimbShape
    has : dict of str to float
        As `ENDS`. [-]
    draw : Random
    """
    long_m = _LONG_M
    made = Bow(long_m, draw.uniform(0.0, 0.16) * long_m, shape)
    used = replace(
        made,
        handle_proud_m=draw.uniform(-0.002, 0.018) * long_m,
        string_follow_m=draw.uniform(0.0, 0.03) * long_m,
    )
    brace_m, draw_m = draw.uniform(0.09, 0.115) * long_m, draw.uniform(0.36, 0.44) * long_m
    string = ShotString(has["stiffness"] * _PULL_N, has["string"] * _ARROW_KG)
    limb_kg = has["limb"] * _ARROW_KG
    peaks = [
        shot(
            bow, brace_m, draw_m, _PULL_N, arrow_kg=_ARROW_KG, string=string, limb_mass_kg=limb_kg, within=STEPS
        ).peak_n
        for bow in (made, used)
    ]
    return peaks[0] / _PULL_N, peaks[1] / _PULL_N


def row(shape: LimbShape) -> FittedPeaks:
    """Return what fits the shots of one limb shape best, by least squares of the logarithms."""
    draw = Random(shape)  # noqa: S311 - a seeded sample, no secret
    terms, made, used = [], [], []
    for _ in range(SHOTS):
        has = {name: exp(draw.triangular(log(low), log(high))) for name, (low, high) in ENDS.items()}
        terms.append(peak_terms(MIDDLE, **has))
        straight, followed = ratios(shape, has, draw)
        made.append(log(straight))
        used.append(log(followed))
    places = range(len(PEAK_TERMS))
    powers = solve_linear(
        [[sum(each[i] * each[j] for each in terms) for j in places] for i in places],
        [sum(each[i] * found for each, found in zip(terms, made, strict=True)) for i in places],
    )
    fitted = [sum(a * b for a, b in zip(powers, each, strict=True)) for each in terms]
    low, high = ([a - b for a, b in zip(found, fitted, strict=True)] for found in (used, made))
    return FittedPeaks(tuple(powers), (exp(quantiles(low, n=20)[0]), exp(quantiles(high, n=20)[18])))


def usual() -> dict[str, Spread]:
    """Return what limbs and strings are like where nobody measured."""
    found: dict[str, Spread] = {}
    strings: list[float] = []
    for limbs, weigh in LIMBS.items():
        draw = Random(limbs)  # noqa: S311 - a seeded sample, no secret
        shares = []
        for _ in range(BOWS):
            nock_m, brace_m = draw.uniform(46.0, 72.0) * INCH, draw.uniform(5.5, 7.5) * INCH
            draw_m, force_n = nock_m * draw.uniform(0.36, 0.44), draw.uniform(15.0, HARDEST[limbs]) * POUND_FORCE
            shares.append(weigh(nock_m / 2.0 - 2.5 * INCH, force_n * (draw_m - brace_m), draw) / force_n)
            strings.append(nock_m)
        found[limbs] = _nine_in_ten(shares)
    return found | {"string": _nine_in_ten(strings)}


def _nine_in_ten(found: Iterable[float]) -> Spread:
    cuts = quantiles(found, n=20)
    return Spread(cuts[0], cuts[9], cuts[18])


def text() -> str:
    """Return the whole table as TOML."""
    told = {name: f"[{each.low:.3g}, {each.value:.3g}, {each.high:.3g}]" for name, each in usual().items()}
    head = _HEAD.format(
        shots=SHOTS,
        limb=MIDDLE.limb,
        stiffness=MIDDLE.stiffness,
        string=MIDDLE.string,
        ends="\n".join(f"{name} = [{low:g}, {high:g}]" for name, (low, high) in ENDS.items()),
        usual="\n".join(f"{name} = {each}" for name, each in told.items()),
    )
    parts = [head]
    for shape in SHAPES:
        found = row(shape)
        powers = "".join(
            f"{name} = {power:.3f}\n" for name, power in zip(PEAK_TERMS[1:], found.powers[1:], strict=True)
        )
        parts.append(
            f'\n[[peak]]\nshape = "{shape}"\nmiddle = {exp(found.powers[0]):.3f}\n{powers}'
            f"rest = [{found.rest[0]:.3f}, {found.rest[1]:.3f}]\n"
        )
    return "".join(parts)


if __name__ == "__main__":
    TABLE.write_text(text(), encoding="utf-8")
