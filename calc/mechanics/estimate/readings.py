"""Forces read off a bow, what is asked of it, and what it is at one set of all that is not sure."""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol

from calc.errors import DomainError, Problem, require

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.mechanics.estimate.forms import Form
    from calc.numerics import Spread


class Bows(Hashable, Protocol):
    """What a bow may be: `Guessed`, or a `Calibration` by strings."""

    @property
    def causes(self) -> Mapping[str, Spread]:
        """Everything that is not sure of it."""

    def form_at(self, causes: Mapping[str, float]) -> Form:
        """Return the bow at one set of it."""


@dataclass(frozen=True, slots=True)
class ForceRead:
    """A force read off a scale, or told.

    Parameters
    ----------
    draw_m, force_n : float, > 0
        From where brace height is measured; there. [m], [N]
    off : float, > 0 and <= 1
        How far off the force may be, as a share of it.
    brace_m : float, optional
        As braced then, where that is not as asked about. [m]
    """

    draw_m: float
    force_n: float
    off: float
    brace_m: float | None = None

    def __post_init__(self) -> None:
        require("weighed_m", self.draw_m, low=0.0, open_=True)
        require("weighed_n", self.force_n, low=0.0, open_=True)
        require("off", self.off, low=0.0, open_=True)
        require("off", self.off, high=1.0)
        if self.brace_m is not None:
            require("brace_m", self.brace_m, low=0.0, open_=True)


@dataclass(frozen=True, slots=True)
class FullDraw:
    """What is asked: full draw [m], on a bow braced by a height or by a string [m]."""

    draw_m: float
    brace_m: float | None = None
    string_m: float | None = None

    def brace_of(self, form: Form) -> float:
        """Return the brace height of a bow [m].

        Raises
        ------
        DomainError
            ``missing`` where neither is told.
        """
        if self.brace_m is not None:
            return self.brace_m
        if self.string_m is None:
            raise DomainError(Problem(field="brace_m", code="missing", other="string_m"))
        return form.brace_m(self.string_m)


@dataclass(frozen=True, slots=True)
class Drawn:
    """A bow at one set of all that is not sure.

    Attributes
    ----------
    causes : mapping of str to float
        That set.
    form : Form
    brace_m : float
        [m]
    weight_n, brace_n, draw_n : float
        Draw weight; the string's pull braced and at full draw. [N]
    energy_j : float
        Stored between brace and full draw. [J]
    """

    causes: Mapping[str, float]
    form: Form
    brace_m: float
    weight_n: float
    brace_n: float
    draw_n: float
    energy_j: float
