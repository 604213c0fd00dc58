"""What is asked of a shot, and its result."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from calc.geometry.ends import is_pipe
from calc.making.strands import limb_of
from calc.mechanics.shot import usual_limb_mass

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.data import Fibre, Limbs
    from calc.geometry.ends import Section
    from calc.mechanics.bow import Bow, DrawPoint, ForceTable, LimbShape
    from calc.mechanics.estimate import BowEstimate
    from calc.mechanics.shot import Shot, ShotString
    from calc.numerics import Spread


@dataclass(frozen=True, slots=True, kw_only=True)
class ShotRequest:
    """A shot to be worked out, all from the point where brace height is measured.

    Attributes
    ----------
    bow : BowEstimate
        With draw and draw weight, and forces that were weighed.
    brace_m : float
        As braced. [m]
    arrow_kg : float
        The arrow. [kg]
    limb_kg : float or None
        One working limb; None: not weighed. [kg]
    string_kg, stiffness_n : float or None
        The whole string, and its pull per strain; None: from the strands. [kg], [N]
    fibre : Fibre
    yarn_kg_m : float
        One strand. [kg/m]
    strands : int or None
        None: as many as would be advised.
    table : ForceTable or None
        The bow's own draw and force, in place of the model's.
    left_aside : bool
        Whether a force was weighed that a table makes superfluous.
    tip : Section or None
        A limb tip; one as thick as a pipe of the table makes the limbs pipe. None: not known.
    schedule : str or None
        Of the pipe's wall; None: not known.
    fits : tuple of Fibre
        Every fibre it may be, where that is not known; empty where it is.
    """

    bow: BowEstimate
    brace_m: float
    arrow_kg: float
    limb_kg: float | None
    string_kg: float | None
    stiffness_n: float | None
    fibre: Fibre
    yarn_kg_m: float
    strands: int | None
    table: ForceTable | None = None
    left_aside: bool = False
    tip: Section | None = None
    schedule: str | None = None
    fits: tuple[Fibre, ...] = ()

    @property
    def limbs(self) -> Limbs:
        """What the limbs are of, as their tip tells."""
        return "pipe" if is_pipe(self.tip) else "wood"

    @property
    def weighed_limb(self) -> Spread | None:
        """One working limb by a scale or by its pipe; None: not known [kg]."""
        return limb_of(self.bow, self.limb_kg, self.tip, self.schedule)

    @property
    def limb_mass(self) -> Spread:
        """One working limb: as weighed, of the pipe it is made of, or of as much wood as the bow asks [kg].

        Raises
        ------
        DomainError
            As `usual_limb_mass`.
        """
        known = self.weighed_limb
        return usual_limb_mass(self.brace_m, self.draw_m, self.force_n) if known is None else known

    @property
    def draw_m(self) -> float:
        """Full draw [m]."""
        assert self.bow.draw_m is not None
        return self.bow.draw_m

    @property
    def force_n(self) -> float:
        """Draw weight: by the bow's own table where there is one, else as told and weighed [N]."""
        return self.bow.middle.weight_n if self.table is None else self.table.force_n(self.draw_m)

    def settled(self, handle_length_m: float | None = None, shape: LimbShape | None = None) -> Bow:
        """Return the bow as it was told, or with another handle or shape."""
        told = self.bow.bow
        return replace(
            told,
            handle_length_m=told.handle_length_m if handle_length_m is None else handle_length_m,
            shape=shape or told.shape,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class ShotResult:
    """A shot worked out.

    Attributes
    ----------
    asked : ShotRequest
    string : ShotString
        In the middle of what is not known.
    strands : int
        Told or advised; of no account where weight and stiffness of the string are both told.
    middle, heavier, softer : Shot
        With the string, with one heavier by `HEAVIER`, with one softer by `SOFTER`.
    curve : tuple of DrawPoint
        Draw force and string tension.
    modelled_j : float
        Stored energy by the model, whether or not there is a table. [J]
    causes, figures : mapping of str to Spread
        What is uncertain, and what comes of it, by row key.
    """

    asked: ShotRequest
    string: ShotString
    strands: int
    middle: Shot
    heavier: Shot
    softer: Shot
    curve: tuple[DrawPoint, ...]
    modelled_j: float
    causes: Mapping[str, Spread]
    figures: Mapping[str, Spread]
