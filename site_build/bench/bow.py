"""How long the bow's sums take, natively: data for a bench."""

from __future__ import annotations

from statistics import median
from time import perf_counter
from typing import TYPE_CHECKING

from calc.data import fibre
from calc.mechanics.bow import CENTRAL, Bow, string_length
from calc.mechanics.estimate import BowEstimate, StringRead
from calc.mechanics.shot import ShotString, shot, strand_string, try_variants
from calc.units import GRAIN, INCH, POUND_FORCE

if TYPE_CHECKING:
    from collections.abc import Callable

_STRANDS = (10, 14, 18, 22)


def bow_times(rounds: int = 20) -> dict[str, tuple[float, float, float]]:
    """Return how long each of the bow's sums takes: median, least and most of some rounds [s].

    Parameters
    ----------
    rounds : int, > 0
        Every round takes a bow of another length, so that no cache answers for it.
    """
    return {name: _timed(work, rounds) for name, work in _WORK.items()}


def _timed(work: Callable[[float], object], rounds: int) -> tuple[float, float, float]:
    times = []
    for turn in range(rounds):
        start = perf_counter()
        work((60.0 + 0.37 * turn) * INCH)
        times.append(perf_counter() - start)
    return median(times), min(times), max(times)


def _shot(nock_m: float) -> object:
    bow = Bow(nock_m, 8.0 * INCH, "tapered")
    return shot(bow, *_DRAWN, arrow_kg=400.0 * GRAIN, string=ShotString(3e4, 0.007), limb_mass_kg=0.2)


def _shot_uniform(nock_m: float) -> object:
    bow = Bow(nock_m, 8.0 * INCH, "uniform")
    return shot(bow, *_DRAWN, arrow_kg=400.0 * GRAIN, string=ShotString(8e4, 0.007), limb_mass_kg=0.2)


def _scan(nock_m: float) -> object:
    strings = [strand_string(fibre("polyester"), 111e-6, strands, nock_m) for strands in _STRANDS]
    bow = Bow(nock_m, 8.0 * INCH, "tapered")
    return try_variants(bow, *_DRAWN, arrow_kg=400.0 * GRAIN, strings=strings, limb_mass_kg=0.2)


def _measured_bow(nock_m: float) -> BowEstimate:
    return BowEstimate(nock_to_nock_m=nock_m, draw_m=27.0 * INCH, draw_weight_n=40.0 * POUND_FORCE)


def _pulls(nock_m: float) -> object:
    return _measured_bow(nock_m).drawn(brace_m=6.5 * INCH).spread(lambda each: each.brace_n)


def _calibrated(nock_m: float) -> object:
    read = StringRead(string_length(Bow(nock_m, 8.0 * INCH, CENTRAL), 0.15), 0.152)
    return _measured_bow(nock_m).given(read).spread(lambda each: each.brace_m(nock_m - 0.06))


_DRAWN = (6.5 * INCH, 27.0 * INCH, 40.0 * POUND_FORCE)
_WORK: dict[str, Callable[[float], object]] = {
    "shot, tapered": _shot,
    "shot, uniform": _shot_uniform,
    f"scan of {len(_STRANDS)} strings": _scan,
    "string for a brace height, with spread": lambda nock_m: _measured_bow(nock_m).spread(
        lambda each: each.string_m(0.16)
    ),
    "tension, with spread": _pulls,
    "calibration and a second string": _calibrated,
}
