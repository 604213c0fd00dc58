"""What a figure is made with: the hand, a person's own measures, and the words that follow the hand.

Figures are seen from above by a maker at the bottom edge; held end at the left, working end at the right. A figure
that turns with the hand is drawn for Z about the level line and turned over that line for S, so that left and right
are the same for both; words, tapes and whatever else is fixed are not turned.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from math import radians
from typing import TYPE_CHECKING, Literal, TypeAlias

from calc.draw import Drawing, turned_over
from calc.draw.cord.laid import NAMES, Name
from calc.units import show

if TYPE_CHECKING:
    from calc.draw import Shape
    from calc.geometry.lay import Hand
    from calc.units import System

Numbers: TypeAlias = "Mapping[str, str | float]"
LAY_DEG = 24.0
"""Lay of a cord drawn large, where a reader's own is not given or could not be made out."""


@dataclass(frozen=True, slots=True)
class Bench:
    """Where one figure is drawn.

    Parameters
    ----------
    hand : {"S", "Z"}
        Lay of the finished string.
    turns : bool
        Whether what is drawn will be turned over for S.
    numbers : mapping
        A person's own measures: words as printed, or lengths in metres to print.
    """

    hand: Hand
    turns: bool
    numbers: Numbers = field(default_factory=dict)

    @property
    def other(self) -> Hand:
        """The hand of the bundles' own twist."""
        return "S" if self.hand == "Z" else "Z"

    @property
    def system(self) -> System:
        """Units of tapes and of lengths given as numbers."""
        return "metric" if self.numbers.get("system") == "metric" else "inch"

    @property
    def sign(self) -> float:
        """1 where lay drawn here comes out as the string's hand when positive, else -1."""
        return 1.0 if self.turns or self.hand == "Z" else -1.0

    @property
    def lay(self) -> float:
        """Lay of a cord in this figure, signed [rad]."""
        own = self.numbers.get("lay")
        drawable = isinstance(own, float) and _LEAST_LAY_RAD <= own <= _MOST_LAY_RAD
        return self.sign * (own if drawable and isinstance(own, float) else radians(LAY_DEG))

    def names(self, bundles: int = 2) -> tuple[Name, ...]:
        """Return the looks of bundles, such that A is the far one on the page for either hand."""
        first = NAMES[:bundles]
        return first[::-1] if self.turns and self.hand == "S" else first

    def said(self, key: str, default: str = "") -> str:
        """Return a person's own measure as printed, or the default."""
        value = self.numbers.get(key)
        if value is None:
            return default
        return value if isinstance(value, str) else show(value, "length", self.system)

    def length(self, key: str, default: float) -> float:
        """Return a person's own length where it was given as a number [m]."""
        value = self.numbers.get(key)
        return value if isinstance(value, float | int) and value > 0.0 else default


@dataclass(frozen=True, slots=True)
class Sheet:
    """What a figure is made of: shapes that turn with the hand, and shapes that never do.

    Parameters
    ----------
    turning : sequence of Shape
        Drawn for Z, turned over the level line for S.
    fixed : sequence of Shape
        Words, tapes and whatever else is the same for both.
    """

    turning: Sequence[Shape] = ()
    fixed: Sequence[Shape] = ()


_LEAST_LAY_RAD, _MOST_LAY_RAD = radians(14.0), radians(34.0)
"""Lays between which a figure still shows turns, and turns that are still apart."""
Draw: TypeAlias = Callable[[Bench], Sheet]


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure of a guide.

    Parameters
    ----------
    name : str
        By which guides ask for it.
    title, description : str
        Read out instead of the picture; ``{lay}``, ``{own}``, ``{roll}``, ``{back}``, ``{over}``, ``{turn}`` become
        the words of the hand.
    step : str
        What it helps with.
    draw : callable
        Its shapes.
    turns : bool
        Whether it is turned over for S.
    moves : bool
        Whether it has a short motion.
    """

    name: str
    title: str
    description: str
    step: str
    draw: Draw
    turns: bool = True
    moves: bool = False

    def drawing(self, hand: Hand, numbers: Numbers | None, ident: str | None) -> Drawing:
        """Draw it for a hand."""
        bench = Bench(hand, self.turns, numbers or {})
        sheet = self.draw(bench)
        turning = sheet.turning if hand == "Z" or not self.turns else [turned_over(each) for each in sheet.turning]
        words = _WORDS[hand]
        return Drawing(
            key=ident or self.name,
            title=self.title.format(**words),
            desc=self.description.format(**words),
            shapes=(*turning, *sheet.fixed),
        )


_WORDS: dict[Literal["S", "Z"], dict[str, str]] = {
    "Z": {
        "lay": "Z",
        "own": "S",
        "roll": "away from you",
        "back": "towards you",
        "over": "far",
        "turn": "counter-clockwise",
    },
    "S": {"lay": "S", "own": "Z", "roll": "towards you", "back": "away from you", "over": "near", "turn": "clockwise"},
}
