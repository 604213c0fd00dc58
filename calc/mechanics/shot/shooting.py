"""The shot: arrow speed, and the string's pull before and after the arrow has gone."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.errors import require
from calc.mechanics.bow import draw_curve
from calc.mechanics.shot.full_draw import full_draw_state
from calc.mechanics.shot.trajectory import WITHIN, integrate_trajectory

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.mechanics.bow import Bow
    from calc.mechanics.shot.full_draw import ShotString
    from calc.mechanics.shot.trajectory import Moment

LEAST, MOST = 0.4, 1.5
"""How long the string is watched once the arrow has gone, in times from the loose to its leaving: the first is the
limbs' first swing, the second where a tension that will not fall is left. What an undamped model does later says
nothing about a bow."""
_LONGEST_S = 0.2


@dataclass(frozen=True, slots=True)
class Shot:
    """What a shot does.

    Attributes
    ----------
    speed_m_s : float
        Of the arrow as it leaves. [m/s]
    energy_j, efficiency : float
        Stored at full draw [J]; share of the stored energy that the arrow carries [-].
    leaves_s : float
        When the arrow leaves. [s]
    brace_n, draw_n : float
        String tension braced and at full draw. [N]
    peak_before_n, peak_after_n : float
        Most tension until the arrow leaves, and from then on until that peak is past. [N]
    moments : tuple of Moment
        The string against time, the loose first.
    drift : float
        What the steps lost or gained of the energy, as a share; the size of their error. [-]
    """

    speed_m_s: float
    energy_j: float
    efficiency: float
    leaves_s: float
    brace_n: float
    draw_n: float
    peak_before_n: float
    peak_after_n: float
    moments: tuple[Moment, ...]
    drift: float

    @property
    def peak_n(self) -> float:
        """Most tension of all [N]."""
        return max(self.peak_before_n, self.peak_after_n)


def shot(
    bow: Bow,
    brace_m: float,
    draw_m: float,
    draw_force_n: float,
    *,
    arrow_kg: float,
    string: ShotString,
    limb_mass_kg: float,
    stored_j: float | None = None,
    after_s: float | None = None,
    within: float = WITHIN,
) -> Shot:
    """Return what comes of loosing an arrow.

    Parameters
    ----------
    bow, brace_m, draw_m, draw_force_n
        As for `static_tension`.
    arrow_kg : float, > 0
        The arrow. [kg]
    string : ShotString
        Its stiffness and mass, and what it carries.
    limb_mass_kg : float, > 0
        Of one working limb; the figure the answer hangs on most. [kg]
    stored_j : float, optional
        Stored energy where it was measured (`ForceTable.energy_j`): the arrow gets the model's share of it, while
        tensions stay those of the model. Recurved bows get the energy of their own draw-force curve unless this is
        given. [J]
    after_s : float, > 0, optional
        How long to watch the string once the arrow has gone; until its peak is past unless told. [s]
    within : float
        Largest error of a step; see `integrate_trajectory`.

    Raises
    ------
    DomainError
        As `full_draw_state`; ``min`` for the arrow and the energy.

    Notes
    -----
    Source: ``formulas.toml`` beside this file.

    Examples
    --------
    >>> from calc.mechanics.bow.bow import Bow
    >>> from calc.mechanics.shot.full_draw import ShotString
    >>> bow = Bow(1.83, 0.2, "tapered")
    >>> one = shot(bow, 0.15, 0.71, 150.0, arrow_kg=0.025, string=ShotString(3e4, 0.007), limb_mass_kg=0.16)
    >>> 50.0 < one.speed_m_s < 56.0, one.peak_n > 3.0 * 150.0
    (True, True)
    """
    require("arrow_kg", arrow_kg, low=0.0, open_=True)
    if after_s is not None:
        require("after_s", after_s, low=0.0, open_=True)
    ready = full_draw_state(bow, brace_m, draw_m, draw_force_n, string=string, limb_mass_kg=limb_mass_kg)
    model = ready.model
    before = integrate_trajectory(
        ready, ready.state, arrow_kg, begin_s=0.0, time_s=_LONGEST_S, leaves=True, within=within
    )
    leaves_s = before.moments[-1].time_s
    after = integrate_trajectory(
        ready,
        before.end,
        0.0,
        begin_s=leaves_s,
        time_s=MOST * leaves_s if after_s is None else after_s,
        leaves=False,
        within=within,
        least_s=LEAST * leaves_s if after_s is None else None,
    )
    speed_m_s = -before.end[-1]
    efficiency = arrow_kg * speed_m_s**2 / 2.0 / ready.energy_j
    if stored_j is None and bow.contact_m > 0.0:
        stored_j = draw_curve(bow, brace_m, draw_m, draw_force_n, steps=8).energy_j
    energy_j = ready.energy_j if stored_j is None else stored_j
    require("stored_j", energy_j, low=0.0, open_=True)
    starts = model.energy_j(ready.state, arrow_kg), model.energy_j(before.end, 0.0)
    drifts = model.energy_j(before.end, arrow_kg) - starts[0], model.energy_j(after.end, 0.0) - starts[1]
    return Shot(
        speed_m_s=speed_m_s * (energy_j / ready.energy_j) ** 0.5,
        energy_j=energy_j,
        efficiency=efficiency,
        leaves_s=leaves_s,
        brace_n=ready.brace_n,
        draw_n=ready.draw_n,
        peak_before_n=peak([(0.0, ready.draw_n), *((each.time_s, each.tension_n) for each in before.moments)]),
        peak_after_n=peak([(each.time_s, each.tension_n) for each in after.moments or before.moments[-1:]]),
        moments=before.moments + after.moments,
        drift=max(map(abs, drifts)) / starts[0],
    )


def peak(points: Sequence[tuple[float, float]]) -> float:
    """Return the top of a row of (time, value), by the parabola through the highest and its neighbours.

    Parameters
    ----------
    points : sequence of tuple of float
        In the order of time.

    Returns
    -------
    float
        [unit of the values]

    Notes
    -----
    Source: own derivation, the parabola through three points.

    Examples
    --------
    >>> peak([(0.0, 0.0), (1.0, 3.0), (2.0, 3.0), (3.0, 0.0)])
    3.375
    """
    top = max(range(len(points)), key=lambda k: points[k][1])
    if top in {0, len(points) - 1}:
        return points[top][1]
    (t0, a), (t1, here), (t2, b) = points[top - 1 : top + 2]
    rise, fall = (here - a) / (t1 - t0), (b - here) / (t2 - t1)
    bend = (fall - rise) / (t2 - t0)
    slope = rise + bend * (t1 - t0)
    return here - slope * slope / (4.0 * bend)
