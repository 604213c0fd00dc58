"""What a groove bears of a loop: the wood's hardness, the loop's width, and strands laid in to make it wider."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import TYPE_CHECKING

from calc.data import ball_area, practice, woods
from calc.errors import require
from calc.geometry.ends import bearing_line
from calc.numerics import Spread, combine_ratios

if TYPE_CHECKING:
    from collections.abc import Mapping

_MOST = 1.5
"""No loop is made thicker than so many times what it is: beyond that the tip wants to be harder. [-]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Groove:
    """A loop in its groove.

    Parameters
    ----------
    width_m : float, > 0
        Of the tip, across the string. [m]
    opening_rad : float, >= 0
        Between the loop's legs. [rad]
    cord_m : float, > 0
        Thickness of the loop. [m]
    pull_n : float, > 0
        The hardest pull of a shot. [N]
    wood : str or None
        By its name in the table; None: not known, which is taken for the softest.

    Raises
    ------
    DomainError
        As `bearing_line`.
    """

    width_m: float
    opening_rad: float
    cord_m: float
    pull_n: float
    wood: str | None

    def __post_init__(self) -> None:
        require("cord_m", self.cord_m, low=0.0, open_=True)
        require("pull_n", self.pull_n, low=0.0, open_=True)
        bearing_line(self.width_m, self.opening_rad, self.pull_n)

    @property
    def hardness(self) -> Spread:
        """Of the green wood, by the table [N]."""
        table = woods()
        return next((each.hardness_n for each in table if each.id == self.wood), table[-1].hardness_n)

    def bears(self) -> Spread:
        """Return the pull in the string that the groove bears [N].

        Notes
        -----
        Source: hardness as a pressure (``record1914``) times the share of it that a groove bears, over the loop's
        width, against `bearing_line` (``derived:bearing``). What is uncertain is added as ratios.
        """
        causes = {
            "hardness": self.hardness,
            "drier": practice("wood_drier").spread,
            "share": practice("groove_share").spread,
            "wide": practice("cord_bears").spread,
        }
        per_newton = bearing_line(self.width_m, self.opening_rad, 1.0)

        def borne(at: Mapping[str, float]) -> dict[str, float]:
            pressure = at["hardness"] * at["drier"] * at["share"] / ball_area()
            return {"bears": pressure * self.cord_m * at["wide"] / per_newton}

        return combine_ratios(borne, causes)["bears"]

    def wants_m(self) -> Spread:
        """Return the thickness of loop at which the groove bears the pull, no less than it is [m]."""
        bears = self.bears()
        ends = (max(1.0, self.pull_n / each) * self.cord_m for each in (bears.high, bears.value, bears.low))
        return Spread(*ends)

    @property
    def padded_m(self) -> float:
        """Thickness to pad to: what the loop wants where the wood may be softest, half as thick again at most [m]."""
        return min(self.wants_m().high, _MOST * self.cord_m)

    @property
    def too_thick(self) -> bool:
        """Whether the loop may want to be thicker than a loop can well be: then a harder tip is the better cure."""
        return self.wants_m().high > _MOST * self.cord_m

    def padding(self, strands: int) -> int:
        """Return the strands to lay into the loop, an even count.

        Parameters
        ----------
        strands : int, > 0
            In the loop now.

        Raises
        ------
        DomainError
            ``min`` for less than one.
        """
        require("strands", strands, low=1.0)
        return 2 * ceil(strands * ((self.padded_m / self.cord_m) ** 2 - 1.0) / 2.0 - 1e-9)
