"""The words of the twist worksheet: its rows, its headlines, its verdict on a lay."""

from __future__ import annotations

from calc.data import practice
from calc.geometry.lay import warn_lay
from calc.worksheets.core import Sentence


def headlines(hand: str) -> tuple[Sentence, ...]:
    """Return the answer in large figures.

    Parameters
    ----------
    hand : str
        Direction of the lay.
    """
    other = "S" if hand == "Z" else "Z"
    return (
        Sentence(
            level="answer",
            lead="Lay out",
            text="{bundle_flat} of each bundle, flat, for {cord_length} of cord",
            span="{bundle_flat.low} to {bundle_flat.high}",
        ),
        Sentence(
            level="answer",
            lead=f"Turn, {hand} lay",
            text="{turns} turns, one in {pitch}",
            span=f"roll {{counter_twist}} turns of {other} into each bundle first",
        ),
        Sentence(
            level="answer",
            lead="Takes up",
            text="{take_up} of the bundle, laid at {lay_angle}",
            span="{take_up.low} to {take_up.high}",
        ),
        Sentence(
            level="answer",
            lead="Jams at",
            text="{jam_turns} turns",
            span="{jam_turns.low} to {jam_turns.high}; a body lies well from {turns_loose} to {turns_tight}",
        ),
    )


def verdict(lay_rad: float, bundles: int) -> Sentence:
    """Return what a lay is good for, in words.

    Parameters
    ----------
    lay_rad : float
        From the cord's axis. [rad]
    bundles : int
        Two or three.
    """
    loosest, tightest, loop = (practice(name).spread for name in ("lay_loosest", "lay_tightest", "lay_loop"))
    if lay_rad >= warn_lay(bundles):
        return Sentence(
            level="caution",
            text="Close to the jam: {turns_left} turns more and nothing moves, and each turn now takes more cord than "
            "it lies along. Take turns out.",
        )
    if lay_rad > loop.high:
        return Sentence(
            level="caution",
            text="Harder than loops and splices are laid: it is stiff, stretches much, and kinks the moment the pull "
            "comes off. A body lies well with {turns_loose} to {turns_tight} turns.",
        )
    if lay_rad > tightest.value:
        return Sentence(
            level="caution",
            text="As hard as loops and splices are laid. A body laid so hard kinks when it hangs slack and stretches "
            "more: {turns_tight} turns are enough for it.",
        )
    if lay_rad < loosest.value:
        return Sentence(
            level="caution",
            text="Too loose to hold: the bundles part, the body lies flat and frays. Give it {turns_loose} turns or "
            "more.",
        )
    return Sentence(
        text="A good lay for a body: it holds round, and turns can still be put in or taken out to tune it."
    )
