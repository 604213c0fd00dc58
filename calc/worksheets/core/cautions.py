"""Cautions that more than one worksheet gives, each worded once."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.data import rule
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
FALLS = Sentence(
    level="caution",
    text="Hanging weights fall. Hang it low over soft ground with a second line on the weight, keep feet and children "
    "away, and never stand under it. A bowstring is not a lifting line.",
)
BREAKS = Sentence(
    level="caution",
    standing=True,
    text="A cord that breaks flies back, and the weight falls. Wear eye protection, hang it low over soft ground, and "
    "keep everybody clear.",
)
YOUNG = Sentence(
    level="caution",
    standing=True,
    text="A young archer makes, braces and draws with an adult at hand who has checked the string.",
)


def overbraced(nock_to_nock_m: float, brace_m: float) -> bool:
    """Return whether a brace height is more than the limbs of a bow of this length should bear at rest.

    Parameters
    ----------
    nock_to_nock_m, brace_m : float, > 0
        As for `of_brace_height`. [m]

    Examples
    --------
    >>> overbraced(1.2, 0.16), overbraced(1.7, 0.16)
    (True, False)
    """
    much = rule("brace_by_length").figure("overbraced above this share").spread
    return brace_m / nock_to_nock_m > much.value


def of_brace_height(nock_to_nock_m: float, brace_m: float) -> tuple[Sentence, ...]:
    """Return what a brace height calls for on a bow of this length: nothing where it is usual.

    Parameters
    ----------
    nock_to_nock_m, brace_m : float, > 0
        Along the belly; square from the string. [m]
    """
    usual = rule("brace_by_length").figure("share of nock to nock").spread
    share = brace_m / nock_to_nock_m
    if overbraced(nock_to_nock_m, brace_m):
        text = (
            "Overbraced: this brace height is more than an eighth of nock to nock. The limbs are bent hard before the "
            "draw begins and may take a set or break. Make the string longer."
        )
        return (Sentence(level="caution", text=text),)
    if usual.low <= share <= usual.high:
        return ()
    which = "Lower" if share < usual.low else "Higher"
    text = (
        f"{which} than usual for a bow of this length: about a tenth of nock to nock, the archer's own fist with the "
        "thumb up. Common practice, no published source."
    )
    return (Sentence(text=text),)


def low_stretch(fibre: Fibre) -> bool:
    """Return whether a fibre hardly stretches.

    Parameters
    ----------
    fibre : Fibre
        From the fibre table.
    """
    return bool(reasons_for_care(fibre))


def of_fibre(fibre: Fibre) -> tuple[Sentence, ...]:
    """Return the cautions a fibre calls for.

    Parameters
    ----------
    fibre : Fibre
        From the fibre table.
    """
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
    "One loop and a timber hitch: its body is plied by hand and takes up as much as a loop does. So its strands are "
    "longer. The sheet for cutting strands works that out; the links under the answer lead there."
)
"""What sheets leave out that plan strings with two loops."""
