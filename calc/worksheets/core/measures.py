"""Questions about what was measured of a cord, a bow and a hand, which the notebook keeps; each worded once."""

from __future__ import annotations

from calc.units import INCH, POUND_FORCE
from calc.worksheets.core import fields
from calc.worksheets.core.schema import Choice, Number, Option

NOT_MEASURED = "not measured"
_SHORT_IN = 10.0
"""Lengths that cannot be longer than this may be short. [in]"""


def length(key: str, label: str, hint: str, group: str, longest_in: float = 120.0) -> Number:
    """Return a question for a length that may be left open.

    Parameters
    ----------
    key, label, hint, group : str
        As a field has them.
    longest_in : float, > 0
        What it cannot be longer than. [in]
    """
    return Number(
        key=key,
        label=label,
        hint=hint,
        group=group,
        example=NOT_MEASURED,
        absent=NOT_MEASURED,
        quantity="length",
        low=0.1 * INCH if longest_in < _SHORT_IN else 4 * INCH,
        high=longest_in * INCH,
    )


HANDLE_PROUD = Number(
    key="handle_proud",
    label="Handle proud of the limbs",
    hint="Only without the thread: lay a straight edge along the belly of the limbs, and measure from it to where you "
    "measure brace height. A handle that lies deeper: with a minus before the number.",
    group=fields.BOW,
    example=NOT_MEASURED,
    absent=NOT_MEASURED,
    quantity="length",
    low=-3 * INCH,
    high=4 * INCH,
)
STRING_FOLLOW = Number(
    key="string_follow",
    label="String follow (set)",
    hint="Unbraced, stretch a thread straight from nock to nock on the belly side: the gap between it and the limbs "
    "beside the handle. Reflex, where the limbs bend the other way: with a minus before the number.",
    group=fields.BOW,
    example=NOT_MEASURED,
    absent=NOT_MEASURED,
    quantity="length",
    low=-6 * INCH,
    high=8 * INCH,
)
THREAD_GAP = Number(
    key="thread_gap",
    label="Gap from the thread to the handle",
    hint="With the same thread: from it to where you measure brace height. Where the handle lifts the thread, put "
    "two equal blocks under it at the nocks. Take their height off; the number then has a minus.",
    group=fields.BOW,
    example=NOT_MEASURED,
    absent=NOT_MEASURED,
    quantity="length",
    low=-4 * INCH,
    high=10 * INCH,
)
UNBRACED = (STRING_FOLLOW, THREAD_GAP, HANDLE_PROUD)
"""What tells how the unbraced bow lies: set, and how far the handle stands proud."""
TIP_CONTACT = Number(
    key="tip_contact",
    label="String lying on each tip",
    hint="Of a recurved or stiff tip: how far down from the nock the braced string touches the belly.",
    group=fields.BOW,
    example="none",
    absent="none",
    quantity="length",
    low=0.0,
    high=16 * INCH,
)
LENGTH = Number(
    key="weighed_length",
    label="Length weighed",
    hint="Straight and not pulled. The longer, the surer: 5 m or 16 ft and more.",
    group=fields.CORD,
    example="20 ft",
    quantity="length",
    low=4 * INCH,
    high=40_000 * INCH,
)
MASS = Number(
    key="weighed_mass",
    label="Its weight",
    hint="On a kitchen or letter scale, in grams (g) unless you type another unit, like 0.8 oz.",
    group=fields.CORD,
    example="22 g",
    quantity="weighed",
    low=0.001,
    high=20.0,
)
WATER = Choice(
    key="in_water",
    label="In water it",
    hint="Work a piece wet with a drop of soap until no air is left in it, then let go.",
    group=fields.CORD,
    example="floats",
    options=(
        Option(value="floats", label="floats"),
        Option(value="sinks", label="sinks"),
        Option(value="untried", label="was not tried"),
    ),
)
ROLL = Number(
    key="roll_width",
    label="Width of the roll-up",
    hint="Wind it side by side round a pencil, turns touching and not pressed. Leave empty if not tried.",
    group=fields.CORD,
    example="2 1/4 in",
    absent=fields.NOT_KNOWN,
    quantity="length",
    low=0.1 * INCH,
    high=40 * INCH,
)
WRAPS = Number(
    key="roll_turns",
    label="Turns in the roll-up",
    hint="Twenty are enough.",
    group=fields.CORD,
    example="20",
    quantity="count",
    low=1,
    high=1000,
    whole=True,
)
HELD = Number(
    key="held_load",
    label="Weight one cord carried",
    hint="A steady weight that it held without breaking. Leave empty if not tried; throw the piece away after.",
    group=fields.CORD,
    example=fields.NOT_KNOWN,
    absent=fields.NOT_KNOWN,
    quantity="force",
    low=0.1 * POUND_FORCE,
    high=5000 * POUND_FORCE,
)
WEIGHING = (LENGTH, MASS, WATER, ROLL, WRAPS, HELD)
"""Tests that tell what a cord is."""
TRIAL_BEFORE = length(
    "trial_before",
    "Trial piece as made",
    "Ply 2 ft (60 cm) of this cord as the body will be, mark two points, and measure between them, slack.",
    fields.CORD,
)
TRIAL_AFTER = length(
    "trial_after",
    "After it hung",
    "Hung for an hour under about the pull of the bow, the weight off again. It tells how much a lay beds in.",
    fields.CORD,
)
TRIAL_LOADED = length(
    "trial_loaded",
    "Under the weight",
    "Between the same points at the end of the hour, the weight still on. It tells how much the cord stretches.",
    fields.CORD,
)
TRIAL_WEIGHT = Number(
    key="trial_weight",
    label="That weight",
    hint="What hung on it.",
    group=fields.CORD,
    example=fields.NOT_WEIGHED,
    absent=fields.NOT_WEIGHED,
    quantity="force",
    low=1 * POUND_FORCE,
    high=300 * POUND_FORCE,
)
TRIAL = (TRIAL_BEFORE, TRIAL_AFTER, TRIAL_LOADED, TRIAL_WEIGHT)
"""A piece that was plied and settled: it tells how a cord beds in and stretches."""
LOOP_TURN = length(
    "loop_turn",
    "One turn of your loops",
    "Length of one full turn along the cord, in the loops of earlier strings: count some over a tape, and divide.",
    fields.METHOD,
    6.0,
)
SPLICE_TURN = length("splice_turn", "One turn of your splices", "The same beside the throat.", fields.METHOD, 8.0)
LAYS = (LOOP_TURN, SPLICE_TURN)
"""One turn of the loops and of the splices that a hand laid."""
