"""What was read off a bow in use, and what a bow does when it is drawn."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.errors import require

if TYPE_CHECKING:
    from calc.mechanics.estimate.state import BowState


@dataclass(frozen=True, slots=True)
class StringRead:
    """A string that was on the bow.

    Parameters
    ----------
    string_m : float
        As long as it was there. [m]
    brace_m : float
        The brace height it gave. [m]
    """

    string_m: float
    brace_m: float

    def __post_init__(self) -> None:
        require("string_m", self.string_m, low=0.0, open_=True)
        require("brace_m", self.brace_m, low=0.0, open_=True)


@dataclass(frozen=True, slots=True)
class ForceRead:
    """A force read off a scale on the drawn bow.

    Parameters
    ----------
    draw_m, force_n : float, > 0
        From where brace height is measured; there. [m], [N]
    off : float, > 0 and <= 1
        How far off the force may be, as a share of it.
    brace_m : float, optional
        As braced then, where that is not as the draw weight was told. [m]
    """

    draw_m: float
    force_n: float
    off: float
    brace_m: float | None = None

    def __post_init__(self) -> None:
        require("at_m", self.draw_m, low=0.0, open_=True)
        require("weighed_n", self.force_n, low=0.0, open_=True)
        require("off", self.off, low=0.0, open_=True)
        require("off", self.off, high=1.0)
        if self.brace_m is not None:
            require("brace_m", self.brace_m, low=0.0, open_=True)


@dataclass(frozen=True, slots=True)
class Drawn:
    """A settled bow, braced and drawn.

    Attributes
    ----------
    state : BowState
    brace_m : float
        [m]
    weight_n, brace_n, draw_n : float
        Draw weight at that brace height; the string's pull braced and at full draw. [N]
    energy_j : float
        Stored between brace and full draw. [J]
    """

    state: BowState
    brace_m: float
    weight_n: float
    brace_n: float
    draw_n: float
    energy_j: float
