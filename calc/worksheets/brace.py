"""Brace height from string length, or string length from brace height, on a measured bow."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, cast

from calc.data import practice
from calc.errors import DomainError, Problem
from calc.making import Stave, brace_for, by_rule, string_for
from calc.making.bracing import STEP_M
from calc.mechanics import Pair
from calc.units import INCH
from calc.worksheets import brace_drawings, brace_words, fields
from calc.worksheets.rows import rows
from calc.worksheets.schema import Answer, Example, Guide, Number, Worksheet

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.making import Braced
    from calc.mechanics import Shape
    from calc.spread import Spread
    from calc.worksheets.schema import Value

WORK_OUT = "work it out"
_STRING, _WAS = "The string", "Strings that were on this bow"
_RESULTS = ("string_length", "brace_height", "brace_per_length", "brace_low", "brace_high")
_BRACE = replace(
    fields.BRACE_HEIGHT,
    label="Brace height",
    hint="From the string square to the deepest point of the grip. Leave it empty if you know the string's length.",
    group=_STRING,
    absent=WORK_OUT,
)
_LENGTH = Number(
    key="string_length",
    label="String length",
    hint="On the braced bow, from nock to nock along the string. Leave it empty to be told.",
    group=_STRING,
    example=WORK_OUT,
    absent=WORK_OUT,
    quantity="length",
    low=15 * INCH,
    high=100 * INCH,
)
_TAILS = replace(
    fields.TAIL_LENGTH,
    hint="What is laid into each splice cannot be turned: it narrows what turns can do. 8 in (200 mm) is generous.",
    group=_STRING,
)
_NOT_MEASURED = "not measured"
_PAIR_STRING = replace(
    _LENGTH,
    key="measured_string",
    label="A string you measured",
    hint="Nock to nock along the string, while it was on the braced bow. The sheet then learns what your bow does.",
    group=_WAS,
    example=_NOT_MEASURED,
    absent=_NOT_MEASURED,
)
_PAIR_BRACE = replace(
    _BRACE,
    key="measured_brace",
    label="Brace height it gave",
    hint="Measured at the same time.",
    group=_WAS,
    example=_NOT_MEASURED,
    absent=_NOT_MEASURED,
)
_PAIRS = (
    _PAIR_STRING,
    _PAIR_BRACE,
    replace(_PAIR_STRING, key="measured_string_2", label="Another string", hint="The more it differs, the better."),
    replace(_PAIR_BRACE, key="measured_brace_2", label="Brace height that one gave"),
)
_BLAMES = {
    "brace_m": "brace_height",
    "handle_m": "handle_length",
    "nock_to_nock_m": "nock_to_nock",
    "string_m": "string_length",
    "pairs": "measured_string",
    "tail_m": "tail_length",
}
_EXAMPLES = (
    Example(name="usual", words="The string for a brace height of 6 1/2 in on a 66 in bow"),
    Example(name="from-string", words="The brace height of a 64 in string",
            inputs={"brace_height": "", "string_length": "64 in"}),
    Example(name="pipe", words="A 46 in bow, limbs not measured further",
            inputs={"nock_to_nock": "46 in", "handle_length": "not known", "limb_shape": "unknown",
                    "brace_height": "6 in"}),
    Example(name="metric", words="Tapered limbs, in metric",
            inputs={"nock_to_nock": "1,73 m", "handle_length": "20 cm", "limb_shape": "tapered",
                    "brace_height": "165 mm", "tail_length": "150 mm"}),
    Example(name="long-string", words="Hardly braced, let out it is too long",
            inputs={"brace_height": "", "string_length": "65 11/16 in"}),
    Example(name="toy", words="A bow too short for the trade's rule",
            inputs={"nock_to_nock": "20 in", "handle_length": "8 in", "brace_height": "3 in", "tail_length": "2 in"}),
    Example(name="measured", words="A string was measured on the bow",
            inputs={"limb_shape": "unknown", "handle_length": "?", "measured_string": "63 1/2 in",
                    "measured_brace": "7 in"}),
    Example(name="measured-twice", words="Two strings were measured on the bow",
            inputs={"brace_height": "", "string_length": "63 3/4 in", "measured_string": "64 3/8 in",
                    "measured_brace": "5 in", "measured_string_2": "63 in", "measured_brace_2": "7 1/4 in"}),
    Example(name="half-measured", words="A measured string without its brace height",
            inputs={"measured_string": "64 in"}, refused=("measured_brace",)),
    Example(name="half-measured-2", words="A second brace height without its string",
            inputs={"measured_string": "64 in", "measured_brace": "6 in", "measured_brace_2": "6 1/2 in"},
            refused=("measured_string_2",)),
    Example(name="second-only", words="A second pair without a first",
            inputs={"measured_string_2": "64 in", "measured_brace_2": "6 in"}, refused=("measured_string",)),
    Example(name="measured-long", words="A measured string longer than the bow",
            inputs={"measured_string": "67 in", "measured_brace": "6 in"}, refused=("measured_string",)),
    Example(name="measured-stiff", words="More string than any limb gives at that brace height",
            inputs={"measured_string": "65 7/8 in", "measured_brace": "9 in"}, refused=("measured_string",)),
    Example(name="measured-short", words="Less string than any limb can bend to",
            inputs={"measured_string": "40 in", "measured_brace": "3 in"}, refused=("measured_string",)),
    Example(name="both-open", words="Neither is known", inputs={"brace_height": ""}, refused=("brace_height",)),
    Example(name="both-given", words="Both are given", inputs={"string_length": "64 in"}, refused=("string_length",)),
    Example(name="too-long", words="A string that does not brace the bow",
            inputs={"brace_height": "", "string_length": "66 in"}, refused=("string_length",)),
    Example(name="too-short", words="A string that would break the bow",
            inputs={"brace_height": "", "string_length": "48 in"}, refused=("string_length",)),
    Example(name="over-braced", words="Higher than the bow allows",
            inputs={"nock_to_nock": "46 in", "brace_height": "14 in"}, refused=("brace_height",)),
    Example(name="long-handle", words="A handle as long as the bow",
            inputs={"nock_to_nock": "30 in", "handle_length": "30 in"}, refused=("handle_length",)),
    Example(name="long-tails", words="No body left", inputs={"nock_to_nock": "30 in", "brace_height": "4 in",
            "tail_length": "16 in"}, refused=("tail_length",)),
    Example(name="empty", words="Nothing typed", inputs={"nock_to_nock": ""}, refused=("nock_to_nock",)),
    Example(name="unit", words="A weight for a length", inputs={"brace_height": "45 lb"}, refused=("brace_height",)),
)  # fmt: skip


def _pairs(values: Mapping[str, Value]) -> tuple[Pair, ...]:
    """Return the strings that were measured."""
    found: list[Pair] = []
    for mark in ("", "_2"):
        string_m, brace_m = (cast("float | None", values[f"measured_{name}{mark}"]) for name in ("string", "brace"))
        if (string_m is None) != (brace_m is None):
            lacking = f"measured_{'string' if string_m is None else 'brace'}{mark}"
            raise DomainError(Problem(field=lacking, code="missing", reason="half_pair"))
        if string_m is not None and brace_m is not None:
            if mark and not found:
                raise DomainError(Problem(field="measured_string", code="missing", reason="no_first"))
            found.append(Pair(string_m, brace_m))
    return tuple(found)


def _braced(values: Mapping[str, Value]) -> Braced:
    shape = None if values["limb_shape"] == "unknown" else cast("Shape", values["limb_shape"])
    brace_m = cast("float | None", values["brace_height"])
    string_m = cast("float | None", values["string_length"])
    tail_m = cast("float", values["tail_length"])
    stave = Stave(
        nock_to_nock_m=cast("float", values["nock_to_nock"]),
        handle_m=cast("float | None", values["handle_length"]),
        shape=shape,
        pairs=_pairs(values),
    )
    if brace_m is None and string_m is None:
        raise DomainError(Problem(field="brace_height", code="missing", other="string_length", reason="both_open"))
    if brace_m is None:
        return brace_for(stave, cast("float", string_m), tail_m)
    if string_m is None:
        return string_for(stave, brace_m, tail_m)
    raise DomainError(Problem(field="string_length", code="pair", other="brace_height", reason="both_given"))


def _numbers(found: Braced, tail_m: float) -> dict[str, Spread | float]:
    """Return every number the working shows, by row key."""
    stave, calibration = found.stave, found.calibration
    taught: dict[str, Spread | float] = {}
    if calibration is not None:
        taught = {"first_guess": calibration.first, "calibrated": calibration.now, "shrink": calibration.shrink}
    return {
        **found.figures,
        **by_rule(stave, calibration),
        **taught,
        "string_step": STEP_M,
        "nock_to_nock": found.causes["tape"].shifted(stave.nock_to_nock_m),
        "handle": found.causes["handle"],
        "tail": tail_m,
        "lay_loosest": practice("lay_loosest").spread,
        "lay_tightest": practice("lay_tightest").spread,
    }


def plan(values: Mapping[str, Value]) -> Answer:
    """Answer with string length, brace height and what changes them.

    Raises
    ------
    DomainError
        With the field at fault, or a name from below that `_BLAMES` knows.
    """
    found = _braced(values)
    from_brace = values["string_length"] is None
    numbers = _numbers(found, cast("float", values["tail_length"]))
    return Answer(
        rows=rows(_RESULTS, numbers, brace_words.told("brace_height" if from_brace else "string_length")),
        headlines=brace_words.headlines(from_brace=from_brace),
        cautions=brace_words.cautions(found, numbers, from_brace=from_brace),
        leaves_out=brace_words.LEAVES_OUT,
        figures=lambda system: brace_drawings.drawings(found, system),
        tables=lambda system: (brace_drawings.ladder(found, system),),
    )


WORKSHEET = Worksheet(
    id="brace",
    place=20,
    title="Brace height and string length",
    purpose="From brace height to string length, or back, and what a little more or less string does.",
    groups=(fields.BOW, _STRING, _WAS),
    fields=(fields.NOCK_TO_NOCK, fields.HANDLE_LENGTH, fields.LIMB_SHAPE, _BRACE, _LENGTH, _TAILS, *_PAIRS),
    results=_RESULTS,
    examples=_EXAMPLES,
    plan=plan,
    sentences=brace_words.SENTENCES,
    blames=_BLAMES,
    told=brace_words.TOLD,
    guides=(
        Guide(page="measure", step="length", words="Measure nock to nock along the belly"),
        Guide(page="brace", step="measure", words="Read the brace height"),
    ),
)
