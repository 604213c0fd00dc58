"""An endless string: how far apart the posts stand, how often to go round, how to serve and twist it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from calc.making.strands import choose
from calc.making.string import Winding, endless
from calc.mechanics.estimate import braced_pull
from calc.units import INCH, POUND_FORCE
from calc.worksheets.core import (
    Answer,
    Guide,
    Number,
    Sentence,
    SheetText,
    Worksheet,
    by_the_yard,
    cautions,
    cords,
    fields,
    rows,
)
from calc.worksheets.core import next_steps as onward
from calc.worksheets.endless import drawings as endless_drawings
from calc.worksheets.endless import rows as endless_rows

if TYPE_CHECKING:
    from calc.geometry.ends import Section
    from calc.making.string import Wound

TEXT = SheetText(__spec__)

_RESULTS = (
    "post_spacing", "wraps", "cord_total", "winding_pull", "turns_body", "turns_most", "turns_kept", "most_kept",
    "string_longest", "string_shortest", "loop_served_upper", "loop_served_lower", "thread_length",
)  # fmt: skip
_BLAMES = {
    "string_m": "string_length",
    "post_m": "post_diameter",
    "yarn_kg_m": "yarn",
    "winding_n": "winding_tension",
    "thread_m": "thread_diameter",
    "brace_n": "brace_pull",
}
_POST = Number(
    key="post_diameter",
    label="Posts across",
    hint="Diameter of the posts, pins or nails that the strand goes round.",
    group=fields.ENDS,
    example="1/2 in",
    quantity="thickness",
    low=0.05 * INCH,
    high=12 * INCH,
)
_TENSION = Number(
    key="winding_tension",
    label="Pull while winding",
    hint="In the one strand, light and the same all the way. Leave empty to be advised.",
    group=fields.CORD,
    example="advise",
    absent="advise",
    quantity="force",
    low=0.02 * POUND_FORCE,
    high=200 * POUND_FORCE,
)
_THREAD = replace(fields.THREAD_DIAMETER, group=fields.ENDS, example="0.020 in")
_STRANDS = replace(
    fields.STRANDS, hint="An even count: each time round the posts makes two. Leave empty to be advised."
)


class EndlessInputs(cords.StrandInputs):
    """What was read, in SI, by field key."""

    string_length: float
    draw_weight: float
    brace_pull: float | None
    yarn: float
    strands: float | None
    winding_tension: float | None
    post_diameter: float
    thread_diameter: float
    tip_upper: Section | None
    tip_lower: Section | None


def _winding(values: EndlessInputs) -> Winding:
    """Turn what was read into what is to be wound; a count that is left open is that of a twisted string."""
    strand, asked = cords.strand_of(values), values.strands
    if asked is None:
        asked = choose(strand, None, 2, values.draw_weight).strands
    return Winding(
        string_m=values.string_length,
        post_m=values.post_diameter,
        fibre=strand.fibre,
        yarn_kg_m=values.yarn,
        strands=int(asked),
        brace_n=braced_pull(values.draw_weight, values.brace_pull),
        winding_n=values.winding_tension,
        thread_m=values.thread_diameter,
        upper=values.tip_upper,
        lower=values.tip_lower,
    )


def _headlines(made: Wound) -> tuple[Sentence, ...]:
    times = "once" if made.winding.wraps == 1 else "{wraps} times"
    return (
        Sentence(level="answer", lead="Set the posts", text="{post_spacing} from outer side to outer side",
                 span="{post_spacing.low} to {post_spacing.high}"),
        Sentence(level="answer", lead="Wind", text=f"{times} round both posts for {{strands}} strands: {{cord_total}}",
                 span="{cord_total.low} to {cord_total.high} of cord"),
        Sentence(level="answer", lead="Pull", text="{winding_pull} in the strand, the same all the way",
                 span="together the strands draw the posts in with {posts_pull}"),
        Sentence(level="answer", lead="Serve", text="{loop_served_upper} for the upper loop, {loop_served_lower} for "
                 "the lower, then bind both legs over {loop_bound}", span="{thread_length} of thread in all"),
        Sentence(level="answer", lead="Twist in", text="{turns_body} turns, which leave {turns_kept} of its strength; "
                 "at most {turns_most}, which leave {most_kept}",
                 span="with none it is {string_longest} long, with the most {string_shortest}"),
    )  # fmt: skip


def _cautions(made: Wound) -> tuple[Sentence, ...]:
    figures = made.figures
    said = [
        Sentence(level="caution", standing=True, text="Fix the posts so that they cannot bend or jump out: wound "
                 "strands pull them together with {posts_pull} and more. Keep your face out of the line between them."),
        Sentence(level="caution", standing=True, text="All strands are one: where one is cut, the whole loop comes "
                 "loose. Retire the string at the first broken strand."),
    ]  # fmt: skip
    short = (figures["post_spacing"].high - figures["post_spacing"].value) > figures["twist_taken"].value
    if short:
        said.append(
            Sentence(text="Turns make this string shorter and hardly longer. If its stretch or its tips are not sure, "
                     "set the posts towards the wide end of the range, and twist the rest out.")
        )  # fmt: skip
    if figures["turns_taut"].value < figures["turns_most"].value:
        said.append(
            Sentence(text="From {turns_taut} turns on the strands inside hang slack while the bow is braced, and only "
                     "bear when it is drawn. Put in no more turns than you need.")
        )  # fmt: skip
    kind = made.winding.fibre
    return (*said, cautions.FIRST_BRACING, *cautions.of_fibre(kind), cautions.DOUBT)


def plan(values: EndlessInputs) -> Answer:
    """Return the answer for an endless string.

    Parameters
    ----------
    values : EndlessInputs
        As read.

    Raises
    ------
    DomainError
        With the field at fault, or a name from below that `_BLAMES` knows.
    """
    made = endless(_winding(values))
    numbers = endless_rows.numbers(made, values.draw_weight)
    told = by_the_yard(WORKSHEET.row_texts, "thread_length", numbers["thread_length"])
    return Answer(
        rows=rows(_RESULTS, numbers, told),
        headlines=_headlines(made),
        cautions=(*cords.unsure(cords.strand_of(values)), *_cautions(made)),
        leaves_out=TEXT.leaves_out,
        figures=lambda system: endless_drawings.drawings(made, system),
        next=(onward.make(2, "endless"), onward.BRACE),
    )


WORKSHEET = Worksheet(
    id="endless",
    place=60,
    title="An endless string",
    purpose="From the string a bow needs to two posts, a count of wraps, served loops and the twist it takes.",
    groups=(fields.BOW, fields.CORD, fields.ENDS),
    fields=(
        fields.STRING_LENGTH, fields.DRAW_WEIGHT, fields.BRACE_PULL, fields.FIBRE, fields.YARN, _STRANDS, _TENSION,
        _POST, _THREAD, fields.TIP_UPPER, fields.TIP_LOWER,
    ),
    results=_RESULTS,
    plan=plan,
    inputs=EndlessInputs,
    text=TEXT,
    blames=_BLAMES,
    guides=(
        Guide(page="endless", step="posts", words="Set the posts"),
        Guide(page="endless", step="tie", words="Tie off and wind"),
        Guide(page="endless", step="swing", words="Turn the posts crosswise"),
    ),
)  # fmt: skip
