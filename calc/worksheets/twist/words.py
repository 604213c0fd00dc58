"""The words of the twist worksheet: its rows, its headlines, its verdict on a lay."""

from __future__ import annotations

from calc.data import practice
from calc.geometry.lay import warn_lay
from calc.worksheets.core import RowText, Sentence

TOLD = (
    RowText(key="turns", symbol="N", words="Turns in the finished cord", quantity="turns",
         working="{cord_length} × tan {lay_angle} ÷ (2π × {radius})", source="derived:unroll"),
    RowText(key="lay_angle", symbol="θ", words="Lay angle, from the cord's axis", quantity="angle",
         working="arctan(2π × {radius} × {turns} ÷ {cord_length})", source="derived:unroll"),
    RowText(key="take_up", symbol="C", words="Taken up by the lay", quantity="fraction",
         working="1 − cos {lay_angle}", source="derived:unroll"),
    RowText(key="bundle_length", symbol="B", words="Bundle that lies in the cord", quantity="length",
         working="{cord_length} ÷ cos {lay_angle}", source="derived:unroll"),
    RowText(key="bundle_flat", symbol="", words="Bundle to lay out flat, before any twist", quantity="length",
         working="{bundle_length} ÷ (1 − {own_take_up})", source="hearle1969"),
    RowText(key="cord_diameter", symbol="d", words="The cord, over everything", quantity="thickness",
         working="2 × {radius} + {bundle_diameter}", source="derived:lay"),
    RowText(key="jam_turns", symbol="", words="The most turns this length of bundle can make", quantity="turns",
         working="{bundle_length} × sin {jam_lay} ÷ (2π × {jam_radius})", source="derived:zero-twist"),
    RowText(key="counter_twist", symbol="n", words="To roll into each bundle first, the other way", quantity="turns",
         working="{turns} × {counter_each}", source="thompson2002"),
    RowText(key="pitch", symbol="H", words="One turn lies along", quantity="length",
         working="{cord_length} ÷ {turns}", source="derived:unroll"),
    RowText(key="turns_loop", symbol="", words="Turns in a loop", quantity="turns",
         working="{loop_length} laid at {loop_lay}", source="derived:unroll"),
    RowText(key="turns_splice", symbol="", words="Turns in a splice", quantity="turns",
         working="{tail} of doubled bundle laid at {splice_lay}", source="derived:unroll"),
    RowText(key="loop_raw", symbol="", words="A loop, to mark off on the flat bundle", quantity="length",
         working="{loop_length} ÷ (1 − what its lay and its own twist take)", source="derived:loop"),
    RowText(key="loop_length", symbol="", words="A loop, plied, throat to throat", quantity="length",
         working="as asked", source="input", kind="exact"),
    RowText(key="cord_length", symbol="L", words="Finished length wanted", quantity="length",
         working="as asked", source="input", kind="exact"),
    RowText(key="bundle_diameter", symbol="D", words="Thickness of one bundle", quantity="thickness",
         working="as measured, a twentieth either way", source="input", kind="measured"),
    RowText(key="radius", symbol="a", words="From the cord's middle to a bundle's middle", quantity="thickness",
         working="where the bundles just touch: their closest approach at {lay_angle}",
         source="derived:closest-approach"),
    RowText(key="counter_each", symbol="n ÷ N", words="Counter-twist for each turn of lay", quantity="ratio",
         working="what leaves the cord at rest at {lay_angle}, at most what lays the surface fibres straight",
         source="thompson2002"),
    RowText(key="finger_each", symbol="", words="The same when the bundles are carried round by hand", quantity="ratio",
         working="{counter_each} − 1: carrying round is itself a turn", source="white1969"),
    RowText(key="own_take_up", symbol="", words="Taken up by the twist that stays in each bundle", quantity="fraction",
         working="tan² of half the angle of its surface fibres", source="hearle1969"),
    RowText(key="jam_lay", symbol="", words="Lay angle at which the cord jams", quantity="angle",
         working="where a length of bundle makes the most turns", source="olsen2011"),
    RowText(key="jam_radius", symbol="", words="From middle to middle at the jam", quantity="thickness",
         working="closest approach at {jam_lay}", source="derived:zero-twist"),
    RowText(key="turns_left", symbol="", words="Turns from here to the jam", quantity="turns",
         working="{jam_turns} − {turns}", source="derived:zero-twist"),
)  # fmt: skip

SENTENCES = {
    "jam": "No more than {limit} fit: there the cord jams. Take fewer, a thinner bundle or a longer cord",
    "jam_lay": "The lay angle must be {limit} or less: there the cord jams",
    "twice": "Give the turns or the lay angle, not both",
}
LEAVES_OUT = (
    "Stretch and bedding in: measured under a pull, the cord is a little longer.",
    "Soft bundles press flat against each other, so they take a few turns more than round hard ones.",
    "Tails that thin out: a splice has its full turns only if every strand end reaches its end.",
    "Friction: a waxed cord stays at rest with more or less counter-twist than theory asks.",
)


def headlines(hand: str) -> tuple[Sentence, ...]:
    """Return the answer in large figures."""
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
    """Say what a lay is good for."""
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
