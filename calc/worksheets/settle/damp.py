"""What the settle sheet says of damp: plant fibre shortens when it is soaked, sinew lengthens."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc import units
from calc.data import fibre
from calc.making.tuning import wet_change
from calc.numerics import Spread
from calc.worksheets.core import Sentence, Table

if TYPE_CHECKING:
    from calc.making.tuning import NewString
    from calc.units import System

_TOLD = ("linen", "hemp", "sinew")


def numbers(fresh: NewString) -> dict[str, Spread | float]:
    """Return what soaking does to the string, by row key; nothing for a fibre that damp hardly moves.

    Parameters
    ----------
    fresh : NewString
        As asked.
    """
    change = wet_change(fresh.fibre)
    if change is None:
        return {}
    by = change if change.value >= 0.0 else Spread(-change.high, -change.value, -change.low)
    return {"wet_by": by.scaled(fresh.string_m), "wet_share": by}


def headlines(fresh: NewString) -> tuple[Sentence, ...]:
    """Return how much damp may do, in words.

    Parameters
    ----------
    fresh : NewString
        As asked.
    """
    change = wet_change(fresh.fibre)
    if change is None:
        return ()
    what = "longer, and weak" if change.value > 0.0 else "shorter"
    brace = "low" if change.value > 0.0 else "high"
    return (
        Sentence(
            level="answer",
            lead="Soaked",
            text=f"it would be up to {{wet_by.high}} {what}: it would brace {brace}. Wax it, and keep it dry",
            span="{wet_by.low} to {wet_by.high}, slack and wet through",
            table="damp",
        ),
    )


def cautions(fresh: NewString) -> tuple[Sentence, ...]:
    """Return how to go about a string that was twisted damp, in words.

    Parameters
    ----------
    fresh : NewString
        As asked.
    """
    if wet_change(fresh.fibre) is None:
        return ()
    return (
        Sentence(
            text="Twisted damp? Let it dry under a light weight before you measure it, cut it or settle it. Dry, plant "
            "fibre is a little longer than wet, sinew a little shorter."
        ),
        Sentence(
            level="caution",
            text="Never brace or draw with a string that is wet through: sinew can lose more than half of its "
            "strength.",
        ),
    )


def table(fresh: NewString, system: System) -> tuple[Table, ...]:
    """Return what soaking does to strings of linen, hemp and sinew; nothing for a fibre that damp hardly moves.

    Parameters
    ----------
    fresh : NewString
        As asked.
    system : {"inch", "metric"}
        The reader's units.
    """
    if wet_change(fresh.fibre) is None:
        return ()
    lines = []
    for name in _TOLD:
        kind, change = fibre(name), wet_change(fibre(name))
        assert change is not None
        lines.append((kind.words, *(_moved(each * fresh.string_m, system) for each in (change.low, change.high))))
    return (
        Table(
            key="damp",
            title="Wet through and slack, such a string changes by",
            heads=("Fibre", "at the one end", "at the other"),
            cells=tuple(lines),
            note="Worked out from how fibres swell, not measured on strings. Sinew's swelling is in print, that of "
            "plant fibre from memory.",
        ),
    )


def _moved(by_m: float, system: System) -> str:
    return f"{units.show(abs(by_m), 'length', system)} {'longer' if by_m > 0.0 else 'shorter'}"
