"""How many strands: strong enough for the hardest pull of a shot, thick enough to hold."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, cast

from calc.data import fibre, practice
from calc.making.strands import Strand, choose
from calc.units import GRAIN, INCH
from calc.worksheets.core import (
    Answer,
    Choice,
    Example,
    Guide,
    Number,
    Option,
    Sentence,
    Worksheet,
    cautions,
    fields,
    rows,
)
from calc.worksheets.core import next_steps as onward
from calc.worksheets.strands import drawings as strands_drawings
from calc.worksheets.strands import rows as strands_rows
from calc.worksheets.strands import rules as strands_rules

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.geometry.lay import Hand
    from calc.making.strands import Chosen
    from calc.mechanics.fibre import Rating
    from calc.worksheets.core import Value

_RESULTS = ("strands", "breaking_force", "tension_peak", "safety_factor", "bundle_diameter", "cord_diameter")
_SENTENCES = {
    "no_size": "Say how heavy or how thick one strand is: weigh a length of it, or measure it across",
    "too_thin": "A strand of that weight is at least {limit} thick. Check its weight and its thickness",
    "too_many": "It would take thousands of these strands. Check the size of one, or choose a stronger cord",
    "few_strands": "There must be at least one strand in each bundle",
    "uneven_strands": "Strands must share evenly between the bundles",
}
_BLAMES = {"yarn_kg_m": "yarn", "thickness_m": "strand_thickness"}
_LEAVES_OUT = (
    "A shot without an arrow, which pulls harder than any shot with one.",
    "Wear, knots, damp, sun and age: that is what the working margin is for.",
    "How unevenly your own hands share the pull among the strands: the spread holds what the trade is known to do.",
    "That more strands are stiffer, which gives back a little of the speed their weight costs.",
    "The limbs: a light or fast limb pulls harder at the end of the shot than the bow the ratio was worked out for.",
)
_BOW_KIND = Choice(
    key="bow_kind",
    label="What bow it is",
    hint="A fibre that hardly stretches breaks bows that were not built for it.",
    group=fields.BOW,
    example="wood",
    options=(
        Option(value="wood", label="wood, or not known"),
        Option(value="youth", label="a young archer's bow"),
        Option(value="pipe", label="plastic pipe"),
        Option(value="low_stretch", label="built for low-stretch strings, its maker says so"),
    ),
)
_ARROW_MASS = Number(
    key="arrow_mass",
    label="Arrow weight",
    hint="One whole arrow. A light arrow makes the end of the shot harder. Leave empty for a usual one.",
    group=fields.BOW,
    example=fields.NOT_KNOWN,
    absent=fields.NOT_KNOWN,
    quantity="mass",
    low=50 * GRAIN,
    high=3000 * GRAIN,
)
_STRAND_KIND = Choice(
    key="strand_kind",
    label="Sold as",
    hint="Yarn rolls flat under a finger; laid or braided cord keeps its own round.",
    group=fields.CORD,
    example="yarn",
    options=(
        Option(value="yarn", label="string yarn or thread"),
        Option(value="cord", label="laid or braided cord"),
    ),
)
_YARN = replace(
    fields.YARN,
    absent=fields.NOT_KNOWN,
    hint="tex, dtex, den, m/kg or yd/lb; or weigh a length: 8.4 g / 50 m. Leave empty if only its thickness is known.",
)
_THICKNESS = Number(
    key="strand_thickness",
    label="Thickness of one strand",
    hint="Measured across; of yarn it is used only where its size is not known.",
    group=fields.CORD,
    example=fields.NOT_KNOWN,
    absent=fields.NOT_KNOWN,
    quantity="thickness",
    low=0.003 * INCH,
    high=0.5 * INCH,
)
_EXAMPLES = (
    Example(name="usual", words="A 40 lbf wooden bow and polyester string yarn"),
    Example(name="youth", words="A young archer's bow of 20 lbf",
            inputs={"bow_kind": "youth", "draw_weight": "20 lbf"}),
    Example(
        name="hardware", words="Polypropylene cord from a hardware shelf, its label says 450 lbf",
        inputs={"fibre": "polypropylene", "strand_kind": "cord", "yarn": "not known", "strand_thickness": "1/8 in",
                "rated_load": "450 lbf", "bow_kind": "pipe", "draw_weight": "30 lbf"},
    ),
    Example(name="linen", words="Linen thread of 6 lbf for a 50 lbf longbow",
            inputs={"fibre": "linen", "yarn": "75 tex", "rated_load": "6 lbf", "rating": "breaking",
                    "draw_weight": "50 lbf"}),
    Example(name="low-stretch", words="HMPE on a wooden bow", inputs={"fibre": "hmpe", "yarn": "180 tex"}),
    Example(name="three", words="Three bundles, light arrow, cord weighed",
            inputs={"bundles": "3", "hand": "S", "strand_kind": "cord", "yarn": "2.2 g / 1 m", "arrow_mass": "180 gr"}),
    Example(name="few", words="Fewer strands than it needs", inputs={"strands": "6"}),
    Example(name="no-size", words="Neither weight nor thickness", inputs={"yarn": ""}, refused=("yarn",)),
    Example(name="too-thin", words="Heavier than it can be for its thickness",
            inputs={"yarn": "2000 tex", "strand_thickness": "0.02 in"}, refused=("strand_thickness",)),
    Example(name="hair", words="Finer than any hand can count",
            inputs={"fibre": "sinew", "yarn": "5 tex", "draw_weight": "200 lbf"}, refused=("yarn",)),
    Example(name="two-in-three", words="Two strands in three bundles", inputs={"strands": "2", "bundles": "3"},
            refused=("strands",)),
    Example(name="uneven", words="Nine strands in two bundles", inputs={"strands": "9"}, refused=("strands",)),
    Example(name="text", words="Words for a number", inputs={"draw_weight": "heavy"}, refused=("draw_weight",)),
    Example(name="other-bow", words="A kind of bow that is not listed", inputs={"bow_kind": "steel"},
            refused=("bow_kind",)),
)  # fmt: skip


def _choose(values: Mapping[str, Value]) -> Chosen:
    """Turn what was read into a strand and a count of it."""
    strand = Strand(
        fibre=fibre(cast("str", values["fibre"])),
        laid=values["strand_kind"] == "cord",
        yarn_kg_m=cast("float | None", values["yarn"]),
        thickness_m=cast("float | None", values["strand_thickness"]),
        rated_n=cast("float | None", values["rated_load"]),
        rating=cast("Rating", values["rating"]),
    )
    asked = cast("float | None", values["strands"])
    return choose(
        strand,
        None if asked is None else int(asked),
        int(cast("str", values["bundles"])),
        cast("float", values["draw_weight"]),
        cast("float | None", values["arrow_mass"]),
    )


def _verdict(chosen: Chosen) -> str:
    """Say what to think of the safety factor."""
    margin, safety = practice("working_margin").spread, chosen.held.safety
    if safety.value < 1.0:
        return "too weak: a shot can break it"
    if safety.value < margin.low:
        return "too little in hand for a new string"
    if safety.low < 1.0:
        return "enough as a rule, but not if all goes the wrong way"
    return "strong enough"


def _headlines(chosen: Chosen) -> tuple[Sentence, ...]:
    each = chosen.strands // chosen.bundles
    said = [
        Sentence(level="answer", lead="Take", text=f"{{strands}} strands, {chosen.bundles} bundles of {each}",
                 span="strength asks {for_strength}, thickness {for_thickness}"),
        Sentence(level="answer", lead="Holds", text="{breaking_force} when made, against {tension_peak} in a shot",
                 span="{breaking_force.low} to {breaking_force.high}, against {tension_peak.low} to "
                      "{tension_peak.high}"),
        Sentence(level="answer", lead="That is", text=f"{{safety_factor}} times: {_verdict(chosen)}",
                 span="{safety_factor.low} to {safety_factor.high} times"),
        Sentence(level="answer", lead="Thick", text="{cord_diameter} plied, from bundles of {bundle_diameter}",
                 span="{cord_diameter.low} to {cord_diameter.high} plied"),
        Sentence(level="answer", lead="Costs", text="little speed: twice the strands, {speed_cost} of the arrow's",
                 span="{speed_cost.low} to {speed_cost.high}"),
    ]  # fmt: skip
    return tuple(said)


def _cautions(chosen: Chosen, bow_kind: str, arrow_kg: float | None) -> tuple[Sentence, ...]:
    said: list[str] = []
    if cautions.low_stretch(chosen.strand.fibre) and bow_kind != "low_stretch":
        said.append(
            "Not on this bow: it was not made for a string that hardly stretches, and can break at the nock or in "
            "the limb. Take polyester, or linen or hemp for a bow of the old kind."
        )
    if chosen.held.safety.value < practice("working_margin").spread.low:
        said.append(
            "Too weak: this string holds {safety_factor} times the hardest pull of a shot; a new one should hold "
            "{margin}. Take {for_strength} strands or more."
        )
    elif chosen.held.safety.low < 1.0:
        said.append(
            "If all that is uncertain goes the wrong way, this string holds only {safety_factor.low} times the hardest "
            "pull of a shot. A few strands more cost little."
        )
    said += strands_rules.of_size(chosen, arrow_kg)
    own = tuple(Sentence(level="caution", text=text) for text in said)
    kind = {"pipe": (cautions.PIPE,), "youth": (cautions.YOUNG,)}.get(bow_kind, ())
    return (*own, cautions.FIRST_BRACING, *kind, *cautions.of_fibre(chosen.strand.fibre), cautions.DOUBT)


def plan(values: Mapping[str, Value]) -> Answer:
    """Answer how many strands.

    Raises
    ------
    DomainError
        With the field at fault, or a name from below that `_BLAMES` knows.
    """
    chosen, hand = _choose(values), cast("Hand", values["hand"])
    string_m = cast("float", values["nock_to_nock"])
    return Answer(
        rows=rows(_RESULTS, strands_rows.numbers(chosen, string_m), strands_rows.own(chosen.strand)),
        headlines=_headlines(chosen),
        cautions=_cautions(chosen, cast("str", values["bow_kind"]), cast("float | None", values["arrow_mass"])),
        leaves_out=_LEAVES_OUT,
        figures=lambda system: strands_drawings.drawings(chosen, string_m, hand, system),
        tables=lambda system: (strands_rules.compared(chosen, system),),
    )


WORKSHEET = Worksheet(
    id="strands",
    place=30,
    title="How many strands",
    purpose="From a bow and a cord to a count that holds the hardest pull of a shot, with room to spare.",
    groups=(fields.BOW, fields.CORD, fields.METHOD),
    fields=(
        fields.DRAW_WEIGHT, fields.NOCK_TO_NOCK, _BOW_KIND, _ARROW_MASS, fields.FIBRE, _STRAND_KIND, _YARN,
        _THICKNESS, fields.RATED_LOAD, fields.RATING, fields.STRANDS, fields.BUNDLES, fields.HAND,
    ),
    results=_RESULTS,
    examples=_EXAMPLES,
    plan=plan,
    sentences=_SENTENCES,
    blames=_BLAMES,
    told=strands_rows.TOLD,
    next=(onward.PLAN,),
    guides=(
        Guide(page="choose-cord", step="strong", words="Work out whether it is strong enough"),
        Guide(page="two-bundle", step="cut", words="Cut the strands"),
    ),
)  # fmt: skip
