"""Cautions that more than one worksheet gives, each worded once."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.mechanics.fibre import reasons_for_care
from calc.worksheets.core.schema import Sentence

if TYPE_CHECKING:
    from calc.data import Fibre

FIRST_BRACING = Sentence(
    level="caution",
    standing=True,
    text="Wear eye protection and keep everybody clear when this string is braced and drawn for the first time. "
    "Never loose a bow without an arrow on the string.",
)
DOUBT = Sentence(
    level="note",
    text="A bow or string in doubt goes to a qualified bowyer. Club and range rules and local law come first.",
)
PIPE = Sentence(
    level="caution",
    standing=True,
    text="Plastic pipe is not made for bending again and again: it cracks in cold, with sun and with age. Check "
    "the limbs before each bracing and keep your face out of their line.",
)
YOUNG = Sentence(
    level="caution",
    standing=True,
    text="A young archer makes, braces and draws with an adult at hand who has checked the string.",
)


def low_stretch(fibre: Fibre) -> bool:
    """Return whether a fibre hardly stretches."""
    return bool(reasons_for_care(fibre))


def of_fibre(fibre: Fibre) -> tuple[Sentence, ...]:
    """Return the cautions a fibre calls for."""
    said = []
    if low_stretch(fibre):
        said.append(
            "This fibre hardly stretches. It passes the shot on to the limbs and can break a bow that was not "
            "made for it. Use it only where a qualified bowyer says the bow is built for low-stretch strings."
        )
    if fibre.uv == "poor":
        said.append("Sunlight weakens this fibre. Keep the string covered, and make a new one each season.")
    if fibre.creep == "high":
        said.append(
            "This fibre creeps: the string grows longer under load and in warmth, and brace height falls. Measure "
            "it before each session, and never leave the bow braced or in a hot car."
        )
    return tuple(Sentence(level="caution", standing=True, text=text) for text in said)


HITCH_TAKES_UP = (
    "One loop and a timber hitch: its body is plied by hand and takes up as much as a loop does, so its strands are "
    "longer. The sheet for cutting strands works that out."
)
"""What sheets leave out that plan strings with two loops."""
