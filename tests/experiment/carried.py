"""What carries a told range of the brace height on the nail: each thing that is not sure, made sure alone."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from calc.data import practice
from calc.making.tuning.hung import HungLine
from calc.making.tuning.nail import readings_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from calc.making.tuning import Nailed

    Array = NDArray[np.float64]

CARRIERS = {
    "set and handle, read off a thread from nock to nock": ("proud", "follow"),
    "how the limbs bend": ("limb",),
    "growth still to come on the bow": ("left",),
    "stretch from the weight to the pull of the bow": ("pull", "soft", "strength"),
    "tape readings": ("tape", "throats", "read 0", "reach upper", "reach lower", "peg", "earlier brace", "reading"),
}
"""What is told of on the page, with the causes that it is; `reading` stands for what was read of an earlier string."""
_SURE, _NOTHING_M = 100.0, 1e-9


def carried(told: Sequence[Nailed]) -> dict[str, float]:
    """Return what each thing alone does to the range, half its width, in the middle of strings that hang on it [m].

    That is the root of what goes from its square when the thing is known exactly: readings are straight lines, and
    what they leave is worked out anew (least squares).
    """
    found: dict[str, list[float]] = {name: [] for name in CARRIERS}
    for each in told:
        names, moves, rows = _slopes(each)
        whole = _left(moves, rows)
        for name, causes in CARRIERS.items():
            kept = np.array([cause not in causes for cause in names])
            surer = rows * _SURE if "reading" in causes else rows
            found[name].append(np.sqrt(max(0.0, whole - _left(moves[kept], surer[:, kept]))))
    return {name: float(np.median([width for width in each if width > _NOTHING_M])) for name, each in found.items()}


def _left(moves: Array, rows: Array) -> float:
    """Return the square of half the range."""
    return float(moves @ np.linalg.solve(np.eye(len(moves)) + rows.T @ rows, moves))


def _slopes(told: Nailed) -> tuple[list[str], Array, Array]:
    """Return the causes, what half the width of each does to the brace height [m], and to the readings."""
    hung = told.hung
    line, bow = HungLine.of(hung), hung.bow
    spreads = {**bow.causes, **told.causes}
    if hung.earlier is not None:
        spreads["earlier brace"] = practice("tape_reading").spread
    off = readings_of(hung, line, told.pull_n.value)
    names = [name for name, each in spreads.items() if each.low != each.high]
    middle = {name: each.value for name, each in spreads.items()}

    def at(name: str, by: float) -> Array:
        half = (spreads[name].high - spreads[name].low) / 2.0
        there = {**middle, name: middle[name] + by * half}
        return np.array([bow.state(there).brace_m(line.on_bow(there)), *off(there)])

    slopes = np.array([(at(name, 0.25) - at(name, -0.25)) * 2.0 for name in names])
    return names, slopes[:, 0], slopes[:, 1:].T
