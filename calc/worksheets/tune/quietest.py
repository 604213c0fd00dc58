"""What the tuning sheet says of looking for the quietest brace height: the list to take along, and how to use it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc import units
from calc.worksheets.core import File, Sentence, Table, write_line

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.making.tuning import Try
    from calc.units import System

ARROWS = 10
"""Shot at each brace height, all of one weight."""
_BLANK = "____"
_HEADS = ("Turns", "Brace height", "Read", "Loud, group")


def numbers(tries: Sequence[Try]) -> dict[str, float]:
    """Return the numbers of the list, by row key.

    Parameters
    ----------
    tries : sequence of Try
        The lowest first; may be empty.
    """
    if not tries:
        return {}
    return {
        "sweep_tries": len(tries),
        "sweep_arrows": ARROWS * len(tries),
        "sweep_low": tries[0].brace_m,
        "sweep_high": tries[-1].brace_m,
    }


def headlines(tries: Sequence[Try]) -> tuple[Sentence, ...]:
    """Return what to try, in words.

    Parameters
    ----------
    tries : sequence of Try
        The lowest first; may be empty.
    """
    if not tries:
        return ()
    return (
        Sentence(
            level="answer",
            lead="The quietest",
            text="try {sweep_tries} brace heights from {sweep_low} to {sweep_high}, ten arrows at each",
            span="{sweep_arrows} arrows in all; the list is below",
            table="sweep",
        ),
    )


def cautions(tries: Sequence[Try]) -> tuple[Sentence, ...]:
    """Return how to go about it, in words.

    Parameters
    ----------
    tries : sequence of Try
        The lowest first; may be empty.
    """
    if not tries:
        return (
            Sentence(
                text="To look for the quietest brace height, count the turns in the body: the sheet then lists what to "
                "try. Where turns hardly move it within what is usual for the bow, there is nothing to list."
            ),
        )
    return (
        Sentence(
            text="For the quietest: unbrace, turn, brace, read. Shoot ten arrows of one weight while somebody behind "
            "you says how loud each was, from 1 to 5, without knowing the try. Keep the quietest. Of two alike keep "
            "the one that groups better."
        ),
    )


def table(tries: Sequence[Try], system: System) -> tuple[Table, ...]:
    """Return the list with blanks to fill in; nothing where there is nothing to try.

    Parameters
    ----------
    tries : sequence of Try
        The lowest first; may be empty.
    system : {"inch", "metric"}
        The reader's units.
    """
    if not tries:
        return ()
    return (
        Table(
            key="sweep",
            title="The quietest brace height: what to try",
            heads=_HEADS,
            cells=tuple((*each, _BLANK, _BLANK) for each in _lines(tries, system)),
            note="Turns from one try to the next, the first from how it is now. Keep brace height ____, and write it "
            "on the card.",
        ),
    )


def files(tries: Sequence[Try], system: System) -> tuple[File, ...]:
    """Return the list for a spreadsheet; nothing where there is nothing to try.

    Parameters
    ----------
    tries : sequence of Try
        The lowest first; may be empty.
    system : {"inch", "metric"}
        The reader's units.
    """
    if not tries:
        return ()
    lines = [_HEADS, *((*each, "", "") for each in _lines(tries, system))]
    text = "".join(f"{write_line(line)}\r\n" for line in lines)
    return (File(name="quietest-brace-height.csv", media="text/csv", text=text),)


def _lines(tries: Sequence[Try], system: System) -> list[tuple[str, str]]:
    return [(_do(each.more), units.show(each.brace_m, "length", system)) for each in tries]


def _do(turns: int) -> str:
    if turns == 0:
        return "as it is"
    return f"put in {turns}" if turns > 0 else f"take out {-turns}"
