"""The bench sheet: one string for one bow, from a tape measure to cut lengths, turns and strength."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from calc.data import practice
from calc.making.string import End, Order, plan_string
from calc.numerics import Spread, combine
from calc.worksheets.core import (
    Answer,
    Sentence,
    SheetText,
    Worksheet,
    cautions,
    cords,
    fields,
    read,
    rows,
    tips,
)
from calc.worksheets.core import next_steps as onward
from calc.worksheets.string import drawings as string_drawings
from calc.worksheets.string import learnt, more

if TYPE_CHECKING:
    from calc.geometry.lay import Hand
    from calc.making.strands import Wax
    from calc.making.string import Plan

TEXT = SheetText(__spec__)

_RESULTS = (
    "string_length", "string_length_slack", "brace_height", "brace_low", "brace_high", "strands", "bundle_diameter",
    "cord_diameter", "loop_upper", "loop_lower", "body_raw", "cut_length", "cord_total", "turns_body", "turns_loop",
    "turns_loop_lower", "turns_splice", "counter_twist_body", "take_up_body", "take_up_loop",
    "tension_brace", "tension_draw", "breaking_force", "safety_factor", "string_mass", "settling_growth",
)  # fmt: skip

_BLAMES = {
    "tail_m": "tail_length",
    "bench_k": "bench_temperature",
    "opening_rad": "tip_upper",
    **cords.BLAMES,
    **more.BLAMES,
}


class OrderInputs(read.LimbInputs, cords.StrandInputs, tips.EndInputs):
    """What was read of a bow and its string besides what is measured on that bow alone, in SI, by field key."""

    draw_weight: float
    draw_length: float
    brace_height: float
    arrow_mass: float | None
    strands: float | None
    bench_temperature: float | None
    bundles: Literal["2", "3"]
    hand: Hand
    tail_length: float
    wax: Wax


class StringInputs(OrderInputs, more.MoreInputs):
    """What was read, in SI, by field key."""


def order_of(values: StringInputs) -> Order:
    """Return the order that was told.

    Parameters
    ----------
    values : StringInputs
        As read.
    """
    return Order(
        bow=read.bow_of(values, braced_m=values.brace_height),
        brace_m=values.brace_height,
        upper=End(section=values.tip_upper, fit=values.loop_fit_upper),
        lower=End(section=values.tip_lower, fit=values.loop_fit_lower),
        cord=cords.strand_of(values),
        strands=None if values.strands is None else int(values.strands),
        bundles=int(values.bundles),
        tail_m=values.tail_length,
        bench_k=values.bench_temperature,
        arrow_kg=values.arrow_mass,
        wax=values.wax,
    )


def _bought(cord: Spread, waste: Spread) -> Spread:
    """Return the cord to buy [m]."""
    causes = {"cord": cord, "waste": waste}
    return combine(lambda at: {"bought": at["cord"] * (1.0 + at["waste"])}, causes)["bought"]


def _numbers(plan: Plan) -> dict[str, Spread | float]:
    """Return every number the working shows, by row key."""
    order, chosen, cut = plan.order, plan.chosen, plan.cuts
    window = (plan.edges.tight.turns - plan.edges.loose.turns) or 1.0
    return {
        **plan.figures,
        "middle_cord": plan.lengths.middle.cord_m,
        "taper": cut.step_m * (plan.strands // order.bundles - 1),
        "steps": plan.strands // order.bundles - 1,
        "step": cut.step_m,
        "waste": practice("waste").spread,
        "cord_to_buy": _bought(plan.figures["cord_total"], practice("waste").spread),
        "counter_each": plan.lengths.middle.counter / plan.lengths.middle.turns,
        "turns_loose": plan.edges.loose.turns,
        "turns_tight": plan.edges.tight.turns,
        "brace_per_turn": (plan.figures["brace_high"].value - plan.figures["brace_low"].value) / window,
        "room": plan.room.least,
        "room_chance": plan.room.chance,
        **({} if plan.unread is None else {"brace_unread": plan.unread.figures["brace_height"]}),
        **cords.holding(chosen),
        "nock_to_nock": order.bow.nock_to_nock_m,
        "handle": plan.causes["handle"],
        "brace_wanted": order.brace_m,
        "draw_weight": order.draw_weight_n,
        **cords.size(chosen),
        "tail": order.tail_m,
        "tail_needed": plan.tails.needed,
        "tail_shortest": plan.tails.shortest_m,
        "lay_loosest": practice("lay_loosest").spread,
        "lay_tightest": practice("lay_tightest").spread,
        "settling_growth": plan.moves.spread(lambda at: (1.0 + at["bedding"]) * (1.0 + at["creep"]) - 1.0),
        **{name: plan.causes[name] for name in ("loop_lay", "splice_lay", "body_lay", "strain", "bedding")},
    }


def _headlines(plan: Plan, hand: Hand) -> tuple[Sentence, ...]:
    each = plan.strands // plan.order.bundles
    other = "S" if hand == "Z" else "Z"
    return (
        Sentence(
            level="answer",
            lead="Cut",
            text=f"{{cut_length}} × {plan.strands} strands, {plan.order.bundles} bundles of {each}",
            span="between {cut_length.low} and {cut_length.high}",
        ),
        Sentence(
            level="answer",
            lead="Braces at",
            text="{brace_height}; by turns alone from {brace_low} to {brace_high}",
            span="{brace_height.low} to {brace_height.high} before tuning",
            against="brace_wanted",
        ),
        Sentence(
            level="answer",
            lead=f"Turn, {hand} lay",
            text="{turns_body} turns in the body, {turns_loop} turns in the upper loop, "
            "{turns_loop_lower} turns in the lower",
            span=f"roll {{counter_twist_body}} turns of {other} into each bundle of the body first",
        ),
        Sentence(
            level="answer",
            lead="Strength",
            text=f"{cords.verdict(plan.chosen.strength)}: holds {{safety_factor}} times the hardest pull of a shot",
            span="at the least {safety_factor.low}, at the most {safety_factor.high}; under 1 it breaks",
            against="1",
        ),
        *learnt.headline(plan),
    )


def _cautions(plan: Plan, kind: tips.BowKind, at_fault: str) -> tuple[Sentence, ...]:
    said: list[str] = []
    if not plan.room.enough:
        said.append(
            f"Turns alone may not bring this string to {{brace_wanted}}. Of ten planned on what is known of this bow, "
            f"cord and hand, about {max(1.0, 10.0 * plan.room.chance):.0f} brace beyond what turns reach. Measure more "
            "first, or make this one as a trial, and the next from what it measured."
        )
    if plan.figures["brace_low"].value == 0.0:
        said.append("With the fewest turns that hold, this string is too long to brace the bow.")
    warned = tuple(Sentence(level="caution", text=text) for text in said)
    strand = plan.order.cord
    return (
        *tips.not_for_bow(strand, kind),
        *cords.weak(plan.chosen.strength),
        *cords.of_size(plan.chosen, plan.order.arrow_kg),
        *cords.of_kind(strand),
        *cords.of_label(strand),
        *cords.of_break(strand),
        *cords.counted_on(strand),
        cords.of_tails(plan.tails),
        *cautions.of_brace_height(plan.order.bow.nock_to_nock_m, plan.order.brace_m),
        *warned,
        cautions.FIRST_BRACING,
        *tips.of_bow_kind(kind, plan.order.limbs),
        *cords.cautions_of(strand),
        *learnt.cautions(plan, at_fault),
        cautions.DOUBT,
    )


def plan(values: StringInputs) -> Answer:
    """Return the answer of the bench sheet.

    Parameters
    ----------
    values : StringInputs
        As read.

    Raises
    ------
    DomainError
        With the field at fault, or a name from below that `_BLAMES` knows.
    """
    return answer_of(planned(values), values)


def planned(values: StringInputs, known: Plan | None = None) -> Plan:
    """Return the string that was asked for.

    Parameters
    ----------
    values : StringInputs
        As read.
    known : Plan, optional
        One that is taken where it is of the same order.

    Raises
    ------
    DomainError
        As `plan`.
    """
    order = more.with_more(order_of(values), values)
    return known if known is not None and known.order == order else plan_string(order)


def answer_of(made: Plan, values: StringInputs, at_fault: str = "") -> Answer:
    """Return what is said of a planned string.

    Parameters
    ----------
    made : Plan
        As planned.
    values : StringInputs
        What it was planned from.
    at_fault : str
        Whose readings do not go together, as sentences.
    """
    return Answer(
        rows=rows(_RESULTS, _numbers(made), cords.of_strand(made.order.cord)),
        headlines=_headlines(made, values.hand),
        cautions=_cautions(made, values.bow_kind, at_fault),
        leaves_out=(cautions.HITCH_TAKES_UP, *TEXT.leaves_out),
        figures=lambda system: string_drawings.drawings(made, system),
        tables=lambda system: learnt.tables(made, system),
        next=(onward.make(made.order.bundles), onward.SETTLE, onward.BRACE, *onward.HITCH),
        answers={"finished_length": "string_length_slack"},
    )


WORKSHEET = Worksheet(
    id="string",
    place=10,
    title="Plan a string",
    purpose="From a measured bow to a string you can cut, twist, brace and make again.",
    groups=(fields.BOW, fields.CORD, fields.ENDS, fields.METHOD, *more.GROUPS),
    folded=more.GROUPS,
    fields=(
        fields.NOCK_TO_NOCK, fields.HANDLE_LENGTH, fields.LIMB_SHAPE, fields.DRAW_WEIGHT, fields.DRAW_LENGTH,
        fields.DRAW_FROM, fields.BRACE_HEIGHT, fields.ARROW_MASS, fields.FIBRE, fields.STRAND_SIZE,
        *cords.SIZE_AND_LABEL, fields.STRANDS, fields.BENCH_TEMPERATURE,
        fields.TIP_UPPER, fields.TIP_LOWER, fields.LOOP_FIT_UPPER, fields.LOOP_FIT_LOWER, fields.BUNDLES, fields.HAND,
        fields.TAIL_LENGTH, fields.WAX, *more.FIELDS,
    ),
    results=_RESULTS,
    plan=plan,
    inputs=StringInputs,
    text=TEXT,
    shared=(cords.SENTENCES, tips.SENTENCES),
    blames=_BLAMES,
)  # fmt: skip
