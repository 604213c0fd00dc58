"""The words of the loops worksheet: its rows, its headlines, what it leaves out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.worksheets.core import Sentence

if TYPE_CHECKING:
    from calc.making.string import Fit


def headlines(fit: Fit) -> tuple[Sentence, ...]:
    """Return the answer in large figures.

    Parameters
    ----------
    fit : Fit
        How the loop sits on its tip.
    """
    sits = "just fits its nock" if fit == "nocked" else "slides over {girth} of limb"
    return (
        Sentence(
            level="answer",
            lead="Mark off",
            text=f"{{loop_raw}} of flat bundle for a loop that {sits}",
            span="{loop_raw.low} to {loop_raw.high}",
        ),
        Sentence(
            level="answer",
            lead="Ply it to",
            text="{loop_length} from throat to throat, with {turns_loop} turns",
            span="{loop_length.low} to {loop_length.high}",
        ),
        Sentence(
            level="answer",
            lead="Throat",
            text="{throat} from the middle of the tip, {reach} from its belly",
            span="{throat.low} to {throat.high} from the middle",
        ),
    )
