"""Bows, cords and hands that might be: each drawn from the causes of `calc/data`, with what its maker can tell of it.

Only the constants come from `calc`. A stated range is read as nine times in ten: a twentieth lies below its low, a
twentieth above its high, and half on either side of its value, each side like half a bell.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from random import Random
from typing import TYPE_CHECKING, Any

import numpy as np

from calc.data import fibres, pipe_walls, practice
from calc.units import GRAIN, INCH, POUND_FORCE

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from calc.data import Fibre
    from calc.numerics import Spread

    Array = NDArray[np.float64]

NINETY = 1.6448536269514722
"""Standard deviations from the middle of a bell to the twentieth at its end."""
_FARTHEST = 2.5
_STIFFER = (2.0, 4.0, 8.0)
"""Stiffness of a splice against turning / that of the body: four for twice the section; no constant has it yet."""
_COUNTER = (-0.1, 0.0, 0.1)
"""How far off the counter-twist is that a hand rolls in by count."""
_MIX = {"arc": 0.0, "tapered": -1.0, "uniform": 1.0, "unknown": 0.0}
_SPUN = {"cotton", "hemp", "linen", "ramie", "silk", "sinew"}
_CORDS = ("polypropylene", "nylon", "polyester")
_OWN = ("hmpe", "lcp", "aramid", "aramid-high-modulus")


@dataclass(frozen=True, kw_only=True)
class Truths:
    """What is true of each bow, cord and hand: one entry a bow, SI throughout."""

    nock_to_nock_m: Array
    handle_length_m: Array
    taper: Array
    set_m: Array
    proud_m: Array
    weight_n: Array
    draw_m: Array
    brace_m: Array
    limb_kg: Array
    arrow_kg: Array
    upper_m: Array
    lower_m: Array
    seat: Array
    yarn_kg_m: Array
    bundle_each: Array
    strength: Array
    thread: Array
    keeps: Array
    stiffness: Array
    break_strain: Array
    knee: Array
    decade: Array
    power: Array
    loop_lay: Array
    splice_lay: Array
    left: Array
    twist_in_ends: Array
    bedding: Array
    bedding_share: Array
    counter_off: Array
    held: Array
    stiffer: Array
    sharing: Array
    ends: Array
    settle_s: Array
    creep_start_s: Array
    bundles: Array


@dataclass(frozen=True)
class Drawn:
    """One bow: what is true, what its maker types, and what a thread and a tape on it would read."""

    true: dict[str, float]
    typed: dict[str, str]
    fibre: Fibre
    told: dict[str, float]


_THICK_WALLS = 0.2
"""Share of pipe bows that are of schedule 80. [-]"""
_FREE_TURN = 1.0 / 3.0
"""Twist left in a bundle that hangs free / twist that lays its surface fibres along the cord, about. [-]"""


class Lot:
    """Draws numbers as they are stated."""

    def __init__(self, seed: str) -> None:
        self.random = Random(seed)  # noqa: S311 - a seeded sample, no secret

    def bell(self) -> float:
        """Return a normal number that never strays further than one in eighty does."""
        while True:
            far = self.random.gauss(0.0, 1.0)
            if abs(far) <= _FARTHEST:
                return far

    def of(self, spread: Spread | tuple[float, float, float]) -> float:
        """Return a number of a stated range."""
        low, value, high = spread if isinstance(spread, tuple) else (spread.low, spread.value, spread.high)
        far = self.bell() / NINETY
        return value + far * ((high - value) if far > 0.0 else (value - low))

    def named(self, name: str) -> float:
        """Return a number of a constant."""
        return self.of(practice(name).spread)


def _inches(value_m: float) -> str:
    return f"{value_m / INCH:.5f} in"


def _kind(lot: Lot, place: int) -> dict[str, Any]:
    """Return the sort of bow: pipe, youth bow or longbow, from 15 to 80 lbf."""
    draw = lot.random.uniform
    if place % 4 == 0:
        nock_in, weight = draw(40.0, 54.0), draw(15.0, 32.0)
        return {"kind": "pipe", "nock_in": nock_in, "weight": weight, "handle_in": draw(0.0, 4.0), "handle_told": 0.5,
                "shapes": ("unknown", "unknown", "uniform")}  # fmt: skip
    if place % 4 == 1:
        nock_in, weight = draw(46.0, 60.0), draw(15.0, 35.0)
    else:
        nock_in, weight = draw(62.0, 74.0), draw(30.0, 80.0)
    return {"kind": "wood", "nock_in": nock_in, "weight": weight, "handle_in": draw(3.0, 9.0), "handle_told": 0.7,
            "shapes": ("arc", "arc", "tapered", "uniform", "unknown")}  # fmt: skip


def _strand(lot: Lot, kind: str) -> tuple[Fibre, bool, float]:
    """Return a fibre, whether it is laid cord, and the weight of a strand [kg/m]."""
    every = fibres()
    chosen = lot.random.choice(every)
    if lot.random.random() < (0.4 if kind == "pipe" else 0.1):
        name = lot.random.choice(_CORDS)
        chosen = next(each for each in every if each.id == name)
        return chosen, True, lot.random.uniform(900e-6, 2500e-6)
    if chosen.id in _SPUN:
        return chosen, False, lot.random.uniform(150e-6, 500e-6)
    if chosen.id in _OWN:
        return chosen, False, lot.random.uniform(80e-6, 200e-6)
    return chosen, False, lot.random.uniform(100e-6, 300e-6)


def _of_pipe(lot: Lot, outside_m: float, limb_m: float) -> float:
    """Return what a limb of plastic pipe weighs [kg]: mostly of schedule 40."""
    wall_m = pipe_walls()["80" if lot.random.random() < _THICK_WALLS else "40"][outside_m] + lot.named("pipe_wall_over")
    area_m2 = np.pi * wall_m * (outside_m - wall_m)
    return float(lot.named("pipe_density") * area_m2 * limb_m * lot.named("pipe_kept"))


def draw(place: int, seed: str = "right first time") -> Drawn:
    """Return one bow, its cord and its hand, the same for the same place."""
    lot = Lot(f"{seed} {place}")
    kind = _kind(lot, place)
    pick = lot.random.random
    nock_m, weight_n = kind["nock_in"] * INCH, kind["weight"] * POUND_FORCE
    pipe = kind["kind"] == "pipe"
    shape = lot.random.choice(kind["shapes"])
    mix = _MIX[shape] + lot.named("limb_unknown" if shape == "unknown" else "limb_told")
    handle_told = pick() < kind["handle_told"]
    handle_length_m = (
        kind["handle_in"] * INCH if handle_told else max(0.0, min(lot.named("handle_usual"), 0.3 * nock_m))
    )
    draw_m, brace_m = nock_m * lot.random.uniform(0.37, 0.43), nock_m * lot.random.uniform(0.095, 0.11)
    pipe_size, tips_told = lot.random.choice(("1/2", "3/4")), pick() < 0.9
    pipe_m = {"1/2": 0.84, "3/4": 1.05}[pipe_size] * INCH

    def tip() -> float:
        if pipe:
            return pipe_m
        return lot.random.uniform(0.38, 0.65) * INCH if tips_told else lot.named("tip_usual")

    upper_m, lower_m = tip(), tip()
    fibre, laid, yarn_kg_m = _strand(lot, kind["kind"])
    fill = lot.named("cord_fill") if laid else lot.of(fibre.packing)
    one_m = float(np.sqrt(4.0 * yarn_kg_m / (np.pi * lot.of(fibre.density_kg_m3) * fill)))
    arrow_told = pick() < 0.4
    arrow_kg = lot.named("arrow_least") * GRAIN * kind["weight"]
    limb_m = (nock_m - handle_length_m) / 2.0
    knee = fibre.knee_n_per_kg_m
    strength = lot.of(fibre.tenacity_n_per_kg_m)
    true = {
        "nock_to_nock_m": nock_m,
        "handle_length_m": handle_length_m,
        "taper": (1.0 - mix) / 2.0,
        "set_m": lot.named("follow_unknown") * limb_m,
        "proud_m": lot.named("proud_unknown") * limb_m,
        "weight_n": weight_n,
        "draw_m": draw_m,
        "brace_m": brace_m,
        "limb_kg": lot.named("limb_mass") * weight_n * (draw_m - brace_m),
        "arrow_kg": arrow_kg,
        "upper_m": upper_m,
        "lower_m": lower_m,
        "seat": max(-1.0, min(1.0, lot.of((-1.0, 0.0, 1.0)))),
        "yarn_kg_m": yarn_kg_m,
        "bundle_each": one_m,
        "strength": strength,
        "thread": lot.of(fibre.thread_n_per_kg_m) if fibre.id in _SPUN else strength,
        "keeps": lot.named("cord_keeps") if laid else 1.0,
        "stiffness": lot.of(fibre.modulus_n_per_kg_m),
        "break_strain": lot.of(fibre.break_strain),
        "knee": 0.0 if knee is None else lot.of(knee),
        "decade": max(0.0, lot.of(fibre.creep_decade)),
        "power": max(0.5, lot.of(fibre.creep_power)),
        "loop_lay": lot.named("lay_loop"),
        "splice_lay": lot.named("lay_splice"),
        "left": max(0.0, lot.named("twist_left")),
        "twist_in_ends": _FREE_TURN * max(0.0, lot.named("twist_held")),
        "bedding": max(0.0, lot.named("bedding")),
        "bedding_share": min(0.99, lot.named("bedding_share")),
        "counter_off": lot.of(_COUNTER),
        "held": max(0.0, lot.named("tails_take")),
        "stiffer": max(1.0, lot.of(_STIFFER)),
        "sharing": min(1.0, lot.named("sharing")),
        "ends": min(1.0, lot.named("ends")),
        "settle_s": practice("settle_time").spread.value,
        "creep_start_s": practice("creep_start").spread.value,
        "bundles": 3.0 if pick() < 0.3 else 2.0,
    }

    def tip_typed(size_m: float) -> str:
        if pipe:
            return f"pipe {pipe_size}"
        return f"round {_inches(size_m + lot.named('tip_reading'))}" if tips_told else ""

    typed = {
        "nock_to_nock": _inches(nock_m + lot.named("tape_reading")),
        "handle_length": _inches(handle_length_m) if handle_told else "",
        "limb_shape": shape,
        "draw_weight": f"{kind['weight'] * (1.0 + lot.named('weight_told')):.4f} lbf",
        "draw_length": _inches(draw_m),
        "brace_height": _inches(brace_m),
        "arrow_mass": f"{arrow_kg / GRAIN:.2f} gr" if arrow_told else "",
        "tip_upper": tip_typed(upper_m),
        "tip_lower": tip_typed(lower_m),
        "fibre": fibre.id,
        "strand_kind": "cord" if laid else "yarn",
        "yarn": f"{yarn_kg_m * 1e6:.4f} tex",
        "bundles": f"{true['bundles']:.0f}",
    }
    if laid:
        typed["strand_thickness"] = _inches(one_m * (1.0 + lot.named("thickness_reading")))
    told = {
        "set_m": true["set_m"] + lot.named("follow_reading"),
        "gap_m": true["set_m"] - true["proud_m"] + lot.named("tape_reading"),
        "handle_length_m": max(0.0, handle_length_m + (0.0 if handle_told else lot.named("tape_reading"))),
    }
    if pipe:
        true["limb_kg"] = _of_pipe(lot, pipe_m, limb_m)
    return Drawn(true, typed, fibre, told)


def as_the_sheet_has_it(one: Drawn) -> Drawn:
    """Return a straight bow with a flush handle, and a hand that leaves no more twist than a cord at rest keeps."""
    plain = {"set_m": 0.0, "proud_m": 0.0, "twist_in_ends": _FREE_TURN}
    return replace(one, true=one.true | plain)


def together(drawn: list[Drawn]) -> Truths:
    """Return what is true of many bows as one entry each."""
    names = [each.name for each in fields(Truths)]
    return Truths(**{name: np.array([each.true[name] for each in drawn]) for name in names})
