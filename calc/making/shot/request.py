"""A shot to be worked out, and one that was."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.data import practice
from calc.geometry.ends import RoundTip, is_pipe
from calc.mechanics.bow import Bow
from calc.mechanics.estimate import Stave, Weights, learn
from calc.mechanics.shot import pipe_limb_mass, usual_limb_mass
from calc.numerics import Spread

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.data import Fibre, Limbs
    from calc.geometry.ends import Section
    from calc.mechanics.bow import DrawPoint, ForceTable, LimbShape
    from calc.mechanics.estimate import Learnt
    from calc.mechanics.shot import Shot, ShotString


@dataclass(frozen=True, slots=True, kw_only=True)
class ShotRequest:
    """A shot to be worked out, all from the point where brace height is measured.

    Attributes
    ----------
    nock_to_nock_m, brace_m, draw_m, draw_force_n : float
        The bow, braced and drawn. [m], [N]
    handle_length_m : float or None
        Length that does not bend; None: not known. [m]
    shape : LimbShape or None
        How the limbs bend; None: not known.
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
    weighed_m, weighed_n : float or None
        A draw, and the force that was weighed there; of no account beside a table. [m], [N]
    tip : Section or None
        A limb tip; one as thick as a pipe of the table makes the limbs pipe. None: not known.
    schedule : str or None
        Of the pipe's wall; None: not known.
    """

    nock_to_nock_m: float
    handle_length_m: float | None
    shape: LimbShape | None
    draw_force_n: float
    draw_m: float
    brace_m: float
    arrow_kg: float
    limb_kg: float | None
    string_kg: float | None
    stiffness_n: float | None
    fibre: Fibre
    yarn_kg_m: float
    strands: int | None
    table: ForceTable | None = None
    weighed_m: float | None = None
    weighed_n: float | None = None
    tip: Section | None = None
    schedule: str | None = None

    @property
    def limbs(self) -> Limbs:
        """What the limbs are of, as their tip tells."""
        return "pipe" if is_pipe(self.tip) else "wood"

    @property
    def limb_mass(self) -> Spread:
        """One working limb: as weighed, of the pipe it is made of, or of as much wood as the bow asks [kg].

        Raises
        ------
        DomainError
            As `usual_limb_mass`.
        """
        if self.limb_kg is not None:
            return Spread.exactly(self.limb_kg)
        if isinstance(self.tip, RoundTip) and is_pipe(self.tip):
            usual = practice("handle_usual").spread
            handle = usual if self.handle_length_m is None else Spread.exactly(self.handle_length_m)
            limb = Spread(*((self.nock_to_nock_m - each) / 2.0 for each in (handle.high, handle.value, handle.low)))
            return pipe_limb_mass(self.tip.diameter_m, limb, self.schedule)
        return usual_limb_mass(self.brace_m, self.draw_m, self.force_n)

    @property
    def force_n(self) -> float:
        """Draw weight: by the bow's own table where there is one [N]."""
        return self.draw_force_n if self.table is None else self.table.force_n(self.draw_m)

    def bow(self, handle_length_m: float | None = None, shape: LimbShape | None = None) -> Bow:
        """Return the bow in the middle of what is not known, or with another handle or shape."""
        usual = practice("handle_usual").spread.value if self.handle_length_m is None else self.handle_length_m
        return Bow(
            self.nock_to_nock_m, usual if handle_length_m is None else handle_length_m, shape or self.shape or "arc"
        )

    def learnt(self) -> Learnt | None:
        """Return what the weighed force tells beside the draw weight; None where none was, or where a table stands.

        Raises
        ------
        DomainError
            As `learn`.
        """
        if self.table is not None or self.weighed_m is None:
            return None
        stave = Stave(nock_to_nock_m=self.nock_to_nock_m, handle_length_m=self.handle_length_m, shape=self.shape)
        weights = Weights(draw_m=self.draw_m, told_n=self.draw_force_n, at_m=self.weighed_m, force_n=self.weighed_n)
        return learn(stave, None, weights, brace_m=self.brace_m)


@dataclass(frozen=True, slots=True, kw_only=True)
class ShotResult:
    """A shot worked out.

    Attributes
    ----------
    asked : ShotRequest
        With the draw weight as it was found where a force was weighed.
    learnt : Learnt or None
        What that force told.
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
    learnt: Learnt | None
    string: ShotString
    strands: int
    middle: Shot
    heavier: Shot
    softer: Shot
    curve: tuple[DrawPoint, ...]
    modelled_j: float
    causes: Mapping[str, Spread]
    figures: Mapping[str, Spread]
