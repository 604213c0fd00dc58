"""The numbers of settling and how each is worked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.data import practice, rule
from calc.making.tuning import heaviest_n
from calc.numerics import Spread
from calc.worksheets.core import RowText

if TYPE_CHECKING:
    from calc.making.tuning import Settled

_OWN = "derived:settling"
TOLD = (
    RowText(
        key="string_length", symbol="S", words="String on the braced bow, nock to nock", quantity="length",
        working="as asked", source="input", kind="exact",
    ),
    RowText(
        key="make_length", symbol="", words="Make it, fresh and slack", quantity="length",
        working="{string_length} ÷ (1 + {strain}) ÷ (1 + {taken})", source=_OWN,
    ),
    RowText(
        key="string_length_slack", symbol="", words="The same string settled, slack", quantity="length",
        working="{string_length} ÷ (1 + {strain})", source="derived:stretch",
    ),
    RowText(
        key="shorter_by", symbol="", words="Shorter than on the bow by", quantity="length",
        working="{string_length} − {make_length}", source=_OWN,
    ),
    RowText(
        key="hanging_weight", symbol="", words="Weight to hang", quantity="force",
        working="as asked, or {weight_advised}", source="common-practice", kind="practice",
    ),
    RowText(
        key="hang_time", symbol="t", words="Hang it for", quantity="duration", working="as asked, or an hour",
        source="common-practice", kind="practice",
    ),
    RowText(
        key="weight_advised", symbol="", words="Weight that would be advised", quantity="force",
        working="the pull of the braced string, {tension_brace}; no more than {weight_usual}, nor than a third of the "
        "least that {breaking_force} may be", source="common-practice", kind="practice",
    ),
    RowText(
        key="weight_usual", symbol="", words="Weight that makers hang", quantity="force", working="as the trade has it",
        source="common-practice", kind="practice",
    ),
    RowText(
        key="weight_most", symbol="", words="Most that anybody should hang", quantity="force",
        working="the upper end of what makers hang, {weight_usual}; own caution", source="common-practice",
        kind="practice",
    ),
    RowText(
        key="elastic_length", symbol="", words="Stretch on the bow, given back each time", quantity="length",
        working="{string_length} − {string_length_slack}", source="derived:stretch",
    ),
    RowText(
        key="taken_length", symbol="", words="Taken out by settling, for good", quantity="length",
        working="{string_length_slack} − {make_length}", source=_OWN,
    ),
    RowText(
        key="taken", symbol="", words="Settling takes out", quantity="fraction",
        working="{bedding_taken} of bedding + {creep_taken} of creep", source=_OWN,
    ),
    RowText(
        key="bedding_taken", symbol="", words="Of it, the lay closing up", quantity="fraction",
        working="{bedding} × (1 − what is still open after {hang_time} under {hanging_weight})", source=_OWN,
    ),
    RowText(
        key="creep_taken", symbol="", words="Of it, the fibre creeping", quantity="fraction",
        working="{creep_decade} a tenfold of time, brought to {hanging_weight}, the warmth and the time",
        source=_OWN,
    ),
    RowText(
        key="left_length", symbol="", words="Still to come on the bow", quantity="length",
        working="{left} of {string_length}", source=_OWN,
    ),
    RowText(
        key="left", symbol="", words="Settling leaves", quantity="fraction",
        working="{bedding_left} of bedding + {creep_left} of creep in {work_time} under {tension_brace}", source=_OWN,
    ),
    RowText(
        key="settled_share", symbol="", words="Share of all its growth that settling takes out", quantity="fraction",
        working="{taken_length} ÷ ({taken_length} + {left_length})", source=_OWN,
    ),
    RowText(
        key="left_turns", symbol="", words="Turns that bring it back", quantity="turns",
        working="{left_length} ÷ {growth_per_turn} that a turn takes up", source="derived:tuning",
    ),
    RowText(
        key="left_brace", symbol="", words="Brace height it would lose", quantity="length",
        working="a string longer by {left_length} on a bow of {bow_length}", source="derived:limbs",
    ),
    RowText(
        key="bow_length", symbol="", words="Bow that the string braces so high, nock to nock", quantity="length",
        working="limbs that {string_length} braces to {brace_wanted}", source="derived:limbs",
    ),
    RowText(
        key="growth_per_turn", symbol="", words="Growth that one turn takes up", quantity="thickness",
        working="free body of {bundle_diameter} bundles turned at its ends, less what splices take of a turn",
        source="derived:tuning",
    ),
    RowText(
        key="bundle_diameter", symbol="D", words="One bundle", quantity="thickness",
        working="strands ÷ bundles, rolled round", source="derived:packing",
    ),
    RowText(
        key="hour_taken", symbol="", words="An hour braced takes out instead", quantity="length",
        working="{hour} under {tension_brace}, no weight", source=_OWN,
    ),
    RowText(
        key="hour", symbol="", words="An hour", quantity="duration", working="as the trade has it",
        source="common-practice", kind="practice",
    ),
    RowText(
        key="bedding_left", symbol="", words="Of it, the lay closing up", quantity="fraction",
        working="{bedding} − {bedding_taken}", source=_OWN,
    ),
    RowText(
        key="creep_left", symbol="", words="Of it, the fibre creeping", quantity="fraction",
        working="goes on from what settling took out, slower with each tenfold of time", source=_OWN,
    ),
    RowText(
        key="creep_decade", symbol="", words="Creep in each tenfold of time, at 30 % of the strength and 20 °C",
        quantity="fraction", working="from the fibre table", source="fibre-table", kind="measured",
    ),
    RowText(
        key="night_taken", symbol="", words="A braced night takes out instead", quantity="length",
        working="{night} under {tension_brace}, no weight", source=_OWN,
    ),
    RowText(
        key="night_left", symbol="", words="And leaves", quantity="length",
        working="in {work_time} braced after that night", source=_OWN,
    ),
    RowText(
        key="night", symbol="", words="A night", quantity="duration", working="as the trade has it",
        source="common-practice", kind="practice",
    ),
    RowText(
        key="work_time", symbol="", words="Braced after that, in all", quantity="duration", working="as asked",
        source="input", kind="exact",
    ),
    RowText(
        key="temperature", symbol="", words="Warmth of the string", quantity="temperature", working="as told",
        source="input", kind="measured",
    ),
    RowText(
        key="weight_share", symbol="", words="Weight ÷ what the made string holds", quantity="fraction",
        working="{hanging_weight} ÷ {breaking_force}", source="derived:strength",
    ),
    RowText(
        key="breaking_force", symbol="", words="The made string breaks at", quantity="force",
        working="{strands} strands, their sum less what laying, sharing and splices take", source="derived:strength",
    ),
    RowText(
        key="strands", symbol="k", words="Strands in the whole string", quantity="count",
        working="as asked, or as many as the draw weight needs", source="derived:strength",
    ),
    RowText(
        key="tension_brace", symbol="T₀", words="Pull in the braced string", quantity="force",
        working="as told, or {brace_share} × {draw_weight}", source="derived:statics",
    ),
    RowText(
        key="brace_share", symbol="", words="Pull in the braced string ÷ draw weight", quantity="ratio",
        working="over usual bows, more or less string follow", source="derived:statics", kind="practice",
    ),
)  # fmt: skip


def numbers(made: Settled, draw_weight_n: float) -> dict[str, Spread | float]:
    """Return every number the working shows, by row key."""
    fresh, held = made.fresh, made.figures["breaking_force"]
    tuned = fresh.tuned()
    return {
        **made.figures,
        "string_length": fresh.string_m,
        "hanging_weight": made.hang_n,
        "hang_time": made.hang_s,
        "work_time": fresh.work_s,
        "night": practice("braced_night").spread,
        "hour": practice("settle_time").spread,
        "weight_advised": fresh.advised_n,
        "weight_usual": rule("settling").figure("weight").spread,
        "weight_most": heaviest_n(),
        "brace_wanted": fresh.on_bow.brace_m,
        "bow_length": tuned.bow.nock_to_nock_m,
        "bundle_diameter": tuned.bundle_m or 0.0,
        "temperature": fresh.temperature_k,
        "weight_share": Spread(made.hang_n / held.high, made.hang_n / held.value, made.hang_n / held.low),
        "strands": fresh.strands,
        "yarn": fresh.yarn_kg_m,
        "tension_brace": fresh.brace_n,
        "brace_share": practice("brace_pull").spread,
        "draw_weight": draw_weight_n,
        "bedding": practice("bedding").spread,
        "creep_decade": fresh.fibre.creep_decade,
    }
