"""The figures of the guides, by name."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.draw.figures import (
    bows,
    bowyer,
    bundles,
    counter_twist,
    eyes,
    faults,
    keeping,
    others,
    servings,
    stages,
    strings,
    workshop,
)
from calc.draw.figures.bench import Figure
from calc.tables import load_table

if TYPE_CHECKING:
    from calc.draw import Drawing
    from calc.draw.figures.bench import Draw, Numbers
    from calc.geometry.lay import Hand

__all__ = ["FIGURES", "Figure", "figure"]
_SHEETS = (counter_twist, eyes, bundles, strings, bows, servings, others, stages, workshop, keeping, faults, bowyer)


def _figures() -> dict[str, Figure]:
    """Join what is drawn with its words; a figure without words, or words without a figure, is a fault of ours."""
    words = load_table(__spec__, "figures")
    drawn: dict[str, Draw] = {
        each.__name__.strip("_").replace("_", "-"): each for sheet in _SHEETS for each in sheet.DRAWN
    }
    if drawn.keys() != words.keys():
        msg = f"figures.toml: got {sorted(drawn.keys() ^ words.keys())}, expected words for every figure and no others"
        raise ValueError(msg)
    return {name: Figure(name=name, draw=drawn[name], **held) for name, held in words.items()}


FIGURES: dict[str, Figure] = _figures()


def figure(name: str, *, hand: Hand = "Z", numbers: Numbers | None = None, ident: str | None = None) -> Drawing:
    """Return a figure drawn for a hand, with a person's own measures where they are given.

    Parameters
    ----------
    name : str
        One of `FIGURES`.
    hand : {"S", "Z"}
        Lay of the finished string.
    numbers : mapping or None
        ``cut_length``, ``loop_upper``, ``loop_lower``, ``body_raw``, ``tail``, ``step``, ``string_length``,
        ``brace_height``, ``nock_to_nock``, ``handle``, ``draw_length``, ``nock_throat``, ``serving_above``,
        ``serving_below``, ``nocking_point``, ``weight``, ``turns_body``, ``strands`` … as printed words, or lengths
        as numbers [m]; ``lay`` as a number [rad] draws the reader's own; ``system`` is ``inch`` or ``metric``, for
        tapes and for lengths given as numbers.
    ident : str or None
        Key of the drawing; the name when None.

    Raises
    ------
    KeyError
        For a name that is not there.
    """
    return FIGURES[name].drawing(hand, numbers, ident)
