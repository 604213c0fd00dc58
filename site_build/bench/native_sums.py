"""How long a lay takes to work out here, beside a floor of plain arithmetic: measured, never a test."""

from __future__ import annotations

from math import sin
from statistics import median
from time import perf_counter
from typing import TYPE_CHECKING, NamedTuple

from calc.data import fibre
from calc.geometry.ends import RoundTip, loop_of_throat
from calc.geometry.lay import jam, jam_turns, lay, lay_of_cord_turns, lay_of_turns
from calc.mechanics.fibre import Load, settle

if TYPE_CHECKING:
    from collections.abc import Callable

FLOOR_SINES = 100
FLOOR = f"{FLOOR_SINES} sines in a loop"
BUNDLE_M = 0.0015
STEEP = 0.99
"""Share of the jam's turns, or of its angle, at which a lay is steep."""
_ROUNDS, _CALLS = 15, 40


class Timed(NamedTuple):
    """Seconds a call: median, least and most of the rounds; and the median over that of the floor."""

    median_s: float
    least_s: float
    most_s: float
    ratio: float


def native() -> dict[str, Timed]:
    """Time the calls that a worksheet makes most, and the floor they are held against.

    Returns
    -------
    dict of str to Timed
        By the words of what is timed; the floor stands first, with a ratio of 1.
    """
    taken = {name: _timed(call) for name, call in _calls().items()}
    floor_s = median(taken[FLOOR])
    return {name: Timed(median(each), min(each), max(each), median(each) / floor_s) for name, each in taken.items()}


def lines(timed: dict[str, Timed]) -> list[str]:
    """Return what was timed as lines for a person.

    >>> lines({"a lay": Timed(2e-5, 1e-5, 4e-5, 2.5)})
    ['a lay: 0.020 ms (0.010 to 0.040), 2.5 times the floor']
    """
    return [
        f"{name}: {1000 * each.median_s:.3f} ms ({1000 * each.least_s:.3f} to {1000 * each.most_s:.3f}), "
        f"{each.ratio:.1f} times the floor"
        for name, each in timed.items()
    ]


def _floor() -> None:
    total = 0.0
    for k in range(FLOOR_SINES):
        total += sin(k)


def _calls() -> dict[str, Callable[[], object]]:
    calls: dict[str, Callable[[], object]] = {FLOOR: _floor}
    for bundles in (2, 3, 4):
        calls |= _steep(bundles)
    tip, polyester = RoundTip(0.0127), fibre("polyester")
    first, work = Load(222.0, 3600.0), Load(222.0, 1e6)
    return calls | {
        "a loop to a throat": lambda: loop_of_throat(tip, 0.003, 0.03),
        "settling, with its spreads": lambda: settle(polyester, 0.002, first, work, 0.28),
    }


def _steep(bundles: int) -> dict[str, Callable[[], object]]:
    limit = jam(bundles)
    on_bundle = STEEP * jam_turns(BUNDLE_M, bundles, 1.0)
    on_cord = STEEP * limit.cord_turns_times_diameter / BUNDLE_M
    return {
        f"a steep lay of {bundles} by its angle": lambda: lay(BUNDLE_M, bundles, STEEP * limit.lay_rad),
        f"a steep lay of {bundles} by turns on the bundle": lambda: lay_of_turns(BUNDLE_M, bundles, on_bundle, 1.0),
        f"a steep lay of {bundles} by turns on the cord": lambda: lay_of_cord_turns(BUNDLE_M, bundles, on_cord, 1.0),
    }


def _timed(call: Callable[[], object]) -> list[float]:
    """Return the seconds a call over several rounds, the first round left out."""
    taken = []
    for _ in range(_ROUNDS + 1):
        start = perf_counter()
        for _ in range(_CALLS):
            call()
        taken.append((perf_counter() - start) / _CALLS)
    return taken[1:]


if __name__ == "__main__":
    print("\n".join(lines(native())))
