"""Words that follow the hand: one name in a guide's source, one wording for a Z string and one for an S string.

The cord lies across the bench, held end to the left, the maker on the near side. A bundle rolled with its top away
from the maker gets S; the far bundle brought over the top towards the maker lays Z. For an S string both turn round.
Looking along a string from the end in the hand, turning that end counter-clockwise tightens a Z lay.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Handed:
    """The same place in a sentence for a Z string and for an S string."""

    z: str
    s: str

    def of(self, hand: str) -> str:
        """Return the words of one hand, Z or S."""
        return self.z if hand == "Z" else self.s


HANDED: dict[str, Handed] = {
    "lay": Handed("Z", "S"),
    "twist": Handed("S", "Z"),
    "roll": Handed("away from you", "towards you"),
    "unroll": Handed("towards you", "away from you"),
    "ply": Handed("towards you", "away from you"),
    "unply": Handed("away from you", "towards you"),
    "over": Handed("far", "near"),
    "under": Handed("near", "far"),
    "tighten": Handed("counter-clockwise", "clockwise"),
    "loosen": Handed("clockwise", "counter-clockwise"),
    "drawing": Handed("right", "left"),
}
"""What each mark says.

lay, twist : letter of the string's lay, and of each bundle's own twist
roll, unroll : where the top of a bundle goes when twist is put in, or taken out
ply, unply : where the bundle goes that comes over the top, or goes back
over, under : the bundle that comes over the top, and the other one
drawing : hand of the archer whose fingers, rolling off, tighten a serving that carries the lay on
tighten, loosen : how the end in the hand turns, seen along the string from that hand
"""
