"""Whether a string has settled, from its brace heights after so many shots."""

from __future__ import annotations

from dataclasses import dataclass
from math import fsum, log10
from typing import TYPE_CHECKING

from calc.data import practice
from calc.records.texts import si_value

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from calc.records.record import Record

AHEAD = 200
"""So many shots are looked ahead."""
FEWEST = 3


@dataclass(frozen=True, slots=True)
class HeightReading:
    """A brace height that was read.

    Attributes
    ----------
    shots : float, >= 0
        Of this string until then.
    height_m : float
        [m]
    """

    shots: float
    height_m: float


@dataclass(frozen=True, slots=True)
class HeightTrend:
    """What readings tell of how a brace height goes on.

    Attributes
    ----------
    per_decade_m : float
        How much it falls while the shots grow tenfold; below nothing where it rises. [m]
    drop_m : float
        How much it falls over the next `AHEAD` shots. [m]
    settled : bool
        Whether that is less than can be read off.
    apart_m : float
        How far the reading that lies furthest off is from the law. [m]
    """

    per_decade_m: float
    drop_m: float
    settled: bool
    apart_m: float


def height_readings(entries: Iterable[Record]) -> tuple[HeightReading, ...]:
    """Return the readings of a string since it was turned last, by its shots.

    Parameters
    ----------
    entries : iterable of Record
        Dated lines about it. A reading belongs to what was before the turns of its own line went in.
    """
    found: list[HeightReading] = []
    for each in sorted(entries, key=lambda entry: (entry.text("on"), si_value(entry, "shots") or 0.0, entry.id)):
        shots, height_m = si_value(each, "shots"), si_value(each, "brace_height")
        if isinstance(shots, float | int) and isinstance(height_m, float | int):
            found.append(HeightReading(float(shots), float(height_m)))
        if si_value(each, "turns_added"):
            found = []
    return tuple(sorted(found, key=lambda reading: reading.shots))


def fit_settling(readings: Sequence[HeightReading]) -> HeightTrend | None:
    """Fit the law of creep to brace heights: they fall in step with the logarithm of the shots.

    Parameters
    ----------
    readings : sequence of HeightReading
        With no turns put in between.

    Returns
    -------
    HeightTrend or None
        None with fewer than `FEWEST` readings at different counts of shots.

    Notes
    -----
    Fits ``height_m = first_m - per_decade_m * log10(1 + shots)``, least squares

    Source: as `calc.mechanics.fibre.creep`, with shots in the place of time: each shot loads a string for about as long
    as the one before (``common-practice``). Leaves out warmth, damp and strings left braced overnight.

    Examples
    --------
    >>> told = fit_settling([HeightReading(n, 0.16 - 0.002 * log10(1 + n)) for n in (0, 9, 99)])
    >>> round(told.per_decade_m, 6), told.settled
    (0.002, True)
    """
    if len({each.shots for each in readings}) < FEWEST:
        return None
    across = [log10(1.0 + each.shots) for each in readings]
    heights_m = [each.height_m for each in readings]
    middle, middle_m = fsum(across) / len(across), fsum(heights_m) / len(heights_m)
    offs = [(x - middle, height_m - middle_m) for x, height_m in zip(across, heights_m, strict=True)]
    slope_m = fsum(x * height_m for x, height_m in offs) / fsum(x * x for x, _ in offs)
    last = max(each.shots for each in readings)
    drop_m = -slope_m * (log10(1.0 + last + AHEAD) - log10(1.0 + last))
    apart_m = max(abs(height_m - slope_m * x) for x, height_m in offs)
    readable_m = practice("tape_reading").spread.high
    return HeightTrend(-slope_m, drop_m, abs(drop_m) <= readable_m, apart_m)
