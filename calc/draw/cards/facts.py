"""What stands on the card of one string, as printed words."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from calc.draw.string import FlatZone
    from calc.geometry.lay import Hand
    from calc.units import System

BLANKS = (
    "Made by, date", "Cut to", "On the nail", "Hung: weight, time",
    "Braced at, first", "Turns added", "Braced at, now", "Served, thickness",
    "After 10 shots", "After 50 shots", "After 200 shots", "Next look",
)  # fmt: skip
"""What the maker writes on the card, in the order of the work."""


@dataclass(frozen=True, slots=True)
class CardFact:
    """One line of a card.

    Attributes
    ----------
    label, value : str
        What it is, and how much.
    range : str
        In which it lies; empty where it is sure.
    """

    label: str
    value: str
    range: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class CardFacts:
    """Everything on one card.

    Parameters
    ----------
    name : str
        Whose string or which bow; empty leaves a line to write it on.
    cut : CardFact
        Length of every strand.
    bow, cord, turns, use, strength : tuple of CardFact
        The bow it is for; what it is made of; turns by zone; settling, bracing, serving and nocking; what it holds.
    short : tuple of CardFact
        What a card for the pocket says of use and strength.
    zones : tuple of Zone
        Tail, loop, body, loop, tail of one bundle laid flat.
    strands, bundles : int
        In the whole string.
    step_m, tail_m : float
        Between strand ends of a bundle; the longest tail. [m]
    lay_rad : float, > 0
        Lay of the body. [rad]
    cord_m : float, > 0
        Thickness of the body. [m]
    tips : tuple of (str, str)
        Upper and lower: the limb tip as typed with its units, and how the loop sits on it.
    hand : {"S", "Z"}
    system : {"inch", "metric"}
    cautions : tuple of str
        Those that must be there first: where a page is full the last ones are left to the sheet.
    unsure : tuple of str
        What is not sure of it, in sentences.
    link : str
        Leads back to the live sheet; empty for none.
    code : tuple of tuple of bool
        The link as a square code: rows of dark and light modules, without a rim; empty for none.
    """

    name: str
    cut: CardFact
    bow: tuple[CardFact, ...]
    cord: tuple[CardFact, ...]
    turns: tuple[CardFact, ...]
    use: tuple[CardFact, ...]
    strength: tuple[CardFact, ...]
    short: tuple[CardFact, ...]
    zones: tuple[FlatZone, ...]
    strands: int
    bundles: int
    step_m: float
    tail_m: float
    lay_rad: float
    cord_m: float
    tips: tuple[tuple[str, str], ...]
    hand: Hand
    system: System
    cautions: tuple[str, ...] = ()
    unsure: tuple[str, ...] = ()
    link: str = ""
    code: tuple[tuple[bool, ...], ...] = ()

    @property
    def other(self) -> Hand:
        """The hand in which bundles are rolled before they are laid."""
        return "S" if self.hand == "Z" else "Z"

    @property
    def title(self) -> str:
        """What the card is called where it is read out."""
        return f"String card: {self.name}" if self.name else "String card"
