"""Drawings of the serving worksheet: the served string in its nock, and what would fit it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc import units
from calc.data import practice
from calc.draw.charts import Axis, Band, Marker, Series, line_chart
from calc.draw.string import serving_in_throat
from calc.making.string import core_of_strands

if TYPE_CHECKING:
    from calc.draw import Dash, Drawing
    from calc.making.string import Served
    from calc.units import System

_POINTS = 9
_THREADS: tuple[tuple[str, float, Dash], ...] = (
    ("thinner by a third", 2 / 3, "dots"),
    ("this thread", 1.0, False),
    ("thicker by a third", 4 / 3, True),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Nocked:
    """A served string at its nock, in SI; `strands` is 0 where they are not known.

    Parameters
    ----------
    core_m : float
        Thickness of the bare string. [m]
    thread_m : float
        Thickness of the thread. [m]
    throat_m : float
        Of the nock. [m]
    strands : int
        In the whole string; 0 where they are not known.
    served : Served
        The served string.
    """

    core_m: float
    thread_m: float
    throat_m: float
    strands: int
    served: Served

    @property
    def ratio(self) -> float:
        """Served string / throat [-]."""
        return self.served.diameter_m / self.throat_m


def fit_words(ratio: float) -> str:
    """Return how a served string fits its nock, in words.

    Parameters
    ----------
    ratio : float
        Thickness of the served string / throat of the nock. [-]

    >>> fit_words(0.9), fit_words(1.0), fit_words(1.1)
    ('too loose', 'fits', 'too tight')
    """
    hold = practice("nock_hold").spread
    if ratio > hold.high:
        return "too tight"
    return "too loose" if ratio < hold.low else "fits"


def drawings(made: Nocked, system: System) -> tuple[Drawing, ...]:
    """Return the string in its throat, and the chart of strands and threads.

    Parameters
    ----------
    made : Nocked
        As worked out.
    system : {"inch", "metric"}
        The reader's units.
    """
    return _throat(made, system), _chart(made, system)


def _throat(made: Nocked, system: System) -> Drawing:
    """Draw the string in its nock; one that fits though it is a hair thicker is pressed by the walls."""

    def said(name: str, value: float) -> str:
        return f"{name} {units.show(value, 'thickness', system)}"

    fit = fit_words(made.ratio)
    pressed_m = (made.throat_m - made.core_m) / 2.0
    return serving_in_throat(
        made.core_m,
        min(made.thread_m, pressed_m) if fit == "fits" and pressed_m > 0.0 else made.thread_m,
        made.throat_m,
        core_text=said("string", made.core_m),
        served_text=said("served", made.served.diameter_m),
        throat_text=said("throat", made.throat_m),
        verdict=_VERDICTS[fit],
        strands=made.strands,
    )


_VERDICTS = {
    "too tight": "Too tight: it does not go in, or does not come off.",
    "fits": "Touches both sides: it should hold, and drop at a tap.",
    "too loose": "Too loose: the arrow falls off.",
}


def _chart(made: Nocked, system: System) -> Drawing:
    unit = units.unit_label("thickness", system)

    def number(value: float) -> float:
        return units.number_in(value, "thickness", system)

    if made.strands:
        counts = [made.strands * (0.5 + 1.1 * at / (_POINTS - 1)) for at in range(_POINTS)]
        cores = [core_of_strands(made.core_m, made.strands, count) for count in counts]
        across, here, words = counts, float(made.strands), "strands in the string"
    else:
        cores = [made.core_m * (0.7 + 0.6 * at / (_POINTS - 1)) for at in range(_POINTS)]
        across, here, words = [number(each) for each in cores], number(made.core_m), f"string before serving, {unit}"
    lines = tuple(
        Series(
            name,
            tuple((x, number(core + 2.0 * made.thread_m * share)) for x, core in zip(across, cores, strict=True)),
            dash=dash,
        )
        for name, share, dash in _THREADS
    )
    hold = practice("nock_hold").spread.scaled(made.throat_m)
    served = units.show(made.served.diameter_m, "thickness", system)
    low, high = (units.show(each, "thickness", system) for each in (hold.low, hold.high))
    lowest = min(lines[0].points[0][1], number(hold.low))
    highest = max(lines[2].points[-1][1], number(hold.high))
    room = 0.05 * (highest - lowest)
    title = "Served thickness, by strands and thread" if made.strands else "Served thickness, by string and thread"
    return line_chart(
        lines,
        Axis(words, across[0], across[-1]),
        Axis(f"served, {unit}", lowest - room, highest + room),
        key="served",
        title=title,
        desc=f"{title}: now {served}. The nock holds from {low} to {high}.",
        bands=(Band("the nock holds", number(hold.low), number(hold.high), along="y"),),
        markers=(Marker(served, (here, number(made.served.diameter_m))),),
    )
