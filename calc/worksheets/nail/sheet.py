"""On the nail: hang a weight on the finished string, and know its brace height before the bow has bent."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.geometry.ends import is_pipe
from calc.making.tuning import HEAVY_SHARE, heaviest_n, predict_brace
from calc.numerics import Spread
from calc.worksheets.core import Answer, Guide, Sentence, SheetText, Worksheet, cautions, cords, rows
from calc.worksheets.core import next_steps as onward
from calc.worksheets.nail import drawings as nail_drawings
from calc.worksheets.nail import words
from calc.worksheets.nail.fields import FIELDS, GROUPS, NailInputs, chosen, hung

if TYPE_CHECKING:
    from calc.making.strands import Chosen
    from calc.making.tuning import Nailed

TEXT = SheetText(__spec__)


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
    return found | {key: figures[key] for key in (*_OPTIONAL, *_NARROWER) if key in figures}


_OPTIONAL = ("grown_length", "loops_grown")
_NARROWER = {
    "narrower_thread": "Stretch a thread from nock to nock over the unbraced bow. Measured to limbs and handle, it "
    "makes the range {narrower_thread} narrower.",
    "narrower_ends": "Measure throat to throat, and nock to throat with each loop on its tip: the range becomes "
    "{narrower_ends} narrower.",
    "narrower_night": "Leave it under the weight overnight, and measure again: the range becomes {narrower_night} "
    "narrower.",
    "narrower_twice": "Read each length twice, and type the middle: the range becomes {narrower_twice} narrower.",
}
"""What would narrow the range of the brace height, each by the row that says by how much."""


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
    said.extend(Sentence(text=text) for key, text in _NARROWER.items() if key in done.figures)
    pipes = (cautions.PIPE,) if any(is_pipe(each.section) for each in (done.hung.upper, done.hung.lower)) else ()
    return (
        *said,
        *cautions.of_brace_height(done.hung.bow.nock_to_nock_m, done.hung.wanted_m),
        cautions.FIRST_BRACING,
        *pipes,
        *cords.counted_on(made.strand),
        *cords.cautions_of(made.strand),
        cautions.DOUBT,
    )


def plan(values: NailInputs) -> Answer:
    """Return an answer with what the string on the nail will do on the bow.

    Parameters
    ----------
    values : NailInputs
        As read.

    Raises
    ------
    DomainError
        With the field at fault, or a name from below that `BLAMES` knows.
    """
    made = chosen(values)
    done = predict_brace(hung(values, made))
    numbers = _numbers(done, made)
    return Answer(
        rows=rows(words.RESULTS, numbers, WORKSHEET.row_texts),
        headlines=words.headlines(done),
        cautions=_cautions(done, made),
        leaves_out=TEXT.leaves_out,
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
    plan=plan,
    inputs=NailInputs,
    text=TEXT,
    shared=(cords.SENTENCES,),
    blames=words.BLAMES,
    next=(onward.BRACE, onward.TUNE),
    guides=(Guide(page="settle", step="on-nail", words="Measure it on the nail"),),
)
