"""What the nail sheet asks: weights and lengths, the bow, the cord, the ends."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Literal

from calc.errors import DomainError, Problem
from calc.making.strands import choose
from calc.making.string import End
from calc.making.tuning import Hung, HungBefore, HungRead, with_strings
from calc.mechanics.estimate import StringRead
from calc.units import INCH, POUND_FORCE
from calc.worksheets.core import Choice, Number, Option, cords, fields, read, tips
from calc.worksheets.string.more import UNBRACED

if TYPE_CHECKING:
    from calc.geometry.lay import Hand
    from calc.making.strands import Chosen

NAIL, MORE, BEFORE = "On the nail", "More readings, for a surer answer", "Strings you had before"
_NOT = "not measured"
HANGING_WEIGHT = Number(
    key="hanging_weight",
    label="Weight hung on it",
    hint="Any weight will do: a bucket weighs what it holds. About what the braced bow pulls is best, 50 lb (23 kg) "
    "at most.",
    group=NAIL,
    example="50 lb",
    quantity="force",
    low=1 * POUND_FORCE,
    high=500 * POUND_FORCE,
)
HUNG_LENGTH = Number(
    key="hung_length",
    label="Length, peg to peg",
    hint="With the weight on: from the top of the upper peg to the bottom of the lower one.",
    group=NAIL,
    example="64 7/8 in",
    quantity="length",
    low=15 * INCH,
    high=110 * INCH,
)
PEG_DIAMETER = Number(
    key="peg_diameter",
    label="Thickness of the pegs",
    hint="Both alike, and no thicker than the limb tips.",
    group=NAIL,
    example="1/4 in",
    quantity="thickness",
    low=0.05 * INCH,
    high=4 * INCH,
)
_TIME = Number(
    key="hang_time",
    label="Hanging time",
    hint="How long it had hung when you measured: min, h or d.",
    group=NAIL,
    example="1 h",
    quantity="duration",
    low=60.0,
    high=7 * 86400.0,
)


def _more(key: str, label: str, hint: str, group: str = MORE) -> Number:
    return replace(HUNG_LENGTH, key=key, label=label, hint=hint, group=group, example=_NOT, absent=_NOT)


_WEIGHT_2 = replace(
    HANGING_WEIGHT,
    key="second_weight",
    label="Another weight",
    hint="Two weights tell how stiff this string is. About half of the first is best.",
    group=MORE,
    example="not hung",
    absent="not hung",
)
_LENGTH_2 = _more("second_length", "Length under that one", "Peg to peg again, right after the first.")
_THROATS = _more("throats_length", "Throat to throat", "Under the first weight, from pen line to pen line.")
_REACHES = tuple(
    replace(
        _more(f"reach_{end}", f"Nock to throat, {end} loop", hint),
        low=0.0,
        high=10 * INCH,
    )
    for end, hint in (
        (
            "upper",
            "Put the loop on its tip, pull the string down along the limb, and measure from the nock to the throat.",
        ),
        ("lower", "The same at the lower tip. With both, how the loops sit is no longer a guess."),
    )
)
_FIRST = _more("first_length", "Length when it first hung still", "Peg to peg, in the first minute.")
_THROATS_FIRST = _more(
    "throats_first", "Throat to throat then", "It shows whether the loops bed in, or a splice slips."
)
_PAIR_STRING = _more(
    "measured_string", "A string you measured", "Nock to nock along the string, while it was on the braced bow.", BEFORE
)
_PAIR_BRACE = replace(
    fields.BRACE_HEIGHT,
    key="measured_brace",
    label="Brace height it gave",
    hint="On this bow, once it had settled.",
    group=BEFORE,
    example=_NOT,
    absent=_NOT,
)
_EARLIER = _more(
    "earlier_hung",
    "That string on the nail",
    "Peg to peg when it was new, if it was of this cord and hung under this weight as long.",
    BEFORE,
)
_EARLIER_THROATS = _more(
    "earlier_throats",
    "That string, throat to throat",
    "On the nail then, from pen line to pen line. With throat to throat now, the answer is surer.",
    BEFORE,
)
_TIMES = Choice(
    key="read_times",
    label="How often you read each length",
    hint="Let go of the tape in between, and type the middle of what you read.",
    group=MORE,
    example="1",
    options=(
        Option(value="1", label="once"),
        Option(value="2", label="twice"),
        Option(value="3", label="three times"),
    ),
)
_STRAIGHT = tuple(replace(each, group=MORE) for each in UNBRACED)
_CORD = replace(fields.CORD_DIAMETER, absent=fields.NOT_KNOWN, hint="The plied body. Leave empty if not measured.")
FIELDS = (
    HANGING_WEIGHT, HUNG_LENGTH, PEG_DIAMETER, _TIME, fields.NOCK_TO_NOCK, fields.HANDLE_LENGTH, fields.LIMB_SHAPE,
    fields.DRAW_WEIGHT, fields.DRAW_LENGTH, fields.DRAW_FROM, fields.BRACE_HEIGHT, *_STRAIGHT, _THROATS, *_REACHES,
    _WEIGHT_2, _LENGTH_2, _TIMES, _FIRST, _THROATS_FIRST, fields.FIBRE, fields.YARN, fields.STRANDS, _CORD,
    fields.TIP_UPPER, fields.TIP_LOWER, fields.LOOP_FIT_UPPER, fields.LOOP_FIT_LOWER, fields.BUNDLES, fields.HAND,
    fields.BODY_TURNS, fields.TAIL_LENGTH, _PAIR_BRACE, _PAIR_STRING, _EARLIER, _EARLIER_THROATS,
)  # fmt: skip
GROUPS = (NAIL, fields.BOW, MORE, fields.CORD, fields.ENDS, fields.METHOD, BEFORE)


class NailInputs(read.BowInputs, cords.StrandInputs, tips.EndInputs):
    """What was read, in SI, by field key."""

    hanging_weight: float
    hung_length: float
    peg_diameter: float
    hang_time: float
    draw_weight: float
    draw_length: float
    brace_height: float
    throats_length: float | None
    reach_upper: float | None
    reach_lower: float | None
    second_weight: float | None
    second_length: float | None
    read_times: Literal["1", "2", "3"]
    first_length: float | None
    throats_first: float | None
    yarn: float
    strands: float | None
    cord_diameter: float | None
    bundles: Literal["2", "3"]
    hand: Hand
    turns: float | None
    tail_length: float
    earlier_hung: float | None
    earlier_throats: float | None


def chosen(values: NailInputs) -> Chosen:
    """Return the strands of the string: as counted, or as they would be advised.

    Parameters
    ----------
    values : NailInputs
        As read.
    """
    return choose(
        cords.strand_of(values),
        None if values.strands is None else int(values.strands),
        int(values.bundles),
        values.draw_weight,
        shape=read.shape_of(values.limb_shape),
        limbs=tips.limbs_of("wood", values.tip_upper),
    )


def hung(values: NailInputs, made: Chosen) -> Hung:
    """Return the string on the nail that was told.

    Parameters
    ----------
    values : NailInputs
        As read.
    made : Chosen
        Its strands.

    Raises
    ------
    DomainError
        ``missing`` for halves of a pair; as `Hung` and `BowEstimate.given`.
    """
    first = HungRead(values.hanging_weight, values.hung_length)
    second_n, second_m = values.second_weight, values.second_length
    _both("second_weight", second_n, "second_length", second_m, "half_second")
    reads = (first,) if second_n is None or second_m is None else (first, HungRead(second_n, second_m))
    upper_m, lower_m = values.reach_upper, values.reach_lower
    _both("reach_upper", upper_m, "reach_lower", lower_m, "half_reach")
    string_m, brace_m, earlier_m = values.measured_string, values.measured_brace, values.earlier_hung
    if brace_m is None and (string_m is not None or earlier_m is not None):
        raise DomainError(Problem(field="measured_brace", code="missing", reason="no_brace"))
    if brace_m is not None and string_m is None and earlier_m is None:
        raise DomainError(Problem(field="measured_string", code="missing", reason="no_string"))
    strings = () if string_m is None or brace_m is None else (StringRead(string_m, brace_m),)
    if values.throats_first is not None and (values.throats_length is None or values.first_length is None):
        lacking = "throats_length" if values.throats_length is None else "first_length"
        raise DomainError(Problem(field=lacking, code="missing", reason="no_growth"))
    wanted_m = values.brace_height
    earlier = _earlier(values)
    return Hung(
        bow=with_strings(read.bow_of(values, braced_m=wanted_m), strings),
        wanted_m=wanted_m,
        fibres=made.strand.fits or (made.strand.fibre,),
        line_kg_m=made.found["linear"].value * made.strands,
        upper=End(section=values.tip_upper, fit=values.loop_fit_upper),
        lower=End(section=values.tip_lower, fit=values.loop_fit_lower),
        reach_m=None if upper_m is None or lower_m is None else (upper_m, lower_m),
        peg_m=values.peg_diameter,
        reads=reads,
        hung_s=values.hang_time,
        bundles=int(values.bundles),
        tail_m=values.tail_length,
        bundle_m=made.thick.bundle_m.value if values.cord_diameter is None else None,
        cord_m=values.cord_diameter,
        turns=values.turns,
        first_m=values.first_length,
        throats_m=values.throats_length,
        throats_first_m=values.throats_first,
        earlier=earlier,
        times=int(values.read_times),
    )


def _earlier(values: NailInputs) -> HungBefore | None:
    """Return the earlier string on the nail."""
    if values.earlier_throats is not None:
        for key in ("earlier_hung", "throats_length"):
            if getattr(values, key) is None:
                raise DomainError(Problem(field=key, code="missing", reason="half_throats"))
    if values.earlier_hung is None or values.measured_brace is None:
        return None
    return HungBefore(values.earlier_hung, values.measured_brace, values.earlier_throats)


def _both(one: str, value: float | None, other: str, second: float | None, reason: str) -> None:
    if (value is None) != (second is None):
        raise DomainError(Problem(field=one if value is None else other, code="missing", reason=reason))
