"""The numbers of the endless string and how each is worked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.data import practice
from calc.numerics import Spread
from calc.worksheets.core import RowText

if TYPE_CHECKING:
    from calc.making.string import Wound

_OWN = "derived:endless"
TOLD = (
    RowText(
        key="string_length", symbol="S", words="String on the braced bow, nock to nock", quantity="length",
        working="as asked", source="input", kind="exact",
    ),
    RowText(
        key="post_spacing", symbol="P", words="Posts, outer side to outer side", quantity="length",
        working="{post_centres} + {post_diameter}", source=_OWN,
    ),
    RowText(
        key="post_centres", symbol="", words="Posts, middle to middle", quantity="length",
        working="({wrap_wound} − {around}) ÷ 2", source=_OWN,
    ),
    RowText(
        key="post_diameter", symbol="", words="Posts across", quantity="thickness", working="as measured",
        source="input", kind="measured",
    ),
    RowText(
        key="around", symbol="", words="Once round a post, in the middle of the strands", quantity="length",
        working="π × ({post_diameter} + the strands that lie on it)", source=_OWN,
    ),
    RowText(
        key="wraps", symbol="", words="Times round both posts", quantity="count", working="{strands} ÷ 2",
        source="derived:cut", kind="exact",
    ),
    RowText(
        key="wrap_bow", symbol="", words="One wrap on the braced bow", quantity="length",
        working="{loop_served_upper} + {loop_served_lower} + 2 × from throat to throat, with what twist takes",
        source=_OWN,
    ),
    RowText(
        key="wrap_slack", symbol="", words="One wrap, slack", quantity="length",
        working="{wrap_bow} ÷ (1 + {strain}) ÷ (1 + {bedding})", source=_OWN,
    ),
    RowText(
        key="wrap_wound", symbol="", words="One wrap under the pull of winding", quantity="length",
        working="{wrap_slack} × (1 + {winding_strain})", source=_OWN,
    ),
    RowText(
        key="winding_strain", symbol="", words="Stretch while winding", quantity="fraction",
        working="{winding_pull} on one strand of {yarn}", source="derived:stretch",
    ),
    RowText(
        key="winding_pull", symbol="", words="Pull in the strand while winding", quantity="force",
        working="as asked, or {winding_share} of what a strand holds", source="common-practice", kind="practice",
    ),
    RowText(
        key="winding_share", symbol="", words="Pull while winding ÷ strength of a strand", quantity="fraction",
        working="light and even, as the trade has it", source="common-practice", kind="practice",
    ),
    RowText(
        key="strands", symbol="k", words="Strands in the whole string", quantity="count",
        working="as asked, or as many as a twisted string takes", source="derived:strength",
    ),
    RowText(
        key="tension_brace", symbol="T₀", words="Pull in the braced string", quantity="force",
        working="as told, or {brace_share} × {draw_weight}", source="derived:statics",
    ),
    RowText(
        key="brace_share", symbol="", words="Pull in the braced string ÷ draw weight", quantity="ratio",
        working="over usual bows, more or less string follow", source="derived:statics", kind="practice",
    ),
    RowText(
        key="string_mass", symbol="m", words="Weight, without wax and serving", quantity="mass",
        working="{wraps} × {wrap_slack} × {yarn}", source="derived:cut",
    ),
    RowText(
        key="posts_pull", symbol="", words="All strands pull the posts together with", quantity="force",
        working="{strands} × {winding_pull}", source=_OWN,
    ),
    RowText(
        key="uneven", symbol="", words="Strands come out unequal by, when the pull wavers by half",
        quantity="fraction", working="{winding_strain} ÷ 2", source="derived:stretch",
    ),
    RowText(
        key="cord_total", symbol="", words="Cord in the string", quantity="distance",
        working="{wraps} × {wrap_slack} + 2 ends of {tie_off}", source=_OWN,
    ),
    RowText(
        key="tie_off", symbol="", words="An end to bury or tie off", quantity="length", working="as the trade has it",
        source="common-practice", kind="practice",
    ),
    RowText(
        key="bundle_diameter", symbol="D", words="All strands in one round", quantity="thickness",
        working="√(4 × {strands} × {yarn} ÷ (π × {density} × {packing}))", source="derived:packing",
    ),
    RowText(
        key="side_diameter", symbol="", words="One leg of a loop, half the strands", quantity="thickness",
        working="{bundle_diameter} ÷ √2", source="derived:packing",
    ),
    RowText(
        key="turns_body", symbol="N", words="Turns to twist in", quantity="turns",
        working="one turn in {pitch} between the bound legs", source="common-practice", kind="practice",
    ),
    RowText(
        key="pitch", symbol="", words="One turn in", quantity="length", working="as the trade has it",
        source="common-practice", kind="practice",
    ),
    RowText(
        key="turns_most", symbol="", words="Most turns of use", quantity="turns",
        working="surface laid at the lesser of {lay_strong} and {lay_tightest}", source="derived:one-bundle",
    ),
    RowText(
        key="lay_strong", symbol="", words="Surface lay that leaves enough of the strength", quantity="angle",
        working="strands outside run further and break first, at {break_strain}; {endless_kept} is left",
        source="derived:one-bundle",
    ),
    RowText(
        key="lay_taut", symbol="", words="Surface lay at which strands inside hang slack on the braced bow",
        quantity="angle", working="strands outside run 2 × {strain} further than those inside",
        source="derived:one-bundle",
    ),
    RowText(
        key="turns_taut", symbol="", words="Turns from which strands inside hang slack on the braced bow",
        quantity="turns", working="surface laid at {lay_taut}", source="derived:one-bundle",
    ),
    RowText(
        key="break_strain", symbol="", words="The fibre stretches before it breaks", quantity="fraction",
        working="from the fibre table", source="fibre-table", kind="measured",
    ),
    RowText(
        key="endless_kept", symbol="", words="Least of its strength that turns should leave", quantity="fraction",
        working="our own choice", source="common-practice", kind="practice",
    ),
    RowText(
        key="turns_kept", symbol="", words="These turns leave of its strength", quantity="fraction",
        working="{turns_body} turns; strands outside run further and break first", source="derived:one-bundle",
    ),
    RowText(
        key="most_kept", symbol="", words="The most turns leave of its strength", quantity="fraction",
        working="{turns_most} turns; strands outside run further and break first", source="derived:one-bundle",
    ),
    RowText(
        key="twist_taken", symbol="", words="These turns shorten the string by", quantity="length",
        working="(π × {bundle_diameter} × {turns_body})² ÷ (4 × the flat length)", source="derived:flat-twist",
    ),
    RowText(
        key="string_longest", symbol="", words="The same string with no turns", quantity="length",
        working="{string_length} + {twist_taken}", source="derived:flat-twist",
    ),
    RowText(
        key="string_shortest", symbol="", words="The same string with the most turns", quantity="length",
        working="{string_longest} less what {turns_most} turns take", source="derived:flat-twist",
    ),
    RowText(
        key="loop_served_upper", symbol="", words="To serve for the upper loop, throat to throat", quantity="length",
        working="round the tip, {side_diameter} and two threads thick", source="derived:loop",
    ),
    RowText(
        key="loop_served_lower", symbol="", words="To serve for the lower loop, throat to throat", quantity="length",
        working="round the tip, {side_diameter} and two threads thick", source="derived:loop",
    ),
    RowText(
        key="serve_turns_upper", symbol="", words="Turns of thread on the upper loop", quantity="turns",
        working="{loop_served_upper} wound close with {thread}", source="derived:unroll",
    ),
    RowText(
        key="serve_turns_lower", symbol="", words="Turns of thread on the lower loop", quantity="turns",
        working="{loop_served_lower} wound close with {thread}", source="derived:unroll",
    ),
    RowText(
        key="loop_bound", symbol="", words="To bind over both legs of each loop", quantity="length",
        working="as the trade has it", source="common-practice", kind="practice",
    ),
    RowText(
        key="bind_turns", symbol="", words="Turns of thread over both legs, each loop", quantity="turns",
        working="{loop_bound} wound close with {thread}", source="derived:unroll",
    ),
    RowText(
        key="thread_length", symbol="", words="Thread for both loops", quantity="length",
        working="turns × the way round, and 4 ends of {tie_off}", source="derived:unroll",
    ),
    RowText(
        key="thread", symbol="", words="Serving thread", quantity="thickness", working="as measured", source="input",
        kind="measured",
    ),
)  # fmt: skip


def numbers(made: Wound, draw_weight_n: float) -> dict[str, Spread | float]:
    """Return every number the working shows, by row key."""
    winding, causes = made.winding, made.causes
    share = practice("winding_pull").spread
    pull = Spread.exactly(winding.pull_n)
    if winding.winding_n is None:
        pull = share.scaled(winding.pull_n / share.value)
    return {
        **made.figures,
        "string_length": winding.string_m,
        "post_diameter": winding.post_m,
        "wraps": winding.wraps,
        "strands": winding.strands,
        "winding_strain": causes["wound"],
        "winding_pull": pull,
        "winding_share": share,
        "posts_pull": pull.scaled(winding.strands),
        "uneven": causes["wound"].scaled(0.5),
        "tie_off": practice("tie_off").spread,
        "pitch": causes["pitch"],
        "loop_bound": causes["bound"],
        "thread": winding.thread_m,
        "tension_brace": winding.brace_n,
        "brace_share": practice("brace_pull").spread,
        "draw_weight": draw_weight_n,
        "strain": causes["strain"],
        "bedding": causes["bedding"],
        "yarn": winding.yarn_kg_m,
        "density": winding.fibre.density_kg_m3.scaled(1e-3),
        "packing": causes["packing"],
        "lay_tightest": causes["tightest"],
        "endless_kept": practice("endless_kept").spread,
    }
