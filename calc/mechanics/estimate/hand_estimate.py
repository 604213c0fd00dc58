"""How one maker lays loops and splices, as far as it is known."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, sqrt
from typing import TYPE_CHECKING

from calc.data import practice
from calc.errors import DomainError, Problem, require
from calc.geometry.lay import jam, lay, lay_of_cord_turns

if TYPE_CHECKING:
    from calc.numerics import Spread


_STEEPEST_RAD = pi / 4.0
"""Bundles that lie steeper jam. [rad]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class HandEstimate:
    """A hand that lays up cord.

    Parameters
    ----------
    loop_pitch_m, splice_pitch_m : float or None, > 0
        Length of one full turn in the loops and in the splices of earlier strings; None: not measured. [m]
    """

    loop_pitch_m: float | None = None
    splice_pitch_m: float | None = None

    def __post_init__(self) -> None:
        for name in ("loop_pitch_m", "splice_pitch_m"):
            if (value := getattr(self, name)) is not None:
                require(name, value, low=0.0, open_=True)

    @property
    def causes(self) -> dict[str, Spread]:
        """What is uncertain of a hand nobody measured: ``loop_lay``, ``splice_lay`` [rad], ``twist_held`` [-]."""
        return {
            "loop_lay": practice("lay_loop").spread,
            "splice_lay": practice("lay_splice").spread,
            "twist_held": practice("twist_held").spread,
        }

    def causes_on(self, bundle_m: float, bundles: int) -> dict[str, Spread]:
        """Return what is uncertain of it on bundles of a thickness, as `causes`.

        Parameters
        ----------
        bundle_m : float, > 0
            Thickness of one bundle; in a splice it is doubled by the tails. [m]
        bundles : int
            2 or 3.

        Raises
        ------
        DomainError
            ``min`` for turns so short that bundles of this thickness jam, ``max`` for turns too long to be a lay.

        Notes
        -----
        Source: `lay_of_cord_turns` (``derived:lay``), off by ``lay_reading`` of the constants.
        """
        found = self.causes
        for name, pitch_m, thick_m in (
            ("loop", self.loop_pitch_m, bundle_m),
            ("splice", self.splice_pitch_m, bundle_m * sqrt(2.0)),
        ):
            if pitch_m is not None:
                off = practice("lay_reading").spread
                least_m = lay(thick_m, bundles, min(_STEEPEST_RAD, jam(bundles).lay_rad) - 2.0 * off.high).pitch_m
                if pitch_m < least_m:
                    raise DomainError(Problem(field=f"{name}_pitch_m", code="min", limit=least_m))
                most_m = lay(thick_m, bundles, 2.0 * off.high).pitch_m
                if pitch_m > most_m:
                    raise DomainError(Problem(field=f"{name}_pitch_m", code="max", limit=most_m))
                found[f"{name}_lay"] = off.shifted(lay_of_cord_turns(thick_m, bundles, 1.0, pitch_m).lay_rad)
        return found
