"""One loop by itself: long enough for its tip, and how much flat bundle it takes."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos
from typing import TYPE_CHECKING

from calc.data import practice
from calc.geometry.ends import FlatTip, RoundTip, is_pipe, loop_nocked, loop_of_length, loop_sliding
from calc.geometry.lay import radius_ratio
from calc.making.string.turns import Plied, raw_for
from calc.numerics import Spread

if TYPE_CHECKING:
    from calc.geometry.ends import Loop, Section
    from calc.making.string.order import Fit


@dataclass(frozen=True, slots=True)
class FitLoop:
    """A loop on its tip.

    Attributes
    ----------
    section : Section
        The tip it sits on.
    loop : Loop
        Its centre line there.
    bundle_m : float
        Thickness of one bundle of its cord. [m]
    raw : Plied
        The bundle it is laid from.
    """

    section: Section
    loop: Loop
    bundle_m: float
    raw: Plied

    @property
    def reach_m(self) -> float:
        """Throat from the belly of the tip, where the string leaves it [m]."""
        return self.loop.throat_m - self.section.depth_m / 2.0

    @property
    def leg_pull(self) -> float:
        """Pull in each leg / pull in the string [-]."""
        return 0.5 / cos(self.loop.opening_rad / 2.0)


def moved_tip(section: Section, more_m: float) -> Section:
    """Return a tip that is thicker by so much, both ways across.

    Parameters
    ----------
    section : Section
        Round or flat.
    more_m : float
        How far off the reading was; may be negative. [m]

    Examples
    --------
    >>> moved_tip(RoundTip(1.0), 0.5)
    RoundTip(diameter_m=1.5)
    """
    if more_m == 0.0:
        return section
    if isinstance(section, RoundTip):
        return RoundTip(section.diameter_m + more_m)
    return FlatTip(section.width_m + more_m, section.depth_m + more_m)


def thicker_where_it_rests(tip: Section | None) -> Spread:
    """Return how much thicker the limb is where a sliding loop rests than at the tip [m].

    Parameters
    ----------
    tip : Section or None
        The limb tip; None where it is not known.

    Notes
    -----
    Source: ``limb_thicker`` of the constants (``common-practice``); a pipe is as thick there as at its end.
    """
    return Spread.exactly(0.0) if is_pipe(tip) else practice("limb_thicker").spread


def resting_place(section: Section, rests: Section | None) -> Section:
    """Return the thickest place that a sliding loop passes: as measured, or the tip and a limb's usual growth.

    Parameters
    ----------
    section : Section
        The limb tip.
    rests : Section or None
        The limb where the loop rests on the unbraced bow; None: not measured.
    """
    return moved_tip(section, thicker_where_it_rests(section).value) if rests is None else rests


def fit_loop(
    section: Section,
    passes: Section,
    fit: Fit,
    cord_m: float,
    *,
    bundles: int,
    lay_rad: float,
    opening_rad: float,
    ease: float,
    held: float = 1.0,
) -> FitLoop:
    """Fit a loop to its tip.

    Parameters
    ----------
    section, passes : Section
        Where the loop sits; the thickest place that a sliding one passes, where it rests on the unbraced bow.
    fit : {"nocked", "sliding"}
        Just fits its nock, or slides down over the limb.
    cord_m : float, > 0
        Thickness of the plied cord. [m]
    bundles : int
        2, 3 or 4.
    lay_rad : float, > 0 and below 45 degrees
        Lay of the loop. [rad]
    opening_rad : float, > 0
        Between the legs of a nocked loop. [rad]
    ease : float, >= 0
        Extra length of a sliding loop, as a share of the girth it passes. [-]
    held : float, >= 0
        As for `plied`. [-]

    Returns
    -------
    FitLoop

    Raises
    ------
    DomainError
        ``max`` for a nocked loop that cannot open so wide on this tip; what the geometry raises otherwise.

    Notes
    -----
    Source: `loop_nocked`, `loop_sliding` (``derived:loop``); a sliding loop is as long as the longer of both
    places asks. Leaves out the slant of a nock.

    Examples
    --------
    >>> made = fit_loop(RoundTip(0.0127), RoundTip(0.0127), "nocked", 0.0023, bundles=2, lay_rad=0.38,
    ...                 opening_rad=1.0472, ease=0.05)
    >>> round(made.loop.length_m, 4), round(made.raw.raw_m, 4), round(made.leg_pull, 3)
    (0.0528, 0.0571, 0.577)
    """
    if fit == "nocked":
        loop = loop_nocked(section, cord_m, opening_rad)
    else:
        length_m = max(loop_sliding(each, cord_m, ease).length_m for each in {section, passes})
        loop = loop_of_length(section, cord_m, length_m)
    bundle_m = cord_m / (2.0 * radius_ratio(bundles, lay_rad) + 1.0)
    return FitLoop(section, loop, bundle_m, raw_for(loop.length_m, bundle_m, bundles, lay_rad, held))
