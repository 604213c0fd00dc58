"""Tuning at the range: turns to put in or take out, how far the lay lets them go, whether to make the string again."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Literal

from calc.data import practice
from calc.errors import DomainError, Problem
from calc.making.tuning import BraceReading, Tuned, sweep, tune
from calc.numerics import Spread
from calc.units import INCH
from calc.worksheets.core import Answer, Guide, Number, SheetText, Worksheet, cautions, fields, read, rows
from calc.worksheets.core import next_steps as onward
from calc.worksheets.tune import drawings as tune_drawings
from calc.worksheets.tune import quietest
from calc.worksheets.tune.words import verdict

if TYPE_CHECKING:
    from calc.geometry.lay import Hand
    from calc.making.tuning import Tuning

TEXT = SheetText(__spec__)

_BRACE, _STRING, _READ = "Brace height", "The string", "What turns did before"
_NONE = "not counted"
_RESULTS = (
    "turns_change", "turns_new", "lay_now", "lay_new", "brace_per_turn", "turns_to_jam", "turns_to_loose", "brace_low",
    "brace_high", "string_change", "next_body",
)  # fmt: skip
_NOW = replace(
    fields.BRACE_HEIGHT,
    key="brace_now",
    label="Brace height now",
    hint="From the string square to the deepest point of the grip, after ten shots or an hour braced.",
    group=_BRACE,
    example="6 in",
)
_WANTED = replace(fields.BRACE_HEIGHT, group=_BRACE)
_BODY = replace(
    fields.CORD_DIAMETER,
    group=_STRING,
    absent=fields.NOT_KNOWN,
    hint="The plied body, on the string. Leave empty if you know the thickness of one bundle.",
)
_BUNDLE = replace(
    fields.BUNDLE_DIAMETER,
    group=_STRING,
    example=fields.NOT_KNOWN,
    absent=fields.NOT_KNOWN,
    hint="Better than the body, where it was measured before plying. Leave empty if not.",
)
_TURNS = replace(fields.BODY_TURNS, group=_STRING)
_PER_LENGTH = Number(
    key="turns_per_length",
    label="Turns along a length of the body",
    hint="In place of the turns above: count them beside a tape, like 8 turns / 6 in.",
    group=_STRING,
    example=_NONE,
    absent=_NONE,
    quantity="turns_per_length",
    low=0.5,
    high=1000.0,
)
_LENGTH = Number(
    key="string_length",
    label="String length",
    hint="On the braced bow, nock to nock along the string. Leave it empty to have it worked out from the bow.",
    group=_STRING,
    example="work it out",
    absent="work it out",
    quantity="length",
    low=15 * INCH,
    high=100 * INCH,
)


def _height(key: str, label: str, hint: str) -> Number:
    return replace(_NOW, key=key, label=label, hint=hint, group=_READ, example=_NONE, absent=_NONE)


def _turned(key: str, label: str, hint: str) -> Number:
    return replace(_TURNS, key=key, label=label, hint=hint, group=_READ, example=_NONE, low=-500.0, high=500.0)


_FIRST = _height("brace_first", "Brace height at first", "Before you turned the string. Leave empty if you did not.")
_FIRST_TURNS = _turned(
    "turns_first", "Turns then put in", "From that height on. Taken out: with a minus before the number."
)
_SECOND = _height("brace_second", "Brace height after that", "Leave empty if you turned it only once.")
_SECOND_TURNS = _turned("turns_second", "Turns then put in again", "From that height to the brace height now.")
_BLAMES = {
    "brace_m": "brace_height",
    "now_m": "brace_now",
    "handle_length_m": "handle_length",
    "nock_to_nock_m": "nock_to_nock",
    "tail_m": "tail_length",
    "diameter_m": "cord_diameter",
}


class TuneInputs(read.BowInputs):
    """What was read, in SI, by field key."""

    brace_now: float
    brace_height: float
    cord_diameter: float | None
    bundle_diameter: float | None
    turns: float | None
    turns_per_length: float | None
    string_length: float | None
    bundles: Literal["2", "3"]
    hand: Hand
    tail_length: float
    brace_first: float | None
    turns_first: float | None
    brace_second: float | None
    turns_second: float | None


def _readings(values: TuneInputs) -> tuple[BraceReading, ...]:
    """Return the earlier heights with the turns that went in since."""
    heights = values.brace_first, values.brace_second
    turned = values.turns_first, values.turns_second
    for at, which in enumerate(("first", "second")):
        if (heights[at] is None) != (turned[at] is None):
            lacking = "turns" if turned[at] is None else "brace"
            raise DomainError(Problem(field=f"{lacking}_{which}", code="missing", reason=f"half_{lacking}"))
    if heights[0] is None and heights[1] is not None:
        raise DomainError(Problem(field="brace_first", code="missing", other="brace_second", reason="no_first"))
    since = sum(each for each in turned if each is not None)
    found = []
    for height, put_in in zip(heights, turned, strict=True):
        if height is not None and put_in is not None:
            found.append(BraceReading(since, height))
            since -= put_in
    return tuple(found)


def _asked(values: TuneInputs) -> Tuned:
    if values.turns is not None and values.turns_per_length is not None:
        raise DomainError(Problem(field="turns_per_length", code="pair", other="turns", reason="counted_twice"))
    if values.bundle_diameter is None and values.cord_diameter is None:
        raise DomainError(Problem(field="cord_diameter", code="missing", other="bundle_diameter", reason="no_cord"))
    return Tuned(
        bow=read.bow_of(values),
        brace_m=values.brace_now,
        wanted_m=values.brace_height,
        string_m=values.string_length,
        tail_m=values.tail_length,
        bundles=int(values.bundles),
        bundle_m=values.bundle_diameter,
        cord_m=values.cord_diameter,
        turns=values.turns,
        per_m=values.turns_per_length,
        readings=_readings(values),
    )


def _without_sign(change: Spread) -> Spread:
    return change if change.value >= 0.0 else Spread(-change.high, -change.value, -change.low)


def _numbers(done: Tuning) -> dict[str, Spread | float]:
    """Return every number the working shows, by row key."""
    asked, figures = done.asked, dict(done.figures)
    found: dict[str, Spread | float] = {
        **figures,
        "turns_by": _without_sign(figures["turns_change"]),
        "next_by": _without_sign(figures["next_body"]),
        "brace_now": done.causes["reading"].shifted(asked.brace_m),
        "brace_wanted": asked.wanted_m,
        "nock_to_nock": done.causes["tape"].shifted(asked.bow.nock_to_nock_m),
        "handle": done.causes["handle"],
        "tail": asked.tail_m,
        "lay_loosest": practice("lay_loosest").spread,
        "lay_tightest": practice("lay_tightest").spread,
        "response_usual": practice("turn_response").spread,
    }
    if done.untaught is None:
        del found["response_measured"]
    else:
        taught = figures["brace_per_turn"]
        found["per_turn_untaught"] = done.untaught
        found["shrink"] = (taught.high - taught.low) / (done.untaught.high - done.untaught.low)
        found["believed"] = done.believed
    return found


def plan(values: TuneInputs) -> Answer:
    """Return an answer with the turns to put in or take out.

    Parameters
    ----------
    values : TuneInputs
        As read.

    Raises
    ------
    DomainError
        With the field at fault, or a name from below that `_BLAMES` knows.
    """
    done = tune(_asked(values))
    told, tries = verdict(done, values.hand), sweep(done)
    return Answer(
        rows=rows(_RESULTS, _numbers(done) | quietest.numbers(tries), WORKSHEET.row_texts),
        headlines=(*told.headlines, *quietest.headlines(tries)),
        cautions=(
            *told.cautions,
            *quietest.cautions(tries),
            *cautions.of_brace_height(done.asked.bow.nock_to_nock_m, done.asked.wanted_m),
            cautions.FIRST_BRACING,
            cautions.DOUBT,
        ),
        leaves_out=TEXT.leaves_out,
        figures=lambda system: tune_drawings.drawings(done, system),
        tables=lambda system: (tune_drawings.ladder(done, system), *quietest.table(tries, system)),
        files=lambda system: quietest.files(tries, system),
    )


WORKSHEET = Worksheet(
    id="tune",
    place=70,
    title="Tune the brace height",
    purpose="How many turns to put in or take out, at the range, and when to make the string again.",
    groups=(_BRACE, fields.BOW, _STRING, fields.METHOD, _READ),
    fields=(
        _NOW, _WANTED, fields.NOCK_TO_NOCK, fields.HANDLE_LENGTH, fields.LIMB_SHAPE, _BODY, _BUNDLE, _TURNS,
        _PER_LENGTH, _LENGTH, fields.BUNDLES, fields.HAND, fields.TAIL_LENGTH, _FIRST, _FIRST_TURNS, _SECOND,
        _SECOND_TURNS,
    ),
    results=_RESULTS,
    plan=plan,
    inputs=TuneInputs,
    text=TEXT,
    blames=_BLAMES,
    next=(onward.TURN, onward.SERVE, onward.FIT_NOCK),
    guides=(
        Guide(page="brace", step="turn", words="Turn the string"),
        Guide(page="brace", step="again", words="Read it again"),
    ),
)  # fmt: skip
