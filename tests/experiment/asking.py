"""The sheets asked as a user asks them: typed values in, numbers of the answer out."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from calc.worksheets import one
from calc.worksheets.core import Answer, ask, usual
from tests.experiment.strings import Told

if TYPE_CHECKING:
    from calc.numerics import Spread

    Numbers = dict[str, Spread]


def answered(sheet: str, typed: dict[str, str]) -> Numbers | None:
    """Return every number of a sheet's answer by its key, None where it refuses."""
    found = ask(one(sheet), usual(one(sheet), typed), "inch")
    if not isinstance(found, Answer):
        return None
    return {row.key: row.spread for row in found.rows}


def told(answers: list[Numbers], tail_m: float) -> Told:
    """Return what the bench sheet tells the makers."""

    def of(key: str) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
        return np.array([each[key].value for each in answers])

    return Told(
        loop_upper_m=of("loop_upper"),
        loop_lower_m=of("loop_lower"),
        body_raw_m=of("body_raw"),
        turns=of("turns_body"),
        counter=of("counter_twist_body"),
        strands=of("strands"),
        tail_m=np.full(len(answers), tail_m),
    )
