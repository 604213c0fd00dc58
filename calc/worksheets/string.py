"""The bench sheet: one string for one bow, from a tape measure to cut lengths, turns and strength."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from calc.data import fibre, practice
from calc.errors import DomainError, Problem
from calc.making import End, Order, plan_string
from calc.spread import Spread
from calc.worksheets import cautions, fields, string_drawings
from calc.worksheets.schema import Answer, Example, Row, Sentence, Worksheet

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.geometry import Section
    from calc.making import Fit, Plan
    from calc.mechanics import Shape
    from calc.units import Quantity
    from calc.worksheets.schema import Kind, Value

_RESULTS: tuple[tuple[str, str, str, Quantity, str, str], ...] = (
    (
        "string_length",
        "S",
        "String on the braced bow, nock to nock",
        "length",
        "limbs of {nock_to_nock} bent to {brace_wanted}",
        "derived:limbs",
    ),
    (
        "string_length_slack",
        "S₀",
        "The same string slack, after it has settled",
        "length",
        "loops + ({string_length} − {reach_upper} − {reach_lower}) ÷ (1 + {strain})",
        "derived:stretch",
    ),
    (
        "bundle_diameter",
        "D",
        "One bundle, waxed and round",
        "thickness",
        "√(4 × {bundle_tex} ÷ (π × density × {packing}))",
        "derived:packing",
    ),
    (
        "cord_diameter",
        "d",
        "The plied body",
        "thickness",
        "{bundle_diameter} laid at {body_lay}",
        "derived:lay",
    ),
    (
        "take_up_body",
        "C",
        "Taken up by twisting, free body",
        "fraction",
        "1 − (1 − tan²({body_lay} ÷ 2)) × cos {body_lay}",
        "derived:unroll",
    ),
    (
        "take_up_loop",
        "Cₗ",
        "Taken up by twisting, loops",
        "fraction",
        "1 − (1 − tan²({loop_lay} ÷ 2)) × cos {loop_lay}",
        "derived:unroll",
    ),
    (
        "loop_upper",
        "Lᵤ",
        "Upper loop, to mark off on the flat bundle",
        "length",
        "{loop_closed_upper} ÷ (1 − {take_up_loop})",
        "derived:loop",
    ),
    (
        "loop_lower",
        "Lₗ",
        "Lower loop, to mark off on the flat bundle",
        "length",
        "{loop_closed_lower} ÷ (1 − {take_up_loop})",
        "derived:loop",
    ),
    (
        "body_raw",
        "B",
        "Body, between the loop marks on the flat bundle",
        "length",
        "(({string_length} − {reach_upper} − {reach_lower}) ÷ (1 + {strain}) ÷ (1 + {bedding}) − 2 × splice) "
        "÷ (1 − {take_up_body}) + 2 × {tail}",
        "derived:body",
    ),
    (
        "cut_length",
        "",
        "Cut every strand to",
        "length",
        "{loop_upper} + {body_raw} + {loop_lower} + 2 × {tail} − {taper}",
        "derived:cut",
    ),
    ("cord_total", "", "Cord in the string", "length", "{strands} × {cut_length}", "derived:cut"),
    ("string_mass", "m", "Weight without wax and serving", "mass", "{cord_total} × {yarn}", "derived:cut"),
    (
        "turns_loop",
        "",
        "Turns in the upper loop",
        "turns",
        "{loop_closed_upper} laid at {loop_lay}",
        "derived:unroll",
    ),
    (
        "turns_body",
        "N",
        "Turns in the body, between the splices",
        "turns",
        "body laid at {body_lay}",
        "derived:unroll",
    ),
    (
        "counter_twist_body",
        "n",
        "Turns to roll into each bundle of the body first, the other way",
        "turns",
        "{turns_body} × {counter_each}",
        "derived:balance",
    ),
    (
        "brace_height",
        "H",
        "Brace height",
        "length",
        "wanted {brace_wanted}; low and high before tuning",
        "derived:limbs",
    ),
    (
        "brace_low",
        "",
        "Lowest brace height by turns alone",
        "length",
        "body let out to {turns_loose}",
        "derived:window",
    ),
    (
        "brace_high",
        "",
        "Highest brace height by turns alone",
        "length",
        "body turned up to {turns_tight}",
        "derived:window",
    ),
    (
        "tension_brace",
        "T₀",
        "Pull in the braced string",
        "force",
        "statics of the limbs at rest",
        "derived:statics",
    ),
    (
        "tension_draw",
        "T",
        "Pull in the string at full draw",
        "force",
        "{draw_weight} ÷ (2 sin of the string's angle)",
        "derived:statics",
    ),
    (
        "strands",
        "k",
        "Strands",
        "count",
        "strength asks {for_strength}, thickness {for_thickness}",
        "derived:strength",
    ),
    (
        "breaking_force",
        "",
        "The made string breaks at",
        "force",
        "{strands} × {strand_strength} × {efficiency}",
        "derived:strength",
    ),
    (
        "safety_factor",
        "",
        "Strength ÷ hardest pull of a shot",
        "ratio",
        "{breaking_force} ÷ {peak}",
        "derived:strength",
    ),
)
