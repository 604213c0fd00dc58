"""The numbers of settling and how each is worked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.data import practice
from calc.spread import Spread
from calc.worksheets.schema import Told

if TYPE_CHECKING:
    from calc.making import Settled

_OWN = "derived:settling"
TOLD = (
    Told(
        key="string_length", symbol="S", words="String on the braced bow, nock to nock", quantity="length",
        working="as asked", source="input", kind="exact",
    ),
    Told(
        key="make_length", symbol="", words="Make it, fresh and slack", quantity="length",
        working="{string_length} ÷ (1 + {strain}) ÷ (1 + {taken})", source=_OWN,
    ),
    Told(
        key="string_length_slack", symbol="", words="The same string settled, slack", quantity="length",
        working="{string_length} ÷ (1 + {strain})", source="derived:stretch",
    ),
    Told(
        key="shorter_by", symbol="", words="Shorter than on the bow by", quantity="length",
        working="{string_length} − {make_length}", source=_OWN,
    ),
    Told(
        key="hanging_weight", symbol="", words="Weight to hang", quantity="force",
        working="as asked, or the pull the string will live under", source=_OWN,
    ),
    Told(
        key="hang_time", symbol="t", words="Hang it for", quantity="duration",
        working="as asked, or until what remains is {settled_left}, a day at most", source=_OWN,
    ),
    Told(
        key="settled_left", symbol="", words="Growth left in a string that counts as settled", quantity="length",
        working="a turn or two takes it up", source="common-practice", kind="practice",
    ),
    Told(
        key="elastic_length", symbol="", words="Stretch on the bow, given back each time", quantity="length",
        working="{string_length} − {string_length_slack}", source="derived:stretch",
    ),
    Told(
        key="taken_length", symbol="", words="Taken out by settling, for good", quantity="length",
        working="{string_length_slack} − {make_length}", source=_OWN,
    ),
    Told(
        key="taken", symbol="", words="Settling takes out", quantity="fraction",
        working="{bedding_taken} of bedding + {creep_taken} of creep", source=_OWN,
    ),
    Told(
        key="bedding_taken", symbol="", words="Of it, the lay closing up", quantity="fraction",
        working="{bedding} × (1 − what is still open after {hang_time} under {hanging_weight})", source=_OWN,
    ),
    Told(
        key="creep_taken", symbol="", words="Of it, the fibre creeping", quantity="fraction",
        working="{creep_decade} a tenfold of time, brought to {hanging_weight}, the warmth and the time",
        source=_OWN,
    ),
    Told(
        key="left_length", symbol="", words="Still to come on the bow", quantity="length",
        working="{left} of {string_length}", source=_OWN,
    ),
    Told(
        key="left", symbol="", words="Settling leaves", quantity="fraction",
        working="{bedding_left} of bedding + {creep_left} of creep in {work_time} under {tension_brace}", source=_OWN,
    ),
    Told(
        key="bedding_left", symbol="", words="Of it, the lay closing up", quantity="fraction",
        working="{bedding} − {bedding_taken}", source=_OWN,
    ),
    Told(
        key="creep_left", symbol="", words="Of it, the fibre creeping", quantity="fraction",
        working="goes on from what settling took out, slower with each tenfold of time", source=_OWN,
    ),
    Told(
        key="creep_decade", symbol="", words="Creep in each tenfold of time, at 30 % of the strength and 20 °C",
        quantity="fraction", working="from the fibre table", source="fibre-table", kind="measured",
    ),
    Told(
        key="night_taken", symbol="", words="A braced night takes out instead", quantity="length",
        working="{night} under {tension_brace}, no weight", source=_OWN,
    ),
    Told(
        key="night_left", symbol="", words="And leaves", quantity="length",
        working="in {work_time} braced after that night", source=_OWN,
    ),
    Told(
        key="night", symbol="", words="A night", quantity="duration", working="as the trade has it",
        source="common-practice", kind="practice",
    ),
    Told(
        key="work_time", symbol="", words="Braced after that, in all", quantity="duration", working="as asked",
        source="input", kind="exact",
    ),
    Told(
        key="temperature", symbol="", words="Warmth of the string", quantity="temperature", working="as told",
        source="input", kind="measured",
    ),
    Told(
        key="weight_share", symbol="", words="Weight ÷ what the made string holds", quantity="fraction",
        working="{hanging_weight} ÷ {breaking_force}", source="derived:strength",
    ),
    Told(
        key="breaking_force", symbol="", words="The made string breaks at", quantity="force",
        working="{strands} strands, their sum less what laying, sharing and splices take", source="derived:strength",
    ),
    Told(
        key="strands", symbol="k", words="Strands in the whole string", quantity="count",
        working="as asked, or as many as the draw weight needs", source="derived:strength",
    ),
    Told(
        key="tension_brace", symbol="T₀", words="Pull in the braced string", quantity="force",
        working="as told, or {brace_share} × {draw_weight}", source="derived:statics",
    ),
    Told(
        key="brace_share", symbol="", words="Pull in the braced string ÷ draw weight", quantity="ratio",
        working="over usual bows, more or less string follow", source="derived:statics", kind="practice",
    ),
)  # fmt: skip


def numbers(made: Settled, draw_weight_n: float) -> dict[str, Spread | float]:
    """Return every number the working shows, by row key."""
    fresh, held = made.fresh, made.figures["breaking_force"]
    return {
        **made.figures,
        "string_length": fresh.string_m,
        "hanging_weight": made.hang_n,
        "hang_time": made.hang_s,
        "work_time": fresh.work_s,
        "night": practice("braced_night").spread,
        "settled_left": practice("settled_left").spread,
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
