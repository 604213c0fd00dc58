"""How one maker lays loops and splices, as far as it is known."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.data import practice

if TYPE_CHECKING:
    from calc.numerics import Spread


@dataclass(frozen=True, slots=True, kw_only=True)
class HandEstimate:
    """A hand that lays up cord.

    Attributes
    ----------
    loop_lay, splice_lay : Spread or None
        Lay angle of loops and of splices; None: as hands usually lay them. [rad]
    """

    loop_lay: Spread | None = None
    splice_lay: Spread | None = None

    @property
    def causes(self) -> dict[str, Spread]:
        """What is uncertain about it: ``loop_lay`` and ``splice_lay`` [rad], ``twist_held`` in both [-]."""
        return {
            "loop_lay": self.loop_lay or practice("lay_loop").spread,
            "splice_lay": self.splice_lay or practice("lay_splice").spread,
            "twist_held": practice("twist_held").spread,
        }
