"""What the brace sheet says of forces that were weighed: rows, headline, table and cautions."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from calc.worksheets.core import RowText, Sentence, Table

if TYPE_CHECKING:
    from collections.abc import Collection

    from calc.making.tuning import Braced

_STATICS = "statics of limbs that give {weight_found} at {full_draw}"
_FIRST = "by the bow and {draw_weight} as told, nothing weighed"
_WORKING = {
    "told": "{draw_weight} as told, and how far off such a figure may be",
    "weighed": "{weighed_force} at {weighed_draw}, the same limbs drawn to {full_draw}",
}
WEIGHT_ALONE = Sentence(text="Enter the draw length too: a draw weight tells nothing without it.")


def row_texts(rows: tuple[RowText, ...], keys: Collection[str]) -> tuple[RowText, ...]:
    """Return rows with the working of the draw weight as it was found.

    Parameters
    ----------
    rows : tuple of RowText
        The sheet's rows.
    keys : collection of str
        Of the numbers that are there.
    """
    which = "both" if {"draw_weight", "weighed_force"} <= set(keys) else "told" if "draw_weight" in keys else "weighed"
    return tuple(
        replace(each, working=_WORKING[which]) if each.key == "weight_found" and which in _WORKING else each
        for each in rows
    )


def headline() -> Sentence:
    """Return how strong the bow is, in words."""
    return Sentence(
        level="answer",
        lead="The bow pulls",
        text="{weight_found} at {full_draw}, the braced string {tension_brace}; {stored_energy} are stored",
        span="{weight_found.low} to {weight_found.high}, and {tension_brace.low} to {tension_brace.high} braced",
    )


def table(found: Braced) -> tuple[Table, ...]:
    """Return how far what was weighed narrows what was known; nothing where nothing was weighed.

    Parameters
    ----------
    found : Braced
        As worked out.
    """
    if not found.bow.forces:
        return ()
    known = found.bow.draw_weight_n is not None
    lines = (
        ("Draw weight at {full_draw}", "weight", "weight_found"),
        ("Pull in the braced string", "pull", "tension_brace"),
        ("Stored energy", "energy", "stored_energy"),
    )
    words = "String for this brace height" if found.asked == "string_length" else "Brace height of this string"
    cells = [(line, *_cells(first, now, known=known)) for line, first, now in lines]
    note = "Before: by the bow alone" + (" and the draw weight as told." if known else "; no draw weight was told.")
    return (
        Table(
            key="learnt",
            title="What weighing told",
            heads=("What", "Before", "With what was measured", "Width left"),
            cells=(*cells, (words, *_cells("length", found.asked, known=True))),
            note=f"{note} {_HOW[known]}",
        ),
    )


_HOW = {
    False: "One force tells how strong a bow is, and nothing of how its limbs bend.",
    True: "Two forces tell by their ratio how long the limbs are and how they bend. They tell much "
    "on a short bow drawn far, little on a long one. What they cannot tell stays as wide as it was.",
}


def _cells(first: str, now: str, *, known: bool) -> tuple[str, str, str]:
    after = f"{{{now}.low}} to {{{now}.high}}"
    if not known:
        return "not known", after, ""
    return f"{{{first}_first.low}} to {{{first}_first.high}}", after, f"{{{first}_left}}"


def cautions(found: Braced) -> tuple[Sentence, ...]:
    """Return how to weigh a bow safely, and where readings do not go together, in words.

    Parameters
    ----------
    found : Braced
        As worked out.
    """
    said = []
    if found.bow.forces and found.bow.apart:
        text = (
            "These forces do not go together on a bow like this: the sums had to stray further than they trust. Check "
            "the scale, both draws and where they were measured from, and how the limbs bend."
        )
        said.append(Sentence(level="caution", text=text))
    if found.bow.forces:
        text = (
            "Weigh with the bow held fast and the scale tied on. Draw it slowly and no further than it is drawn in "
            "use, and let it down as slowly. Never let the string go without an arrow."
        )
        said.append(Sentence(level="caution", text=text))
    return tuple(said)
