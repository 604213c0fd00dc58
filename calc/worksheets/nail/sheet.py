"""On the nail: hang a weight on the finished string, and know its brace height before the bow has bent."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.geometry.ends import is_pipe
from calc.making.tuning import HEAVY_SHARE, heaviest_n, predict_brace
from calc.numerics import Spread
from calc.worksheets.core import Answer, Example, Guide, Sentence, Worksheet, cautions, cords, rows
from calc.worksheets.core import next_steps as onward
from calc.worksheets.nail import drawings as nail_drawings
from calc.worksheets.nail import words
from calc.worksheets.nail.fields import FIELDS, GROUPS, chosen, hung

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.making.strands import Chosen
    from calc.making.tuning import Nailed
    from calc.worksheets.core import Value

_EXAMPLES = (
    Example(name="usual", words="A new polyester string for a 66 in longbow, under 50 lbf for an hour"),
    Example(name="sure", words="Throats and nocks measured, two weights, growth read",
            inputs={"throats_length": "62 15/16 in", "reach_upper": "7/16 in", "reach_lower": "1/4 in",
                    "second_weight": "25 lbf", "second_length": "64 7/16 in", "first_length": "64 11/16 in",
                    "throats_first": "62 3/4 in"}),
    Example(name="slips", words="The loops grew, the body did not",
            inputs={"throats_length": "62 15/16 in", "first_length": "64 1/2 in", "throats_first": "62 7/8 in"}),
    Example(name="odd", words="The loops seem to have shrunk",
            inputs={"throats_length": "62 15/16 in", "first_length": "64 7/8 in", "throats_first": "62 1/2 in"}),
    Example(name="taught", words="A string was on this bow before, of this cord, and hung on this nail",
            inputs={"measured_string": "64 in", "measured_brace": "6 1/2 in", "earlier_hung": "64 3/4 in",
                    "throats_length": "62 15/16 in", "reach_upper": "7/16 in", "reach_lower": "1/4 in"}),
    Example(name="nail-only", words="That string's brace height and its length on the nail alone",
            inputs={"measured_brace": "6 1/4 in", "earlier_hung": "64 7/8 in"}),
    Example(name="settled", words="A night on the nail, with hardly any growth since",
            inputs={"hang_time": "8 h", "first_length": "64 13/16 in"}),
    Example(name="there", words="Just as wanted",
            inputs={"hang_time": "8 h", "first_length": "64 7/8 in", "brace_height": "6 7/16 in"}),
    Example(name="down", words="Too short: turns come out", inputs={"hung_length": "64 1/2 in", "turns": "70"}),
    Example(name="pipe", words="A pipe bow of 25 lbf in metric, a bucket of 10 kg, two days",
            inputs={"hanging_weight": "10 kgf", "hung_length": "121,5 cm", "peg_diameter": "12 mm", "hang_time": "2 d",
                    "nock_to_nock": "127 cm", "handle_length": "?", "limb_shape": "unknown", "draw_weight": "110 N",
                    "draw_length": "51 cm", "brace_height": "15 cm", "fibre": "polypropylene", "yarn": "1000 tex",
                    "strands": "", "cord_diameter": "", "tip_upper": "pipe 3/4", "tip_lower": "pipe 3/4",
                    "turns": "", "tail_length": "10 cm", "bundles": "3"}),
    Example(name="nameless", words="A cord that nobody can name, two weights",
            inputs={"fibre": "unknown", "second_weight": "20 lbf", "second_length": "64 7/16 in"}),
    Example(name="short", words="Too short for turns to mend", inputs={"hung_length": "62 1/2 in"}),
    Example(name="long", words="Too long for turns to mend", inputs={"hung_length": "66 in", "turns": "60"}),
    Example(name="heavy", words="More weight than is wise", inputs={"hanging_weight": "110 lbf"}),
    Example(name="breaks", words="A weight that breaks it", inputs={"hanging_weight": "480 lbf"},
            refused=("hanging_weight",)),
    Example(name="too-long", words="Longer than the bow", inputs={"hung_length": "70 in"}, refused=("hung_length",)),
    Example(name="too-short", words="Far too short", inputs={"hung_length": "44 in"}, refused=("hung_length",)),
    Example(name="same", words="The same weight twice",
            inputs={"second_weight": "50 lbf", "second_length": "64 7/8 in"},
            refused=("second_weight",)),
    Example(name="shrinks", words="Longer under less weight",
            inputs={"second_weight": "20 lbf", "second_length": "65 1/4 in"}, refused=("second_length",)),
    Example(name="half", words="A second weight without its length", inputs={"second_weight": "20 lbf"},
            refused=("second_length",)),
    Example(name="one-tip", words="One tip measured, not the other", inputs={"reach_upper": "1/2 in"},
            refused=("reach_lower",)),
    Example(name="no-brace", words="A string and no brace height", inputs={"measured_string": "64 in"},
            refused=("measured_brace",)),
    Example(name="no-string", words="A brace height and no string", inputs={"measured_brace": "6 in"},
            refused=("measured_string",)),
    Example(name="far", words="An earlier string of something else",
            inputs={"measured_brace": "9 in", "earlier_hung": "65 1/2 in"}, refused=("earlier_hung",)),
    Example(name="throats-alone", words="Throats at first, and nothing else", inputs={"throats_first": "63 in"},
            refused=("throats_length",)),
    Example(name="throats-off", words="Throats further apart than the pegs", inputs={"throats_length": "66 in"},
            refused=("throats_length",)),
    Example(name="thick-peg", words="A fence post for a peg", inputs={"peg_diameter": "3 in"},
            refused=("peg_diameter",)),
    Example(name="jammed", words="More turns than fit", inputs={"turns": "450"}, refused=("turns",)),
    Example(name="long-tails", words="No body left", inputs={"tail_length": "24 in", "hung_length": "44 in",
            "nock_to_nock": "45 in", "draw_length": "18 in", "brace_height": "4 1/2 in"}, refused=("tail_length",)),
    Example(name="empty", words="Nothing typed", inputs={"hung_length": ""}, refused=("hung_length",)),
)  # fmt: skip


def _numbers(done: Nailed, made: Chosen) -> dict[str, Spread | float]:
    """Return every number the working shows, by row key."""
    figures, asked = done.figures, done.hung
    change = figures["turns_change"]
    by = change if change.value >= 0.0 else Spread(-change.high, -change.value, -change.low)
    found: dict[str, Spread | float] = {
        "brace_given": figures["brace_height"],
        "turns_on_nail": change,
        "turns_on_nail_by": by,
        "brace_after": figures["brace_then"],
        "string_given": figures["string_length"],
        "hung_then": figures["hung_then"],
        "growth_left": figures["left_length"],
        "nail_per_turn": figures["brace_per_turn"],
        "nail_low": figures["brace_low"],
        "nail_high": figures["brace_high"],
        "pull": done.pull_n,
        "hung_length": done.causes["read 0"].shifted(asked.read.length_m),
        "hung_weight": asked.read.weight_n,
        "hung_time": asked.hung_s,
        "made_breaks": made.strength.breaking_n,
        "nock_to_nock": asked.bow.nock_to_nock_m,
        "handle": asked.bow.causes["handle"],
        "brace_wanted": asked.wanted_m,
        "draw_weight": asked.bow.draw_weight_n or 0.0,
    }
    return found | {key: figures[key] for key in ("grown_length", "loops_grown", "narrower") if key in figures}


def _cautions(done: Nailed, made: Chosen) -> tuple[Sentence, ...]:
    weight_n, said = done.hung.read.weight_n, [cautions.FALLS]
    if weight_n > heaviest_n() or weight_n > HEAVY_SHARE * made.strength.breaking_n.low:
        said.append(
            Sentence(
                level="caution",
                text="That is more weight than anybody should hang on a string: it breaks at {made_breaks.low} if much "
                "goes the wrong way. Take less; the sheet works out the rest.",
            )
        )
    if "loops_grown" in done.figures and done.figures["loops_grown"].low > 0.0:
        said.append(
            Sentence(level="caution", text="A splice that slips on the nail lets go on the bow. Do not brace with it.")
        )
    if "narrower" in done.figures:
        said.append(
            Sentence(
                text="Measure throat to throat, and nock to throat with each loop on its tip: the range of the brace "
                "height becomes {narrower} narrower."
            )
        )
    pipes = (cautions.PIPE,) if any(is_pipe(each.section) for each in (done.hung.upper, done.hung.lower)) else ()
    return (
        *said,
        *cautions.of_brace_height(done.hung.bow.nock_to_nock_m, done.hung.wanted_m),
        cautions.FIRST_BRACING,
        *pipes,
        *cords.unsure(made.strand),
        cautions.DOUBT,
    )


def plan(values: Mapping[str, Value]) -> Answer:
    """Answer what the string on the nail will do on the bow.

    Raises
    ------
    DomainError
        With the field at fault, or a name from below that `BLAMES` knows.
    """
    made = chosen(values)
    done = predict_brace(hung(values, made))
    numbers = _numbers(done, made)
    return Answer(
        rows=rows(words.RESULTS, numbers, words.TOLD),
        headlines=words.headlines(done),
        cautions=_cautions(done, made),
        leaves_out=words.LEAVES_OUT,
        figures=lambda system: (nail_drawings.chart(done, system),),
    )


WORKSHEET = Worksheet(
    id="nail",
    place=66,
    title="On the nail",
    purpose="What a finished string will do on the bow, told by a weight before the bow has ever bent.",
    groups=GROUPS,
    fields=FIELDS,
    results=words.RESULTS,
    examples=_EXAMPLES,
    plan=plan,
    sentences=words.SENTENCES,
    blames=words.BLAMES,
    told=words.TOLD,
    next=(onward.BRACE, onward.TUNE),
    guides=(Guide(page="settle", step="on-nail", words="Measure it on the nail"),),
)
